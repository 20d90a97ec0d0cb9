import { itemAt } from '../lists.ts';
import { runningIntegral } from './series.ts';
import {
  add2,
  add3,
  angleBetween,
  cross3,
  dot3,
  length3,
  polar2,
  scale2,
  scale3,
  sub2,
  sub3,
  unit3,
  vec2,
  type Vec2,
  type Vec3,
} from './vector.ts';

/** A straight line of a developable surface, from its foot on the lower outline to its head on the upper one, mm. */
export interface Ruling {
  readonly foot: Vec3;
  readonly head: Vec3;
}

/** A ruling that moves, with the rates at which its ends move. */
export interface MovingRuling extends Ruling {
  readonly footRate: Vec3;
  readonly headRate: Vec3;
}

/**
 * A stretch of a developable surface between two rulings. Seen from outside with the foot below, it runs to the right.
 * A flat stretch is a triangle or a quadrilateral; a curved one is smooth, and along each of its rulings one plane
 * touches it (`at` promises that: footRate, headRate and the ruling lie in one plane).
 */
export type Stretch =
  | { readonly kind: 'flat'; readonly start: Ruling; readonly end: Ruling }
  | {
      readonly kind: 'curved';
      readonly from: number;
      readonly to: number;
      readonly at: (t: number) => MovingRuling;
    };

/** A ruling laid flat: where its foot lies, its direction (radians from +x) and its true length. */
export interface FlatRuling {
  readonly foot: Vec2;
  readonly angle: number;
  readonly length: number;
}

/** A stretch laid flat. `u` runs from 0 to 1 across it. */
export interface FlatStretch {
  readonly kind: Stretch['kind'];
  /** The ruling in space. */
  readonly space: (u: number) => Ruling;
  readonly flat: (u: number) => FlatRuling;
  /** Outward unit normal of the surface along the ruling. */
  readonly normal: (u: number) => Vec3;
}

const mix = (a: Vec3, b: Vec3, u: number): Vec3 => add3(scale3(a, 1 - u), scale3(b, u));

/** The ruling a part `u` of the way across a stretch. */
export const rulingAt = (stretch: Stretch, u: number): Ruling => {
  if (stretch.kind === 'curved') {
    const { foot, head } = stretch.at(stretch.from + u * (stretch.to - stretch.from));
    return { foot, head };
  }
  const { start, end } = stretch;
  return { foot: mix(start.foot, end.foot, u), head: mix(start.head, end.head, u) };
};

/** The two parts of a stretch cut along a ruling. */
export const splitStretch = (stretch: Stretch, u: number): readonly [Stretch, Stretch] => {
  if (stretch.kind === 'curved') {
    const middle = stretch.from + u * (stretch.to - stretch.from);
    return [
      { ...stretch, to: middle },
      { ...stretch, from: middle },
    ];
  }
  const middle = rulingAt(stretch, u);
  return [
    { ...stretch, end: middle },
    { ...stretch, start: middle },
  ];
};

/** Head of a flat ruling, or the point at another distance along it. */
export const alongFlat = ({ foot, angle, length }: FlatRuling, distance = length): Vec2 =>
  add2(foot, polar2(distance, angle));

const direction = ({ foot, head }: Ruling): Vec3 => unit3(sub3(head, foot));

/** Outward normal where the ruling's ends move by `step` in the surface, to the right. */
const outward = (ruling: Ruling, step: Vec3): Vec3 => unit3(cross3(step, direction(ruling)));

const layFlat = (stretch: Extract<Stretch, { kind: 'flat' }>, first: FlatRuling): FlatStretch => {
  const { start, end } = stretch;
  const step = add3(sub3(end.foot, start.foot), sub3(end.head, start.head));
  const [along, normal] = [direction(start), outward(start, step)];
  const right = cross3(along, normal);
  const [up, across] = [polar2(1, first.angle), polar2(1, first.angle - Math.PI / 2)];
  const place = (p: Vec3): Vec2 => {
    const d = sub3(p, start.foot);
    return add2(first.foot, add2(scale2(up, dot3(d, along)), scale2(across, dot3(d, right))));
  };
  const [foot, head] = [place(end.foot), place(end.head)];
  const flat = (u: number): FlatRuling => {
    if (u === 0) return first;
    const at = add2(scale2(first.foot, 1 - u), scale2(foot, u));
    const reach = sub2(add2(scale2(alongFlat(first), 1 - u), scale2(head, u)), at);
    // Turned from the first ruling, so that the angle never jumps by a full turn.
    const turn = Math.atan2(up.x * reach.y - up.y * reach.x, up.x * reach.x + up.y * reach.y);
    return { foot: at, angle: first.angle + turn, length: Math.hypot(reach.x, reach.y) };
  };
  return { kind: 'flat', space: (u) => rulingAt(stretch, u), flat, normal: () => normal };
};

