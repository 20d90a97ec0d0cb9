import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contourOutline } from '../../src/geometry/contour-outline.ts';
import { cubicAt } from '../../src/geometry/cubic.ts';
import { solveFold } from '../../src/geometry/fold.ts';
import { notchSides, notchStretches, solveNotch, type NotchAsked } from '../../src/geometry/notch.ts';
import { parseShaped } from '../../src/stock/shaped.ts';

const DEGREE = Math.PI / 180;
const sharp = { bendRadius: 0, k: 0.41, gap: 0 };
const notchOf = (
  stock: string,
  hinge: string,
  thickness: number,
  turn: number,
  more: Partial<NotchAsked> = {},
) => {
  const outline = contourOutline(parseShaped(stock).section);
  const notch = solveNotch(outline, { hinge, thickness, turn: turn * DEGREE, ...sharp, ...more });
  return { outline, notch };
};

describe('width of the notch at its far edge', () => {
  /** Formula 2(b − t) tan(turn / 2), the V's point on the inside of the wall that stays: common practice, no primary source. */
  it.each([
    ['angle 50x50x5mm', 'leg 1', 5, 90, 90],
    ['angle 50x50x5mm', 'leg 1', 5, 60, 51.962],
    ['angle 50x50x5mm', 'leg 2', 5, 60, 51.962],
    ['angle 50x50x5mm', 'leg 1', 5, 45, 37.279],
    ['tube 100x100x6mm', 'face 3', 6, 90, 188],
    ['C 8x11.5', 'web', 0.22 * 25.4, 90, 4.08 * 25.4],
  ])('%s, hinge %s of %d mm, turn %d: %d mm', (stock, hinge, thickness, turn, width) => {
    expect(Math.abs(notchOf(stock, hinge, thickness, turn).notch.farWidth - width)).toBeLessThan(0.0006);
  });
});

describe('stretches that a notch opens', () => {
  it('three walls of a tube, in one piece that ends in both corners beside the hinge', () => {
    const { outline, notch } = notchOf('tube 100x60x6mm', 'face 1', 6, 90);
    const [only, ...more] = notchStretches(outline, notch);
    expect(more).toHaveLength(0);
    expect((only?.to ?? 0) + (only?.from ?? 0)).toBeCloseTo(2 * notch.hingeAt + outline.girth, 6);
    expect(notch.heightAt(only?.from ?? NaN)).toBeCloseTo(0, 9);
  });

  it('both flanges of a channel whose web bends, and the web and one flange where a flange does', () => {
    const web = notchOf('C 8x11.5', 'web', 5.588, 90);
    expect(notchStretches(web.outline, web.notch)).toHaveLength(2);
    const flange = notchOf('UPE 160', 'flange 1', 9.5, 90);
    expect(notchStretches(flange.outline, flange.notch)).toHaveLength(1);
  });

  it('one leg of an angle, from the root to the toe', () => {
    const { outline, notch } = notchOf('angle 50x50x5mm', 'leg 1', 5, 60);
    const [only, ...more] = notchStretches(outline, notch);
    expect(more).toHaveLength(0);
    // Leg 2 comes in at its toe, 5 mm wide, and ends where the leg is 5 mm high.
    expect((only?.to ?? 0) - (only?.from ?? 0)).toBeCloseTo(5 + 45, 6);
  });
});

