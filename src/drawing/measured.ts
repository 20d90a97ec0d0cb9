import type { Vec2 } from '../geometry/vector.ts';
import type { FitLine } from './fit-up.ts';
import type { Role } from './role.ts';

/**
 * How a printed figure is measured from the sheet's own drawing, as plain data that travels in `soapstone.json`, so that a
 * number which contradicts the drawing is found by somebody who knows nothing of the layout. Sheet mm and radians.
 */

/**
 * A place on the drawing: the sheet's origin, or something drawn on a layer next to `at`: the end of a line, where a line
 * crosses the upright (same x) or the level (same y) through `at`, or a cross.
 */
export type Spot =
  | { readonly find: 'origin' }
  | {
      readonly find: 'end' | 'upright' | 'level' | 'cross';
      readonly on: Role;
      readonly at: Vec2;
    };

/** Which of the cut lines a figure is taken from; left out, everything that is cut. */
interface OfLine {
  readonly line?: FitLine['which'];
}

/** What is measured. A result is multiplied by `times`, one where it is left out, and `plus` is added, both plain numbers. */
export type Measured = (
  | {
      /**
       * From spot to spot: straight, or along an axis of the sheet, or around the steel, without the paper's stretch; onward is
       * the way around to the right, over the seam where it must be.
       */
      readonly kind: 'distance';
      readonly from: Spot;
      readonly to: Spot;
      readonly along?: 'x' | 'y' | 'around' | 'onward';
    }
  /** From one end of a cut line to the other along an axis of the sheet, or around the steel. */
  | ({ readonly kind: 'extent'; readonly along: 'x' | 'y' | 'around' } & OfLine)
  /** How high above the sheet's origin a cut line reaches, or how high its lowest point lies. */
  | ({ readonly kind: 'height'; readonly end: 'high' | 'low' } & OfLine)
  /** The area a closed cut line takes on the steel, or all that is cut out of a flat pattern. */
  | ({ readonly kind: 'area' } & OfLine)
  /** A cut line's length when it is rolled up on its part. */
  | ({ readonly kind: 'rolled' } & OfLine)
  /** How far from square the plane stands in which a rolled-up cut line lies, radians. */
  | ({ readonly kind: 'tilt' } & OfLine)
  /** How far a rolled-up cut line reaches across its part, along a direction square to its length, of unit length. */
  | ({ readonly kind: 'across'; readonly along: Vec2 } & OfLine)
  /** Once around the steel, from the first station to the last one. */
  | { readonly kind: 'girth' }
  /** Of the circle through three spots: its radius, or from the first over the second to the third the arc's length or its angle. */
  | {
      readonly kind: 'circle';
      readonly give: 'radius' | 'length' | 'angle';
      readonly through: readonly [Spot, Spot, Spot];
    }
  /**
   * The angle between two directions, each from one spot to another, up to half a turn, radians; or its cotangent: how far a line
   * at that angle runs in over a height of one.
   */
  | {
      readonly kind: 'angle';
      readonly give?: 'cotangent';
      readonly from: readonly [Spot, Spot];
      readonly to: readonly [Spot, Spot];
    }
) & { readonly times?: number; readonly plus?: number };
