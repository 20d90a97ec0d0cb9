import { describe, expect, it } from 'vitest';
import { makeSheets, makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { readCrosses, readLines } from '../../support/flat-figures.ts';
import { layerPoints, printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const degreesOf = ({ x, y }: { readonly x: number; readonly y: number }): number => {
  const angle = (Math.atan2(y, x) * 180) / Math.PI;
  return angle < -1e-4 ? angle + 360 : angle;
};
const radiusOf = ({ x, y }: { readonly x: number; readonly y: number }): number => Math.hypot(x, y);

describe('the two rows of numbers', () => {
  it.each([
    ['half', 'inner numbers from the left'],
    ['full', 'inner numbers clockwise'],
  ])('of a %s circle are told apart: %s', (arc, words) => {
    const [sheet] = makeWrittenSheets(readRequest('protractor', { arc, units: 'mm' }));
    expect(sheet?.steps.join(' ')).toContain(words);
  });
});

describe('a protractor, from the bytes of its print', () => {
  it.each([
    ['half', 100, 180, 0.5],
    ['quarter', 300, 90, 0.25],
    ['full', 76.2, 359, 1],
    ['half', 40, 180, 2],
  ] as const)('%s circle of radius %d', async (arc, radius, last, step) => {
    const { file } = await printAndRead('protractor', { arc, radius: `${radius}mm`, paper: '900x900mm' });
    const ticks = readLines(file, 'protractor', 'station');
    const outer = ticks.filter(([a]) => Math.abs(radiusOf(a) - radius) < 0.001);
    const wanted = Math.round((arc === 'full' ? 360 : last) / step) + (arc === 'full' ? 0 : 1);
    expect(outer).toHaveLength(wanted);
    const seen = new Set<number>();
    for (const [a, b] of ticks) {
      const angle = degreesOf(a);
      const nearest = Math.round(angle / step) * step;
      expect(Math.abs(angle - nearest)).toBeLessThan(0.001);
      // Radial: the inner end lies on the same ray.
      expect(Math.abs(degreesOf(b) - angle)).toBeLessThan(0.001);
      if (Math.abs(radiusOf(a) - radius) < 0.001) seen.add(nearest);
    }
    expect(seen.size).toBe(wanted);
    // The outline is the circle, and straight edges through the center where it is cut off.
    const off = layerPoints(file, 'protractor', 'cut').map((p) =>
      Math.min(
        Math.abs(radiusOf(p) - radius),
        arc === 'full' ? Infinity : Math.abs(p.y),
        arc === 'quarter' ? Math.abs(p.x) : Infinity,
      ),
    );
    expect(Math.max(...off)).toBeLessThan(0.002);
    expect(readCrosses(file, 'protractor').map(radiusOf)).toEqual([expect.closeTo(0, 4)]);
  });

  it('draws the angles asked for, from the right end', async () => {
    const { file } = await printAndRead('protractor', {
      radius: '120mm',
      at: `22.5,37.125,151°30'`,
      paper: '900x900mm',
    });
    const rays = readLines(file, 'protractor', 'reference').filter(([a, b]) => radiusOf(b) - radiusOf(a) > 5);
    const angles = [...new Set(rays.map(([a, b]) => degreesOf({ x: b.x - a.x, y: b.y - a.y }).toFixed(3)))];
    const wanted = [22.5, 37.125, 151.5];
    expect(angles).toHaveLength(wanted.length);
    angles.forEach((angle, i) => expect(Number(angle)).toBeCloseTo(wanted[i]!, 3));
    for (const [a, b] of rays) expect(Math.abs(degreesOf(a) - degreesOf(b))).toBeLessThan(0.001);
  });
});

describe('numbers of a protractor', () => {
  it('count counter-clockwise outside and clockwise inside', () => {
    const [sheet] = makeSheets(readRequest('protractor', { radius: '100mm' }));
    const numbers = sheet!.marks.flatMap((mark) =>
      mark.kind === 'text' && /^\d+$/.test(mark.text) ? [{ value: Number(mark.text), at: mark.at }] : [],
    );
    const outer = numbers.filter(({ at }) => radiusOf(at) > 90);
    const inner = numbers.filter(({ at }) => radiusOf(at) <= 90);
    expect(outer).toHaveLength(19);
    expect(inner).toHaveLength(19);
    for (const { value, at } of outer) expect(Math.abs(degreesOf(at) - value)).toBeLessThan(1);
    for (const { value, at } of inner) expect(Math.abs(degreesOf(at) - (180 - value))).toBeLessThan(1);
  });
});

describe('angles by tape', () => {
  const [sheet] = makeWrittenSheets(readRequest('protractor', { units: 'mm', 'tape-radius': '1m' }));
  const row = (angle: string): number => Number(sheet!.tables[0]!.rows.find(([name]) => name === angle)![1]);

  // Table of chords for radius 1: 30° 0.5176, 45° 0.7654, 60° 1, 90° 1.4142 (Machinery's Handbook, lengths of chords; from memory).
  it('agrees with a table of chords', () => {
    expect(row('30°')).toBeCloseTo(517.6, 1);
    expect(row('45°')).toBeCloseTo(765.4, 1);
    expect(row('60°')).toBeCloseTo(1000, 6);
    expect(row('90°')).toBeCloseTo(1414.2, 1);
  });

  it('is an inch to the degree on 57 5/16 in (common practice, no source)', () => {
    const [inches] = makeWrittenSheets(readRequest('protractor', { units: 'in' }));
    const rows = inches!.tables[0]!.rows;
    for (const degrees of [1, 2, 3, 4, 5])
      expect(rows.find(([name]) => name === `${degrees}°`)![1]).toBe(`${degrees}″`);
  });
});

describe('a protractor that cannot be', () => {
  it.each([
    [{ radius: '10mm' }, 'request radius out-of-range', '30 mm to 2000 mm'],
    [{ arc: 'quarter', at: '100' }, 'request at off-the-arc', '90°'],
    [{ arc: 'third' }, 'request arc not-a-choice', 'half, quarter, full'],
    [{ at: '-5' }, 'request at out-of-range', '0° to 360°'],
  ])('%o', (texts, what, hint) => {
    const refusal = refused('protractor', { units: 'mm', ...texts });
    expect(refusal.what).toBe(what);
    expect(refusal.hint).toContain(hint);
  });
});
