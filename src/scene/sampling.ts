import { itemAt } from '../lists.ts';
import type { Vec3 } from '../geometry/vector.ts';

/** Curves are halved so often at most between two places that are given. */
const DEEPEST = 9;

/** Distance of `p` from the straight line between `a` and `b`. */
const bulge = (a: Vec3, p: Vec3, b: Vec3): number => {
  const [dx, dy, dz] = [b.x - a.x, b.y - a.y, b.z - a.z];
  const [ex, ey, ez] = [p.x - a.x, p.y - a.y, p.z - a.z];
  const size = dx * dx + dy * dy + dz * dz;
  const t = size > 0 ? Math.min(1, Math.max(0, (ex * dx + ey * dy + ez * dz) / size)) : 0;
  return Math.hypot(ex - t * dx, ey - t * dy, ez - t * dz);
};

/**
 * Places along a parameter so close together that straight lines between them lie within `deviation` mm of every one of the
 * curves: the given ones, and between them as many as the curves need. Ascending, the given ones among them.
 */
export const spreadAlong = (
  curves: (t: number) => readonly Vec3[],
  given: readonly number[],
  deviation: number,
): readonly number[] => {
  const places: number[] = [];
  const fill = (a: number, atA: readonly Vec3[], b: number, atB: readonly Vec3[], depth: number): void => {
    const middle = (a + b) / 2;
    const at = curves(middle);
    const off = Math.max(...at.map((p, i) => bulge(itemAt(atA, i), p, itemAt(atB, i))));
    // Halving a curve leaves a quarter of its bulge.
    if (off <= deviation && depth > 0) return;
    const again = off > 4 * deviation && depth < DEEPEST;
    if (again) fill(a, atA, middle, at, depth + 1);
    places.push(middle);
    if (again) fill(middle, at, b, atB, depth + 1);
  };
  given.forEach((t, i) => {
    places.push(t);
    const next = given[i + 1];
    if (next !== undefined) fill(t, curves(t), next, curves(next), 0);
  });
  return places;
};

/** So many equal parts of a full turn that chords of a circle lie within `deviation` of it. */
export const turnParts = (radius: number, deviation: number): number => {
  const half = Math.acos(Math.max(0, 1 - deviation / Math.max(radius, deviation)));
  return Math.max(12, 4 * Math.ceil(Math.PI / Math.max(half, 1e-3) / 4));
};
