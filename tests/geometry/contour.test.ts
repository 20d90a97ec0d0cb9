import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  areaOf,
  circleContour,
  contourPoints,
  copeContour,
  depthOf,
  isInside,
  marginOf,
  perimeterOf,
  polygonContour,
  rectangleContour,
} from '../../src/geometry/contour.ts';

const length = fc.double({ min: 10, max: 1000, noNaN: true });
/** Spread evenly: a double of fast-check clusters about zero. */
const place = (min: number, max: number) =>
  fc.integer({ min: min * 100, max: max * 100 }).map((hundredths) => hundredths / 100);
const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });

/** Signed distance into a rounded rectangle, in closed form. */
const depthInRounded = (w: number, h: number, r: number, p: { x: number; y: number }): number => {
  const [x, y] = [Math.abs(p.x) - (w / 2 - r), Math.abs(p.y) - (h / 2 - r)];
  return r - (Math.hypot(Math.max(x, 0), Math.max(y, 0)) + Math.min(Math.max(x, y), 0));
};

describe('outlines of lines and arcs', () => {
  it('a rounded rectangle has the area and girth of its closed forms', () => {
    fc.assert(
      fc.property(length, length, share, (w, h, part) => {
        const r = (part * Math.min(w, h)) / 2;
        const contour = rectangleContour(w, h, { kind: 'round', size: r });
        expect(areaOf(contour) / (w * h - (4 - Math.PI) * r * r)).toBeCloseTo(1, 9);
        expect(perimeterOf(contour) / (2 * (w + h) - (8 - 2 * Math.PI) * r)).toBeCloseTo(1, 9);
        const snipped = rectangleContour(w, h, { kind: 'snip', size: r });
        expect(areaOf(snipped) / (w * h - 2 * r * r)).toBeCloseTo(1, 9);
      }),
    );
  });

  it('corners as large as half the side leave a circle', () => {
    const contour = rectangleContour(80, 80, { kind: 'round', size: 40 });
    expect(contour.every(({ kind }) => kind === 'arc')).toBe(true);
    expect(areaOf(contour)).toBeCloseTo(Math.PI * 1600, 6);
  });

  it('depth is the signed distance of the closed form', () => {
    fc.assert(
      fc.property(
        length,
        length,
        share,
        fc.double({ min: -1, max: 1, noNaN: true }),
        share,
        (w, h, part, u, v) => {
          const r = (part * Math.min(w, h)) / 2;
          const p = { x: u * w, y: (2 * v - 1) * h };
          const due = depthInRounded(w, h, r, p);
          fc.pre(Math.abs(due) > 1e-6);
          expect(depthOf(rectangleContour(w, h, { kind: 'round', size: r }), p)).toBeCloseTo(due, 6);
        },
      ),
    );
  });

  it('a slot near a corner is as near as its nearest place', () => {
    fc.assert(
      fc.property(share, share, share, fc.double({ min: 0, max: 3, noNaN: true }), (u, v, long, along) => {
        const contour = rectangleContour(200, 120, { kind: 'round', size: 30 });
        const hole = {
          at: { x: (u - 0.5) * 160, y: (v - 0.5) * 80 },
          diameter: 6,
          slot: { length: 6 + 60 * long, along },
        };
        const reach = 30 * long;
        const tried = Array.from({ length: 401 }, (_, i) => {
          const t = reach * (i / 200 - 1);
          return depthInRounded(200, 120, 30, {
            x: hole.at.x + t * Math.cos(along),
            y: hole.at.y + t * Math.sin(along),
          });
        });
        expect(Math.abs(marginOf(contour, hole) - (Math.min(...tried) - 3))).toBeLessThan(0.2);
      }),
    );
  });
});

describe('a cope', () => {
  it('on a square corner takes a quarter of the circle', () => {
    const triangle = polygonContour([
      { x: 0, y: 0 },
      { x: 150, y: 0 },
      { x: 0, y: 120 },
    ]);
    const coped = copeContour(triangle, { x: 0, y: 0 }, 40);
    if (!coped) throw new Error('no cope');
    expect(areaOf(coped)).toBeCloseTo((150 * 120) / 2 - (Math.PI * 1600) / 4, 6);
    expect(isInside(coped, { x: 20, y: 20 })).toBe(false);
    expect(isInside(coped, { x: 30, y: 30 })).toBe(true);
  });

  it('takes away just what lies in the circle', () => {
    fc.assert(
      fc.property(
        place(-60, 40),
        place(-40, 160),
        place(5, 80),
        place(-20, 220),
        place(-20, 170),
        (cx, cy, radius, px, py) => {
          const triangle = polygonContour([
            { x: 0, y: 0 },
            { x: 200, y: 0 },
            { x: 0, y: 150 },
          ]);
          const coped = copeContour(triangle, { x: cx, y: cy }, radius);
          fc.pre(coped !== undefined);
          const reach = Math.hypot(px - cx, py - cy) - radius;
          const slope = (1 - px / 200 - py / 150) * 120;
          fc.pre([reach, px, py, slope].every((d) => Math.abs(d) > 1e-6));
          const due = reach > 0 && px > 0 && py > 0 && slope > 0;
          expect(isInside(coped ?? [], { x: px, y: py })).toBe(due);
        },
      ),
      { numRuns: 400 },
    );
  });

  it('is refused where the circle misses, lies inside or parts the plate', () => {
    const square = rectangleContour(100, 100);
    expect(copeContour(square, { x: 200, y: 0 }, 20)).toBeUndefined();
    expect(copeContour(square, { x: 0, y: 0 }, 20)).toBeUndefined();
    expect(copeContour(square, { x: 0, y: 0 }, 60)).toBeUndefined();
  });

  it('reaches as far as its arcs do', () => {
    expect(contourPoints(circleContour({ x: 5, y: 0 }, 20)).map(({ x }) => x)).toContainEqual(
      expect.closeTo(-5, 9),
    );
  });
});
