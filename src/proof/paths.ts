import { present } from './present.ts';
import type { Vec2 } from './space.ts';

/** One stretch of a path, from where the last one ended: a straight line or a cubic Bézier. */
export type PathSegment =
  | { readonly kind: 'line'; readonly to: Vec2 }
  | { readonly kind: 'curve'; readonly c1: Vec2; readonly c2: Vec2; readonly to: Vec2 };

/** A connected line. The line that closes a closed one is among its segments. */
export interface Subpath {
  readonly start: Vec2;
  readonly segments: readonly PathSegment[];
  readonly closed: boolean;
}

/** What one painting operator paints: one or more connected lines. */
export type Path = readonly Subpath[];

/** A copy of the path with every point, control points too, put through `move`, which must be affine. */
export const movePath = (path: Path, move: (p: Vec2) => Vec2): Path =>
  path.map(({ start, segments, closed }) => ({
    start: move(start),
    closed,
    segments: segments.map((s) =>
      s.kind === 'line'
        ? { kind: 'line', to: move(s.to) }
        : { kind: 'curve', c1: move(s.c1), c2: move(s.c2), to: move(s.to) },
    ),
  }));

const between = (a: Vec2, b: Vec2, t: number): Vec2 => ({
  x: a.x + (b.x - a.x) * t,
  y: a.y + (b.y - a.y) * t,
});
const gap = (a: Vec2, b: Vec2): number => Math.hypot(b.x - a.x, b.y - a.y);

/** The point at t in [0, 1] of a segment that starts at `from` (de Casteljau). */
export function pointOn(from: Vec2, segment: PathSegment, t: number): Vec2 {
  if (segment.kind === 'line') return between(from, segment.to, t);
  const [a, b, c] = [
    between(from, segment.c1, t),
    between(segment.c1, segment.c2, t),
    between(segment.c2, segment.to, t),
  ];
  return between(between(a, b, t), between(b, c, t), t);
}

/** Chords of a curve at least, however small it is: a pipe of 1 mm is as round as one of 1 m. */
const LEAST_CHORDS = 16;

/**
 * Points along every line and curve of a path, no further apart than `maxStep` (in the path's own unit), the ends of
 * each segment included. A curve's steps are held by its control polygon, which is never shorter than the curve.
 */
export function samplePath(path: Path, maxStep: number): Vec2[] {
  if (!(maxStep > 0)) throw new Error('maxStep must be positive');
  return path.flatMap(({ start, segments }) => {
    const points = [start];
    let from = start;
    for (const s of segments) {
      // A cubic's speed is at most three times the longest leg of its control polygon.
      const reach =
        s.kind === 'line' ? gap(from, s.to) : 3 * Math.max(gap(from, s.c1), gap(s.c1, s.c2), gap(s.c2, s.to));
      const n = Math.max(s.kind === 'line' ? 1 : LEAST_CHORDS, Math.ceil(reach / maxStep));
      for (let i = 1; i <= n; i++) points.push(i === n ? s.to : pointOn(from, s, i / n));
      from = s.to;
    }
    return points;
  });
}

/** Whether a point lies inside a path by the non-zero winding rule, curves taken as chords of `step`. */
export function isInside(path: Path, p: Vec2, step: number): boolean {
  let winding = 0;
  for (const subpath of path) {
    const points = samplePath([subpath], step);
    points.forEach((a, i) => {
      const b = present(points[(i + 1) % points.length]);
      const side = (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
      if (a.y <= p.y && b.y > p.y && side > 0) winding++;
      if (a.y > p.y && b.y <= p.y && side < 0) winding--;
    });
  }
  return winding !== 0;
}
