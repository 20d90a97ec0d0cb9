import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  circlePattern,
  edgeDistance,
  gridPattern,
  levelPair,
  narrowestWeb,
  radialReach,
  webBetween,
  type Hole,
} from '../../src/geometry/hole-pattern.ts';

const coordinate = fc.double({ min: -100, max: 100, noNaN: true });
const hole: fc.Arbitrary<Hole> = fc.record({
  at: fc.record({ x: coordinate, y: coordinate }),
  diameter: fc.double({ min: 1, max: 30, noNaN: true }),
  slot: fc.option(
    fc.record({
      length: fc.double({ min: 30, max: 80, noNaN: true }),
      along: fc.double({ min: 0, max: 3.2, noNaN: true }),
    }),
    { nil: undefined },
  ),
});

/** Points along a hole's long axis, for a web found by trying them all. */
const spine = ({ at, diameter, slot }: Hole) => {
  const half = slot ? (slot.length - diameter) / 2 : 0;
  return Array.from({ length: 401 }, (_, i) => {
    const k = half * (i / 200 - 1);
    return { x: at.x + k * Math.cos(slot?.along ?? 0), y: at.y + k * Math.sin(slot?.along ?? 0) };
  });
};

describe('the web between holes', () => {
  it('is what trying every pair of points finds', () => {
    fc.assert(
      fc.property(hole, hole, (p, q) => {
        let least = Infinity;
        const others = spine(q);
        for (const a of spine(p))
          for (const b of others) least = Math.min(least, Math.hypot(a.x - b.x, a.y - b.y));
        const tried = least - (p.diameter + q.diameter) / 2;
        const web = webBetween(p, q);
        // Tried points are up to half a step of each spine off the nearest ones.
        expect(web).toBeLessThanOrEqual(tried + 1e-9);
        expect(web).toBeGreaterThan(tried - 0.45);
      }),
      { numRuns: 40 },
    );
  });

  it('is symmetric, and the narrowest of all', () => {
    fc.assert(
      fc.property(fc.array(hole, { minLength: 2, maxLength: 8 }), (holes) => {
        const least = narrowestWeb(holes)!;
        holes.forEach((p, i) =>
          holes.forEach((q, j) => {
            if (i === j) return;
            expect(webBetween(p, q)).toBeCloseTo(webBetween(q, p), 9);
            expect(least.web).toBeLessThanOrEqual(webBetween(p, q) + 1e-9);
          }),
        );
      }),
      { numRuns: 50 },
    );
  });
});

describe('reach', () => {
  it('from the center and to the edges bounds every point of a hole', () => {
    fc.assert(
      fc.property(hole, (one) => {
        const { near, far } = radialReach(one);
        const edge = edgeDistance(one, 400, 300);
        const r = one.diameter / 2;
        let [least, most, inside] = [Infinity, 0, Infinity];
        for (const { x, y } of spine(one)) {
          least = Math.min(least, Math.hypot(x, y) - r);
          most = Math.max(most, Math.hypot(x, y) + r);
          inside = Math.min(inside, 200 - Math.abs(x) - r, 150 - Math.abs(y) - r);
        }
        expect(near).toBeCloseTo(Math.max(0, least), 0);
        expect(far).toBeCloseTo(most, 9);
        expect(edge).toBeCloseTo(inside, 9);
      }),
      { numRuns: 60 },
    );
  });
});

describe('patterns', () => {
  it('on a circle are evenly apart by D sin(180°/n) and add to nothing', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 60 }),
        fc.double({ min: 1, max: 5000, noNaN: true }),
        fc.double({ min: -7, max: 7, noNaN: true }),
        (count, diameter, first) => {
          const points = circlePattern(count, diameter, first);
          const chord = diameter * Math.sin(Math.PI / count);
          points.forEach((p, i) => {
            const q = points[(i + 1) % count]!;
            expect(Math.hypot(p.x - q.x, p.y - q.y)).toBeCloseTo(chord, 6);
          });
          expect(points.reduce((sum, p) => sum + p.x, 0)).toBeCloseTo(0, 6);
          expect(points.reduce((sum, p) => sum + p.y, 0)).toBeCloseTo(0, 6);
        },
      ),
    );
  });

  it('in a grid are centered on the origin', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 1, max: 9 }),
        coordinate,
        (columns, rows, stagger) => {
          const points = gridPattern({ columns, rows, columnPitch: 50, rowPitch: 40, stagger });
          expect(points).toHaveLength(rows * columns);
          const xs = points.map((p) => p.x);
          const ys = points.map((p) => p.y);
          expect(Math.min(...xs) + Math.max(...xs)).toBeCloseTo(0, 9);
          expect(Math.min(...ys) + Math.max(...ys)).toBeCloseTo(0, 9);
        },
      ),
    );
  });

  it.each([
    [4, true, [0, 1]],
    [8, true, [1, 2]],
    [4, false, [0, 2]],
    [6, false, [1, 2]],
    [12, false, [2, 4]],
  ] as const)('%d holes, straddling %s: the level lies on the highest pair', (count, straddle, pair) => {
    expect(levelPair(circlePattern(count, 100, straddle ? Math.PI / count : 0))).toEqual(pair);
  });
  it('finds no level pair in a turned pattern', () =>
    expect(levelPair(circlePattern(5, 100, 0.1))).toBeUndefined());
});
