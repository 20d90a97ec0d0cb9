import { polar2, type Vec2 } from './vector.ts';

/**
 * A stock's cross-section in the stock frame (+x station 0, +y station 90), run counter-clockwise seen facing the cut
 * end, by position `s` along its outside girth, mm.
 */
export interface Outline {
  /** Length once round the outside, mm. */
  readonly girth: number;
  /** Wall thickness, mm; 0 for a bare surface. */
  readonly wall: number;
  /** The same at girth position `s` where it differs from place to place; 0 where there is no steel. */
  readonly wallAt?: (s: number) => number;
  /** The point at girth position `s` (any real, taken round), `depth` mm under the outside, square to it. */
  readonly at: (s: number, depth: number) => Vec2;
  /** Girth positions in [0, girth) where the outline changes curvature or direction. */
  readonly joints: readonly number[];
}

/**
 * A round pipe's outline.
 * @param radius outside radius, mm
 * @param wall wall thickness, mm, under the radius
 */
export const circleOutline = (radius: number, wall: number): Outline => ({
  girth: 2 * Math.PI * radius,
  wall,
  at: (s, depth) => polar2(radius - depth, s / radius),
  joints: [],
});

/** The same cross-section seen from the other end: mirrored in x, its positions running the other way from position 0. */
export const mirrorOutline = ({ girth, wall, wallAt, at, joints }: Outline): Outline => ({
  girth,
  wall,
  ...(wallAt && { wallAt: (s: number) => wallAt(-s) }),
  at: (s, depth) => {
    const { x, y } = at(-s, depth);
    return { x, y: -y };
  },
  joints: joints.map((s) => (s === 0 ? 0 : girth - s)).sort((a, b) => a - b),
});

/** The cross-section `by` mm larger all around, its positions still those of the one within. */
export const growOutline = (outline: Outline, by: number): Outline =>
  by === 0 ? outline : { ...outline, at: (s, depth) => outline.at(s, depth - by) };
