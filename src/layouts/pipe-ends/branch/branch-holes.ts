import { halve } from '../../../geometry/halving.ts';
import { SAME_LENGTH } from '../../../geometry/tolerance.ts';
import { add3, dot3, length3, scale3, sub3, vec3, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import type { Body, DrawnBody, OpeningGround } from '../../../joint/bodies/body.ts';
import { solidMate } from '../../../joint/solid-mate.ts';
import type { Solid } from '../../../joint/solid.ts';
import { flatHole, scribedHole } from '../../../scene/hole.ts';
import type { Hole } from '../../../scene/shape.ts';
import { sketchedInside } from '../../../scene/solid-shape.ts';
import { positionOf, traceBetween, traceOpeningOn, type OpeningAsk } from '../../../sheets/opening-sheet.ts';
import { withinStock, type Stock } from '../../../stock/stock.ts';

/** Along the branch, out of its cut end. */
const AHEAD = vec3(0, 0, 1);

/** A body as it is drawn with the hole that is cut in it. */
export interface SeenBody extends Pick<Body, 'view' | 'words' | 'designation'> {
  readonly hole: Hole | undefined;
  /** What its hole follows, in the branch's frame. */
  readonly through?: Solid;
  /** True where its wall is not known and drawn as it may be. */
  readonly sketched: boolean;
}

/** What an opening follows through a body. */
export const openingAsk = (branch: Stock, through: Solid, clears: boolean, outside: Solid): OpeningAsk => {
  const origin = { ...withinStock(branch), z: 0 };
  const hit = solidMate(outside).enter({ origin, direction: AHEAD });
  return { through, clears, pierce: vec3(origin.x, origin.y, hit?.t ?? 0) };
};

/** A body without a hole. */
export const wholeBody = (body: Body): SeenBody => ({ ...body, hole: undefined, sketched: false });

/**
 * A body with the hole that an opening asks for in it alone; whole where it is not known how deep that goes.
 * @throws UserError where the opening runs past the side
 */
export const openedBody = (body: Body, ask: OpeningAsk): SeenBody =>
  typeof body.opening === 'string'
    ? scribedBody(body, ask)
    : flatBody(body, body.opening(0), (ground) => traceOpeningOn(ground, ask));

/**
 * A body among several with the hole that a branch's bore cuts where it meets it. It may meet a part of it: there the hole ends
 * at the side of what faces the branch.
 */
export const openedAmong = (body: Body, { branch, through, clears }: AmongAsk): SeenBody => {
  const pierce = pierceOf(branch, body.outside);
  if (!pierce) return wholeBody(body);
  const ask = { through, clears, pierce };
  const seen =
    typeof body.opening === 'string'
      ? scribedBody(body, ask)
      : flatBody(body, body.opening(0), (ground) => traceBetween(ground, ask, facingOf(ground, pierce)));
  return { ...seen, through };
};

/** What is cut in each of several bodies. */
export interface AmongAsk extends Pick<OpeningAsk, 'through' | 'clears'> {
  readonly branch: Stock;
}

const flatBody = (
  body: Body,
  ground: OpeningGround,
  trace: (ground: OpeningGround) => ReturnType<typeof traceOpeningOn>,
): SeenBody => {
  const sides = { outside: body.view.drawn.outside, inside: body.inside };
  return { ...body, hole: flatHole(ground, trace(ground), sides), sketched: false };
};

const scribedBody = (body: Body, { through }: OpeningAsk): SeenBody => {
  const { outside } = body;
  const inside = body.inside ?? sketchedInside(outside);
  const hole = inside && scribedHole(through, outside, inside);
  if (!hole || body.inside) return { ...body, hole, sketched: false };
  const drawn: DrawnBody = { ...body.view.drawn, inside };
  return { ...body, view: { ...body.view, drawn }, hole, sketched: true };
};

/** Rings of lines along a branch that are looked at, and lines in each. */
const RINGS = 12;
const LINES = 48;

/** Where one of the lines within a branch that meet a body does so, in the middle of them all. */
const pierceOf = (branch: Stock, outside: Solid): Vec3 | undefined => {
  const mate = solidMate(outside);
  const { outline } = branch;
  const middle = withinStock(branch);
  const meet = ({ x, y }: Vec2): readonly Vec3[] => {
    const hit = mate.enter({ origin: vec3(x, y, 0), direction: AHEAD });
    return hit ? [vec3(x, y, hit.t)] : [];
  };
  const [axis] = meet(middle);
  if (axis) return axis;
  const met = Array.from({ length: RINGS * LINES }, (_, i) => {
    const edge = outline.at((outline.girth * (i % LINES)) / LINES, outline.wall);
    const share = Math.ceil((i + 1) / LINES) / RINGS;
    return meet({ x: middle.x + (edge.x - middle.x) * share, y: middle.y + (edge.y - middle.y) * share });
  }).flat();
  if (met.length === 0) return undefined;
  const mean = scale3(met.reduce(add3), 1 / met.length);
  const far = (p: Vec3): number => length3(sub3(p, mean));
  return met.reduce((best, p) => (far(p) < far(best) ? p : best));
};

/** Places at which a ground is looked at on the way to its side. */
const STEPS = 400;

/** From where to where around a place a ground looks toward the branch. */
const facingOf = (ground: OpeningGround, pierce: Vec3): readonly [number, number] => {
  const { skin, facing, local } = ground;
  const ahead = local.direction(AHEAD);
  const faces = (s: number): boolean => dot3(skin.layers(s).inward, ahead) > SAME_LENGTH;
  const begin = positionOf(ground, local.point(pierce));
  const sideToward = (limit: number): number => {
    const step = (limit - begin) / STEPS;
    const first = Array.from({ length: STEPS }, (_, i) => begin + (i + 1) * step).findIndex((s) => !faces(s));
    if (first < 0) return limit;
    return halve(faces, begin + first * step, begin + (first + 1) * step).low;
  };
  return [sideToward(facing[0]), sideToward(facing[1])];
};
