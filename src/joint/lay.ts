import type { Section } from '../geometry/section.ts';

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
