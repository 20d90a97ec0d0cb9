import { TURN, modulo } from './angle-units.ts';
import type { MovingRuling, Stretch } from './developable.ts';
import { itemAt, lastOf } from '../lists.ts';
import { arcPoint, edgeEnds, type Profile, type ProfileEdge } from './profile.ts';
import {
  add3,
  cross2,
  cross3,
  dot3,
  length3,
  scale2,
  scale3,
  sub2,
  sub3,
  unit3,
  vec2,
  vec3,
  type Vec2,
  type Vec3,
} from './vector.ts';

/**
 * The developable hull of two convex profiles: what a sheet pulled tight round both would be. A plane that touches both
 * profiles touches the sheet along the ruling between its two touching points, so their tangents meet in one plane.
 */

/** The plane a profile lies in: `x` and `y` are square unit directions, x × y points from the lower profile to the upper. */
export interface ProfilePlane {
  readonly origin: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
}

export interface PlacedProfile {
  readonly profile: Profile;
  readonly plane: ProfilePlane;
}

/** Why two profiles have no developable hull that joins them: `flat` both in one plane, `cross` a profile reaches through the other's plane. */
export class HullError extends Error {
  readonly why: 'flat' | 'cross';
  /** The profile that the other's plane cuts. */
  readonly which: 'lower' | 'upper';
  constructor(why: 'flat' | 'cross', which: 'lower' | 'upper') {
    super(
      why === 'flat' ? 'both profiles lie in one plane' : `the ${which} profile crosses the other's plane`,
    );
    this.name = 'HullError';
    this.why = why;
    this.which = which;
  }
}

/** Turns nearer than this are one turn, radians: what rounding leaves of parallel sides. */
const SAME_TURN = 1e-9;
/** Planes that meet under less than this are parallel, radians. */
const PARALLEL = 1e-12;

/**
 * The line in which the profiles' planes meet, as both see it: planes that touch both profiles cross it in one point, so
 * tangents that meet on it belong together. A projection that moves the line away to infinity makes such tangents
 * parallel and keeps convex outlines convex: there, `turn` is the direction of a tangent.
 */
interface Picture {
  /** Level with the profile's center; x counts from the same point of the line for both. */
  readonly origin: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  /** Distance that scales the projection, mm; infinite where the planes are parallel. */
  readonly scale: number;
  /** The origin's distance from the line, in scales. */
  readonly level: number;
}

/** A side of a profile in its picture: x along the common line, y square to it. */
type Side =
  { readonly kind: 'line'; readonly from: Vec2; readonly to: Vec2 } | Extract<ProfileEdge, { kind: 'arc' }>;

/** Direction in which the projection carries a step `v` at the point `p`. */
const project = (p: Vec2, v: Vec2, { scale, level }: Picture): Vec2 =>
  scale === Infinity ? v : vec2(level * v.x - cross2(p, v) / scale, v.y);

const angleOf = (v: Vec2): number => Math.atan2(v.y, v.x);

const arcStep = ({ p, q }: Extract<Side, { kind: 'arc' }>, t: number): Vec2 =>
  vec2(q.x * Math.cos(t) - p.x * Math.sin(t), q.y * Math.cos(t) - p.y * Math.sin(t));

/** The direction of a projected arc at angle t is (x, y), each of the form a + b cos t + c sin t. */
const arcForm = ({ centre, p, q }: Extract<Side, { kind: 'arc' }>, { scale, level }: Picture) => {
  const x =
    scale === Infinity
      ? ([0, q.x, -p.x] as const)
      : ([
          -cross2(p, q) / scale,
          level * q.x - cross2(centre, q) / scale,
          cross2(centre, p) / scale - level * p.x,
        ] as const);
  return { x, y: [0, q.y, -p.y] as const };
};

