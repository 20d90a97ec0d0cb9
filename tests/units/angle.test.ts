import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatAngle, formatDms, parseAngle } from '../../src/units/angle.ts';
import { refusalOf } from './refusal.ts';

const degrees = (value: number) => (value * Math.PI) / 180;

describe('angles that are read', () => {
  it.each([
    ['22.5', 22.5],
    ['22.5deg', 22.5],
    ['22.5 degrees', 22.5],
    ['22.5°', 22.5],
    ['22 1/2°', 22.5],
    ['22½°', 22.5],
    ['11-1/4 deg', 11.25],
    [`22°30'`, 22.5],
    ['22° 30′', 22.5],
    ["22 deg 30'", 22.5],
    [`22°30'15"`, 22 + 30 / 60 + 15 / 3600],
    ['22°30′15″', 22 + 30 / 60 + 15 / 3600],
    ["22°30.5'", 22 + 30.5 / 60],
    ['-22.5', -22.5],
    [`-22°30'`, -22.5],
    ['+90', 90],
    ['360', 360],
    ['0', 0],
  ])('%s is %f degrees', (text, expected) => {
    expect(parseAngle(text)).toBeCloseTo(degrees(expected), 14);
  });

  it('right angles and their halves are exact', () => {
    expect(parseAngle('90')).toBe(Math.PI / 2);
    expect(parseAngle('45')).toBe(Math.PI / 4);
    expect(parseAngle('180')).toBe(Math.PI);
    expect(Object.is(parseAngle('-0'), 0)).toBe(true);
  });

  /** Rise over run is the tangent; the drops are common practice, no source (1/4 in per foot is 1.19 degrees). */
  it.each([
    ['1:12', 1 / 12],
    ['1 : 12', 1 / 12],
    ['3in/ft', 3 / 12],
    ['3 in / ft', 3 / 12],
    ['1/4in/ft', 1 / 48],
    ['1/4"/ft', 1 / 48],
    [`1/4"/'`, 1 / 48],
    ['2 1/2in/ft', 2.5 / 12],
    ['3in/12in', 3 / 12],
    ['10mm/m', 0.01],
    ['10 mm per m', 0.01],
    ['5%', 0.05],
    ['100 %', 1],
    ['-5%', -0.05],
    ['-1:12', -1 / 12],
  ])('%s rises %f in 1', (text, slope) => {
    expect(Math.tan(parseAngle(text))).toBeCloseTo(slope, 14);
  });
});

describe('angles that are refused', () => {
  it.each([
    ['', 'empty', /no angle/],
    ['22,5', 'decimal-comma', /comma/],
    ['--5', 'two-signs', /two signs/],
    ['1e2', 'exponent', /power of ten/],
    ['NaN', 'not-an-angle', /NaN/],
    ['3/12', 'bare-fraction', /slope/],
    ['22°30', 'missing-mark', /no ' at its end/],
    [`22°30'15`, 'missing-mark', /no " at its end/],
    [`22°60'`, 'past-sixty', /60/],
    [`22°30'60"`, 'past-sixty', /60/],
    [`22°30.5'10"`, 'minutes-not-whole', /minute/],
    ['361', 'too-large', /full turn/],
    ['-1000', 'too-large', /full turn/],
    ['1:0', 'zero-run', /zero/],
    ['1/0deg', 'zero-denominator', /zero/],
    ['2ft', 'not-an-angle', /2ft/],
    ['22.5.5', 'not-an-angle', /22\.5\.5/],
    ["30'", 'not-an-angle', /30'/],
    ['%', 'not-an-angle', /%/],
  ])('%s: %s', (text, code, message) => {
    const issue = refusalOf(() => parseAngle(text, { path: 'cut' }));
    expect(issue.code).toBe(code);
    expect(issue.path).toBe('cut');
    expect(issue.message).toMatch(message);
  });
});

describe('angles as text', () => {
  it.each([
    [22.5, '22.5°', '22°30′'],
    [90, '90°', '90°'],
    [100, '100°', '100°'],
    [0, '0°', '0°'],
    [-11.25, '-11.25°', '-11°15′'],
    [22.504166667, '22.5042°', '22°30′15″'],
    [59.99999, '60°', '60°'],
    [-0.00001, '0°', '0°'],
    [5 / 3600, '0.0014°', '0°0′5″'],
  ])('%f degrees', (value, decimal, sexagesimal) => {
    expect(formatAngle(degrees(value))).toBe(decimal);
    expect(formatDms(degrees(value))).toBe(sexagesimal);
  });

  it.each([
    [120, 0, '120°'],
    [119.6, 0, '120°'],
    [45.2388, 2, '45.24°'],
    [-30.004, 2, '-30°'],
    [100.5, 1, '100.5°'],
  ])('writes %f° with %d decimals at most as %s', (value, places, text) =>
    expect(formatAngle(degrees(value), places)).toBe(text),
  );

  it('both forms read back within half their last digit', () => {
    fc.assert(
      fc.property(fc.double({ min: -2 * Math.PI, max: 2 * Math.PI, noNaN: true }), (angle) => {
        expect(Math.abs(parseAngle(formatAngle(angle)) - angle)).toBeLessThanOrEqual(
          degrees(0.00005) + 1e-14,
        );
        expect(Math.abs(parseAngle(formatDms(angle)) - angle)).toBeLessThanOrEqual(
          degrees(0.5 / 3600) + 1e-14,
        );
      }),
    );
  });

  it('what is not finite is never printed', () => {
    for (const value of [NaN, Infinity]) {
      expect(() => formatAngle(value)).toThrow(RangeError);
      expect(() => formatDms(value)).toThrow(RangeError);
    }
  });
});
