import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { developEnd, type Development } from '../../src/geometry/development.ts';
import { cubicAt, type Cubic } from '../../src/geometry/cubic.ts';
import { cylinderMate } from '../../src/geometry/mates/cylinder.ts';
import { planeMate } from '../../src/geometry/mates/plane.ts';
import { severalMate } from '../../src/geometry/mates/several.ts';
import { developOpening } from '../../src/geometry/opening.ts';
import { circleOutline } from '../../src/geometry/outline.ts';
import type { Contact } from '../../src/geometry/reach.ts';
import { walkedOrdinate, cylinderDistance, headerAxis } from '../support/fit-up.ts';
import { point } from '../support/space.ts';

const DEGREE = Math.PI / 180;

/** A pipe cut in a plane through the origin, `cut` radians from square, heel at station 0. */
const miter = (r: number, cut: number, wall = 0, contact: Contact = 'od'): Development =>
  developEnd(circleOutline(r, wall), {
    mate: planeMate(point(0, 0, 0), point(Math.sin(cut), 0, -Math.cos(cut))),
    contact,
    gap: 0,
  });

/** A branch on a header: `beta` between the axes, `e` of trade.md's table, which counts the offset the other way. */
const branch = (R: number, r: number, beta: number, e: number, contact: Contact = 'od', wall = 0) =>
  developEnd(circleOutline(r, wall), {
    mate: cylinderMate(point(0, -e, 0), point(Math.sin(beta), 0, Math.cos(beta)), R),
    contact,
    gap: 0,
  });

/** Points of the fitted line, and how far each lies from the true one: the nearest of its points close by. */
const strayOf = ({ line, ordinate }: Development, each = 60): number => {
  let most = 0;
  for (const cubic of line)
    for (let i = 0; i <= each; i++) {
      const p = cubicAt(cubic, i / each);
      let best = Infinity;
      for (let k = -20; k <= 20; k++) {
        const s = p.x + k * 1e-4;
        best = Math.min(best, Math.hypot(s - p.x, ordinate(s) - p.y));
      }
      most = Math.max(most, best);
    }
  return most;
};

const corners = (line: readonly Cubic[]): { x: number; bend: number }[] =>
  line.slice(1).flatMap((cubic, i) => {
    const before = line[i] as Cubic;
    const a = Math.atan2(before.end.y - before.c2.y, before.end.x - before.c2.x);
    const b = Math.atan2(cubic.c1.y - cubic.start.y, cubic.c1.x - cubic.start.x);
    const bend = Math.abs(Math.atan2(Math.sin(b - a), Math.cos(b - a)));
    return bend > 1e-3 ? [{ x: cubic.start.x, bend }] : [];
  });

describe('plane cut', () => {
  // Apostol & Mnatsakanian, "Unwrapping Curves from Cylinders and Cones", Amer. Math. Monthly 114 (2007), p. 389: a sinusoid of
  // amplitude r tan(cut). Ordinates from the throat, N = 16 and 12, worked from it (mm and inches).
  it.each<[number, number, number, readonly number[]]>([
    [114.3, 45, 16, [0, 4.35, 16.739, 35.28, 57.15, 79.02, 97.561, 109.95, 114.3]],
    [168.3, 22.5, 16, [0, 2.653, 10.209, 21.517, 34.856, 48.195, 59.503, 67.059, 69.712]],
    [323.8, 15, 16, [0, 3.302, 12.706, 26.78, 43.381, 59.982, 74.056, 83.46, 86.762]],
    [219.1, 11.25, 16, [0, 1.659, 6.382, 13.452, 21.791, 30.13, 37.199, 41.923, 43.582]],
    [4.5, 45, 16, [0, 0.1713, 0.659, 1.389, 2.25, 3.111, 3.841, 4.3287, 4.5]],
    [6.625, 22.5, 16, [0, 0.1044, 0.4019, 0.847, 1.3721, 1.8972, 2.3423, 2.6397, 2.7442]],
  ])('⌀%d at %d°', (od, degrees, n, expected) => {
    const r = od / 2;
    const end = miter(r, degrees * DEGREE);
    const throat = end.ordinate(Math.PI * r);
    expected.forEach((y, k) => {
      const up = end.ordinate(Math.PI * r - (2 * Math.PI * r * k) / n) - throat;
      expect(Math.abs(up - y)).toBeLessThan(1.5e-3);
    });
    expect(end.high - end.low).toBeCloseTo(od * Math.tan(degrees * DEGREE), 9);
  });

  it('is a sinusoid within the curve tolerance, in few smooth pieces', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 800, noNaN: true }),
        fc.double({ min: 0.01, max: 1.3, noNaN: true }),
        (r, cut) => {
          const { line } = miter(r, cut);
          for (const cubic of line)
            for (let i = 0; i <= 40; i++) {
              const p = cubicAt(cubic, i / 40);
              const slope = Math.tan(cut) * Math.sin(p.x / r);
              const off = p.y - r * Math.tan(cut) * Math.cos(p.x / r);
              expect(Math.abs(off) / Math.hypot(1, slope)).toBeLessThan(0.002);
            }
          expect(corners(line)).toEqual([]);
          expect(line.length).toBeLessThanOrEqual(32);
        },
      ),
      { numRuns: 40, seed: 3 },
    );
  });
});