/** Where an arc's projected tangent has the direction `turn`, and how fast that place moves with it. */
const arcAtTurn = (side: Extract<Side, { kind: 'arc' }>, picture: Picture, turn: number) => {
  const { x, y } = arcForm(side, picture);
  const [s, c] = [Math.sin(turn), Math.cos(turn)];
  // x sin(turn) = y cos(turn): one equation in cos t and sin t with two roots, one for each sense of the tangent.
  const [still, cosine, sine] = [0, 1, 2].map((i) => itemAt(x, i) * s - itemAt(y, i) * c) as [
    number,
    number,
    number,
  ];
  const reach = Math.acos(Math.min(1, Math.max(-1, -still / Math.hypot(cosine, sine))));
  const lean = Math.atan2(sine, cosine);
  const length = (t: number): number => {
    const at = (f: readonly [number, number, number]): number =>
      f[0] + f[1] * Math.cos(t) + f[2] * Math.sin(t);
    return at(x) * c + at(y) * s;
  };
  const t = length(lean + reach) > length(lean - reach) ? lean + reach : lean - reach;
  const slope = sine * Math.cos(t) - cosine * Math.sin(t);
  return { t, rate: -length(t) / slope };
};

/** What a profile shows to a tangent that turns once round it: arcs, corners it pivots on, and sides it meets whole. */
type Feature =
  | {
      readonly kind: 'arc';
      readonly side: Extract<Side, { kind: 'arc' }>;
      readonly from: number;
      readonly to: number;
    }
  | { readonly kind: 'corner'; readonly at: Vec2; readonly from: number; readonly to: number };

interface Round {
  readonly picture: Picture;
  readonly features: readonly Feature[];
  readonly lines: readonly { readonly turn: number; readonly from: Vec2; readonly to: Vec2 }[];
}

const inPicture = ({ profile, plane }: PlacedProfile, picture: Picture): readonly Side[] => {
  const direction = (v: Vec2): Vec2 => {
    const space = add3(scale3(plane.x, v.x), scale3(plane.y, v.y));
    return vec2(dot3(space, picture.x), dot3(space, picture.y));
  };
  const origin = sub3(plane.origin, picture.origin);
  const base = vec2(dot3(origin, picture.x), dot3(origin, picture.y));
  const place = (p: Vec2): Vec2 => {
    const d = direction(p);
    return vec2(base.x + d.x, base.y + d.y);
  };
  const sides = profile.edges.map((edge): Side =>
    edge.kind === 'line'
      ? { kind: 'line', from: place(edge.from), to: place(edge.to) }
      : { ...edge, centre: place(edge.centre), p: direction(edge.p), q: direction(edge.q) },
  );
  const mirrored = cross2(direction(vec2(1, 0)), direction(vec2(0, 1))) < 0;
  if (!mirrored) return sides;
  // Seen from the other side the profile runs clockwise: its sides are run backward.
  return [...sides]
    .reverse()
    .map((side) =>
      side.kind === 'line'
        ? { kind: 'line', from: side.to, to: side.from }
        : { ...side, q: scale2(side.q, -1), start: -(side.start + side.sweep) },
    );
};

const roundOf = (placed: PlacedProfile, picture: Picture): Round => {
  const sides = inPicture(placed, picture);
  if (sides.length === 0) {
    const d = sub3(placePoint(placed.plane, placed.profile.at), picture.origin);
    const at = vec2(dot3(d, picture.x), dot3(d, picture.y));
    return { picture, features: [{ kind: 'corner', at, from: 0, to: TURN }], lines: [] };
  }
  const turnAt = (side: Side, end: 0 | 1): number => {
    if (side.kind === 'line')
      return angleOf(project(end === 0 ? side.from : side.to, sub2(side.to, side.from), picture));
    const t = side.start + end * side.sweep;
    return angleOf(project(arcPoint(side, t), arcStep(side, t), picture));
  };
  const features: Feature[] = [];
  const lines: { turn: number; from: Vec2; to: Vec2 }[] = [];
  const last = lastOf(sides);
  let turn = turnAt(last, 1);
  for (const side of sides) {
    const [at] = edgeEnds(side);
    // The tangent pivots on the corner before this side; rounding of a smooth joint is no corner.
    const pivot = modulo(turnAt(side, 0) - turn + Math.PI, TURN) - Math.PI;
    if (pivot > SAME_TURN) features.push({ kind: 'corner', at, from: turn, to: turn + pivot });
    turn += Math.max(0, pivot);
    if (side.kind === 'line') lines.push({ turn, from: side.from, to: side.to });
    else {
      const swing = modulo(turnAt(side, 1) - turnAt(side, 0), TURN);
      const whole = side.sweep > TURN - SAME_TURN ? TURN : swing;
      features.push({ kind: 'arc', side, from: turn, to: turn + whole });
      turn += whole;
    }
  }
  return { picture, features, lines };
};

