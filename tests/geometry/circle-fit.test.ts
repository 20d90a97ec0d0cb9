import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { algebraicCircle, arcSpanned, circleErrors, fitCircle } from '../../src/geometry/circle-fit.ts';
import { distance2, polar2 } from '../../src/geometry/vector.ts';

const pair = (x: number, y: number) => ({ x, y });
const zip = (xs: readonly number[], ys: readonly number[]) => xs.map((x, i) => pair(x, ys[i]!));
const round = zip([9, 35, -13, 10, 23, 0], [34, 10, 6, -14, 27, -10]);
const short = zip([36, 36, 19, 18, 33, 26], [14, 10, 28, 31, 18, 26]);
const gander = [pair(1, 7), pair(2, 6), pair(5, 8), pair(7, 7), pair(9, 5), pair(3, 7)];

/** Mean distance and sum of squares as the SciPy cookbook prints them beside an algebraic center. */
const cookbook = (points: readonly { x: number; y: number }[], center: { x: number; y: number }) => {
  const distances = points.map((p) => distance2(p, center));
  const radius = distances.reduce((sum, d) => sum + d, 0) / points.length;
  return { radius, squares: distances.reduce((sum, d) => sum + (d - radius) ** 2, 0) };
};

/** A few linear equations by elimination. */
const solve = (matrix: readonly (readonly number[])[], right: readonly number[]): number[] => {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  rows.forEach((row, i) => {
    const pivot = rows
      .slice(i)
      .reduce((best, other) => (Math.abs(other[i]!) > Math.abs(best[i]!) ? other : best));
    const at = rows.indexOf(pivot);
    [rows[i], rows[at]] = [pivot, row];
    for (const [k, other] of rows.entries())
      if (k !== i) {
        const factor = other[i]! / pivot[i]!;
        rows[k] = other.map((value, j) => value - factor * pivot[j]!);
      }
  });
  return rows.map((row, i) => row.at(-1)! / row[i]!);
};

describe('circle fits against published figures', () => {
  /** SciPy cookbook, "Least squares circle": printed to five decimals; the radius there is the mean distance. */
  it.each([
    ['round', round, 10.55231, 9.7059, 23.33482, 7.731195],
    ['short arc', short, 15.05503, 8.83615, 20.82995, 5.195076],
  ])('algebraic, %s', (_, points, x, y, r, squares) => {
    const { center } = algebraicCircle(points)!;
    expect(Math.abs(center.x - x)).toBeLessThan(5.1e-6);
    expect(Math.abs(center.y - y)).toBeLessThan(5.1e-6);
    const printed = cookbook(points, center);
    expect(Math.abs(printed.radius - r)).toBeLessThan(5.1e-6);
    expect(Math.abs(printed.squares - squares)).toBeLessThan(5.1e-7);
  });

  /** Same source, geometric fits. Its short arc stops 3e-5 (and what five decimals round) before the least: 9.88759, 3.68752, 27.35041. */
  it.each([
    ['round', round, 10.50009, 9.65995, 23.33353, 7.711852, 5.1e-6],
    ['short arc', short, 9.88759, 3.68752, 27.35041, 4.042522, 3.5e-5],
  ])('geometric, %s', (_, points, x, y, r, squares, within) => {
    const fit = fitCircle(points)!;
    expect(Math.abs(fit.center.x - x)).toBeLessThan(within);
    expect(Math.abs(fit.center.y - y)).toBeLessThan(within);
    expect(Math.abs(fit.radius - r)).toBeLessThan(within);
    expect(Math.abs(fit.squares - squares)).toBeLessThan(5.1e-7);
  });

  /** Gander, Golub, Strebel, BIT 34 (1994) 558-578: figures as remembered, four decimals. */
  it('geometric, Gander, Golub and Strebel', () => {
    const { center, radius } = fitCircle(gander)!;
    expect(Math.abs(center.x - 4.7398)).toBeLessThan(5.1e-5);
    expect(Math.abs(center.y - 2.9835)).toBeLessThan(5.1e-5);
    expect(Math.abs(radius - 4.7142)).toBeLessThan(5.1e-5);
  });

  /**
   * Same source: their algebraic circle, a(x² + y²) + bx + cy + d = 0 with a² + b² + c² + d² = 1, worked out here by inverse
   * iteration: (5.3794, 7.2532), radius 3.0370, much too small. The geometric fit comes to the same circle from there.
   */
  it('from the algebraic circle of Gander, Golub and Strebel', () => {
    const rows = gander.map(({ x, y }) => [x * x + y * y, x, y, 1]);
    const normal = [0, 1, 2, 3].map((i) =>
      [0, 1, 2, 3].map((j) => rows.reduce((sum, row) => sum + row[i]! * row[j]!, 0)),
    );
    let u = [1, 1, 1, 1];
    for (let i = 0; i < 50; i++) {
      const v = solve(normal, u);
      const size = Math.hypot(...v);
      u = v.map((value) => value / size);
    }
    const [a, b, c, d] = u as [number, number, number, number];
    const center = pair(-b / (2 * a), -c / (2 * a));
    const radius = Math.sqrt((b * b + c * c) / (4 * a * a) - d / a);
    expect([center.x, center.y, radius].map((value) => value.toFixed(4))).toEqual([
      '5.3794',
      '7.2532',
      '3.0370',
    ]);
    const fit = fitCircle(gander, { center, radius })!;
    expect([fit.center.x, fit.center.y, fit.radius].map((value) => value.toFixed(4))).toEqual([
      '4.7398',
      '2.9835',
      '4.7142',
    ]);
  });

  /** Kåsa's radius of the same points, computed from his linear equations: 4.1088; the short arc's is 24 % small. */
  it('the algebraic fit shrinks a short arc', () => {
    expect(algebraicCircle(gander)!.radius).toBeCloseTo(4.1088, 4);
    expect(algebraicCircle(short)!.radius / fitCircle(short)!.radius).toBeCloseTo(0.762, 2);
  });
});

