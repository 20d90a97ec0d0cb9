import type { Vec2 } from '../geometry/vector.ts';
import type { Solid } from '../joint/solid.ts';
import type { Lay } from '../joint/lay.ts';
import type { Role } from './role.ts';

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
