import { describe, expect, it } from 'vitest';
import { cylinderMate } from '../../src/geometry/mates/cylinder.ts';
import { circleOutline } from '../../src/geometry/outline.ts';
import { areaInside, bevelFor, weldAt, weldLength } from '../../src/geometry/weld-line.ts';
import { seeded } from '../support/random-poses.ts';

const DEGREE = Math.PI / 180;

/** A header by design's frame: axis through (0, offset, 0) along (sin, 0, cos). Station 0 is the obtuse side. */
const header = (radius: number, angle: number, offset: number) =>
  cylinderMate({ x: 0, y: offset, z: 0 }, { x: Math.sin(angle), y: 0, z: Math.cos(angle) }, radius);

const angleAt = (R: number, r: number, angle: number, offset: number, station: number): number =>
  weldAt(circleOutline(r, 0), header(R, angle * DEGREE, offset), station * DEGREE * r)!.angle / DEGREE;

describe('angle between the surfaces', () => {
  /** cos ψ = −[cos φ cos θ √(1 − (w/R)²) + (w/R) sin φ], worked at 0, 30, … 180°, two decimals. */
  it.each([
    [84.15, 57.15, 90, [90, 99.78, 120.62, 132.78, 120.62, 99.78, 90]],
    [84.15, 57.15, 45, [135, 138.23, 142.68, 132.78, 102.91, 66.03, 45]],
  ])('R %f r %f at %f°', (R, r, angle, printed) => {
    printed.forEach((psi, i) => {
      expect(Math.abs(angleAt(R, r, angle, 0, 30 * i) - psi)).toBeLessThan(0.0051);
      expect(Math.abs(angleAt(R, r, angle, 0, -30 * i) - psi)).toBeLessThan(0.0051);
    });
  });

  /** The same with the axes 30 mm apart, the header's axis on the side of station 270 there. */
  it('an offset branch', () => {
    const printed = [
      118.74, 129.29, 143.17, 142.71, 117.15, 84.34, 61.26, 63.93, 84.73, 104.35, 113.59, 115.24,
    ];
    printed.forEach((psi, i) =>
      expect(Math.abs(angleAt(109.55, 57.15, 60, -30, 30 * i) - psi)).toBeLessThan(0.0051),
    );
  });

  it('1,000 random joints: π less the angle of two normals taken by differences', () => {
    const random = seeded(13);
    for (let n = 0; n < 1000; n++) {
      const R = 50 + 300 * random();
      const r = R * (0.1 + 0.8 * random());
      const angle = (25 + 130 * random()) * DEGREE;
      const offset = (R - r) * 0.9 * (2 * random() - 1);
      const station = 2 * Math.PI * random();
      const { point, angle: psi } = weldAt(circleOutline(r, 5), header(R, angle, offset), station * r)!;
      const axis = [Math.sin(angle), 0, Math.cos(angle)] as const;
      const onHeader = (p: readonly number[]): number => {
        const v = [p[0]!, p[1]! - offset, p[2]!];
        const along = v[0]! * axis[0] + v[2]! * axis[2];
        return Math.hypot(v[0]! - along * axis[0], v[1]!, v[2]! - along * axis[2]);
      };
      const onBranch = (p: readonly number[]): number => Math.hypot(p[0]!, p[1]!);
      const p = [point.x, point.y, point.z];
      expect(onHeader(p)).toBeCloseTo(R, 8);
      const slope = (f: (q: readonly number[]) => number) =>
        [0, 1, 2].map((k) => {
          const [h, q, s] = [1e-4, [...p], [...p]];
          q[k]! += h;
          s[k]! -= h;
          return (f(q) - f(s)) / (2 * h);
        });
      const [a, b] = [slope(onHeader), slope(onBranch)];
      const cosine = a.reduce((sum, value, k) => sum + value * b[k]!, 0);
      expect(Math.abs(Math.PI - Math.acos(cosine) - psi)).toBeLessThan(1e-6);
    }
  });

  it('bevels', () => {
    expect(bevelFor(90 * DEGREE, 45 * DEGREE) / DEGREE).toBeCloseTo(45, 12);
    expect(bevelFor(135 * DEGREE, 45 * DEGREE) / DEGREE).toBeCloseTo(0, 12);
    expect(bevelFor(60 * DEGREE, 30 * DEGREE) / DEGREE).toBeCloseTo(60, 12);
  });
});

describe('length of the weld line', () => {
  /** Outside intersections integrated to full accuracy elsewhere, three decimals. */
  it.each([
    [84.15, 57.15, 90, 0, 372.482],
    [84.15, 57.15, 45, 0, 452.139],
    [109.55, 57.15, 60, 30, 408.657],
  ])('R %f r %f at %f°, offset %f', (R, r, angle, offset, printed) => {
    const length = weldLength(circleOutline(r, 0), header(R, angle * DEGREE, offset))!;
    expect(Math.abs(length - printed)).toBeLessThan(0.0006);
  });

  /**
   * Ka of AWS D1.1, from memory, x + y + 3√(x² + y²): within 1.3 % of the true length / 2πr up to β = 0.8. A comparison, no
   * standard to meet.
   */
  it.each([0.3, 0.5, 0.8])('Ka from memory at β %f', (beta) => {
    for (const degrees of [30, 45, 60, 90]) {
      const x = 1 / (2 * Math.PI * Math.sin(degrees * DEGREE));
      const y = (3 - beta * beta) / (3 * Math.PI * (2 - beta * beta));
      const ka = x + y + 3 * Math.hypot(x, y);
      const length = weldLength(circleOutline(100 * beta, 0), header(100, degrees * DEGREE, 0))!;
      expect(Math.abs(length / (200 * Math.PI * beta) / ka - 1)).toBeLessThan(0.014);
    }
  });

  it('area inside a closed line', () => {
    const k = (4 / 3) * Math.tan(Math.PI / 8);
    const quarter = (i: number) => {
      const turn = (x: number, y: number) =>
        [
          { x, y },
          { x: -y, y: x },
          { x: -x, y: -y },
          { x: y, y: -x },
        ][i]!;
      return { start: turn(1, 0), c1: turn(1, k), c2: turn(k, 1), end: turn(0, 1) };
    };
    // A circle of four cubics is 0.02 % over the true one at most.
    expect(areaInside([0, 1, 2, 3].map(quarter))).toBeCloseTo(Math.PI, 2);
    const side = (a: number, b: number, c: number, d: number) => ({
      start: { x: a, y: b },
      c1: { x: (2 * a + c) / 3, y: (2 * b + d) / 3 },
      c2: { x: (a + 2 * c) / 3, y: (b + 2 * d) / 3 },
      end: { x: c, y: d },
    });
    expect(areaInside([side(0, 0, 3, 0), side(3, 0, 3, 2), side(3, 2, 0, 2), side(0, 2, 0, 0)])).toBeCloseTo(
      6,
      12,
    );
  });
});
