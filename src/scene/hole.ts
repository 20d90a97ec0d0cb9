import { TURN } from '../geometry/angle-units.ts';
import { halve } from '../geometry/halving.ts';
import { itemAt, lastOf } from '../lists.ts';
import type { Opening } from '../geometry/opening.ts';
import { lineUnder } from '../geometry/reach.ts';
import { contourLength, runOf } from '../geometry/section.ts';
import {
  add3,
  length3,
  polar2,
  scale3,
  sub3,
  unit3,
  vec3,
  type Vec2,
  type Vec3,
} from '../geometry/vector.ts';
import type { OpeningGround } from '../joint/bodies/body.ts';
import { solidMate } from '../joint/solid-mate.ts';
import type { Solid } from '../joint/solid.ts';
import { insideAround, turningStretches, unevenStretches } from './corner-wall.ts';
import { HAIR } from './forms/tiles.ts';
import type { Hole, HoleEdges } from './shape.ts';
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

/** A place of an opening's edge: its position, and how far along the line there. */
interface EdgePlace {
  readonly s: number;
  readonly along: number;
}

/** The part of a turn that an end of an opening takes which lies in a straight side. */
const TIP = 0.1;

/** An opening's edge once around for `t` from 0 to 1, from the middle of its upper edge on. */
interface OpeningEdge {
  readonly at: (t: number) => EdgePlace;
  /** Where it may have a corner. */
  readonly joints: readonly number[];
  /** Where its upper and its lower side pass over a position. */
  readonly over: (s: number) => readonly number[];
}

const edgeOf = ({ from, to, lower, upper }: Opening): OpeningEdge => {
  const [right, left] = [to, from].map((s) => (upper(s) - lower(s) > HAIR ? TIP : 0)) as [number, number];
  const quarter = (1 - right - left) / 4;
  const joints = [quarter, quarter + right, 3 * quarter + right, 3 * quarter + right + left];
  const [toRight, offRight, toLeft, offLeft] = joints as [number, number, number, number];
  const round = (turn: number, isUpper: boolean): EdgePlace => {
    const s = (from + to) / 2 + ((to - from) / 2) * Math.sin(TURN * turn);
    return { s, along: isUpper ? upper(s) : lower(s) };
  };
  const tip = (s: number, begin: number, end: number, share: number): EdgePlace => ({
    s,
    along: begin + (end - begin) * share,
  });
  return {
    joints: joints.filter((t, i) => t !== joints[i - 1]),
    over: (s) => {
      const sine = (2 * s - from - to) / (to - from);
      if (Math.abs(sine) >= 1) return [];
      const turn = (4 * quarter * Math.asin(sine)) / TURN;
      return [turn < 0 ? turn + 1 : turn, 2 * quarter + right - turn];
    },
    at: (t) => {
      if (right > 0 && t > toRight && t < offRight)
        return tip(to, upper(to), lower(to), (t - toRight) / right);
      if (left > 0 && t > toLeft && t < offLeft)
        return tip(from, lower(from), upper(from), (t - toLeft) / left);
      const tips = (t >= offRight ? right : 0) + (t >= offLeft ? left : 0);
      return round((t - tips) / (4 * quarter), t <= toRight || t >= offLeft);
    },
  };
};

/**
 * The hole of an opening that is laid out flat, cut square to the outside, in the branch's frame. Around a corner of hollow stock
 * that has no even wall the cut turns from the one side's square to the other's.
 * @param opening as it is traced on the ground
 * @param outside of the body as far as it is drawn
 * @param inside of the body, where it is closed
 * Undefined where the wall is not known, or is not even: over a web, past the body's end.
 */
export const flatHole = (
  ground: OpeningGround,
  opening: Opening,
  { outside, inside }: { readonly outside: Solid; readonly inside: Solid | undefined },
): Hole | undefined => {
  const { skin } = ground;
  if (!(skin.wall > 0)) return undefined;
  const back = wayBack(ground);
  const edge = edgeOf(opening);
  const square = ({ s, along }: EdgePlace): HoleEdges => {
    const layers = skin.layers(s);
    const [outer, inner] = [0, skin.wall].map((depth) => {
      const { origin, direction } = lineUnder(layers, depth);
      return back(add3(origin, scale3(direction, along)));
    }) as [Vec3, Vec3];
    return { outer, inner };
  };
  const [skinOf, hollow] = [solidMate(outside), inside && solidMate(inside)];
  const isEven = (place: EdgePlace): boolean => {
    const { outer, inner } = square(place);
    const inward = { origin: outer, direction: unit3(sub3(inner, outer)) };
    const wall = hollow ? hollow.enter(inward)?.t : (skin.wallAt?.(place.s) ?? skin.wall);
    const isSame = (a: number | undefined, b: number): boolean =>
      a !== undefined && Math.abs(a - b) < EVEN * skin.wall;
    return isSame(skinOf.enter(inward)?.t, 0) && isSame(wall, skin.wall);
  };
  const places = Array.from({ length: LOOKS }, (_, i) => edge.at(i / LOOKS));
  if (places.every(isEven)) return { at: (t) => square(edge.at(t)), joints: edge.joints };
  if (inside?.kind !== 'prism') return undefined;
  return cornerHole(opening, { edge, square, isEven, joints: skin.joints }, inside);
};

/** What a hole in hollow stock is made of where its wall is even. */
interface SquareHole {
  readonly edge: OpeningEdge;
  readonly square: (place: EdgePlace) => HoleEdges;
  readonly isEven: (place: EdgePlace) => boolean;
  /** Positions of the outside's corners. */
  readonly joints: readonly number[];
}

