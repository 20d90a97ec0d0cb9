import { itemAt } from '../lists.ts';
/** A smooth function on an interval as a sum of Chebyshev polynomials, and its running integral. */
interface Series {
  readonly from: number;
  readonly to: number;
  readonly terms: readonly number[];
}

const NODES = 24;
/** The last terms must be this small beside the largest value for a series to stand for its function. */
const SMALL = 1e-13;
const DEEPEST = 14;

const COSINES = Array.from({ length: NODES }, (_, j) => Math.cos((Math.PI * (j + 0.5)) / NODES));

/** The terms of the polynomial through the function at the Chebyshev nodes (discrete cosine sum). */
const termsOf = (values: readonly number[]): number[] =>
  values.map(
    (_, k) =>
      (values.reduce((sum, v, j) => sum + v * Math.cos((Math.PI * k * (j + 0.5)) / NODES), 0) *
        (k === 0 ? 1 : 2)) /
      NODES,
  );

/** Value of a series, by Clenshaw's recurrence. */
const valueOf = ({ from, to, terms }: Series, t: number): number => {
  const x = (2 * t - from - to) / (to - from);
  let [b1, b2] = [0, 0];
  for (let k = terms.length - 1; k > 0; k--) [b1, b2] = [itemAt(terms, k) + 2 * x * b1 - b2, b1];
  return itemAt(terms, 0) + x * b1 - b2;
};

/** The integral of a series from its start: ∫T_k = T_(k+1)/2(k+1) - T_(k-1)/2(k-1). */
const integralOf = ({ from, to, terms }: Series): Series => {
  const half = (to - from) / 2;
  const term = (k: number): number => terms[k] ?? 0;
  const sums = Array.from({ length: terms.length + 1 }, (_, k) =>
    k === 0 ? 0 : (half * ((k === 1 ? 2 * term(0) : term(k - 1)) - term(k + 1))) / (2 * k),
  );
  const atStart = sums.reduce((sum, c, k) => sum + (k % 2 === 0 ? c : -c), 0);
  return { from, to, terms: [-atStart, ...sums.slice(1)] };
};

/** The running integrals of several smooth functions of one parameter. */
export interface Running {
  /** The integrals from the start up to `t`, in the order of the functions. */
  readonly at: (t: number) => readonly number[];
  readonly total: readonly number[];
}

interface Panel {
  readonly series: readonly Series[];
  readonly before: readonly number[];
}

/**
 * Integrates smooth functions given together, `f(t)`, from `from` to `to`, to the rounding of the arithmetic: Chebyshev
 * series on panels that are halved until their last terms vanish.
 */
export const runningIntegral = (f: (t: number) => readonly number[], from: number, to: number): Running => {
  const panels: Panel[] = [];
  let before: readonly number[] = f((from + to) / 2).map(() => 0);
  const fill = (low: number, high: number, depth: number): void => {
    const rows = COSINES.map((x) => f((low + high) / 2 + ((high - low) / 2) * x));
    const series = before.map((_, i): Series => {
      return { from: low, to: high, terms: termsOf(rows.map((row) => itemAt(row, i))) };
    });
    const fine = series.every(({ terms }) => {
      const largest = terms.reduce((most, c) => Math.max(most, Math.abs(c)), 0);
      return terms.slice(-3).every((c) => Math.abs(c) <= SMALL * largest + 1e-300);
    });
    if (!fine && depth < DEEPEST) {
      fill(low, (low + high) / 2, depth + 1);
      fill((low + high) / 2, high, depth + 1);
      return;
    }
    const sums = series.map(integralOf);
    panels.push({ series: sums, before });
    before = sums.map((sum, i) => itemAt(before, i) + valueOf(sum, high));
  };
  fill(from, to, 0);
  const total = before;
  return {
    total,
    at: (t) => {
      const inside = panels.findIndex(({ series }) => t <= itemAt(series, 0).to);
      const panel = itemAt(panels, inside < 0 ? panels.length - 1 : inside);
      return panel.series.map((sum, i) => itemAt(panel.before, i) + valueOf(sum, t));
    },
  };
};
