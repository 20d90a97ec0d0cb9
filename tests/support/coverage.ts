import type { Vec2 } from './space.ts';

/** The largest distance from an expected point to the nearest drawn one: a line that is missing shows here. */
export const largestMiss = (expected: readonly Vec2[], drawn: readonly Vec2[]): number =>
  Math.max(
    ...expected.map((p) =>
      drawn.reduce((least, q) => Math.min(least, Math.hypot(p.x - q.x, p.y - q.y)), Infinity),
    ),
  );

/** Area inside a closed row of points, positive counter-clockwise. */
export const areaInside = (points: readonly Vec2[]): number =>
  points.reduce((sum, p, i) => {
    const q = points[(i + 1) % points.length] as Vec2;
    return sum + (p.x * q.y - q.x * p.y) / 2;
  }, 0);
