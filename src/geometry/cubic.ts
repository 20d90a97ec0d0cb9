import { add2, dot2, left2, length2, scale2, sub2, unit2, type Vec2 } from './vector.ts';

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

const cubicSlope = ({ start, c1, c2, end }: Cubic, u: number): Vec2 => {
  const v = 1 - u;
  return add2(
    add2(scale2(sub2(c1, start), 3 * v * v), scale2(sub2(c2, c1), 6 * v * u)),
    scale2(sub2(end, c2), 3 * u * u),
  );
};

const SAMPLES = 20;
const ROUNDS = 7;
/** A fit this close needs no more rounds, mm. */
const ENOUGH = 1e-5;
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

/** Moves each parameter to the foot of its point on the cubic (two Newton steps); ends stay. */
const project = (cubic: Cubic, points: readonly Vec2[], params: number[]): void => {
  for (let i = 1; i < points.length - 1; i++) {
    let u = params[i] as number;
    for (let k = 0; k < 2; k++) {
      const slope = cubicSlope(cubic, u);
      const size = dot2(slope, slope);
      if (size > 0) u -= dot2(sub2(cubicAt(cubic, u), points[i] as Vec2), slope) / size;
      u = Math.min(1, Math.max(0, u));
    }
    params[i] = u;
  }
};

/**
 * The cubic with the given end directions that lies closest to the samples, and how far it strays from them, mm:
 * Gauss-Newton on the two handle lengths, with each sample's distance square to the curve as its residual.
 */
const fitSamples = (points: readonly Vec2[], out: Vec2, into: Vec2): Fitted => {
  const start = points[0] as Vec2;
  const end = points[points.length - 1] as Vec2;
  const lengths = [0];
  for (let i = 1; i < points.length; i++) {
    lengths.push((lengths[i - 1] as number) + length2(sub2(points[i] as Vec2, points[i - 1] as Vec2)));
  }
  const total = lengths[lengths.length - 1] as number;
  if (total === 0) return { cubic: { start, c1: start, c2: end, end }, error: 0 };
  const params = lengths.map((l) => l / total);
  let handles = { x: total / 3, y: total / 3 };
  let best: Fitted | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const cubic = {
      start,
      c1: add2(start, scale2(out, handles.x)),
      c2: add2(end, scale2(into, handles.y)),
      end,
    };
    project(cubic, points, params);
    let error = 0;
    let [aa, ab, bb, ra, rb] = [0, 0, 0, 0, 0];
    for (let i = 1; i < points.length - 1; i++) {
      const u = params[i] as number;
      const slope = cubicSlope(cubic, u);
      const square = scale2(left2(slope), 1 / (length2(slope) || 1));
      const gap = sub2(cubicAt(cubic, u), points[i] as Vec2);
      error = Math.max(error, length2(gap));
      const r = dot2(square, gap);
      const a = 3 * (1 - u) * (1 - u) * u * dot2(square, out);
      const b = 3 * (1 - u) * u * u * dot2(square, into);
      aa += a * a;
      ab += a * b;
      bb += b * b;
      ra += a * r;
      rb += b * r;
    }
    if (!best || error < best.error) best = { cubic, error };
    const determinant = aa * bb - ab * ab;
    if (error < ENOUGH || determinant <= 1e-12 * aa * bb) break;
    const clamp = (length: number): number => Math.min(3 * total, Math.max(0.02 * total, length));
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
  const fitStretch = (low: number, high: number, out: Vec2, into: Vec2): readonly Cubic[] => {
    const points = Array.from({ length: SAMPLES + 1 }, (_, i) =>
      eased(i === SAMPLES ? high : low + ((high - low) * i) / SAMPLES),
    );
    const { cubic, error } = fitSamples(points, out, into);
    if (error <= tolerance || high - low < NARROWEST) return [cubic];
    const middle = (low + high) / 2;
    const forward = endDirection(eased, middle, high);
    return [...fitStretch(low, middle, out, scale2(forward, -1)), ...fitStretch(middle, high, forward, into)];
  };
  return fitStretch(0, 1, endDirection(eased, 0, 1), endDirection(eased, 1, 0));
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
    const next = { start: map(cubic.start), c1: map(cubic.c1), c2: map(cubic.c2), end: map(cubic.end) };
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
