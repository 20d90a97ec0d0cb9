import type { Cubic } from './cubic.ts';
import type { Hit, Mate } from './mate.ts';
import type { Outline } from './outline.ts';
import { dot3, length3, sub3, vec3, type Vec3 } from './vector.ts';

/** The line where a stock's outside meets a mate's: the weld's. Stock frame, mm and radians. */
export interface WeldPoint {
  readonly point: Vec3;
  /** Angle between the two outsides, square to the line and outside both parts: 0 to π. */
  readonly angle: number;
  /** Which face of the mate is met there. */
  readonly face: string;
}

const outwardOf = (outline: Outline, s: number): Vec3 => {
  const [p, q] = [outline.at(s, 0), outline.at(s, outline.wall > 0 ? outline.wall / 8 : 1)];
  const size = Math.hypot(p.x - q.x, p.y - q.y);
  return vec3((p.x - q.x) / size, (p.y - q.y) / size, 0);
};

const enterAt = (outline: Outline, mate: Mate, s: number): { hit: Hit; point: Vec3 } | undefined => {
  const { x, y } = outline.at(s, 0);
  const hit = mate.enter({ origin: vec3(x, y, 0), direction: vec3(0, 0, 1) });
  return hit && { hit, point: vec3(x, y, hit.t) };
};

/**
 * The weld line at girth position `s`: where the generator of the outside meets the mate, and the angle between the two
 * outsides there, π less the angle between their outward normals. Undefined where the generator misses.
 */
export const weldAt = (outline: Outline, mate: Mate, s: number): WeldPoint | undefined => {
  const met = enterAt(outline, mate, s);
  if (!met) return undefined;
  const cosine = -dot3(outwardOf(outline, s), met.hit.normal);
  return {
    point: met.point,
    angle: Math.acos(Math.max(-1, Math.min(1, cosine))),
    face: met.hit.face,
  };
};

/** Chords once round; doubled once and extrapolated, which leaves less than a ten-millionth of the length. */
const CHORDS = 1440;

/** Length of the weld line once round, mm; undefined where a generator misses. */
export const weldLength = (outline: Outline, mate: Mate): number | undefined => {
  const points = Array.from(
    { length: 2 * CHORDS },
    (_, i) => enterAt(outline, mate, (i * outline.girth) / (2 * CHORDS))?.point,
  );
  if (points.includes(undefined)) return undefined;
  const all = points as Vec3[];
  const around = (every: number): number =>
    all
      .filter((_, i) => i % every === 0)
      .reduce((sum, p, i) => sum + length3(sub3(all[((i + 1) * every) % all.length] as Vec3, p)), 0);
  return (4 * around(1) - around(2)) / 3;
};

/**
 * Bevel that leaves a groove: what is taken off a square-cut edge (its face square to the wall) so that the edge stands the
 * groove angle from the other part's outside. Negative where the square edge leaves more than that already.
 */
export const bevelFor = (weldAngle: number, groove: number): number => Math.PI / 2 - weldAngle + groove;

/** Abscissas and weights of Gauss-Legendre's three points on 0 to 1, exact for what a cubic's area takes. */
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/** Area inside a closed line of cubics, mm²: positive counter-clockwise. */
export const areaInside = (line: readonly Cubic[]): number =>
  line.reduce((sum, { start, c1, c2, end }) => {
    const at = (a: number, b: number, c: number, d: number, u: number): number =>
      a * (1 - u) ** 3 + 3 * b * u * (1 - u) ** 2 + 3 * c * u * u * (1 - u) + d * u ** 3;
    const slope = (a: number, b: number, c: number, d: number, u: number): number =>
      3 * ((b - a) * (1 - u) ** 2 + 2 * (c - b) * u * (1 - u) + (d - c) * u * u);
    return (
      sum +
      GAUSS.reduce(
        (part, [u, weight]) =>
          part +
          (weight / 2) *
            (at(start.x, c1.x, c2.x, end.x, u) * slope(start.y, c1.y, c2.y, end.y, u) -
              at(start.y, c1.y, c2.y, end.y, u) * slope(start.x, c1.x, c2.x, end.x, u)),
        0,
      )
    );
  }, 0);
