import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { braceCut, slopedCorner } from '../../src/geometry/compound.ts';
import { cornerChord, regularFrame, splitCorner } from '../../src/geometry/corner.ts';
import {
  fitTriangle,
  rackOfDiagonals,
  rackOfDifference,
  wholeTriangles,
} from '../../src/geometry/right-angle.ts';

const DEGREE = Math.PI / 180;
const degrees = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((d) => d * DEGREE);
const length = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('right triangles with whole sides', () => {
  const factor = (a: number, b: number): number => (b === 0 ? a : factor(b, a % b));

  it.each(wholeTriangles)('$short-$long-$diagonal is right, in lowest terms', ({ short, long, diagonal }) => {
    const [a, b, c] = [BigInt(short), BigInt(long), BigInt(diagonal)];
    expect(a * a + b * b).toBe(c * c);
    expect(factor(short, factor(long, diagonal))).toBe(1);
    expect(short).toBeLessThan(long);
  });

  it('fits the longest legs, and one step more would not fit', () => {
    fc.assert(
      fc.property(
        length(50, 20000),
        length(50, 20000),
        fc.constantFrom(...wholeTriangles),
        (l, w, triangle) => {
          const fitted = fitTriangle(triangle, l, w, 1);
          const [longest, shortest] = [Math.max(l, w), Math.min(l, w)];
          const steps = fitted === undefined ? 0 : Math.round(fitted.long / triangle.long);
          if (fitted) {
            expect(fitted.long).toBeLessThanOrEqual(longest + 1e-6);
            expect(fitted.short).toBeLessThanOrEqual(shortest + 1e-6);
          }
          const more = steps + 1;
          expect(more * triangle.long > longest || more * triangle.short > shortest).toBe(true);
        },
      ),
    );
  });
});

describe('diagonals of a racked frame', () => {
  it('gives back the lean of a parallelogram from its corners', () => {
    fc.assert(
      fc.property(length(100, 10000), length(100, 10000), degrees(0.01, 20), (l, w, lean) => {
        // Corners at (0,0), (l,0), (l + w sin, w cos), (w sin, w cos): its own diagonals, by Pythagoras.
        const [x, y] = [w * Math.sin(lean), w * Math.cos(lean)];
        const [p, q] = [Math.hypot(l + x, y), Math.hypot(l - x, y)];
        expect(rackOfDiagonals(l, w, p, q).lean).toBeCloseTo(lean, 8);
        expect(rackOfDifference(l, w, p - q).lean).toBeCloseTo(lean, 8);
        expect(rackOfDifference(l, w, p - q).overWidth).toBeCloseTo(Math.min(l, w) * Math.sin(lean), 6);
        expect(rackOfDifference(l, w, p - q).overLength).toBeCloseTo(Math.max(l, w) * Math.sin(lean), 6);
        expect(rackOfDiagonals(l, w, q, p).lean).toBeCloseTo(-lean, 8);
      }),
    );
  });
});

describe('a corner of two parts', () => {
  it('has an outside corner that is as far from both inside edges as the parts are wide', () => {
    fc.assert(
      fc.property(degrees(5, 175), length(5, 500), length(5, 500), (between, w1, w2) => {
        const { first, second, joint } = splitCorner(between, w1, w2);
        expect(first + second).toBeCloseTo(between, 9);
        const tip = { x: -joint * Math.cos(first), y: -joint * Math.sin(first) };
        // Distance behind the first inside edge (the x axis), and behind the one at `between`.
        expect(-tip.y / w1).toBeCloseTo(1, 9);
        const cross = tip.x * Math.sin(between) - tip.y * Math.cos(between);
        expect(Math.abs(cross) / w2).toBeCloseTo(1, 9);
      }),
    );
  });

  it('halves the angle between equal parts: 45° each of a square corner (common practice, no source)', () => {
    expect(splitCorner(90 * DEGREE, 50, 50).first / DEGREE).toBeCloseTo(45, 12);
  });

  it('cuts 30° from square at 120°, 2.9 in back on 5 in (ATK chapter VI)', () => {
    const { first } = splitCorner(120 * DEGREE, 5, 5);
    expect(90 - first / DEGREE).toBeCloseTo(30, 10);
    expect(5 / Math.tan(first)).toBeCloseTo(2.9, 1);
  });
});

