import { itemAt, lastOf, realAt } from '../lists.ts';
import { add2, distance2, length2, scale2, sub2, unit2, type Vec2 } from './vector.ts';

/** A cubic Bézier. */
export interface Cubic {
  readonly start: Vec2;
  readonly c1: Vec2;
  readonly c2: Vec2;
  readonly end: Vec2;
}

/** The point of a cubic at parameter u in [0, 1]. */
export const cubicAt = ({ start, c1, c2, end }: Cubic, u: number): Vec2 => {
  const v = 1 - u;
  const [a, b, c, d] = [v * v * v, 3 * v * v * u, 3 * v * u * u, u * u * u];
  return {
    x: a * start.x + b * c1.x + c * c2.x + d * end.x,
    y: a * start.y + b * c1.y + c * c2.y + d * end.y,
  };
};

const SAMPLES = 20;
const ROUNDS = 7;
/** A fit this close needs no more rounds, mm. */
const ENOUGH = 1e-5;
/** Nor does one whose error changes by less than this part of itself. */
const SETTLED = 1e-4;
const NARROWEST = 1e-7;
/** One part in this many of a curve is looked at to see whether it sets out abruptly. */
const ABRUPT = 1000;

/**
 * Direction of a smooth parametric curve at one end of [from, to]: the directions of three short chords, carried on to
 * length zero. Chords, not differences, so that it also holds where the parameter comes to rest at the end.
 */
const endDirection = (curve: (t: number) => Vec2, from: number, to: number): Vec2 => {
  const h = (to - from) / 400;
  const start = curve(from);
  const chords = [1, 2, 3].map((k) => sub2(curve(from + k * h), start));
  if (chords.some((chord) => length2(chord) === 0)) return { x: Math.sign(to - from), y: 0 };
  const [a, b, c] = chords.map(unit2) as [Vec2, Vec2, Vec2];
  return unit2({ x: 3 * a.x - 3 * b.x + c.x, y: 3 * a.y - 3 * b.y + c.y });
};

interface Fitted {
  readonly cubic: Cubic;
  readonly error: number;
}

/** Samples of a stretch laid out as plain numbers: fitting goes over them hundreds of times. */
interface Samples {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /** Where on the cubic each sample is nearest, 0 to 1. */
  readonly params: Float64Array;
}

/** A coordinate of a cubic as a polynomial, highest power first: 3c1 − 3c2 and so on (Bernstein to power form). */
const powers = (a: number, b: number, c: number, d: number): readonly [number, number, number, number] => [
  d - a + 3 * (b - c),
  3 * (a - 2 * b + c),
  3 * (b - a),
  a,
];

/** What one round of the fit finds: how far the samples are off, and the sums of its normal equations. */
interface Round {
  readonly error: number;
  readonly aa: number;
  readonly ab: number;
  readonly bb: number;
  readonly ra: number;
  readonly rb: number;
}

/**
 * Moves each sample's parameter to its foot on the cubic (two Newton steps; ends stay), then sums the samples' distances square
 * to the curve and how they change with the two handles, which point along `out` and `into`.
 */
const measureRound = ({ start, c1, c2, end }: Cubic, samples: Samples, out: Vec2, into: Vec2): Round => {
  const { xs, ys, params } = samples;
  const [ax, bx, cx, dx] = powers(start.x, c1.x, c2.x, end.x);
  const [ay, by, cy, dy] = powers(start.y, c1.y, c2.y, end.y);
  let farthest = 0;
  let [aa, ab, bb, ra, rb] = [0, 0, 0, 0, 0];
  for (let i = 1; i < xs.length - 1; i++) {
    const [x, y] = [realAt(xs, i), realAt(ys, i)];
    let u = realAt(params, i);
    let gapX: number;
    let gapY: number;
    let slopeX: number;
    let slopeY: number;
    for (let step = 0; ; step++) {
      gapX = ((ax * u + bx) * u + cx) * u + dx - x;
      gapY = ((ay * u + by) * u + cy) * u + dy - y;
      slopeX = (3 * ax * u + 2 * bx) * u + cx;
      slopeY = (3 * ay * u + 2 * by) * u + cy;
      if (step === 2) break;
      const size = slopeX * slopeX + slopeY * slopeY;
      if (size > 0) u -= (gapX * slopeX + gapY * slopeY) / size;
      u = u < 0 ? 0 : u > 1 ? 1 : u;
    }
    params[i] = u;
    const square = gapX * gapX + gapY * gapY;
    if (square > farthest) farthest = square;
    const speed = Math.sqrt(slopeX * slopeX + slopeY * slopeY) || 1;
    const [leftX, leftY] = [-slopeY / speed, slopeX / speed];
    const v = 1 - u;
    const r = leftX * gapX + leftY * gapY;
    const a = 3 * v * v * u * (leftX * out.x + leftY * out.y);
    const b = 3 * v * u * u * (leftX * into.x + leftY * into.y);
    aa += a * a;
    ab += a * b;
    bb += b * b;
    ra += a * r;
    rb += b * r;
  }
  return { error: Math.sqrt(farthest), aa, ab, bb, ra, rb };
};