describe('cylinder on cylinder', () => {
  // Derived from the two circles' equations and checked by bisection along each generator; s from the axis crossing, mm.
  const stations = [0, 22.5, 45, 67.5, 90, 112.5, 135, 157.5, 180];
  const tables: readonly {
    readonly name: string;
    readonly joint: readonly [R: number, r: number, beta: number, e: number];
    readonly s: readonly number[];
    readonly arc: readonly number[];
    readonly x: readonly number[];
    readonly more?: readonly (readonly [phi: number, s: number, arc: number, x: number])[];
  }[] = [
    {
      name: 'square tee',
      joint: [84.15, 57.15, 90, 0],
      s: [84.15, 81.258, 73.812, 65.524, 61.766, 65.524, 73.812, 81.258, 84.15],
      arc: [0, 22.124, 42.152, 57.076, 62.826, 57.076, 42.152, 22.124, 0],
      x: [-57.15, -52.8, -40.411, -21.87, 0, 21.87, 40.411, 52.8, 57.15],
    },
    {
      name: 'lateral at 45° by the bore',
      joint: [84.15, 51.13, 45, 0],
      s: [67.876, 68.506, 71.308, 78.92, 94.519, 118.053, 143.617, 162.982, 170.136],
      arc: [0, 19.747, 37.371, 50.155, 54.954, 50.155, 37.371, 19.747, 0],
      x: [11.841, 15.039, 24.857, 41.969, 66.835, 97.312, 127.117, 148.648, 156.459],
    },
    {
      name: 'offset lateral at 60°',
      joint: [109.55, 57.15, 60, 30],
      s: [88.666, 80.935, 73.577, 70.202, 76.647, 95.455, 120.24, 141.903, 154.657],
      arc: [30.388, 54.035, 76.472, 93.873, 100.773, 93.873, 76.472, 54.035, 30.388],
      x: [-5.16, -5.258, 1.792, 16.16, 38.324, 66.668, 95.117, 116.677, 126.822],
      more: [
        [225, 149.256, -10.427, 109.625],
        [270, 122.551, -27.436, 61.276],
        [315, 102.594, -10.427, 16.3],
      ],
    },
  ];

  it.each(tables)('$name: ordinates and opening', ({ joint: [R, r, degrees, e], s, arc, x, more = [] }) => {
    const beta = degrees * DEGREE;
    const end = branch(R, r, beta, e);
    const opening = developOpening(
      circleOutline(R, 0),
      cylinderMate(point(0, e, 0), point(-Math.sin(beta), 0, Math.cos(beta)), r),
      false,
      R * Math.asin(e / R),
    );
    expect(opening).toBeDefined();
    const rows = [
      ...stations.map((phi, i) => [phi, s[i], arc[i], x[i]] as [number, number, number, number]),
      ...more,
    ];
    for (const [phi, length, round, along] of rows) {
      expect(-end.ordinate(r * phi * DEGREE)).toBeCloseTo(length, 2);
      // The frame's opening runs y toward d, against the table's x; its own round is the table's arc.
      const edges = [opening?.lower(round) ?? NaN, opening?.upper(round) ?? NaN];
      const nearest = Math.min(...edges.map((y) => Math.abs(y + along)));
      // Near a tip the edge runs steeply, so the table's last digit of arc moves it.
      expect(nearest).toBeLessThan(Math.abs(Math.cos(phi * DEGREE)) < 0.1 ? 0.3 : 0.01);
    }
  });

  it('size on size: s = R |cos φ|, with a corner at each side that stays a corner', () => {
    const R = 84.15;
    const end = branch(R, R, Math.PI / 2, 0);
    [84.15, 77.744, 59.503, 32.203, 0].forEach((s, i) =>
      expect(-end.ordinate((R * i * Math.PI) / 8)).toBeCloseTo(s, 3),
    );
    for (const cubic of end.line)
      for (let i = 0; i <= 50; i++) {
        const p = cubicAt(cubic, i / 50);
        expect(Math.abs(p.y + R * Math.abs(Math.cos(p.x / R)))).toBeLessThan(0.002 * Math.SQRT2);
      }
    const found = corners(end.line);
    expect(found.length).toBe(2);
    found.forEach(({ x, bend }, i) => {
      expect(x).toBeCloseTo((R * Math.PI * (2 * i + 1)) / 2, 4);
      expect(bend).toBeCloseTo(Math.PI / 2, 3);
    });
    expect(end.line.length).toBeLessThanOrEqual(16);
  });

  it('flush with the side: the line that grazes the header is exact', () => {
    for (const [R, r] of [
      [109.55, 57.15],
      [84.15, 30.15],
      [500, 499],
    ] as const) {
      const end = branch(R, r, Math.PI / 2, R - r);
      // Station 90 is tangent: it touches at the header's axis height.
      expect(end.ordinate((r * Math.PI) / 2)).toBeCloseTo(0, 6);
      expect(strayOf(end)).toBeLessThan(0.002);
    }
  });

  it('has nodes where the touch goes from bore to outside, about 135° on a 60° lateral', () => {
    // Between the two the wall touches within itself: the line turns fast there, but without a break.
    const end = branch(84.15, 57.15, 60 * DEGREE, 0, 'wall', 6.02);
    const nodes = end.line.map(({ start }) => start.x / 57.15 / DEGREE);
    const { through, along } = headerAxis({ angle: 60 * DEGREE, offset: 0 });
    const body = cylinderDistance(through, along, 84.15);
    /** Reach of the layer at radius `r`, by the header's circle alone. */
    const layer = (phi: number, r: number): number =>
      walkedOrdinate(phi * DEGREE, { od: 2 * r, wall: 0, paper: 0 }, body, -400, 400) ?? NaN;
    const [bore, outside] = [57.15 - 6.02, 57.15];
    for (const [phi, deeper] of [
      [133, true],
      [138, false],
    ] as const)
      expect(layer(phi, bore) < layer(phi, outside)).toBe(deeper);
    expect(nodes.filter((phi) => phi > 133 && phi < 138).length).toBe(2);
    expect(nodes.filter((phi) => phi > 222 && phi < 227).length).toBe(2);
    expect(corners(end.line)).toEqual([]);
    expect(strayOf(end)).toBeLessThan(0.002);
  });

  it('first touch through the wall is what walking every layer finds', () => {
    for (const [degrees, e, wall] of [
      [60, 0, 6.02],
      [45, 25, 12],
      [110, -30, 20],
      [90, 52.4, 6],
    ] as const) {
      const [R, r] = [109.55, 57.15];
      const end = branch(R, r, degrees * DEGREE, -e, 'wall', wall);
      const { through, along } = headerAxis({ angle: degrees * DEGREE, offset: e });
      const body = cylinderDistance(through, along, R);
      for (let i = 0; i < 24; i++) {
        const phi = (2 * Math.PI * i) / 24 + 0.01;
        const walked = walkedOrdinate(phi, { od: 2 * r, wall, paper: 0 }, body, -800, 400);
        expect(end.ordinate(r * phi)).toBeCloseTo(walked ?? NaN, 5);
      }
    }
  });
});