/**
 * Lays a curved stretch flat: in the surface a ruling of direction d, with r to its right, turns clockwise by d'·r and its
 * foot moves by (foot'·d, foot'·r); the plane keeps both (lengths and angles of a surface laid flat stay, Gauss).
 */
const layCurved = (stretch: Extract<Stretch, { kind: 'curved' }>, first: FlatRuling): FlatStretch => {
  const { from, to, at } = stretch;
  const frame = (t: number) => {
    const moving = at(t);
    const along = direction(moving);
    const normal = outward(moving, add3(moving.footRate, moving.headRate));
    return { moving, along, normal, right: cross3(along, normal) };
  };
  const turning = runningIntegral(
    (t) => {
      const { moving, right } = frame(t);
      const rate = sub3(moving.headRate, moving.footRate);
      return [-dot3(rate, right) / length3(sub3(moving.head, moving.foot))];
    },
    from,
    to,
  );
  const angleAt = (t: number): number => first.angle + itemAt(turning.at(t), 0);
  const walk = runningIntegral(
    (t) => {
      const { moving, along, right } = frame(t);
      const angle = angleAt(t);
      const [up, across] = [polar2(1, angle), polar2(1, angle - Math.PI / 2)];
      const step = add2(
        scale2(up, dot3(moving.footRate, along)),
        scale2(across, dot3(moving.footRate, right)),
      );
      return [step.x, step.y];
    },
    from,
    to,
  );
  const place = (u: number): number => from + u * (to - from);
  return {
    kind: 'curved',
    space: (u) => rulingAt(stretch, u),
    normal: (u) => frame(place(u)).normal,
    flat: (u) => {
      if (u === 0) return first;
      const t = place(u);
      const [x, y] = walk.at(t) as [number, number];
      const { foot, head } = at(t);
      return { foot: add2(first.foot, vec2(x, y)), angle: angleAt(t), length: length3(sub3(head, foot)) };
    },
  };
};

/**
 * Lays a run of stretches flat by true lengths, seen from outside, each beginning on the ruling where the one before it
 * ends; the first ruling has its foot at the origin and stands at `angle` from +x.
 */
export const layDevelopable = (
  stretches: readonly Stretch[],
  angle = Math.PI / 2,
): readonly FlatStretch[] => {
  const start = stretches[0];
  if (!start) return [];
  const { foot, head } = rulingAt(start, 0);
  let ruling: FlatRuling = { foot: vec2(0, 0), angle, length: length3(sub3(head, foot)) };
  return stretches.map((stretch) => {
    const laid = stretch.kind === 'flat' ? layFlat(stretch, ruling) : layCurved(stretch, ruling);
    ruling = laid.flat(1);
    return laid;
  });
};

/** The same, turned so that the first and the last ruling lean alike to either side of upright. */
export const layUpright = (stretches: readonly Stretch[]): readonly FlatStretch[] => {
  const laid = layDevelopable(stretches);
  const last = laid[laid.length - 1];
  return last ? layDevelopable(stretches, (3 * Math.PI) / 4 - last.flat(1).angle / 2) : laid;
};

const TURN_SAMPLES = 64;

/** How far the surface turns across a stretch, in all and up to `u`, radians: what a roll or a brake must bend in. */
export const turningOf = (
  stretch: FlatStretch,
): { readonly total: number; readonly at: (share: number) => number } => {
  if (stretch.kind === 'flat') return { total: 0, at: () => 0.5 };
  const sums = [0];
  for (let i = 1; i <= TURN_SAMPLES; i++)
    sums.push(
      itemAt(sums, i - 1) +
        angleBetween(stretch.normal((i - 1) / TURN_SAMPLES), stretch.normal(i / TURN_SAMPLES)),
    );
  const total = itemAt(sums, TURN_SAMPLES);
  return {
    total,
    at: (share) => {
      const wanted = share * total;
      const i = Math.min(TURN_SAMPLES - 1, Math.max(0, sums.findIndex((sum) => sum > wanted) - 1));
      const [low, high] = [itemAt(sums, i), itemAt(sums, i + 1)];
      return (i + (high > low ? (wanted - low) / (high - low) : 0)) / TURN_SAMPLES;
    },
  };
};
