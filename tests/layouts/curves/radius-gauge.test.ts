import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { largestMiss } from '../../support/coverage.ts';
import { readLines } from '../../support/flat-figures.ts';
import { layerPoints, printAndRead, worst } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const textsOf = (radius: number, side: string, more: Record<string, string> = {}) => ({
  radius: `${radius}mm`,
  side,
  ...more,
});

describe('a radius gauge, from the bytes of its print', () => {
  it.each([
    [600, 'inside', 160, 'a4'],
    [600, 'outside', 180, 'letter'],
    [25, 'inside', 50, 'letter'],
    [88.9, 'outside', 120, 'a4'],
    [1500, 'outside', 600, 'a4'],
    [10_000, 'inside', 180, 'letter'],
  ] as const)('R %d %s, chord %d on %s', async (radius, side, chord, paper) => {
    const { file } = await printAndRead(
      'radius-gauge',
      textsOf(radius, side, { chord: `${chord}mm`, depth: '30mm', paper }),
    );
    const points = layerPoints(file, 'radius gauge', 'cut', 0.5);
    const half = chord / 2;
    const foot = Math.sqrt(radius * radius - half * half);
    const base = side === 'inside' ? foot - 30 : radius + 30;
    // Each point lies on the arc, on an end or on the straight back.
    const off = points.map(({ x, y }) =>
      Math.min(Math.abs(Math.hypot(x, y) - radius), Math.abs(Math.abs(x) - half), Math.abs(y - base)),
    );
    expect(worst(off)).toBeLessThan(0.01);
    const arc = Array.from({ length: 41 }, (_, i) => {
      const x = half * (i / 20 - 1);
      return { x, y: Math.sqrt(radius * radius - x * x) };
    });
    expect(largestMiss(arc, points)).toBeLessThan(0.26);
    // An inside gauge is full behind the arc, an outside one beyond it.
    const back = points.filter(({ y }) => Math.abs(y - base) < 0.001);
    expect(back.length).toBeGreaterThan(10);
  });

  it('ordinates stand at whole steps and end on the arc', async () => {
    const { file } = await printAndRead(
      'radius-gauge',
      textsOf(600, 'inside', { chord: '170mm', step: '20mm' }),
    );
    const lines = readLines(file, 'radius gauge', 'station').sort(([a], [b]) => a.x - b.x);
    const foot = Math.sqrt(600 * 600 - 85 * 85);
    expect(lines).toHaveLength(9);
    lines.forEach(([from, to], i) => {
      const x = 20 * (i - 4);
      const [low, high] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
      expect(Math.abs(from.x - x)).toBeLessThan(0.01);
      expect(Math.abs(to.x - x)).toBeLessThan(0.01);
      expect(Math.abs(low - foot)).toBeLessThan(0.01);
      expect(Math.abs(high - Math.sqrt(600 * 600 - x * x))).toBeLessThan(0.01);
    });
  });
});

describe('figures of a radius gauge', () => {
  const sheetOf = (texts: Record<string, string>) => {
    const [sheet] = makeWrittenSheets(readRequest('radius-gauge', { units: 'mm', ...texts }));
    if (!sheet) throw new Error('no sheet');
    return sheet;
  };

  /** Through three points: the center lies where the perpendicular bisectors meet. */
  const throughThree = (half: number, rise: number): number => {
    const y = (rise * rise - half * half) / (2 * rise);
    return Math.hypot(half, y);
  };

  it.each(['inside', 'outside'] as const)('light under an %s gauge tells the radius rolled', (side) => {
    const table = sheetOf(textsOf(600, side, { chord: '200mm' })).tables[1];
    const rise = 600 - Math.sqrt(600 * 600 - 100 * 100);
    const sign = side === 'inside' ? 1 : -1;
    [0.5, 1, 2, 3, 5].forEach((gap, i) => {
      const row = table?.rows[i] ?? [];
      expect(Number(row[1])).toBeCloseTo(throughThree(100, rise + sign * gap), 0.9);
      expect(Number(row[3])).toBeCloseTo(throughThree(100, rise - sign * gap), 0.9);
    });
  });

  it('plate is cut to the mean diameter (common practice, no source)', () => {
    const facts = new Map(sheetOf(textsOf(500, 'inside', { thickness: '20mm' })).facts);
    // π (1000 + 20)
    expect(facts.get('Plate for a full turn, on the mean diameter')).toMatch(/^3204\.4 mm/);
    const outside = new Map(sheetOf(textsOf(500, 'outside', { thickness: '20mm' })).facts);
    // π (1000 - 20)
    expect(outside.get('Plate for a full turn, on the mean diameter')).toMatch(/^3078\.8 mm/);
  });

  it.each([
    [
      { radius: '100mm', side: 'inside', chord: '201mm' },
      'joint chord too-large',
      /longer than the diameter/,
      /at most 200\.0 mm/,
    ],
    [
      { radius: '10mm', side: 'outside', thickness: '10mm' },
      'joint thickness too-large',
      /no inside/,
      /less than 10\.0 mm/,
    ],
    [{ radius: '100mm', side: 'between' }, 'request side not-a-choice', /not known/, /inside, outside/],
    [{ radius: '0mm', side: 'inside' }, 'request radius out-of-range', /out of range/, /more than 0 mm/],
  ] as const)('refuses %o', (texts, what, message, hint) => {
    const found = refused('radius-gauge', texts);
    expect(found.what).toBe(what);
    expect(found.message).toMatch(message);
    expect(found.hint).toMatch(hint);
  });
});
