import type { Vec3 } from '../geometry/vector.ts';

/**
 * What a sheet's cut lines must touch, as plain data that travels in `soapstone.json`, so that a finished file can be
 * fitted up by somebody else's geometry. Lengths in mm, in the stock frame of the sheet (+z out of the cut end, station
 * 0 on +x); directions need not be of unit length.
 */
export type Solid =
  | { readonly kind: 'plane'; readonly through: Vec3; readonly normal: Vec3 }
  | { readonly kind: 'cylinder'; readonly through: Vec3; readonly along: Vec3; readonly radius: number }
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
      /** A bend of `turn` radians about `centre`, starting at direction `start`, with its straight legs. */
      readonly kind: 'bend';
      readonly centre: Vec3;
      readonly axis: Vec3;
      readonly start: Vec3;
      readonly turn: number;
      readonly bendRadius: number;
      readonly radius: number;
    }
  | {
      /** An endless bar of `width` along `across` and `depth` square to it, corners rounded to `corner`. */
      readonly kind: 'bar';
      readonly through: Vec3;
      readonly along: Vec3;
      readonly across: Vec3;
      readonly width: number;
      readonly depth: number;
      readonly corner: number;
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
  /** Which of the sheet's cut lines: the upper or lower one across the girth, or the closed one. */
  readonly which: 'upper' | 'lower' | 'closed';
  /** Where it touches: first anywhere through the wall, at the outside, or at the bore. */
  readonly contact: 'wall' | 'od' | 'id';
  /** How far it stands back from touching, along the axis, mm. */
  readonly gap: number;
  /** Touches the nearest of these. */
  readonly solids: readonly Solid[];
}

/** A round stock's sheet, to be rolled up and fitted. */
export interface SheetFit {
  readonly od: number;
  readonly wall: number;
  /** Length once round on the sheet, mm: the girth stretched for the paper, or that of the mean diameter for rolled plate. */
  readonly sheetGirth: number;
  readonly lines: readonly FitLine[];
}
