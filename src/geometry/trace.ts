import { fitCurve, straight, type Cubic } from './cubic.ts';
import { itemAt } from '../lists.ts';
import { checkSize } from './size-limit.ts';
import { CURVE_TOLERANCE, STEP } from './tolerance.ts';
import type { Vec2 } from './vector.ts';

/** One point of a line being traced. */
export interface Trace {
  readonly point: Vec2;
  /** The line is smooth while this stays the same. */
  readonly label: string;
  /** Near 0 where the line may turn sharply (generator and face tangent). */
  readonly graze: number;
}

const SAMPLES = 360;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** How closely a break is found, as a part of the whole: a millionth of a millimetre on a metre. */
const SAME_PLACE = 1e-9;
/** Breaks closer than this part of the whole are one break. */
const SAME_BREAK = 1e-6;

/** A place of a line that has been looked at. */
interface Sample {
  readonly t: number;
  readonly trace: Trace;
}

/** The parameters between samples where the label changes, each found by halving. */
const labelChanges = (label: (t: number) => string, samples: readonly Sample[], width: number): number[] => {
  const between = (a: number, b: number): number[] => {
    const [left, right] = [label(a), label(b)];
    if (left === right || b - a < width) return [];
    let low = a;
    let high = b;
    while (high - low > width) {
      const middle = (low + high) / 2;
      if (middle <= low || middle >= high) break;
      if (label(middle) === left) low = middle;
      else high = middle;
    }
    return [(low + high) / 2, ...between(high, b)];
  };
  const changes: number[] = [];
  for (let i = 1; i < samples.length; i++) {
    const [before, here] = [itemAt(samples, i - 1), itemAt(samples, i)];
    if (before.trace.label !== here.trace.label) changes.push(...between(before.t, here.t));
  }
  return changes;
};

/** The parameters where the graze has a low minimum: a sharp turn, or one so tight that a node belongs there. */
const grazingPoints = (graze: (t: number) => number, samples: readonly Sample[]): number[] =>
  samples.flatMap(({ t, trace: { graze: here } }, i) => {
    const before = samples[i - 1];
    const after = samples[i + 1];
    if (here > 0.3 || before === undefined || after === undefined) return [];
    // A graze that stays the same, as along a plane, has no low point.
    if (here > before.trace.graze || here >= after.trace.graze) return [];
    let [low, high] = [before.t, after.t];
    let [a, b] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    let [atA, atB] = [graze(a), graze(b)];
    for (let k = 0; k < 45 && b > a; k++) {
      if (atA <= atB) {
        [high, b, atB] = [b, a, atA];
        a = high - GOLDEN * (high - low);
        atA = graze(a);
      } else {
        [low, a, atA] = [a, b, atB];
        b = low + GOLDEN * (high - low);
        atB = graze(b);
      }
    }
    const found = (low + high) / 2;
    return [here <= graze(found) ? t : found];
  });

const boundsOf = (samples: readonly Sample[]): Parameters<typeof checkSize>[0] => {
  const box = { minX: Infinity, maxX: -Infinity, minY: Infinity, maxY: -Infinity };
  for (const { trace } of samples) {
    const { x, y } = trace.point;
    box.minX = Math.min(box.minX, x);
    box.maxX = Math.max(box.maxX, x);
    box.minY = Math.min(box.minY, y);
    box.maxY = Math.max(box.maxY, y);
  }
  return box;
};

/**
 * Traces a piecewise smooth line over [from, to] as cubics within the curve tolerance, true corners and steps kept.
 * `joints` are parameters where it is known to break. A step (the line jumps) comes out as a straight cubic. Throws a `joint`
 * UserError where the line is longer than any sheet.
 */
export const traceLine = (
  trace: (t: number) => Trace,
  from: number,
  to: number,
  joints: readonly number[] = [],
): readonly Cubic[] => {
  const width = to - from;
  const known = joints.filter((t) => t > from && t < to);
  const ts: number[] = [];
  for (let i = 0; i <= SAMPLES; i++) ts.push(from + (width * i) / SAMPLES);
  const places = known.length === 0 ? ts : [...new Set([...ts, ...known])].sort((a, b) => a - b);
  const samples = places.map((t): Sample => ({ t, trace: trace(t) }));
  const bounds = boundsOf(samples);
  checkSize(bounds);
  const found = [
    from,
    ...known,
    ...labelChanges((t) => trace(t).label, samples, width * SAME_PLACE),
    ...grazingPoints((t) => trace(t).graze, samples),
    to,
  ].sort((a, b) => a - b);
  const breaks = found.filter((t, i) => i === 0 || t - itemAt(found, i - 1) > SAME_BREAK * width);
  breaks[breaks.length - 1] = to;

  // On thin tubing the same length is more of an angle.
  const tolerance = Math.min(CURVE_TOLERANCE, 5e-5 * (bounds.maxX - bounds.minX));
  const cubics: Cubic[] = [];
  breaks.slice(1).forEach((end, i) => {
    const start = itemAt(breaks, i);
    // Stand off the break by less than any tolerance, so that both sides are seen from within.
    const nudge = Math.min(2 * SAME_PLACE * width, (end - start) / 4);
    const a = i === 0 ? start : start + nudge;
    const b = end === to ? end : end - nudge;
    const piece = fitCurve((t) => trace(t).point, a, b, tolerance);
    const last = cubics[cubics.length - 1];
    const first = piece[0];
    if (last && first) {
      const gap = Math.hypot(first.start.x - last.end.x, first.start.y - last.end.y);
      if (gap > STEP) cubics.push(straight(last.end, first.start));
      else cubics[cubics.length - 1] = { ...last, end: first.start };
    }
    cubics.push(...piece);
  });
  return cubics;
};
