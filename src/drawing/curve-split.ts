import type { Vec2 } from '../geometry/vector.ts';
import type { Segment } from './model.ts';

/** The four Bézier ordinates of a segment along one axis; a line is the cubic that runs evenly along it. */
export type Ordinates = readonly [number, number, number, number];

const between = (a: Vec2, b: Vec2, t: number): Vec2 => ({
  x: a.x + (b.x - a.x) * t,
  y: a.y + (b.y - a.y) * t,
});

/** The segment's ordinates along an axis, or undefined for a line. */
export const ordinatesOf = (
  start: Vec2,
  segment: Segment & { kind: 'curve' },
  axis: 'x' | 'y',
): Ordinates => [start[axis], segment.c1[axis], segment.c2[axis], segment.to[axis]];

/** The value of a cubic in Bernstein form at t, by de Casteljau. */
export const valueAt = ([a, b, c, d]: Ordinates, t: number): number => {
  const s = 1 - t;
  return s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d;
};

/** Where the slope of a cubic in Bernstein form is zero, 0 < t < 1, ascending. */
export const turnsOf = ([a, b, c, d]: Ordinates): number[] => {
  const [p, q, r] = [b - a, c - b, d - c];
  const [u, v] = [p - 2 * q + r, q - p];
  const size = Math.max(Math.abs(p), Math.abs(q), Math.abs(r));
  const roots: number[] = [];
  if (Math.abs(u) <= 1e-14 * size) {
    if (v !== 0) roots.push(-p / (2 * v));
  } else {
    const square = v * v - u * p;
    if (square >= 0) {
      // Citardauq form: the root that would cancel is taken from the product of both.
      const w = -(v + Math.sign(v || 1) * Math.sqrt(square));
      roots.push(w / u);
      if (w !== 0) roots.push(p / w);
    }
  }
  return roots.filter((t) => t > 0 && t < 1).sort((x, y) => x - y);
};

/** Where a cubic in Bernstein form crosses `level`, 0 < t < 1, ascending; a touch without crossing is none. */
export const crossingsOf = (ordinates: Ordinates, level: number): number[] => {
  // The curve lies between its control points.
  if (Math.min(...ordinates) >= level || Math.max(...ordinates) <= level) return [];
  const stops = [0, ...turnsOf(ordinates), 1];
  const crossings: number[] = [];
  for (let i = 0; i + 1 < stops.length; i += 1) {
    let [low, high] = [stops[i] ?? 0, stops[i + 1] ?? 1];
    const from = valueAt(ordinates, low) - level;
    const to = valueAt(ordinates, high) - level;
    if (from === 0 && low > 0) crossings.push(low);
    if (from * to >= 0) continue;
    // Monotone between turns, so halving always closes in on the one crossing.
    for (let step = 0; step < 60 && high - low > 1e-16; step += 1) {
      const mid = (low + high) / 2;
      if ((valueAt(ordinates, mid) - level) * from > 0) low = mid;
      else high = mid;
    }
    crossings.push((low + high) / 2);
  }
  return crossings;
};

/** A point of a segment at t. */
export const pointAt = (start: Vec2, segment: Segment, t: number): Vec2 =>
  segment.kind === 'line'
    ? between(start, segment.to, t)
    : { x: valueAt(ordinatesOf(start, segment, 'x'), t), y: valueAt(ordinatesOf(start, segment, 'y'), t) };

/** A segment cut at t: both parts, and the point between them (de Casteljau). */
export const splitSegment = (start: Vec2, segment: Segment, t: number): [Segment, Vec2, Segment] => {
  if (segment.kind === 'line') {
    const at = between(start, segment.to, t);
    return [{ kind: 'line', to: at }, at, segment];
  }
  const a = between(start, segment.c1, t);
  const b = between(segment.c1, segment.c2, t);
  const c = between(segment.c2, segment.to, t);
  const ab = between(a, b, t);
  const bc = between(b, c, t);
  const at = between(ab, bc, t);
  return [{ kind: 'curve', c1: a, c2: ab, to: at }, at, { kind: 'curve', c1: bc, c2: c, to: segment.to }];
};

/** A segment cut at several t, ascending: its parts with their starts. */
export const cutSegment = (
  start: Vec2,
  segment: Segment,
  cuts: readonly number[],
): { start: Vec2; segment: Segment }[] => {
  const parts: { start: Vec2; segment: Segment }[] = [];
  let [from, rest, done] = [start, segment, 0];
  for (const t of cuts) {
    const [before, at, after] = splitSegment(from, rest, (t - done) / (1 - done));
    parts.push({ start: from, segment: before });
    [from, rest, done] = [at, after, t];
  }
  return [...parts, { start: from, segment: rest }];
};