const placePoint = ({ origin, x, y }: ProfilePlane, p: Vec2): Vec3 =>
  add3(origin, add3(scale3(x, p.x), scale3(y, p.y)));

/** The common line and the two pictures, or a reason why there is none. */
const makePictures = (lower: PlacedProfile, upper: PlacedProfile): readonly [Picture, Picture] => {
  const [a, b] = [cross3(lower.plane.x, lower.plane.y), cross3(upper.plane.x, upper.plane.y)];
  const [centreA, centreB] = [
    placePoint(lower.plane, lower.profile.at),
    placePoint(upper.plane, upper.profile.at),
  ];
  const between = sub3(centreB, centreA);
  const along = cross3(a, b);
  if (length3(along) < PARALLEL) {
    if (Math.abs(dot3(between, a)) < 1e-9 * (1 + length3(between))) throw new HullError('flat', 'upper');
    const flat = { x: lower.plane.x, y: lower.plane.y, scale: Infinity, level: 1 };
    return [
      { ...flat, origin: centreA },
      { ...flat, origin: centreB },
    ];
  }
  const e = unit3(along);
  /** From the line square to it toward a center, within the center's plane, and how far that is. */
  const towards = (normal: Vec3, rise: number, otherNormal: Vec3) => {
    const inward = cross3(normal, e);
    const sign = Math.sign(rise * dot3(inward, otherNormal)) || 1;
    return { y: scale3(inward, sign), distance: Math.abs(rise) / length3(along) };
  };
  const fromA = towards(a, -dot3(between, b), b);
  const fromB = towards(b, dot3(between, a), a);
  // Counter-clockwise about the lower plane's own normal.
  const x = dot3(cross3(e, fromA.y), a) > 0 ? e : scale3(e, -1);
  const scale = (fromA.distance + fromB.distance) / 2;
  return [
    { origin: centreA, x, y: fromA.y, scale, level: fromA.distance / scale },
    {
      origin: sub3(centreB, scale3(x, dot3(between, x))),
      x,
      y: fromB.y,
      scale,
      level: fromB.distance / scale,
    },
  ];
};

/** Throws where a profile reaches to the common line: it then lies on both sides of the other's plane. */
const checkClear = (placed: PlacedProfile, picture: Picture, which: 'lower' | 'upper'): void => {
  if (picture.scale === Infinity) return;
  const sides = inPicture(placed, picture);
  const lows = sides.map((side) => {
    const ends = edgeEnds(side).map(({ y }) => y);
    if (side.kind === 'line') return Math.min(...ends);
    const bottom = Math.atan2(-side.q.y, -side.p.y);
    const inside = modulo(bottom - side.start, TURN) <= side.sweep;
    return inside ? side.centre.y - Math.hypot(side.p.y, side.q.y) : Math.min(...ends);
  });
  const own = dot3(sub3(placePoint(placed.plane, placed.profile.at), picture.origin), picture.y);
  if (Math.min(own, ...lows) + picture.level * picture.scale <= 1e-6 * picture.scale)
    throw new HullError('cross', which);
};

const inSpace = ({ origin, x, y }: Picture, p: Vec2): Vec3 =>
  add3(origin, add3(scale3(x, p.x), scale3(y, p.y)));

const ZERO = vec3(0, 0, 0);