/** A hole around corners of hollow stock; undefined where its wall is not even elsewhere. */
const cornerHole = (
  { from, to, lower, upper }: Opening,
  { edge, square, isEven, joints }: SquareHole,
  inside: Extract<Solid, { kind: 'prism' }>,
): Hole | undefined => {
  const levelAt = (s: number): EdgePlace => {
    const within = Math.min(to, Math.max(from, s));
    return { s, along: (lower(within) + upper(within)) / 2 };
  };
  const aside = (to - from) / 2;
  const corners = turningStretches(
    unevenStretches((s) => isEven(levelAt(s)), { from: from - aside, to: to + aside }),
  ).filter((corner) => corner.to > from && corner.from < to);
  if (corners.some((corner) => !isEven(levelAt(corner.from)) || !isEven(levelAt(corner.to))))
    return undefined;
  const turned = corners.map((corner) => ({
    ...corner,
    inner: insideAround(inside, corner, (s) => square(levelAt(s)).inner),
  }));
  const at: Hole['at'] = (t) => {
    const place = edge.at(t);
    const { outer, inner } = square(place);
    const corner = turned.find(({ from: a, to: b }) => place.s > a && place.s < b);
    return { outer, inner: corner ? corner.inner(place.s, outer) : inner };
  };
  const isTurned = (s: number): boolean => turned.some(({ from: a, to: b }) => s >= a && s <= b);
  const isRight = Array.from({ length: LOOKS }, (_, i) => edge.at(i / LOOKS)).every(
    (place) => isTurned(place.s) || isEven(place),
  );
  if (!isRight) return undefined;
  const turning = corners.flatMap((corner) => [corner.from, corner.to]);
  return { at, joints: [...edge.joints, ...[...joints, ...turning].flatMap(edge.over)] };
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
      return itemAt(runs, i).at(s - itemAt(starts, i)).point;
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

/** A hole in another frame. */
export const placeHole = ({ at, joints }: Hole, place: (p: Vec3) => Vec3): Hole => ({
  at: (t) => {
    const { outer, inner } = at(t);
    return { outer: place(outer), inner: place(inner) };
  },
  joints,
});

/** A hole with what goes through it, so that it can be joined with others. */
export interface LegHole {
  readonly hole: Hole;
  /** True for a place of the body's outside that lies in the hole. */
  readonly covers: (p: Vec3) => boolean;
}

/** A stretch of a hole's edges that lies in no other hole. */
interface Stretch {
  readonly hole: Hole;
  readonly from: number;
  readonly to: number;
}

/** Places around each hole where it is seen whether another one covers it. */
const PLACES = 240;

/** The stretches of a hole's edges outside of others, between places found by halving; all of it where none covers it. */
const freeStretches = ({ hole }: LegHole, others: readonly LegHole[]): readonly Stretch[] => {
  const isFree = (t: number): boolean => {
    const { outer } = hole.at(t);
    return !others.some(({ covers }) => covers(outer));
  };
  const free = Array.from({ length: PLACES }, (_, i) => isFree(i / PLACES));
  if (free.every(Boolean)) return [{ hole, from: 0, to: 1 }];
  const edge = (i: number, starts: boolean): number => {
    const { low, high } = halve((t) => isFree(t) !== starts, i / PLACES, (i + 1) / PLACES, 40);
    return starts ? high : low;
  };
  return free.flatMap((is, i): readonly Stretch[] => {
    if (is || !free[(i + 1) % PLACES]) return [];
    const length = Array.from({ length: PLACES }, (_, k) => free[(i + 1 + k) % PLACES]).indexOf(false);
    return [{ hole, from: edge(i, true), to: edge(i + length, false) }];
  });
};

const endOf = ({ hole, to }: Stretch): Vec3 => hole.at(to % 1).outer;
const startOf = ({ hole, from }: Stretch): Vec3 => hole.at(from % 1).outer;

/** Holes in one body, those that run into each other joined around the outside of all. Their edges must run around the same way. */
export const joinHoles = (legs: readonly LegHole[]): readonly Hole[] => {
  const left = new Set(
    legs.flatMap((leg) =>
      freeStretches(
        leg,
        legs.filter((other) => other !== leg),
      ),
    ),
  );
  const holes: Hole[] = [];
  for (const first of left) {
    if (!left.delete(first)) continue;
    const round = [first];
    for (;;) {
      const end = endOf(lastOf(round));
      const far = (stretch: Stretch): number => length3(sub3(startOf(stretch), end));
      const next = [first, ...left].reduce((best, stretch) => (far(stretch) < far(best) ? stretch : best));
      if (next === first) break;
      left.delete(next);
      round.push(next);
    }
    holes.push(round.length === 1 && first.to - first.from === 1 ? first.hole : chain(round));
  }
  return holes;
};

/** Stretches that follow one another as one hole. */
const chain = (round: readonly Stretch[]): Hole => ({
  at: (t) => {
    const i = Math.min(round.length - 1, Math.floor(t * round.length));
    const { hole, from, to } = itemAt(round, i);
    return hole.at((from + (to - from) * (t * round.length - i)) % 1);
  },
  joints: round.flatMap(({ hole, from, to }, i) => [
    i / round.length,
    ...hole.joints.flatMap((t) => {
      const turn = t < from ? t + 1 : t;
      return turn < to ? [(i + (turn - from) / (to - from)) / round.length] : [];
    }),
  ]),
});