describe('regular frames', () => {
  it('agree with corners placed round a circle', () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 60 }), length(100, 5000), (sides, radius) => {
        const frame = regularFrame(sides, radius, radius / 10);
        const corner = (k: number, r: number) => ({
          x: r * Math.cos((2 * Math.PI * k) / sides),
          y: r * Math.sin((2 * Math.PI * k) / sides),
        });
        for (const line of [frame.outside, frame.inside]) {
          const [a, b] = [corner(0, line.cornerRadius), corner(1, line.cornerRadius)];
          expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeCloseTo(line.side, 6);
          expect(Math.hypot((a.x + b.x) / 2, (a.y + b.y) / 2)).toBeCloseTo(line.flatRadius, 6);
          for (let k = 1; k <= sides / 2; k++) {
            const c = corner(k, line.cornerRadius);
            expect(cornerChord(sides, line.cornerRadius, k)).toBeCloseTo(Math.hypot(a.x - c.x, a.y - c.y), 6);
          }
        }
      }),
    );
  });
});

describe('compound cuts', () => {
  it('meets the closed forms for equal slopes', () => {
    fc.assert(
      fc.property(degrees(20, 160), degrees(1, 89), (plan, slope) => {
        const { first, second, between, jointSlope } = slopedCorner(plan, slope, slope);
        expect(Math.tan(first.miter)).toBeCloseTo(Math.cos(slope) / Math.tan(plan / 2), 7);
        expect(Math.sin(first.tilt)).toBeCloseTo(Math.sin(slope) * Math.cos(plan / 2), 9);
        expect(second.miter).toBeCloseTo(first.miter, 9);
        expect(between).toBeCloseTo(Math.PI - 2 * first.tilt, 12);
        // The hip's run is longer than the plate's by 1 / sin(plan/2) for the same rise.
        expect(Math.tan(jointSlope) / Math.tan(slope)).toBeCloseTo(Math.sin(plan / 2), 6);
      }),
    );
  });

  // Known figures of a square hopper with sides at 45° (common practice, no source): miter 35.26°, tilt 30°, 120° between.
  it('is 35.26°, 30° and 120° for a square hopper at 45°', () => {
    const { first, between } = slopedCorner(90 * DEGREE, 45 * DEGREE, 45 * DEGREE);
    expect(first.miter / DEGREE).toBeCloseTo(35.2644, 4);
    expect(first.tilt / DEGREE).toBeCloseTo(30, 9);
    expect(between / DEGREE).toBeCloseTo(120, 9);
  });

  it('finds a joint that lies in both faces, whatever the slopes', () => {
    fc.assert(
      fc.property(degrees(20, 160), degrees(5, 85), degrees(5, 85), (plan, b1, b2) => {
        const { first, second, jointSlope } = slopedCorner(plan, b1, b2);
        // Unroll: along each face the joint climbs cos(miter) sin(slope) a unit; both must be the same climb.
        expect(Math.cos(first.miter) * Math.sin(b1)).toBeCloseTo(Math.sin(jointSlope), 9);
        expect(Math.cos(second.miter) * Math.sin(b2)).toBeCloseTo(Math.sin(jointSlope), 9);
        // And its run in plan, taken along the first edge and square to it, must lie over the second edge's direction.
        const [x, y] = [Math.sin(first.miter), Math.cos(first.miter) * Math.cos(b1)];
        const along = x * Math.cos(plan) + y * Math.sin(plan);
        expect(along).toBeCloseTo(Math.sin(second.miter), 9);
      }),
    );
  });

  it('cuts a brace in one plane where it leans in one', () => {
    fc.assert(
      fc.property(degrees(-80, 80), (angle) => {
        expect(braceCut(angle, 0).miter).toBeCloseTo(angle, 12);
        expect(braceCut(angle, 0).tilt).toBeCloseTo(0, 12);
        expect(braceCut(0, angle).miter).toBeCloseTo(0, 12);
        expect(braceCut(0, angle).tilt).toBeCloseTo(angle, 12);
      }),
    );
  });

  it('cuts a brace so that four corners of the bar lie in the face', () => {
    fc.assert(
      fc.property(degrees(-70, 70), degrees(-70, 70), (swing, rise) => {
        const { miter, tilt, fromSquare } = braceCut(swing, rise);
        const along = [Math.cos(rise) * Math.cos(swing), Math.cos(rise) * Math.sin(swing), Math.sin(rise)];
        const across = [-Math.sin(swing), Math.cos(swing), 0];
        const up = [-Math.sin(rise) * Math.cos(swing), -Math.sin(rise) * Math.sin(swing), Math.cos(rise)];
        // On the lower side the cut runs back by tan(miter) a unit across, up the bar by tan(tilt)/cos(miter) a unit.
        for (const [u, v] of [
          [1, 0],
          [0, 1],
          [1, 1],
        ] as const) {
          const back = u * Math.tan(miter) + (v * Math.tan(tilt)) / Math.cos(miter);
          const x = back * along[0]! + u * across[0]! + v * up[0]!;
          expect(x).toBeCloseTo(0, 9);
        }
        expect(Math.cos(fromSquare)).toBeCloseTo(along[0]!, 9);
      }),
    );
  });
});
