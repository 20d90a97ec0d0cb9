import type { Section } from '../geometry/section.ts';
import type { Vec3 } from '../geometry/vector.ts';

/** A plane; `normal` points out of the solid behind it. */
export interface Face {
  readonly through: Vec3;
  readonly normal: Vec3;
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
