import { say } from '../words/say.ts';
import { checkIsKind } from '../words/wrong-type.ts';
import { modulo } from './angle-units.ts';
import { lowest } from './halving.ts';
import { SAME_LENGTH } from './tolerance.ts';
import { distance2, polar2, type Vec2 } from './vector.ts';

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

/** Sees to it that an outline is one. Throws a `request` UserError where a program without types hands over something else. */
export const checkIsOutline = (outline: Outline): void =>
  checkIsKind(
    outline,
    ['girth', 'wall', 'at', 'joints'],
    'outline',
    say`give what ${'circleOutline'} or ${'contourOutline'} returns, or the outline of a stock`,
  );

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

const PLACES = 720;

/** The position in [0, girth) where `far` is least, by samples and narrowing around the lowest. */
const leastAround = ({ girth }: Outline, far: (s: number) => number): number => {
  const step = girth / PLACES;
  let best = 0;
  for (let i = 1; i < PLACES; i++) if (far(i * step) < far(best)) best = i * step;
  return modulo(lowest(far, best - step, best + step, 80), girth);
};

/** The position on the outside nearest to a point. */
export const positionNear = (outline: Outline, p: Vec2): number =>
  leastAround(outline, (s) => distance2(p, outline.at(s, 0)));

/** The position that lies in a direction from the axis, of an outline that every ray from the axis crosses once; the angle from +x. */
export const positionToward = (outline: Outline, angle: number): number =>
  leastAround(outline, (s) => {
    const { x, y } = outline.at(s, 0);
    return Math.abs(
      Math.atan2(y * Math.cos(angle) - x * Math.sin(angle), x * Math.cos(angle) + y * Math.sin(angle)),
    );
  });

/** True where two outsides are alike, each from its position 0 on. */
export const sameOutside = (a: Outline, b: Outline): boolean =>
  Math.abs(a.girth - b.girth) < SAME_LENGTH &&
  Array.from({ length: 48 }, (_, i) => (i * a.girth) / 48).every(
    (s) => distance2(a.at(s, 0), b.at(s, 0)) < SAME_LENGTH,
  );
