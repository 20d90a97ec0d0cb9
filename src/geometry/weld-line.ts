import type { Cubic } from './cubic.ts';
import { itemAround } from '../lists.ts';
import type { Line, Mate } from './mate.ts';
import type { Outline } from './outline.ts';
import { add3, dot3, length3, scale3, sub3, vec3, type Vec3 } from './vector.ts';

/** The line where a stock's outside meets a mate's: the weld's. Stock frame, mm and radians. */
export interface WeldPoint {
  readonly point: Vec3;
  /** Angle between the two outsides, square to the line and outside both parts: 0 to π. */
  readonly angle: number;
  /** Which face of the mate is met there. */
  readonly face: string;
}

/** A straight line along the outside of a part, toward what the part meets, and the way out of the part there. */
export interface Side extends Line {
  readonly outward: Vec3;
}

const sideOf = (outline: Outline, s: number): Side => {
  const [p, q] = [outline.at(s, 0), outline.at(s, outline.wall > 0 ? outline.wall / 8 : 1)];
  const size = Math.hypot(p.x - q.x, p.y - q.y);
  return {
    origin: vec3(p.x, p.y, 0),
    direction: vec3(0, 0, 1),
    outward: vec3((p.x - q.x) / size, (p.y - q.y) / size, 0),
  };
};

const pointAlong = ({ origin, direction }: Line, t: number): Vec3 => add3(origin, scale3(direction, t));

/**
 * Where a line along a part's outside meets a mate, and the angle between the two outsides there, π less the angle between
 * their outward normals. Undefined where it misses.
 */
export const weldOn = (side: Side, mate: Mate): WeldPoint | undefined => {
  const hit = mate.enter(side);
  if (!hit) return undefined;
  const cosine = -dot3(side.outward, hit.normal);
  return {
    point: pointAlong(side, hit.t),
    angle: Math.acos(Math.max(-1, Math.min(1, cosine))),
    face: hit.face,
  };
};

/** The same at girth position `s` of a stock that runs along z. */
export const weldAt = (outline: Outline, mate: Mate, s: number): WeldPoint | undefined =>
  weldOn(sideOf(outline, s), mate);

/** Chords once around, the fewest and the most: smooth lines need few, those with corners more. */
const [FEWEST, MOST] = [180, 2880] as const;

/** What doubling the chords may still change, as a share of the length. */
const SETTLED = 1e-8;

/** Length of a closed line through points, mm, by every chord and by every second, extrapolated to none. */
const lengthThrough = (points: readonly Vec3[]): number => {
  const around = (step: number): number => {
    let sum = 0;
    for (let i = 0; i < points.length; i += step)
      sum += length3(sub3(itemAround(points, i + step), itemAround(points, i)));
    return sum;
  };
  return (4 * around(1) - around(2)) / 3;
};

/** Length of the weld line once round, mm, `sideAt` a share of the way; undefined where a line misses. */
export const weldLengthOn = (sideAt: (share: number) => Side, mate: Mate): number | undefined => {
  let before = NaN;
  for (let count: number = FEWEST; ; count *= 2) {
    const points: Vec3[] = [];
    for (let i = 0; i < count; i++) {
      const side = sideAt(i / count);
      const hit = mate.enter(side);
      if (!hit) return undefined;
      points.push(pointAlong(side, hit.t));
    }
    const length = lengthThrough(points);
    if (Math.abs(length - before) <= SETTLED * length || count >= MOST) return length;
    before = length;
  }
};

/** The same of a stock that runs along z. */
export const weldLength = (outline: Outline, mate: Mate): number | undefined =>
  weldLengthOn((share) => sideOf(outline, share * outline.girth), mate);

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
