import { describe, expect, it } from 'vitest';
import { bendAllowance, developBlank, neutralFactor, setback } from '../../src/geometry/bend-allowance.ts';
import { capBlankRadius, goreArea, seamStandoff } from '../../src/geometry/ball-gore.ts';
import { coneArea, coneSector } from '../../src/geometry/cone-pattern.ts';
import { flightAreas, flightBlank } from '../../src/geometry/flight.ts';

/**
 * Worked figures of the pattern books. Three that the books give stand for nothing that is drawn here: the wrinkling circle of a
 * raised bowl (Atkins prints 1.6 for a bowl of 5; d / π is 1.5915), the blank of a round pan, √(r² + 2rh) (Atkins: 24 for a pan
 * of 24, 18 deep, which is exact), and springback from yield and thickness (4X³ - 3X + 1, from memory): a blank is bent by a
 * test piece, and `bends` asks for what the shop's own machine gives. Square to round, leaning cones and hoppers stand in
 * hull.test.ts, gores, flights and cut cones in tests/layouts.
 */
const DEGREE = Math.PI / 180;
const sector = (diameter: number, height: number, small = 0) =>
  coneSector({ large: diameter / 2, small: small / 2, height, offset: 0 });
const heightOf = (diameter: number, slant: number, small = 0): number =>
  Math.sqrt(slant ** 2 - ((diameter - small) / 2) ** 2);

describe('cones', () => {
  /** E. M. Longfield, Sheet Metal Drafting, 1921: base 4, altitude 7 (a problem without answer; closed form here). */
  it('base 4, altitude 7', () => {
    expect(sector(4, 7).slant).toBeCloseTo(7.2801, 4);
    expect(sector(4, 7).angle / DEGREE).toBeCloseTo(98.9, 2);
  });

  /** Longfield: a sector of arc 14 and radius 7 is printed as 49, half of their product. */
  it('arc 14, radius 7', () => {
    const base = 14 / Math.PI;
    expect(sector(base, heightOf(base, 7)).outer).toBeCloseTo(7, 12);
    expect(coneArea({ large: base / 2, small: 0, height: heightOf(base, 7), offset: 0 })).toBeCloseTo(49, 12);
  });

  /** Longfield, p. 128: base 5, slant 12, circumference printed 15.7080; sector 75° by closed form. */
  it('base 5, slant 12', () => {
    const { outer, angle } = sector(5, heightOf(5, 12));
    expect(outer * angle).toBeCloseTo(15.708, 4);
    expect(angle / DEGREE).toBeCloseTo(75, 9);
    expect(coneArea({ large: 2.5, small: 0, height: heightOf(5, 12), offset: 0 })).toBeCloseTo(94.2478, 4);
  });

  /** Longfield, problem 19A: base 7, slant 11 1/4. */
  it('base 7, slant 11 1/4', () => {
    expect(sector(7, heightOf(7, 11.25)).angle / DEGREE).toBeCloseTo(112, 9);
    expect(coneArea({ large: 3.5, small: 0, height: heightOf(7, 11.25), offset: 0 })).toBeCloseTo(123.7, 2);
  });

  /** Longfield, p. 128: frustum of 6 and 3, altitude 3, slant from 1 1/2 and 3; and problem 30B, 8 and 4, altitude 4. */
  it.each([
    [6, 3, 3, 3.3541, 160.997],
    [8, 4, 4, 4.4721, 160.997],
  ])('frustum %d to %d, altitude %d', (large, small, height, slant, degrees) => {
    const found = sector(large, height, small);
    expect(found.slant).toBeCloseTo(slant, 4);
    expect(found.angle / DEGREE).toBeCloseTo(degrees, 3);
    expect(found.outer).toBeCloseTo(2 * found.slant, 12);
  });
  it('frustum 6 to 3, altitude 3: area', () =>
    expect(coneArea({ large: 3, small: 1.5, height: 3, offset: 0 })).toBeCloseTo(47.4175, 4));

  /** Net of a frustum, ceemrr.com: diameters 5 and 8, 4 apart, printed 7.12, 11.39 and 126.4°. */
  it('5 to 8, 4 apart', () => {
    const { inner, outer, angle } = sector(8, 4, 5);
    expect(inner.toFixed(2)).toBe('7.12');
    expect(outer.toFixed(2)).toBe('11.39');
    expect((angle / DEGREE).toFixed(1)).toBe('126.4');
  });

  /** ceemrr.com: diameter 8, height 12, slant printed 12.65. */
  it('8 by 12', () => expect(sector(8, 12).slant.toFixed(2)).toBe('12.65'));

  /** A right-angled cone's sector, 360 sin 45°; printed 254.6 in a forum of mathematics. */
  it('a 90° cone', () => expect(sector(2, 1).angle / DEGREE).toBeCloseTo(254.558, 3));

  /** E. A. Atkins, Practical Sheet and Plate Metal Work, ch. XII: cap of base 3 and slant 2; three quarters of a circle. */
  it('base 3, slant 2', () => expect(sector(3, heightOf(3, 2)).angle / DEGREE).toBeCloseTo(270, 9));

  /** A 19th-century mensuration text, with π taken as 22/7: 391 1/9, 224.125 and 1611.50 square feet. */
  it.each([
    [40 / 3, 0, 56 / 3, 391.1111, 390.954],
    [33 / 4, 16 / 3, 10.5, 224.125, 224.035],
  ])('⌀ %f to ⌀ %f, slant %f', (large, small, slant, printed, exact) => {
    const area = coneArea({
      large: large / 2,
      small: small / 2,
      height: heightOf(large, slant, small),
      offset: 0,
    });
    expect(area).toBeCloseTo(exact, 3);
    expect((area / Math.PI) * (22 / 7)).toBeCloseTo(printed, 3);
  });
  it('15 1/3 to 26 2/3, 23 3/4 deep: the depth is along the axis', () => {
    const area = coneArea({ large: 40 / 3, small: 23 / 3, height: 23.75, offset: 0 });
    expect(area).toBeCloseTo(1610.85, 2);
    expect((area / Math.PI) * (22 / 7)).toBeCloseTo(1611.5, 1);
  });
});

