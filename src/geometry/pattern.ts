import { TURN, modulo } from './angle-units.ts';
import { fitCurve, reverseLine, straight, type Cubic } from './cubic.ts';
import {
  alongFlat,
  rulingAt,
  splitStretch,
  turningOf,
  type FlatStretch,
  type Stretch,
} from './developable.ts';
import { halve } from './halving.ts';
import { itemAround, itemAt } from '../lists.ts';
import { CURVE_TOLERANCE } from './tolerance.ts';
import { add2, angleBetween, cross2, distance2, polar2, scale2, type Vec2, type Vec3 } from './vector.ts';

/** The two ends of a pattern between its seams, each from left to right; an end that comes to a point has no lines. */
export interface PatternEnds {
  readonly lower: readonly Cubic[];
  readonly upper: readonly Cubic[];
}

/** The ends of stretches laid flat, smooth parts within the curve tolerance, straight parts straight. */
export const traceEnds = (flats: readonly FlatStretch[]): PatternEnds => {
  const trace = (at: (flat: FlatStretch, u: number) => Vec2): readonly Cubic[] =>
    flats.flatMap((flat): readonly Cubic[] => {
      const [from, to] = [at(flat, 0), at(flat, 1)];
      if (flat.kind === 'flat') return distance2(from, to) > 1e-9 ? [straight(from, to)] : [];
      const still = distance2(from, to) < 1e-9 && distance2(from, at(flat, 0.5)) < 1e-9;
      return still ? [] : fitCurve((u) => at(flat, u), 0, 1, CURVE_TOLERANCE);
    });
  return {
    lower: trace((flat, u) => flat.flat(u).foot),
    upper: trace((flat, u) => alongFlat(flat.flat(u))),
  };
};

/** An arc as cubics of at most 15°, each within 3e-9 of the radius. */
export const arcCubics = (centre: Vec2, radius: number, from: number, to: number): readonly Cubic[] => {
  const count = Math.max(1, Math.ceil(Math.abs(to - from) / (Math.PI / 12) - 1e-9));
  const step = (to - from) / count;
  const handle = (4 / 3) * Math.tan(step / 4) * radius;
  const at = (angle: number): Vec2 => add2(centre, polar2(radius, angle));
  return Array.from({ length: count }, (_, i): Cubic => {
    const [a, b] = [from + i * step, i + 1 === count ? to : from + (i + 1) * step];
    return {
      start: at(a),
      c1: add2(at(a), polar2(handle, a + Math.PI / 2)),
      c2: add2(at(b), polar2(-handle, b + Math.PI / 2)),
      end: at(b),
    };
  });
};

/** Area enclosed by cubics end to end, mm², positive counter-clockwise: Green's theorem, exact for Béziers. */
export const cubicsArea = (line: readonly Cubic[]): number =>
  line.reduce((sum, { start: a, c1: b, c2: c, end: d }) => {
    const part = (p: Vec2, q: Vec2, k: number): number => k * cross2(p, q);
    return (
      sum +
      (part(a, b, 6) + part(a, c, 3) + part(a, d, 1) + part(b, c, 3) + part(b, d, 3) + part(c, d, 6)) / 20
    );
  }, 0);

/** The closed outline of a pattern, counter-clockwise: lower end, right seam, upper end back, left seam. */
export const patternOutline = ({ lower, upper }: PatternEnds, apex: Vec2): readonly Cubic[] => {
  const [first, last] = [lower[0], lower[lower.length - 1]];
  if (!first || !last) throw new Error('a pattern needs a lower end');
  const [left, right] = [upper[0]?.start ?? apex, upper[upper.length - 1]?.end ?? apex];
  return [...lower, straight(last.end, right), ...reverseLine(upper), straight(left, first.start)];
};

/** Where a closed run of stretches may be cut: stretch by number, and how far across it. */
interface Place {
  readonly index: number;
  readonly u: number;
}

/**
 * The ruling whose foot lies at a station seen from `centre`, in a run once round; where the foot rests on a corner for a
 * while, the ruling in the middle of that.
 * @param station of a point of the lower outline, radians
 */
