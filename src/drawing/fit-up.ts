import type { Vec2 } from '../geometry/vector.ts';
import type { Solid } from '../joint/solid.ts';
import type { Lay } from '../joint/lay.ts';

/** What a flat sheet must show where, in sheet mm. */
export interface SheetFigures {
  /** Whole circles on layer `cut`. */
  readonly circles: readonly { readonly centre: Vec2; readonly radius: number }[];
  /** Where crosses on layer `punch` lie. */
  readonly points: readonly Vec2[];
}

/** A sheet to be laid on its part and fitted up. */
export interface SheetFit {
  readonly lay: Lay;
  /** Thickness of what is cut, mm; 0 where it makes no difference. */
  readonly wall: number;
  readonly lines: readonly FitLine[];
  readonly figures?: SheetFigures;
}

/** One line on layer `cut` and what it must touch. */
export interface FitLine {
  /**
   * Which of the sheet's cut lines: the uppermost or the lowest one across the girth, the so-manieth from the top where
   * there are more, or the closed one.
   */
  readonly which: 'upper' | 'lower' | 'closed' | number;
  /** Where it touches: first anywhere through the wall, at the outside, or at the bore. */
  readonly contact: 'wall' | 'od' | 'id';
  /** How far along +z it would have to move to touch, mm: the root gap, negative at a lower end. */
  readonly gap: number;
  /** Touches the nearest of these; none where the part closes on itself alone. */
  readonly solids: readonly Solid[];
}
