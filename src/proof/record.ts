import type { ContourEdge } from './contour.ts';
import type { Vec2, Vec3 } from './space.ts';

/**
 * What `soapstone.json` says of a print, as plain data. These types are this room's own: the writers' types must agree with
 * them, and the reader in `fit-record.ts` holds every record against them.
 */

/** The layers of a print, by name. */
export const roles = [
  'cut',
  'bend',
  'punch',
  'centre',
  'station',
  'reference',
  'dimension',
  'text',
  'scale',
  'page',
] as const;
export type Role = (typeof roles)[number];

/** A plane; `normal` points out of the solid behind it. */
export interface Face {
  readonly through: Vec3;
  readonly normal: Vec3;
}

/** The cross-section of straight stock: closed contours, the steel to their left. */
export interface Section {
  /** Begins at position 0. */
  readonly outside: readonly ContourEdge[];
  /** The bore, where the stock is hollow. */
  readonly inside?: readonly ContourEdge[];
  /** Least thickness of the steel, mm. */
  readonly thickness: number;
}

/**
 * What a sheet's cut lines must touch, as plain data that travels in `soapstone.json`, so that a finished file can be
 * fitted up by somebody else's geometry. Lengths in mm, in the frame of the sheet's lay; directions need not be of unit
 * length.
 */
export type Solid =
  | ({ readonly kind: 'plane' } & Face)
  | {
      readonly kind: 'cylinder';
      readonly through: Vec3;
      readonly along: Vec3;
      readonly radius: number;
      /** Planes that cut it off; without any it has no ends. */
      readonly ends?: readonly Face[];
    }
  | { readonly kind: 'sphere'; readonly centre: Vec3; readonly radius: number }
  | {
      /** Right or leaning cone between two circles whose planes are square to `along`. */
      readonly kind: 'cone';
      readonly from: Vec3;
      readonly radiusFrom: number;
      readonly to: Vec3;
      readonly radiusTo: number;
      readonly along: Vec3;
    }
  | {
      /** Two straight pipes whose axes cross in `corner`, and the bend between them; mitered where its radius is 0. */
      readonly kind: 'bend';
      readonly corner: Vec3;
      /** Along the pipes, away from the bend. */
      readonly legs: readonly [Vec3, Vec3];
      readonly bendRadius: number;
      readonly radius: number;
    }
  | {
      /** A bar of `width` along `across` and `depth` square to it, corners rounded to `corner`. */
      readonly kind: 'bar';
      /** A point of its middle line; the middle of its length where it has one. */
      readonly through: Vec3;
      readonly along: Vec3;
      readonly across: Vec3;
      readonly width: number;
      readonly depth: number;
      readonly corner: number;
      /** Left out, it has no ends. */
      readonly length?: number;
    }
  | {
      /** Any straight stock: a section swept along. */
      readonly kind: 'prism';
      /** The section's origin; the middle of its length where it has one. */
      readonly through: Vec3;
      readonly along: Vec3;
      /** Unit direction of the section's +x, square to `along`; its +y is along × across. */
      readonly across: Vec3;
      readonly section: Section;
      /** Left out, it has no ends. */
      readonly length?: number;
      /** Planes that cut it off, where its section is convex and it has no length. */
      readonly ends?: readonly Face[];
    }
  | {
      readonly kind: 'ellipsoidal head';
      readonly tangent: Vec3;
      readonly axis: Vec3;
      readonly radius: number;
      readonly depth: number;
    }
  | {
      readonly kind: 'torispherical head';
      readonly tangent: Vec3;
      readonly axis: Vec3;
      readonly radius: number;
      readonly crown: number;
      readonly knuckle: number;
    };

/** One line on layer `cut` and what it must touch. */
export interface FitLine {
  /**
   * Which of the sheet's cut lines: the uppermost or the lowest one across the girth, or its number from the top where
   * there are more, or the closed one, or of two closed ones the inner.
   */
  readonly which: 'upper' | 'lower' | 'closed' | 'inner' | number;
  /** Where it touches: first anywhere through the wall, at the outside, or at the bore. */
  readonly contact: 'wall' | 'od' | 'id';
  /** How far along +z it would have to move to touch, mm: the root gap, negative at a lower end. */
  readonly gap: number;
  /** Touches the nearest of these; none where the part closes on itself alone. */
  readonly solids: readonly Solid[];
}

