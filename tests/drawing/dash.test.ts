import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitDashes } from '../../src/drawing/dash.ts';
import { circle, polyline } from '../render/sample-book.ts';

const straight = (length: number) => polyline([{ x: 3, y: 4 }, { x: 3 + length, y: 4 }]); // prettier-ignore
const sum = (lengths: readonly number[]) => lengths.reduce((total, length) => total + length, 0);

describe('fitDashes', () => {
  test('a long line keeps the proportions of ISO 128-2: dash 12, long dash 24, gap 3, dot half a line width', () => {
    const widths = (line: 'dashed' | 'long-dash-dot' | 'long-dash-double-dot') =>
      fitDashes(line, 0.5, straight(10_000)).map((length) => length / 0.5);
    widths('dashed').forEach((w, i) => expect(w).toBeCloseTo([12, 3][i]!, 1));
    widths('long-dash-dot').forEach((w, i) => expect(w).toBeCloseTo([24, 3, 0.5, 3][i]!, 1));
    widths('long-dash-double-dot').forEach((w, i) => expect(w).toBeCloseTo([24, 3, 0.5, 3, 0.5, 3][i]!, 1));
  });

  test('a continuous line has none', () => {
    expect(fitDashes('continuous', 0.5, straight(100))).toEqual([]);
  });

  test('an open line of any length begins and ends with a whole dash', () => {
    const line = fc.constantFrom('dashed', 'long-dash-dot', 'long-dash-double-dot');
    fc.assert(
      fc.property(
        line,
        fc.double({ min: 0.5, max: 5080, noNaN: true }),
        fc.double({ min: 0.18, max: 1, noNaN: true }),
        (type, length, width) => {
          // prettier-ignore
          const dashes = fitDashes(type, width, straight(length));
          const periods = (length - dashes[0]!) / sum(dashes);
          expect(Math.abs(periods - Math.round(periods))).toBeLessThan(1e-6);
          expect(Math.round(periods)).toBeGreaterThanOrEqual(1);
        },
      ),
    );
  });

  test('a circle holds a whole number of dashes and gaps', () => {
    const radius = 40;
    const dashes = fitDashes('dashed', 0.25, circle({ x: 0, y: 0 }, radius, 16));
    const periods = (2 * Math.PI * radius) / sum(dashes);
    expect(Math.abs(periods - Math.round(periods))).toBeLessThan(1e-4);
  });
});