describe('circle fits, whatever the points', () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

  it('points on a circle give it back', () => {
    fc.assert(
      fc.property(
        number(-1e4, 1e4),
        number(-1e4, 1e4),
        number(1, 1e4),
        number(0, 6),
        number(0.3, 6),
        (x, y, r, from, span) => {
          const points = Array.from({ length: 7 }, (_, i) => {
            const angle = from + (span * i) / 6;
            return pair(x + r * Math.cos(angle), y + r * Math.sin(angle));
          });
          const fit = fitCircle(points)!;
          expect(Math.abs(fit.radius - r)).toBeLessThan(1e-7 * r + 1e-9);
          expect(distance2(fit.center, pair(x, y))).toBeLessThan(1e-7 * r + 1e-9);
          const widest = Math.max(2 * Math.PI - span, span / 6);
          expect(arcSpanned(points, fit.center)).toBeCloseTo(2 * Math.PI - widest, 5);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('nothing near the fit is better', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(number(0, 4), number(-5, 5)), { minLength: 5, maxLength: 12 }),
        (list) => {
          const points = list.map(([angle, off]) => polar2(100 + off, angle));
          const fit = fitCircle(points);
          if (!fit || arcSpanned(points, fit.center) < 0.5) return;
          const squares = (dx: number, dy: number, dr: number) =>
            points.reduce(
              (sum, p) =>
                sum + (distance2(p, pair(fit.center.x + dx, fit.center.y + dy)) - fit.radius - dr) ** 2,
              0,
            );
          for (const [dx, dy, dr] of [
            [1, 0, 0],
            [0, 1, 0],
            [0, 0, 1],
            [-1, 0, 0],
            [0, -1, 0],
            [0, 0, -1],
          ] as const)
            expect(squares(dx * 1e-3, dy * 1e-3, dr * 1e-3)).toBeGreaterThan(fit.squares - 1e-9);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('points on a line have no circle', () => {
    expect(fitCircle([pair(0, 0), pair(1, 1), pair(2, 2)])).toBeUndefined();
    expect(fitCircle([pair(0, 0), pair(1, 1)])).toBeUndefined();
  });

  /** Points all round a circle: the center's error is √(2/n), the radius's √(1/n) (closed form of the normal equations). */
  it('errors of a full round', () => {
    const points = Array.from({ length: 8 }, (_, i) =>
      pair(100 * Math.cos((i * Math.PI) / 4), 100 * Math.sin((i * Math.PI) / 4)),
    );
    const errors = circleErrors(points, fitCircle(points)!)!;
    expect(errors.center).toBeCloseTo(Math.sqrt(2 / 8), 9);
    expect(errors.radius).toBeCloseTo(Math.sqrt(1 / 8), 9);
  });
});
