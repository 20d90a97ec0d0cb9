import { TURN } from './angle-units.ts';
import { fitCurve, mapCubic, reverseLine, straight, type Cubic } from './cubic.ts';
import type { Development } from './development.ts';
import { repeatLine } from './line.ts';
import { CURVE_TOLERANCE } from './tolerance.ts';
import { vec2, type Vec2 } from './vector.ts';

/** The end of a pipe cut into arms that are bent in, laid flat: x along the outside's girth, y = 0 at the bend line. */
export interface Arms extends Development {
  readonly count: number;
  /** Stations of the arms' centre lines, radians. */
  readonly centres: readonly number[];
}

/**
 * Arms nearest to a fifth of the girth in inches, never fewer than 5 (US Navy NAVEDTRA 14251, Steelworker Vol. 2,
 * p. 3-23; that the rule is in inches is from memory).
 */
export const navyArms = (girth: number): number => Math.max(5, Math.round(girth / 25.4 / 5));

/** The offset of a station from the centre line of the nearest of `count` equal arms; in [-π/n, π/n]. */
const fromArm = (angle: number, count: number): number => {
  const pitch = TURN / count;
  return angle - (Math.floor(angle / pitch) + 0.5) * pitch;
};

/**
 * `count` equal arms, each the mirror image of itself, the first beginning at station 0: `rise` is the left half of one,
 * from root to tip, in (angle from its centre line, y).
 */
const equalArms = (
  rise: readonly Cubic[],
  height: (offset: number) => number,
  count: number,
  radius: number,
  seam: number,
): Arms => {
  const onGirth = (p: Vec2): Vec2 => vec2((p.x + Math.PI / count) * radius, p.y);
  const mirror = (p: Vec2): Vec2 => vec2((2 * Math.PI * radius) / count - p.x, p.y);
  const left = rise.map((cubic) => mapCubic(cubic, onGirth));
  const right = reverseLine(left.map((cubic) => mapCubic(cubic, mirror)));
  const ordinate = (s: number): number => height(Math.abs(fromArm(s / radius, count)));
  return {
    line: repeatLine([...left, ...right], (TURN * radius) / count, seam, seam + TURN * radius),
    ordinate,
    low: 0,
    high: height(0),
    count,
    centres: Array.from({ length: count }, (_, i) => (TURN * (i + 0.5)) / count),
  };
};

/** A head's profile: a quarter ellipse from the bend line to the pole, over the mean diameter. */
export interface Dome {
  /** Mean radius, mm. */
  readonly radius: number;
  /** Height over the bend line, mm; equal to the radius it is a hemisphere. */
  readonly rise: number;
}

/** Gauss-Legendre nodes and weights of five points on [-1, 1] (Abramowitz and Stegun, table 25.4). */
const GAUSS: readonly (readonly [number, number])[] = [
  [0, 0.5688888888888889],
  [0.5384693101056831, 0.47862867049936647],
  [-0.5384693101056831, 0.47862867049936647],
  [0.906179845938664, 0.23692688505618908],
  [-0.906179845938664, 0.23692688505618908],
];

/** Length of an ellipse's arc between eccentric angles, mm, by quadrature. */
const arcLength = ({ radius, rise }: Dome, from: number, to: number): number => {
  const [middle, half] = [(from + to) / 2, (to - from) / 2];
  return GAUSS.reduce((sum, [node, weight]) => {
    const u = middle + node * half;
    return sum + weight * half * Math.hypot(radius * Math.sin(u), rise * Math.cos(u));
  }, 0);
};

/** Length of the profile from the bend line to an eccentric angle in [0, π/2], mm. */
export const measureDome = (dome: Dome): ((t: number) => number) => {
  if (dome.radius === dome.rise) return (t) => dome.radius * t;
  const parts = 48;
  const step = Math.PI / 2 / parts;
  const reached = [0];
  for (let i = 0; i < parts; i++) reached.push((reached[i] ?? 0) + arcLength(dome, i * step, (i + 1) * step));
  return (t) => {
    const whole = Math.min(parts, Math.max(0, Math.floor(t / step)));
    return (reached[whole] ?? 0) + arcLength(dome, whole * step, t);
  };
};

/** The eccentric angle at which a profile has turned in by `lean` from the pipe's axis, radians. */
export const domeAngle = ({ radius, rise }: Dome, lean: number): number =>
  Math.atan2(rise * Math.sin(lean), radius * Math.cos(lean));

/**
 * The arms of an orange-peel head. At the distance along an arm where the head's mean radius has shrunk by a factor,
 * every arm has shrunk in width by the same: the arms close there edge to edge, through the whole wall when they are
 * cut square to the surface.
 * @param radius outside radius of the pipe, mm
 * @param seam girth position where the line starts, mm
 */
export const developPeel = (dome: Dome, radius: number, count: number, seam: number): Arms => {
  const half = Math.PI / count;
  const measure = measureDome(dome);
  const length = measure(Math.PI / 2);
  const rise = fitCurve(
    (t) => vec2(-half * radius * Math.cos(t), measure(t)),
    0,
    Math.PI / 2,
    CURVE_TOLERANCE,
  ).map((cubic) => mapCubic(cubic, (p) => vec2(p.x / radius, p.y)));
  const height = (offset: number): number =>
    offset === 0 ? length : measure(Math.acos(Math.min(1, offset / half)));
  return equalArms(rise, height, count, radius, seam);
};

/**
 * The zigzag that parts a pipe into two pointed plugs, each the other's waste: `count` straight-sided arms of the given
 * length. Bent in, they close to a cone whose side is the arm's length.
 */
export const developZigzag = (length: number, radius: number, count: number, seam: number): Arms => {
  const half = Math.PI / count;
  const height = (offset: number): number => length * (1 - offset / half);
  return equalArms([straight(vec2(-half, 0), vec2(0, length))], height, count, radius, seam);
};