/**
 * The cubic with the given end directions that lies closest to the samples, and how far it strays from them, mm:
 * Gauss-Newton on the two handle lengths, with each sample's distance square to the curve as its residual.
 */
const fitSamples = (points: readonly Vec2[], out: Vec2, into: Vec2): Fitted => {
  const start = itemAt(points, 0);
  const end = lastOf(points);
  const count = points.length;
  const samples = {
    xs: new Float64Array(count),
    ys: new Float64Array(count),
    params: new Float64Array(count),
  };
  const { xs, ys, params } = samples;
  let total = 0;
  for (let i = 0; i < count; i++) {
    const point = itemAt(points, i);
    if (i > 0) total += distance2(point, itemAt(points, i - 1));
    xs[i] = point.x;
    ys[i] = point.y;
    params[i] = total;
  }
  if (total === 0) return { cubic: { start, c1: start, c2: end, end }, error: 0 };
  for (let i = 0; i < count; i++) params[i] = realAt(params, i) / total;
  const clamp = (length: number): number => Math.min(3 * total, Math.max(0.02 * total, length));
  let handles = { x: total / 3, y: total / 3 };
  let best: Fitted | undefined;
  let before = Infinity;
  for (let round = 0; round < ROUNDS; round++) {
    const cubic = {
      start,
      c1: add2(start, scale2(out, handles.x)),
      c2: add2(end, scale2(into, handles.y)),
      end,
    };
    const { error, aa, ab, bb, ra, rb } = measureRound(cubic, samples, out, into);
    const isSettled = Math.abs(error - before) <= SETTLED * error;
    before = error;
    if (!best || error < best.error) best = { cubic, error };
    const determinant = aa * bb - ab * ab;
    if (error < ENOUGH || isSettled || determinant <= 1e-12 * aa * bb) break;
    handles = {
      x: clamp(handles.x - (ra * bb - rb * ab) / determinant),
      y: clamp(handles.y - (rb * aa - ra * ab) / determinant),
    };
  }
  return best as Fitted;
};

/**
 * Fits cubics to a parametric curve that is smooth between `from` and `to`, each within `tolerance` mm of it, halving where
 * one does not do. Neighbouring cubics share their end direction.
 */
export const fitCurve = (
  curve: (t: number) => Vec2,
  from: number,
  to: number,
  tolerance: number,
): readonly Cubic[] => {
  const a = curve(from);
  const b = curve(to);
  if (length2(sub2(a, b)) === 0 && Math.abs(to - from) < NARROWEST) return [];
  // Where the curve sets out square to its parameter (a line that grazes a body), half a turn of a cosine evens it out.
  const first = 1 / ABRUPT;
  const steps = [sub2(curve(from + first * (to - from)), a), sub2(curve(to - first * (to - from)), b)];
  const abrupt = steps.some((step) => length2(step) * ABRUPT > 8 * length2(sub2(b, a)));
  const share = (u: number): number => (abrupt ? (1 - Math.cos(Math.PI * u)) / 2 : u);
  const eased = (u: number): Vec2 => (u <= 0 ? a : u >= 1 ? b : curve(from + (to - from) * share(u)));
  /** `known` are every other of its points: those of the stretch twice as long that it is a half of. */
  const fitStretch = (
    low: number,
    high: number,
    out: Vec2,
    into: Vec2,
    known: readonly Vec2[],
  ): readonly Cubic[] => {
    const points: Vec2[] = [];
    for (let i = 0; i <= SAMPLES; i++) {
      const before = i % 2 === 0 ? known[i / 2] : undefined;
      points.push(before ?? eased(i === SAMPLES ? high : low + ((high - low) * i) / SAMPLES));
    }
    const { cubic, error } = fitSamples(points, out, into);
    if (error <= tolerance || high - low < NARROWEST) return [cubic];
    const middle = (low + high) / 2;
    const forward = endDirection(eased, middle, high);
    return [
      ...fitStretch(low, middle, out, scale2(forward, -1), points.slice(0, SAMPLES / 2 + 1)),
      ...fitStretch(middle, high, forward, into, points.slice(SAMPLES / 2)),
    ];
  };
  return fitStretch(0, 1, endDirection(eased, 0, 1), endDirection(eased, 1, 0), []);
};

