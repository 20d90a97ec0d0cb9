import { itemAt, numberAt } from '../lists.ts';
/**
 * Small nonlinear least squares, for problems of a few unknowns: Levenberg's damping on steps solved by Householder
 * reflections, never by normal equations, so that a poorly conditioned problem keeps its digits (Björck, Numerical Methods
 * for Least Squares Problems, 1996, sections 2.3 and 9.2).
 */

/** A row of the problem: what is left over, and how it changes with each unknown. */
export interface Row {
  readonly residual: number;
  readonly slope: readonly number[];
}

/** How to walk in an unknown space `T`: rows at a point, and the point a step away. */
export interface Problem<T> {
  readonly unknowns: number;
  readonly rows: (at: T) => readonly Row[];
  readonly step: (at: T, by: readonly number[]) => T;
}

/** Where the walk ended. */
export interface Solution<T> {
  readonly at: T;
  /** Sum of the squares of the residuals there. */
  readonly squares: number;
  /** False where it was still moving at the last round. */
  readonly settled: boolean;
}

const ROUNDS = 100;

const sumOfSquaresOf = (values: readonly number[]): number => {
  let sum = 0;
  for (const value of values) sum += value * value;
  return sum;
};

const sumOfSquares = (rows: readonly Row[]): number => sumOfSquaresOf(rows.map(({ residual }) => residual));

/** An upper triangle `r` and the turned right side `q`, from rows of [slope…, residual]. */
interface Triangle {
  readonly r: readonly (readonly number[])[];
  readonly q: readonly number[];
}

/** Householder's reflections, in place. The loops are plain: nearly all the time of a fit goes here. */
const reflect = (matrix: number[][], n: number): void => {
  for (let k = 0; k < n; k++) {
    const rows = matrix.slice(k);
    const v = rows.map((row) => numberAt(row, k));
    const size = Math.sqrt(sumOfSquaresOf(v));
    if (size === 0) continue;
    const head = numberAt(v, 0);
    v[0] = head - (head > 0 ? -size : size);
    const norm = sumOfSquaresOf(v);
    for (let j = k; j <= n; j++) {
      let dot = 0;
      let i = 0;
      for (const row of rows) dot += numberAt(v, i++) * numberAt(row, j);
      const by = (2 * dot) / norm;
      i = 0;
      for (const row of rows) row[j] = numberAt(row, j) - by * numberAt(v, i++);
    }
  }
};

const triangleOf = (rows: readonly Row[], n: number, damping: number): Triangle => {
  const matrix = rows.map((row) => [...row.slope, row.residual]);
  if (damping > 0)
    for (let k = 0; k < n; k++) matrix.push(Array.from({ length: n + 1 }, (_, j) => (j === k ? damping : 0)));
  while (matrix.length < n) matrix.push(Array.from({ length: n + 1 }, () => 0));
  reflect(matrix, n);
  return { r: matrix.slice(0, n), q: matrix.slice(0, n).map((row) => numberAt(row, n)) };
};

/** Solves r x = q from the last row up; undefined where the triangle is flat. */
const backSolve = ({ r, q }: Triangle): number[] | undefined => {
  const x = q.map(() => 0);
  for (let i = q.length - 1; i >= 0; i--) {
    const row = itemAt(r, i);
    const pivot = numberAt(row, i);
    if (pivot === 0) return undefined;
    let sum = numberAt(q, i);
    for (let j = i + 1; j < q.length; j++) sum -= numberAt(row, j) * numberAt(x, j);
    x[i] = sum / pivot;
  }
  return x;
};

/**
 * Walks from `start` to where the sum of squares is least nearby. Unknowns should be scaled alike. Ends where a full step
 * no longer lowers the sum; a problem with fewer rows than unknowns ends somewhere on its valley.
 */
export const leastSquares = <T>(problem: Problem<T>, start: T, rounds = ROUNDS): Solution<T> => {
  const { unknowns: n } = problem;
  let at = start;
  let rows = problem.rows(at);
  let squares = sumOfSquares(rows);
  let damping = 0;
  for (let round = 0; round < rounds; round++) {
    const scale = Math.sqrt(
      rows.reduce((sum, row) => sum + row.slope.reduce((s, value) => s + value * value, 0), 0) / n,
    );
    let moved = false;
    for (let attempt = 0; attempt < 30 && !moved; attempt++) {
      const step = backSolve(triangleOf(rows, n, damping * scale));
      const to = step
        ? problem.step(
            at,
            step.map((value) => -value),
          )
        : undefined;
      const next = to === undefined ? [] : problem.rows(to);
      const sum = to === undefined ? Infinity : sumOfSquares(next);
      if (to !== undefined && sum < squares) {
        [at, rows, squares] = [to, next, sum];
        damping = damping < 1e-9 ? 0 : damping / 8;
        moved = true;
      } else {
        // Within rounding of the least a full step finds nothing lower: the walk is done.
        const least = step ? Math.max(...step.map(Math.abs)) * scale : undefined;
        if (least !== undefined && least <= 1e-14 * (scale + Math.sqrt(squares))) break;
        damping = damping === 0 ? 1e-6 : damping * 8;
      }
    }
    if (!moved) return { at, squares, settled: true };
  }
  return { at, squares, settled: false };
};

/**
 * What an error of one unit (standard deviation) in every row does to the unknowns: the covariance (JᵀJ)⁻¹. Undefined
 * where the rows leave an unknown, or a mix of them, free: the condition is over `worst`.
 */
export const covarianceOf = (
  rows: readonly Row[],
  n: number,
  worst = 1e10,
): readonly (readonly number[])[] | undefined => {
  if (rows.length < n) return undefined;
  const { r } = triangleOf(rows, n, 0);
  const columns = Array.from({ length: n }, (_, k) =>
    backSolve({ r, q: Array.from({ length: n }, (_, i) => (i === k ? 1 : 0)) }),
  );
  if (columns.some((column) => column === undefined)) return undefined;
  const inverse = columns as number[][];
  const norm = (matrix: readonly (readonly number[])[]): number =>
    Math.sqrt(matrix.flat().reduce((sum, value) => sum + value * value, 0));
  const condition = norm(r.map((row) => row.slice(0, n))) * norm(inverse);
  if (!(condition < worst)) return undefined;
  // inverse[k] is the k-th column of R⁻¹; the covariance is R⁻¹ R⁻ᵀ.
  return Array.from({ length: n }, (_, i) =>
    Array.from({ length: n }, (_, j) =>
      inverse.reduce((sum, column) => sum + itemAt(column, i) * itemAt(column, j), 0),
    ),
  );
};