/** How a sheet comes to lie on its part. Sheet y runs along +z and sheet x toward +y where x = 0; +x is outward there. */
export type Lay =
  | {
      /** Round the z axis. */
      readonly kind: 'round';
      readonly od: number;
      /** Length once round on the sheet, mm: the girth stretched for the paper, or that of the mean diameter for rolled plate. */
      readonly sheetGirth: number;
      /** How much longer than once round the line is, for a seam in rolled plate; negative for a gap. */
      readonly allowance: number;
    }
  /** On a face in the plane x = 0. */
  | { readonly kind: 'flat' }
  | {
      /** Round a rectangular bar or tube along the z axis: x = 0 where it faces +x, or in the middle of the side that does. */
      readonly kind: 'bar';
      /** Of the side that lies along y and its neighbour, and the radius of the corners between them. */
      readonly width: number;
      readonly depth: number;
      readonly corner: number;
      /** How far that side is turned from +x toward +y, radians. */
      readonly turned: number;
      /** How far above the sides the print lies, mm: round a corner it is so much longer. */
      readonly lift: number;
    }
  | {
      /** Round a right cone whose axis is the z axis, narrowing along it. */
      readonly kind: 'cone';
      /** In the plane z = 0, from which the line at x = 0 begins with y = 0. */
      readonly radius: number;
      /** Between axis and side, radians. */
      readonly halfAngle: number;
      /** How far above the side the print lies, mm. */
      readonly lift: number;
    }
  | {
      /** Around stock of any cross-section along the z axis: x = 0 at position 0, x by true length around the outside. */
      readonly kind: 'section';
      readonly section: Section;
      /** How far above the outside the print lies, mm: around a corner it is so much longer. */
      readonly lift: number;
    };

/** A whole circle, on layer `cut` where no other is named. */
export interface Circle {
  readonly centre: Vec2;
  readonly radius: number;
  readonly role?: Role;
}

/** A straight line from end to end, on layer `cut` where no other is named. */
export interface Straight {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly role?: Role;
}

/** Part of a circle: from an angle on, counter-clockwise where `sweep` is positive, radians; on layer `cut` where no other is named. */
export interface Arc {
  readonly centre: Vec2;
  readonly radius: number;
  readonly from: number;
  readonly sweep: number;
  readonly role?: Role;
}

/** Strokes that point at a center, their feet on a circle, one every `step` radians; on layer `station` where no other is named. */
export interface TurnScale {
  readonly centre: Vec2;
  readonly radius: number;
  readonly from: number;
  readonly step: number;
  readonly count: number;
  readonly role?: Role;
}

/** Strokes square to a line at equal distances from its one end to its other; on layer `station` where no other is named. */
export interface LineScale {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly count: number;
  readonly role?: Role;
}

/** Two straight lines that meet, wherever on the sheet, at an angle, radians; on layer `cut` where no other is named. */
export interface Corner {
  readonly angle: number;
  readonly role?: Role;
}

/** Points that one smooth line goes through, by its own formula; on layer `cut` where no other is named. */
export interface Through {
  readonly points: readonly Vec2[];
  readonly role?: Role;
}

/** What a flat sheet must show where, in sheet mm. */
export interface SheetFigures {
  readonly circles: readonly Circle[];
  /** Where crosses on layer `punch` lie. */
  readonly points: readonly Vec2[];
  readonly lines?: readonly Straight[];
  readonly arcs?: readonly Arc[];
  readonly turns?: readonly TurnScale[];
  readonly scales?: readonly LineScale[];
  readonly corners?: readonly Corner[];
  readonly curves?: readonly Through[];
}

/** A sheet to be laid on its part and fitted up. */
export interface SheetFit {
  readonly lay: Lay;
  /** Thickness of what is cut, mm; 0 where it makes no difference. */
  readonly wall: number;
  readonly lines: readonly FitLine[];
  readonly figures?: SheetFigures;
}
