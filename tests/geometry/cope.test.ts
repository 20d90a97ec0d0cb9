import { describe, expect, it } from 'vitest';
import { solveCope } from '../../src/geometry/cope.ts';
import { flangeGage, legGage } from '../../src/stock/gages.ts';

const INCH = 25.4;
const DEGREE = Math.PI / 180;
/** W10x39 (AISC shapes database v15.0): depth 9.92, flange 7.99, web 0.315, k design 1.03 in. */
const w10x39 = { depth: 9.92 * INCH, width: 7.99 * INCH, web: 0.315 * INCH, k: 1.03 * INCH };
const asked = {
  depth: w10x39.depth,
  to: w10x39,
  setback: INCH / 2,
  clearance: INCH / 2,
  angle: 90 * DEGREE,
  rise: 0,
  drop: 0,
  radius: INCH / 2,
  step: INCH / 8,
};

describe('cope of a beam that frames into another', () => {
  /**
   * US Navy training manual 14251 (Steelworker), figure 3-32: half the receiving flange less half its web and 1/16 in. Two
   * W10x39: 7.99/2 − (0.315/2 + 1/16) = 3.775 in.
   */
  it('length by the Navy rule: 3.775 in for two W10x39', () => {
    const { top } = solveCope({ ...asked, setback: INCH / 16, clearance: 0 });
    expect(top.length / INCH).toBeCloseTo(3.775, 9);
  });

  it('length with setback and clearance of 1/2 in each: b/2 − t/2', () => {
    expect(solveCope(asked).top.length / INCH).toBeCloseTo(7.99 / 2 - 0.315 / 2, 9);
  });

  it('depth: the end of the receiving fillet, rounded up to an eighth, tops flush', () => {
    const { top, bottom } = solveCope(asked);
    expect(top.depth / INCH).toBeCloseTo(1.125, 9);
    expect(bottom.depth / INCH).toBeCloseTo(1.125, 9);
    expect(top.corners[0].y).toBeCloseTo(-1.125 * INCH, 9);
    expect(bottom.corners[0].y).toBeCloseTo(-(9.92 - 1.125) * INCH, 9);
  });

  it('a drop takes that much off the top and gives it to the bottom; none is left where the flange clears', () => {
    const { top, bottom } = solveCope({ ...asked, drop: INCH / 2 });
    expect(top.least / INCH).toBeCloseTo(0.53, 9);
    expect(bottom.least / INCH).toBeCloseTo(1.53, 9);
    expect(solveCope({ ...asked, drop: 2 * INCH }).top.depth).toBe(0);
    expect(solveCope({ ...asked, depth: 6 * INCH }).bottom.depth).toBe(0);
  });

  it('skewed, every length along the beam grows by 1 / sin', () => {
    const { top } = solveCope({ ...asked, angle: 60 * DEGREE });
    expect(top.length).toBeCloseTo(solveCope(asked).top.length / Math.sin(60 * DEGREE), 9);
  });

  it('sloped, the cuts stay level and plumb', () => {
    const slope = 20 * DEGREE;
    const { top, bottom } = solveCope({ ...asked, rise: Math.tan(slope) });
    for (const { corners } of [top, bottom]) {
      const [a, b, c] = corners;
      expect(Math.atan2(b.y - a.y, b.x - a.x)).toBeCloseTo(-slope, 9);
      expect(Math.abs((b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y))).toBeLessThan(1e-9);
    }
    // The flange's outsides are the beam's own lines.
    expect(top.corners[2].y).toBeCloseTo(0, 9);
    expect(bottom.corners[2].y).toBeCloseTo(-asked.depth, 9);
  });

  /**
   * In plan the flange reaches 3.8375 in under the other one, so that at 20° it rises or falls 3.8375 tan 20° = 1.3967 in on the
   * way: worked by hand from the drawing, no source.
   */
  describe('sloped, a flange nears the other beam’s along its way or leaves it', () => {
    const rise = Math.tan(20 * DEGREE);
    const way = (7.99 / 2 - 0.315 / 2) * rise;

    it('a top 1 1/4 in low clears at its end, and is coped where it rises into the other flange', () => {
      const { top } = solveCope({ ...asked, rise, drop: 1.25 * INCH });
      expect(top.depth / INCH).toBeCloseTo(0.125, 9);
      expect(top.shoulder / INCH).toBeCloseTo(0.125 + way, 9);
      // Low enough for its whole way, it needs none.
      expect(solveCope({ ...asked, rise, drop: (1.03 + way + 0.01) * INCH }).top.depth).toBe(0);
      expect(solveCope({ ...asked, rise: -rise, drop: 1.25 * INCH }).top.depth).toBe(0);
    });

    it('a top that falls away is cut so deep that the radius fits in the corner', () => {
      const { top } = solveCope({ ...asked, rise: -rise });
      expect(top.least / INCH).toBeCloseTo(way + 0.5, 9);
      expect(top.depth / INCH).toBeCloseTo(2, 9);
      const [, corner, outside] = top.corners;
      expect(Math.hypot(outside.x - corner.x, outside.y - corner.y)).toBeCloseTo(top.shoulder, 9);
      expect(corner.y).toBeLessThan(0);
      expect(top.shoulder).toBeGreaterThan(asked.radius);
    });

    it('the bottom of a beam that rises likewise', () => {
      const { bottom } = solveCope({ ...asked, rise });
      expect(bottom.corners[1].y).toBeGreaterThan(-asked.depth);
      expect(bottom.shoulder).toBeGreaterThan(asked.radius);
    });

    it('the web left is what is left at the deepest corner', () => {
      const { left, top } = solveCope({ ...asked, rise });
      expect(left.top).toBeCloseTo(asked.depth + top.corners[1].y, 9);
      expect(left.top).toBeLessThan(asked.depth - top.depth);
      expect(solveCope(asked).left.both / INCH).toBeCloseTo(9.92 - 2 * 1.125, 9);
    });
  });
});

describe('gages', () => {
  /** AISC table 1-7A and flange gages, second-hand. */
  it('by flange width and leg', () => {
    expect(flangeGage(8 * INCH)).toBeCloseTo(5.5 * INCH, 9);
    expect(flangeGage(6.5 * INCH)).toBeCloseTo(3.5 * INCH, 9);
    expect(flangeGage(4 * INCH)).toBeCloseTo(2.25 * INCH, 9);
    expect(flangeGage(3 * INCH)).toBeUndefined();
    expect(legGage(3 * INCH)?.gage).toBeCloseTo(1.75 * INCH, 9);
    expect(legGage(6 * INCH)?.pair?.[1]).toBeCloseTo(2.5 * INCH, 9);
    expect(legGage(80)).toBeUndefined();
  });
});