describe('balls', () => {
  /** Atkins prints d / 1.4 for the blank of a hemispherical bowl, 1.0 % large; d / √2 has the bowl's area (Archimedes). */
  it('the blank of a hemisphere', () => {
    expect(capBlankRadius(50, 0)).toBeCloseTo(100 / Math.SQRT2, 9);
    expect(100 / 1.4 / capBlankRadius(50, 0)).toBeCloseTo(1.01, 3);
  });

  it('dished gores make up the ball', () =>
    expect(12 * goreArea({ radius: 100, count: 12 }, 'dished', -90 * DEGREE, 90 * DEGREE)).toBeCloseTo(
      4 * Math.PI * 1e4,
      6,
    ));
  it('rolled ones stand out at their seams by R (sec π/N - 1)', () =>
    expect(seamStandoff({ radius: 100, count: 8 })).toBeCloseTo(8.2392, 4));
});

describe('flights', () => {
  /**
   * A worked example of a forum of draftsmen: shaft 2.875, outside 9, pitch 9. Its outer helix 29.67217479 is right; its
   * inner one, 12.55192704, is that of a shaft of 2.785: two digits swapped.
   */
  it('2.875, 9, pitch 9', () => {
    const blank = flightBlank({ pipe: 2.875, outside: 9, pitch: 9 });
    expect(blank.outerEdge).toBeCloseTo(29.67217479, 6);
    expect(blank.innerEdge).toBeCloseTo(12.750625, 6);
    expect(flightBlank({ pipe: 2.785, outside: 9, pitch: 9 }).innerEdge).toBeCloseTo(12.55192704, 6);
    expect(blank.inner).toBeCloseTo(2.30764, 5);
    expect(blank.outer).toBeCloseTo(5.37014, 5);
    expect(blank.gap / DEGREE).toBeCloseTo(43.418, 3);
    const areas = flightAreas({ pipe: 2.875, outside: 9, pitch: 9 });
    expect(areas.helicoid).toBeCloseTo(63.904, 3);
    expect(areas.blank).toBeCloseTo(64.96, 3);
  });

  it('the helicoid’s area by quadrature', () => {
    const flight = { pipe: 60, outside: 200, pitch: 200 };
    const rise = 200 / (2 * Math.PI);
    let sum = 0;
    for (let i = 0; i < 20000; i++) {
      const r = 30 + (70 * (i + 0.5)) / 20000;
      sum += 2 * Math.PI * Math.hypot(r, rise) * (70 / 20000);
    }
    expect(flightAreas(flight).helicoid).toBeCloseTo(sum, 3);
  });
});

