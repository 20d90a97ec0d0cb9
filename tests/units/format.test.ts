import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  formatAsWritten,
  formatBoth,
  formatExactInches,
  formatExactMm,
  formatFeetInches,
  formatInches,
  formatLength,
  formatMm,
} from '../../src/units/format.ts';
import { parseLength } from '../../src/units/length.ts';

const INCH = 25.4;
const denominator = fc.constantFrom(1, 2, 4, 8, 16, 32, 64, 128);
const length = fc.double({ min: -999_000, max: 999_000, noNaN: true });

describe('lengths as text', () => {
  it.each([
    [168.275, 16, '6 5/8″'],
    [(15 + 31 / 32) * INCH, 16, '16″'],
    [(15 + 31 / 32) * INCH, 32, '15 31/32″'],
    [(15 + 127 / 128) * INCH, 64, '16″'],
    [0.5 * INCH, 64, '1/2″'],
    [0, 16, '0″'],
    [-0.01, 16, '0″'],
    [-168.275, 16, '-6 5/8″'],
    [12 * INCH, 16, '12″'],
    [INCH / 32, 16, '1/16″'],
  ])('%f mm to 1/%i in is %s', (mm, parts, text) => {
    expect(formatInches(mm, parts)).toBe(text);
  });

  it.each([
    [393.7, '1′-3 1/2″'],
    [(11 + 31 / 32) * INCH, '1′-0″'],
    [(23 + 63 / 64) * INCH, '2′-0″'],
    [3 * INCH, '3″'],
    [-15.5 * INCH, '-1′-3 1/2″'],
    [304.8, '1′-0″'],
  ])('%f mm in feet and inches is %s', (mm, text) => {
    expect(formatFeetInches(mm)).toBe(text);
  });

  it('millimetres keep their decimals and zero has no sign', () => {
    expect(formatMm(189.48)).toBe('189.5 mm');
    expect(formatMm(100)).toBe('100.0 mm');
    expect(formatMm(-0.04)).toBe('0.0 mm');
    expect(formatMm(-0)).toBe('0.0 mm');
    expect(formatMm(7.112, 2)).toBe('7.11 mm');
    expect(formatMm(12.6, 0)).toBe('13 mm');
  });

  it('both units, the reader’s first', () => {
    expect(formatBoth(189.5, { units: 'mm' })).toBe('189.5 mm (7 7/16″)');
    expect(formatBoth(189.5, { units: 'in', denominator: 32 })).toBe('7 15/32″ (189.5 mm)');
    expect(formatLength(189.5, { units: 'mm', decimals: 2 })).toBe('189.50 mm');
    expect(formatLength(189.5, { units: 'in' })).toBe('7 7/16″');
  });

  it('exactly: the shortest text that is the same length', () => {
    expect(formatExactInches(168.275)).toBe('6 5/8″');
    expect(formatExactInches(7.112)).toBe('0.28″');
    expect(formatExactMm(168.3)).toBe('168.3 mm');
    expect(formatExactMm(-0)).toBe('0 mm');
    expect(formatExactMm(1e-9)).toBe('0.000000001 mm');
  });

  it('as written: inches stay inches', () => {
    expect(formatAsWritten(7.112, '.28in')).toBe('0.28″');
    expect(formatAsWritten(7.112, '.28', 'in')).toBe('0.28″');
    expect(formatAsWritten(7.112, '7.112mm', 'in')).toBe('7.112 mm');
    expect(formatAsWritten(609.6, '2ft')).toBe('24″');
  });

  it('a fraction that is no halving and a length that is not finite are our own fault', () => {
    for (const parts of [0, 10, -16, 1.5, NaN]) expect(() => formatInches(1, parts)).toThrow(RangeError);
    for (const mm of [NaN, Infinity]) {
      for (const format of [formatMm, formatInches, formatFeetInches, formatExactMm, formatExactInches]) {
        expect(() => format(mm)).toThrow(RangeError);
      }
    }
  });
});

describe('there and back', () => {
  it('rounded forms read back within half their last digit', () => {
    fc.assert(
      fc.property(length, denominator, fc.integer({ min: 0, max: 6 }), (mm, parts, decimals) => {
        const slack = 1e-9;
        const half = INCH / parts / 2 + slack;
        expect(Math.abs(parseLength(formatMm(mm, decimals)) - mm)).toBeLessThanOrEqual(
          0.5 / 10 ** decimals + slack,
        );
        expect(Math.abs(parseLength(formatInches(mm, parts)) - mm)).toBeLessThanOrEqual(half);
        expect(Math.abs(parseLength(formatFeetInches(mm, parts)) - mm)).toBeLessThanOrEqual(half);
      }),
    );
  });

  it('what is printed is in lowest terms and prints again unchanged', () => {
    fc.assert(
      fc.property(length, denominator, (mm, parts) => {
        for (const format of [formatInches, formatFeetInches]) {
          const text = format(mm, parts);
          expect(format(parseLength(text), parts)).toBe(text);
          const [, n, d] = /(\d+)\/(\d+)″$/.exec(text) ?? [];
          if (n && d) {
            expect(Number(n) % 2).toBe(1);
            expect(Number(n)).toBeLessThan(Number(d));
          }
        }
      }),
    );
  });

  it('exact forms read back as the same double', () => {
    const tiny = fc.double({ min: -1, max: 1, noNaN: true }).filter((mm) => mm === 0 || Math.abs(mm) > 1e-30);
    fc.assert(
      fc.property(
        fc.oneof(
          length.filter((mm) => mm === 0 || Math.abs(mm) > 1e-30),
          tiny,
        ),
        (mm) => {
          expect(parseLength(formatExactMm(mm))).toBe(mm + 0);
          expect(parseLength(formatExactInches(mm))).toBe(mm + 0);
        },
      ),
    );
  });
});
