import type { Vec3 } from '../geometry/vector.ts';
import type { Shape } from './shape.ts';
import type { Sight } from './sight.ts';

/** A line drawn on a part's surface: a weld, a bend line, where another part passes through it. */
export interface SurfaceLine {
  readonly points: readonly Vec3[];
  /** Outward normals of the surface at its points, of unit length. */
  readonly normals: readonly Vec3[];
  readonly kind: 'edge' | 'weld' | 'seam' | 'bend';
}

/** One part in space. */
export interface Part {
  /** Of its own within the scene, such as `branch` or `gore 2`. */
  readonly id: string;
  /** As people call it. */
  readonly name: string;
  /**
   * `work` what the template makes, `mate` what it must fit, `next` what it will be joined to, drawn as a phantom that hides
   * nothing.
   */
  readonly role: 'work' | 'mate' | 'next';
  readonly shape: Shape;
  /** True for what is met and has a hole cut through a wall that is known: that is made as well. */
  readonly holed?: boolean;
  readonly lines?: readonly SurfaceLine[];
}

/** What a view says beside its lines. Texts are ready to be lettered; places are points of the scene. */
export type Note =
  | { readonly kind: 'center'; readonly points: readonly Vec3[]; readonly past?: number }
  | {
      /** A thin line in space, such as a radius. */
      readonly kind: 'line';
      readonly points: readonly Vec3[];
      /** Continuous where left out; `bold` for a pipe drawn as its center line. */
      readonly style?: 'dashed' | 'bold';
    }
  | {
      readonly kind: 'length';
      readonly from: Vec3;
      readonly to: Vec3;
      readonly text: string;
      /** The direction it is measured in, where that is not straight from one to the other. */
      readonly measure?: Vec3;
      /** The side it is best put, as a direction of the scene; outward of the picture where left out. */
      readonly toward?: Vec3;
    }
  | {
      readonly kind: 'angle';
      readonly at: Vec3;
      readonly from: Vec3;
      readonly to: Vec3;
      readonly text: string;
    }
  | {
      readonly kind: 'label';
      readonly at: Vec3;
      /** The other end of a line beside any place of which it may stand, best at `at`. */
      readonly along?: Vec3;
      readonly text: string;
      readonly bold?: boolean;
      /** Where it is best put from `at`, as a direction of the scene; beside it where left out. */
      readonly toward?: Vec3;
      /** Written on the part itself, in the middle of its place, where there is room. */
      readonly on?: boolean;
    }
  | {
      /** Where a long part is drawn shorter than it is: across it, square to `along`, `half` either way. */
      readonly kind: 'break';
      readonly at: Vec3;
      readonly along: Vec3;
      readonly half: number;
    };

type NoteOf<K extends Note['kind']> = Extract<Note, { kind: K }>;

/** A length between two places. */
export const lengthNote = (
  from: Vec3,
  to: Vec3,
  text: string,
  toward?: Vec3,
  measure?: Vec3,
): NoteOf<'length'> => ({
  kind: 'length',
  from,
  to,
  text,
  ...(toward && { toward }),
  ...(measure && { measure }),
});

/** An angle at a place, from one direction to another. */
export const angleNote = (at: Vec3, from: Vec3, to: Vec3, text: string): NoteOf<'angle'> => ({
  kind: 'angle',
  at,
  from,
  to,
  text,
});

/** Words at a place. */
export const labelNote = (
  at: Vec3,
  text: string,
  how: Omit<NoteOf<'label'>, 'kind' | 'at' | 'text'> = {},
): NoteOf<'label'> => ({ kind: 'label', at, text, ...how });

/** One picture of the scene. */
export interface View {
  readonly title: string;
  readonly sight: Sight;
  /** Room for its lines, mm of paper; words may stand outside it. */
  readonly width: number;
  readonly height: number;
  readonly notes: readonly Note[];
  /** Id of the part it is about, whose lines are wide where all others are narrow. */
  readonly about?: string;
  /** Places that must be in the picture beside its parts. */
  readonly around?: readonly Vec3[];
  /** Ids of the parts it shows; all where left out. */
  readonly parts?: readonly string[];
}

/** Parts in space, and how they are best looked at. Lengths in mm, in the frame of the layout that made it. */
export interface Scene {
  readonly parts: readonly Part[];
  readonly views: readonly View[];
}