const findPlace = (
  stretches: readonly Stretch[],
  station: number,
  stationOf: (foot: Vec3) => number,
): Place => {
  const from = stationOf(rulingAt(itemAt(stretches, 0), 0).foot);
  const wanted = modulo(station - from, TURN);
  /** How far round the foot is, counted from the first ruling; the last ruling counts as a whole turn. */
  const turned = (index: number, u: number): number => {
    const turn = modulo(stationOf(rulingAt(itemAt(stretches, index), u).foot) - from, TURN);
    const late = index > stretches.length / 2 || (stretches.length === 1 && u > 0.5);
    if (turn < 1e-9 && late) return TURN;
    return turn > TURN - 1e-9 && !late ? 0 : turn;
  };
  const search = (reached: (turn: number) => boolean): Place => {
    for (let index = 0; index < stretches.length; index++) {
      if (!reached(turned(index, 1))) continue;
      return { index, u: halve((u) => !reached(turned(index, u)), 0, 1).high };
    }
    return { index: stretches.length - 1, u: 1 };
  };
  const first = search((turn) => turn >= wanted - 1e-9);
  const last = search((turn) => turn > wanted + 1e-9);
  const [a, b] = [first.index + first.u, last.index + last.u];
  // A foot at rest is first reached at the end of one stretch and left at the start of another.
  const middle = (a + b) / 2;
  const index = Math.min(stretches.length - 1, Math.floor(middle));
  return { index, u: middle - index };
};

/** A run once round cut into parts at stations, radians, each part the stretches from one cut to the next. */
export const cutRun = (
  stretches: readonly Stretch[],
  stations: readonly number[],
  stationOf: (foot: Vec3) => number,
): readonly (readonly Stretch[])[] => {
  const places = stations.map((station) => findPlace(stretches, station, stationOf));
  const whole = (u: number): number => (u < 1e-9 ? 0 : u > 1 - 1e-9 ? 1 : u);
  const slice = (from: Place, to: Place): readonly Stretch[] => {
    const count = stretches.length;
    const [a, b] = [from.index + whole(from.u), to.index + whole(to.u)];
    const end = b > a + 1e-9 ? b : b + count;
    const parts: Stretch[] = [];
    for (let k = Math.floor(a); k < end; k++) {
      const stretch = itemAt(stretches, k % count);
      const [low, high] = [Math.max(0, a - k), Math.min(1, end - k)];
      if (high - low < 1e-9) continue;
      const [head] = high < 1 ? splitStretch(stretch, high) : [stretch];
      parts.push(low > 0 ? splitStretch(head, low / high)[1] : head);
    }
    return parts;
  };
  return places.map((place, i) => slice(place, itemAround(places, i + 1)));
};

/** A bend along a ruling. */
export interface RulingBend {
  readonly foot: Vec2;
  readonly head: Vec2;
  /** Bent through, radians. */
  readonly angle: number;
}

const SHARP = 1e-6;

/**
 * The bends of stretches laid flat for a brake: where two flats meet the angle between them; across a curved stretch
 * equal bends, `perCorner` of them in about a quarter turn, each in the middle of its share of the turning.
 */
export const brakeBends = (flats: readonly FlatStretch[], perCorner: number): readonly RulingBend[] =>
  flats.flatMap((flat, i): readonly RulingBend[] => {
    const before = flats[i - 1];
    const angle = before ? angleBetween(before.normal(1), flat.normal(0)) : 0;
    const at = (u: number, turn: number): RulingBend => {
      const ruling = flat.flat(u);
      return { foot: ruling.foot, head: alongFlat(ruling), angle: turn };
    };
    const fold = angle > SHARP ? [at(0, angle)] : [];
    if (flat.kind === 'flat') return fold;
    const turning = turningOf(flat);
    const quarters = turning.total / (Math.PI / 2);
    const count = quarters > 1.2 ? Math.round(perCorner * quarters) : perCorner;
    const equal = Array.from({ length: count }, (_, k) =>
      at(turning.at((k + 0.5) / count), turning.total / count),
    );
    return [...fold, ...equal];
  });

/** The point halfway between two. */
export const halfway = (a: Vec2, b: Vec2): Vec2 => scale2(add2(a, b), 0.5);