describe('bends', () => {
  const bend = (angle: number, radius: number, thickness: number) => ({
    angle: angle * DEGREE,
    radius,
    thickness,
  });

  /** Machinery's Handbook, 31st ed., p. 1421: half-hard, T 1/8: 180° R 3/8 printed 1.338, 60° R 5/8 .707, flats 3.5, total 5.545. */
  it('the handbook’s worked example', () => {
    const rule = { kind: 'table', metal: 'medium' } as const;
    const [a, b] = [
      bendAllowance(bend(180, 0.375, 0.125), rule),
      bendAllowance(bend(60, 0.625, 0.125), rule),
    ];
    expect(a).toBeCloseTo(1.3375, 9);
    expect(b).toBeCloseTo(0.7075, 9);
    expect((a + b + 3.5).toFixed(3)).toBe('5.545');
  });

  /** US FAA-H-8083-31, ch. 4: T .040, R .16: setback .2, flats .8 and 1.6. The allowance of .27 it rounds to is .2791 by its formula. */
  it('the FAA’s channel', () => {
    const square = bend(90, 0.16, 0.04);
    expect(setback(square, 'mold-line')).toBeCloseTo(0.2, 12);
    expect(bendAllowance(square, { kind: 'empirical' })).toBeCloseTo(0.2791, 4);
    const parts = developBlank([1, 2, 1], [square, square], { kind: 'empirical' }, 'mold-line');
    expect(parts[parts.length - 1]!.to).toBeCloseTo(3.7581, 4);
    expect(neutralFactor(square, { kind: 'empirical' })).toBeCloseTo(0.44157, 5);
  });

  /** A workbook of sheet metal work (2012): T .050, R .032: BA printed .085, deduction .079, flat 2.973. */
  it('.050, R .032', () => {
    const square = bend(90, 0.032, 0.05);
    const allowance = bendAllowance(square, { kind: 'empirical' });
    expect(allowance.toFixed(3)).toBe('0.085');
    expect((2 * setback(square, 'outside') - allowance).toFixed(3)).toBe('0.079');
    expect(0.74 + 0.42 + 1.05 + 1.0 - 3 * 0.079).toBeCloseTo(2.973, 9);
  });

  /** DIN 6935 (its formulas as quoted at second hand), opening angle b = 180° - bend: v = what the legs together are too long. */
  it.each([
    [90, 3, 3, -5.756],
    [120, 3, 3, -3.675],
    [45, 3, 3, -1.849],
    [90, 10, 2, -6.722],
    [90, 6, 3, -6.689],
  ])('DIN 6935: bent %d°, r %d, s %d', (angle, radius, thickness, v) => {
    const one = bend(angle, radius, thickness);
    expect(bendAllowance(one, { kind: 'din' }) - 2 * setback(one, 'outside')).toBeCloseTo(v, 3);
  });
  it('DIN 6935 counts bends under 15° as corners', () => {
    const slight = bend(10, 3, 3);
    expect(bendAllowance(slight, { kind: 'din' }) - 2 * setback(slight, 'outside')).toBeCloseTo(0, 12);
  });
});