/** The point of a feature where the tangent has a turn, with its rate. */
const follow = ({ picture }: Round, feature: Feature, turn: number): { at: Vec3; rate: Vec3 } => {
  if (feature.kind === 'corner') return { at: inSpace(picture, feature.at), rate: ZERO };
  const { t, rate } = arcAtTurn(feature.side, picture, turn);
  const step = scale2(arcStep(feature.side, t), rate);
  return {
    at: inSpace(picture, arcPoint(feature.side, t)),
    rate: add3(scale3(picture.x, step.x), scale3(picture.y, step.y)),
  };
};

const covering = ({ features }: Round, turn: number): Feature => {
  const found = features.find(({ from, to }) => modulo(turn - from, TURN) < to - from);
  if (!found) throw new Error('the profile is not convex or not closed');
  return found;
};

/**
 * The stretches of the hull, once round, beginning where the tangent of both profiles points along the lower one's
 * picture axis. Corners give flat triangles and cones, smooth parts curved stretches; all are exact.
 * @throws HullError where the profiles cross or lie in one plane
 */
export const developableHull = (lower: PlacedProfile, upper: PlacedProfile): readonly Stretch[] => {
  const [pictureA, pictureB] = makePictures(lower, upper);
  checkClear(lower, pictureA, 'lower');
  checkClear(upper, pictureB, 'upper');
  const [a, b] = [roundOf(lower, pictureA), roundOf(upper, pictureB)];
  const turns = [a, b]
    .flatMap(({ features, lines }) => [
      ...features.flatMap(({ from, to }) => (to - from >= TURN - SAME_TURN ? [] : [from, to])),
      ...lines.map(({ turn }) => turn),
    ])
    .map((turn) => modulo(turn, TURN))
    .sort((x, y) => x - y)
    .filter((turn, i, all) => i === 0 || turn - itemAt(all, i - 1) > SAME_TURN);
  const first = turns[0] ?? 0;
  const last = turns[turns.length - 1];
  if (last !== undefined && turns.length > 1 && first + TURN - last < SAME_TURN) turns.pop();
  const stops = turns.length > 0 ? turns : [0];
  return stops.flatMap((from, i): readonly Stretch[] => {
    const to = stops[i + 1] ?? first + TURN;
    const middle = (from + to) / 2;
    const [onA, onB] = [covering(a, middle), covering(b, middle)];
    const curved: Stretch = {
      kind: 'curved',
      from,
      to,
      at: (turn): MovingRuling => {
        const [foot, head] = [follow(a, onA, turn), follow(b, onB, turn)];
        return { foot: foot.at, head: head.at, footRate: foot.rate, headRate: head.rate };
      },
    };
    const moves = onA.kind === 'arc' || onB.kind === 'arc';
    return [...flatsAt(a, b, from, onA, onB), ...(moves ? [curved] : [])];
  });
};

/** The flat stretch where the tangent meets a whole side of one profile or of both, before the features that follow. */
const flatsAt = (a: Round, b: Round, turn: number, onA: Feature, onB: Feature): readonly Stretch[] => {
  const lineOf = ({ lines }: Round) =>
    lines.filter((line) => Math.abs(modulo(line.turn - turn + Math.PI, TURN) - Math.PI) <= 2 * SAME_TURN);
  const [linesA, linesB] = [lineOf(a), lineOf(b)];
  const [startA, endA] = [linesA[0], linesA[linesA.length - 1]];
  const [startB, endB] = [linesB[0], linesB[linesB.length - 1]];
  if (!startA && !startB) return [];
  const ends = (
    round: Round,
    feature: Feature,
    start: { readonly from: Vec2 } | undefined,
    end: { readonly to: Vec2 } | undefined,
  ): readonly [Vec3, Vec3] =>
    start && end
      ? [inSpace(round.picture, start.from), inSpace(round.picture, end.to)]
      : [follow(round, feature, turn).at, follow(round, feature, turn).at];
  const [feet, heads] = [ends(a, onA, startA, endA), ends(b, onB, startB, endB)];
  return [{ kind: 'flat', start: { foot: feet[0], head: heads[0] }, end: { foot: feet[1], head: heads[1] } }];
};