/** A straight line as a cubic. */
export const straight = (a: Vec2, b: Vec2): Cubic => ({
  start: a,
  c1: { x: (2 * a.x + b.x) / 3, y: (2 * a.y + b.y) / 3 },
  c2: { x: (a.x + 2 * b.x) / 3, y: (a.y + 2 * b.y) / 3 },
  end: b,
});

/** How far inside its ends a stretch is measured, as a part of it: at its ends the map may jump. */
const INSIDE = 1e-3;

/** A cubic with all its points put through an affine map. */
export const mapCubic = ({ start, c1, c2, end }: Cubic, map: (p: Vec2) => Vec2): Cubic => ({
  start: map(start),
  c1: map(c1),
  c2: map(c2),
  end: map(end),
});

/** A line run the other way. */
export const reverseLine = (line: readonly Cubic[]): readonly Cubic[] =>
  line.map(({ start, c1, c2, end }) => ({ start: end, c1: c2, c2: c1, end: start })).reverse();

/**
 * A line of cubics with every x put through `place`, which rises, is even along each cubic and may jump between them; a
 * straight line bridges a jump.
 */
export const mapCubics = (line: readonly Cubic[], place: (x: number) => number): readonly Cubic[] => {
  const moved: Cubic[] = [];
  for (const cubic of line) {
    const [from, width] = [cubic.start.x, cubic.end.x - cubic.start.x];
    const [a, b] = [place(from + INSIDE * width), place(from + (1 - INSIDE) * width)];
    const slope = Math.abs(width) < 1e-9 ? 1 : (b - a) / ((1 - 2 * INSIDE) * width);
    const map = ({ x, y }: Vec2): Vec2 => ({ x: a + slope * (x - from - INSIDE * width), y });
    const next = mapCubic(cubic, map);
    const last = moved[moved.length - 1];
    if (last && next.start.x - last.end.x > 1e-7) moved.push(straight(last.end, next.start));
    moved.push(next);
  }
  return moved;
};

/** Where along [0, 1] one coordinate of a cubic turns back. */
const turns = (a: number, b: number, c: number, d: number): readonly number[] => {
  const [p, q, r] = [b - a, c - b, d - c];
  const [square, half] = [p - 2 * q + r, p - q];
  const root = half * half - square * p;
  if (root < 0) return [];
  // Written so that it also holds where the square term vanishes.
  const sum = half + Math.sign(half || 1) * Math.sqrt(root);
  return [sum === 0 ? NaN : p / sum, square === 0 ? NaN : sum / square].filter((u) => u > 0 && u < 1);
};

/** The least upright rectangle that holds a line, from the curve itself. */
export const lineExtent = (
  line: readonly Cubic[],
): { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number } => {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const cubic of line) {
    const { start, c1, c2, end } = cubic;
    const inside = [...turns(start.x, c1.x, c2.x, end.x), ...turns(start.y, c1.y, c2.y, end.y)];
    for (const { x, y } of [start, end, ...inside.map((u) => cubicAt(cubic, u))]) {
      [minX, maxX] = [Math.min(minX, x), Math.max(maxX, x)];
      [minY, maxY] = [Math.min(minY, y), Math.max(maxY, y)];
    }
  }
  return { minX, minY, maxX, maxY };
};

/** The point of a line farthest to the right, from the curve itself. */
export const rightmost = (line: readonly Cubic[]): Vec2 =>
  line
    .flatMap((cubic) => {
      const { start, c1, c2, end } = cubic;
      return [start, end, ...turns(start.x, c1.x, c2.x, end.x).map((u) => cubicAt(cubic, u))];
    })
    .reduce((best, p) => (p.x > best.x ? p : best));
