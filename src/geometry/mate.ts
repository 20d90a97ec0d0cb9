import { say } from '../words/say.ts';
import { checkIsKind } from '../words/wrong-type.ts';
import type { Vec3 } from './vector.ts';

/** A straight line with a unit direction; `t` runs along it in mm. */
export interface Line {
  readonly origin: Vec3;
  readonly direction: Vec3;
}

/** Where a line first enters a body. */
export interface Hit {
  /** Distance from the line's origin along its direction, mm; may be negative. */
  readonly t: number;
  /** Outward unit normal of the body there. */
  readonly normal: Vec3;
  /** Which face was met; a cut line may have a corner where this changes. */
  readonly face: string;
}

/** What an end must touch: a solid that knows where a line coming from t = -infinity first enters it. */
export interface Mate {
  /** True for a convex body: then the first touch through a wall has a single lowest point. */
  readonly convex: boolean;
  /** Least thickness of a body that is not convex, mm: a wall is looked at in layers closer than that. */
  readonly finest?: number;
  /** The first entry, or undefined where the line misses. A line that just grazes the body touches it. */
  readonly enter: (line: Line) => Hit | undefined;
  /** The bodies it is made of, where it is several at once. */
  readonly parts?: readonly Mate[];
}

/** Sees to it that a mate is one. Throws a `request` UserError where a program without types hands over something else. */
export const checkIsMate = (mate: Mate): void =>
  checkIsKind(mate, ['enter'], 'mate', say`give what ${'solidMate'} returns`);

/** The point at `t` along a line. */
export const along = (line: Line, t: number): Vec3 => ({
  x: line.origin.x + t * line.direction.x,
  y: line.origin.y + t * line.direction.y,
  z: line.origin.z + t * line.direction.z,
});