describe('several bodies', () => {
  it('a post in the corner of two plates: two planes, a true corner between them', () => {
    const r = 50;
    const planes = [45, -45].map((a) =>
      planeMate(point(0, 0, 0), point(Math.sin(a * DEGREE), 0, -Math.cos(a * DEGREE))),
    );
    const end = developEnd(circleOutline(r, 0), { mate: severalMate(planes), contact: 'od', gap: 0 });
    for (const cubic of end.line)
      for (let i = 0; i <= 40; i++) {
        const p = cubicAt(cubic, i / 40);
        expect(Math.abs(p.y + r * Math.abs(Math.cos(p.x / r)))).toBeLessThan(0.003);
      }
    expect(corners(end.line).map(({ x }) => Math.round(x / r / DEGREE))).toEqual([90, 270]);
  });

  it('is the least reach over all of them', () => {
    const [a, b] = [
      cylinderMate(point(0, 10, 0), point(1, 0, 0.4), 80),
      cylinderMate(point(0, 0, -70), point(0.2, 1, 0), 40),
    ];
    const outline = circleOutline(30, 5);
    const ends = [a, b, severalMate([a, b])].map((mate) =>
      developEnd(outline, { mate, contact: 'wall', gap: 0 }),
    ) as [Development, Development, Development];
    for (let i = 0; i < 90; i++) {
      const s = (i * outline.girth) / 90;
      expect(ends[2].ordinate(s)).toBeCloseTo(Math.min(ends[0].ordinate(s), ends[1].ordinate(s)), 9);
    }
  });
});