describe('folded', () => {
  /**
   * The sheet folded in the plane: the near side stays, the far one goes round the bend's center. What the fold brings
   * together must lie in one place, or stand the gap apart.
   */
  it('both sides of the notch meet, with the root gap between them, for any stock, turn, radius and gap', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(
          ['tube 100x60x6mm', 'face 2', 6] as const,
          ['angle 80x60x7mm', 'leg 2', 7] as const,
          ['UPN 160', 'web', 7.5] as const,
        ),
        fc.integer({ min: 50, max: 1500 }),
        fc.integer({ min: 0, max: 120 }),
        fc.integer({ min: 0, max: 30 }),
        ([stock, hinge, thickness], tenths, radius, gapTenths) => {
          const turn = (tenths / 10) * DEGREE;
          const [bendRadius, gap] = [radius / 10, gapTenths / 10];
          const { outline, notch } = notchOf(stock, hinge, thickness, tenths / 10, { bendRadius, gap });
          for (const stretch of notchStretches(outline, notch)) {
            const { upper, lower } = notchSides(outline, notch, stretch);
            for (const [cubics, sign] of [
              [upper, 1],
              [lower, -1],
            ] as const)
              for (const cubic of cubics)
                for (const u of [0.1, 0.5, 0.9]) {
                  const { x, y } = cubicAt(cubic, u);
                  const height = notch.heightAt(x);
                  if (height < bendRadius) continue;
                  const center = { x: -notch.allowance / 2, y: bendRadius };
                  const along = Math.abs(y) - notch.allowance / 2;
                  const up = height - bendRadius;
                  // The near side, seen from the bend's center; the far one is turned about it and lies behind.
                  const near = { x: -along, y: up };
                  const far = {
                    x: along * Math.cos(turn) - up * Math.sin(turn),
                    y: along * Math.sin(turn) + up * Math.cos(turn),
                  };
                  expect(center.y).toBe(bendRadius);
                  expect(Math.hypot(near.x - far.x, near.y - far.y)).toBeCloseTo(gap, 2);
                  expect(sign * y).toBeGreaterThan(0);
                }
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('frames from one length', () => {
  const frame = (legs: readonly number[], turns: readonly number[], more = {}) =>
    solveFold({
      legs,
      turns: turns.map((turn) => turn * DEGREE),
      taken: 'outside',
      thickness: 3.175,
      bendRadius: 0,
      k: 0.41,
      ...more,
    });

  /** Shop forum, common practice: frame 12 in outside of 1/8 in stock, notches 11 3/4 in apart. */
  it('notches of a 12 in frame of 1/8 in stock are 11 3/4 in apart', () => {
    const { places, closing } = frame([304.8, 304.8, 304.8, 304.8], [90, 90, 90, 90]);
    expect((places[1] ?? 0) - (places[0] ?? 0)).toBeCloseTo(11.75 * 25.4, 9);
    expect(closing).toBeCloseTo(90 * DEGREE, 12);
    expect(frame([298.45, 298.45, 298.45, 298.45], [90, 90, 90, 90], { taken: 'inside' }).places).toEqual(
      places,
    );
  });

  it('three turns that bring the ends together close by themselves', () => {
    const { closing, miss, left } = frame([400, 300, 400, 300], [90, 90, 90]);
    expect(miss).toBeLessThan(1e-9);
    expect(closing).toBeCloseTo(90 * DEGREE, 9);
    expect(left).toBeCloseTo(90 * DEGREE, 9);
    expect(frame([400, 300, 350, 300], [90, 90, 90]).miss).toBeCloseTo(50, 9);
    expect(frame([400, 300, 350, 300], [90, 90, 90]).closing).toBeUndefined();
  });

  /** Folding the flat strip leg by leg along its own lengths gives back the outside corners. */
  it('the strip, bent round its radii leg by leg, gives the legs back', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 200, max: 900 }), { minLength: 3, maxLength: 7 }),
        fc.array(fc.integer({ min: 100, max: 1200 }), { minLength: 6, maxLength: 6 }),
        fc.integer({ min: 0, max: 150 }),
        (legs, tenths, radius) => {
          const turns = legs.slice(1).map((_, i) => (tenths[i] ?? 900) / 10);
          const [bendRadius, thickness, k] = [radius / 10, 6, 0.41];
          const { places, length, corners } = frame(legs, turns, { bendRadius, thickness });
          // Walk along the inside of the wall: straight, then round each bend.
          let [at, heading, run] = [{ x: 0, y: thickness }, 0, 0];
          const forward = (l: number) => {
            at = { x: at.x + l * Math.cos(heading), y: at.y + l * Math.sin(heading) };
          };
          const outer: { x: number; y: number }[] = [];
          turns.forEach((degrees, i) => {
            const turn = degrees * DEGREE;
            const half = bendRadius > 0 ? (turn * (bendRadius + k * thickness)) / 2 : 0;
            forward((places[i] ?? 0) - half - run);
            run = (places[i] ?? 0) + half;
            // From the tangent line, the outside corner lies ahead and outward.
            const ahead = (bendRadius + thickness) * Math.tan(turn / 2);
            outer.push({
              x: at.x + ahead * Math.cos(heading) + thickness * Math.sin(heading),
              y: at.y + ahead * Math.sin(heading) - thickness * Math.cos(heading),
            });
            const center = {
              x: at.x - bendRadius * Math.sin(heading),
              y: at.y + bendRadius * Math.cos(heading),
            };
            heading += turn;
            at = {
              x: center.x + bendRadius * Math.sin(heading),
              y: center.y - bendRadius * Math.cos(heading),
            };
          });
          forward(length - run);
          const end = { x: at.x + thickness * Math.sin(heading), y: at.y - thickness * Math.cos(heading) };
          [...outer, end].forEach((p, i) => {
            const q = corners[i + 1] ?? { x: NaN, y: NaN };
            expect(Math.hypot(p.x - q.x, p.y - q.y)).toBeLessThan(1e-6);
          });
        },
      ),
      { numRuns: 100 },
    );
  });
});
