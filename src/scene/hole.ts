import type { Opening } from '../geometry/opening.ts';
import { contourLength, runOf, type Run } from '../geometry/section.ts';
import { add3, polar2, scale3, sub3, unit3, vec3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { OpeningGround } from '../joint/bodies/body.ts';
import { solidMate } from '../joint/solid-mate.ts';
import type { Solid } from '../joint/solid.ts';
import type { Hole } from './shape.ts';

const TURN = 2 * Math.PI;
/** A wall is even where its thickness differs by less than this part of it. */
const EVEN = 1e-6;

/** The way back from a ground's own axes, which are square to each other and of unit length. */
const wayBack = ({ local }: Pick<OpeningGround, 'local'>): ((p: Vec3) => Vec3) => {
  const [x, y, z] = [vec3(1, 0, 0), vec3(0, 1, 0), vec3(0, 0, 1)].map(local.direction) as [Vec3, Vec3, Vec3];
  const origin = local.point(vec3(0, 0, 0));
  return (p) => {
    const [a, b, c] = [p.x - origin.x, p.y - origin.y, p.z - origin.z];
    return vec3(a * x.x + b * x.y + c * x.z, a * y.x + b * y.y + c * y.z, a * z.x + b * z.y + c * z.z);
  };
};

/** Places around a hole where its wall is looked at. */
const LOOKS = 96;

/**
 * The hole of an opening that is laid out flat, cut square to the outside, in the branch's frame.
 * @param opening as it is traced on the ground
 * @param outside of the body as far as it is drawn
 * @param inside of the body, where it is closed
 * Undefined where the wall is not known, or is not even: over a web, around a corner without a radius, past the body's end.
 */
export const flatHole = (
  ground: OpeningGround,
  { from, to, lower, upper }: Opening,
  { outside, inside }: { readonly outside: Solid; readonly inside: Solid | undefined },
): Hole | undefined => {
  const { skin } = ground;
  const back = wayBack(ground);
  const positionAt = (t: number): number => (from + to) / 2 + ((to - from) / 2) * Math.sin(TURN * t);
  const at: Hole['at'] = (t) => {
    const s = positionAt(t);
    const along = Math.cos(TURN * t) >= 0 ? upper(s) : lower(s);
    const layers = skin.layers(s);
    const [outer, inner] = [0, skin.wall].map((depth) => {
      const { origin, direction } = layers.line(depth);
      return back(add3(origin, scale3(direction, along)));
    }) as [Vec3, Vec3];
    return { outer, inner };
  };
  const [skinOf, hollow] = [solidMate(outside), inside && solidMate(inside)];
  const isEven = (t: number): boolean => {
    const { outer, inner } = at(t);
    const inward = { origin: outer, direction: unit3(sub3(inner, outer)) };
    const wall = hollow ? hollow.enter(inward)?.t : (skin.wallAt?.(positionAt(t)) ?? skin.wall);
    const isSame = (a: number | undefined, b: number): boolean =>
      a !== undefined && Math.abs(a - b) < EVEN * skin.wall;
    return isSame(skinOf.enter(inward)?.t, 0) && isSame(wall, skin.wall);
  };
  const isThrough = skin.wall > 0 && Array.from({ length: LOOKS }, (_, i) => i / LOOKS).every(isEven);
  return isThrough ? { at, joints: [0.25, 0.75] } : undefined;
};
/** A straight solid's outside once around for `t` from 0 to 1, and its corners. */
const aroundSolid = (
  solid: Solid,
): { readonly at: (t: number) => Vec2; readonly joints: readonly number[] } => {
  if (solid.kind === 'cylinder') return { at: (t) => polar2(solid.radius, TURN * t), joints: [] };
  if (solid.kind !== 'prism') throw new Error(`a branch is never a ${solid.kind}`);
  const runs = solid.section.outside.map(runOf);
  const whole = contourLength(solid.section.outside);
  const starts = runs.map((_, i) => runs.slice(0, i).reduce((sum, { length }) => sum + length, 0));
  return {
    at: (t) => {
      const s = t * whole;
      const i = Math.max(
        0,
        starts.findLastIndex((start) => start <= s),
      );
      return (runs[i] as Run).at(s - (starts[i] as number)).point;
    },
    joints: starts.map((start) => start / whole),
  };
};

/**
 * The hole of an opening that is scribed on the body along a branch, in the branch's frame: it goes through the wall as the branch
 * does.
 * @param through what the hole follows, along the branch
 * Undefined where it does not come out into the hollow all around.
 */
export const scribedHole = (through: Solid, outside: Solid, inside: Solid): Hole | undefined => {
  const [near, far] = [solidMate(outside), solidMate(inside)];
  const direction = vec3(0, 0, 1);
  const around = aroundSolid(through);
  const heights = (t: number): readonly [Vec2, readonly (number | undefined)[]] => {
    const p = around.at(t);
    return [p, [near, far].map((mate) => mate.enter({ origin: { ...p, z: 0 }, direction })?.t)];
  };
  const isThrough = Array.from({ length: LOOKS }, (_, i) => heights(i / LOOKS)[1]).every(
    (found) => !found.includes(undefined),
  );
  if (!isThrough) return undefined;
  return {
    at: (t) => {
      const [p, [outer = NaN, inner = NaN]] = heights(t);
      return { outer: { ...p, z: outer }, inner: { ...p, z: inner } };
    },
    joints: around.joints,
  };
};
