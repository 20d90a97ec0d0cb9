import { arcEdge, lineEdge, type Contour } from './contour.ts';
import type { Vec2 } from './vector.ts';

/** A ring about the origin, parted by radial joints; mm. */
export interface Ring {
  readonly outside: number;
  readonly inside: number;
  readonly segments: number;
  /** Width of each joint, half of it off either piece, square to the joint. */
  readonly gap: number;
}

/** The widest gap that leaves something of the inside arc, mm. */
export const widestGap = ({ inside, segments }: Ring): number =>
  inside * (segments === 1 ? 1 : Math.sin(Math.PI / segments));

/**
 * One segment of a ring, counter-clockwise, its middle line on +y: the outside arc, the left joint, the inside arc, the
 * right joint. The joints lie half the gap inside the radial lines that part the ring, parallel to them.
 */
export const segmentContour = ({ outside, inside, segments, gap }: Ring): Contour => {
  const half = Math.PI / segments;
  const arcOf = (diameter: number): readonly [number, number] => {
    const lost = Math.asin(gap / diameter);
    return [Math.PI / 2 - half + lost, 2 * (half - lost)];
  };
  const centre = { x: 0, y: 0 };
  const [outer, outerSweep] = arcOf(outside);
  const [inner, innerSweep] = arcOf(inside);
  const out = arcEdge(centre, outside / 2, outer, outerSweep);
  const back = arcEdge(centre, inside / 2, inner + innerSweep, -innerSweep);
  return [out, lineEdge(out.to, back.from), back, lineEdge(back.to, out.from)];
};

/** The corners of a segment, counter-clockwise from the outside right. */
export interface SegmentCorners {
  readonly outRight: Vec2;
  readonly outLeft: Vec2;
  readonly inLeft: Vec2;
  readonly inRight: Vec2;
}

export const segmentCorners = (ring: Ring): SegmentCorners => {
  const [out, left, , right] = segmentContour(ring);
  if (!out || !left || !right) throw new Error('a segment has four sides');
  return { outRight: out.from, outLeft: out.to, inLeft: left.to, inRight: right.from };
};

/**
 * How far one segment moves along its middle line to lie on the next without crossing it, mm, no saw cut allowed for; for
 * three segments and more. The part is thickest along that line at its inside corners.
 */
export const nestPitch = (ring: Ring): number => {
  const { inRight } = segmentCorners(ring);
  return Math.sqrt(ring.outside ** 2 / 4 - inRight.x ** 2) - inRight.y;
};
