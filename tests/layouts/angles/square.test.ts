import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WrittenSheet } from '../../../src/drawing/model.ts';
import { makeWrittenSheets, readRequest, type Texts } from '../../../src/index.ts';
import { readLines } from '../../support/flat-figures.ts';
import { angleAt, apart, readPolygons } from '../../support/polygons.ts';
import { printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const sheetOf = (texts: Texts): WrittenSheet => makeWrittenSheets(readRequest('square', texts))[0]!;
const factOf = (sheet: WrittenSheet, label: string): string =>
  sheet.facts.find(([name]) => name === label)?.[1] ?? `no fact ${label}`;
const rowsOf = (sheet: WrittenSheet, table: number): readonly (readonly string[])[] =>
  sheet.tables[table]!.rows;

/** `6 5/8″` and `6.5 mm` to a number in their own unit. */
const numberIn = (text: string): number => {
  const [whole, part] = /^(?:(\d+(?:\.\d+)?)(?: |″|$))?(?:(\d+\/\d+)″)?/.exec(text)!.slice(1);
  const [n, d] = (part ?? '0/1').split('/').map(Number);
  return Number(whole ?? 0) + n! / d!;
};

describe('the paper corner, from the bytes of its print', () => {
  it.each([
    [{ units: 'mm' }, 160, 0],
    [{ units: 'mm', corner: '333mm', snip: '12mm' }, 320, 12],
    [{ units: 'in', corner: '9-5/8in' }, 9 * 25.4, 0],
  ] as const)('%o', async (texts, long, snip) => {
    const { file } = await printAndRead('square', {
      length: '2400mm',
      width: '1200mm',
      paper: '600x700mm',
      ...texts,
    });
    const [outline, ...more] = readPolygons(file, 'square');
    expect(more).toEqual([]);
    const short = (long * 3) / 4;
    const wanted =
      snip > 0
        ? [
            [snip, 0],
            [long, 0],
            [0, short],
            [0, snip],
          ]
        : [
            [0, 0],
            [long, 0],
            [0, short],
          ];
    expect(outline).toHaveLength(wanted.length);
    wanted.forEach(([x, y], i) => expect(apart(outline![i]!, { x: x!, y: y! })).toBeLessThan(0.001));
    const [x, y] = [outline![1]!, outline![2]!];
    expect(angleAt({ x: 0, y: 0 }, x, y)).toBeCloseTo(90, 4);
    expect(apart(x, y)).toBeCloseTo((long * 5) / 4, 3);
    // Every tick stands on a whole millimetre or eighth of an inch of its leg.
    const step = texts.units === 'mm' ? 1 : 25.4 / 8;
    const ticks = readLines(file, 'square', 'station');
    expect(ticks.length).toBeGreaterThan(((long + short) * 0.75) / step);
    for (const [a, b] of ticks) {
      const onX = Math.abs(a.y) < 0.001;
      const [at, cross] = onX ? [a.x, Math.abs(b.x - a.x)] : [a.y, Math.abs(b.y - a.y)];
      expect(onX || Math.abs(a.x) < 0.001).toBe(true);
      expect(Math.abs(at - Math.round(at / step) * step)).toBeLessThan(0.001);
      expect(cross).toBeLessThan(0.001);
    }
  });
});

describe('right angles by tape', () => {
  it('gives triangles in whole millimetres that are exactly right and the longest that fit', () => {
    fc.assert(
      fc.property(fc.integer({ min: 100, max: 9000 }), fc.integer({ min: 100, max: 9000 }), (a, b) => {
        const rows = rowsOf(sheetOf({ length: `${a}mm`, width: `${b}mm` }), 0);
        for (const [name, short, long, diagonal] of rows.filter(([name]) => /^\d/.test(name!))) {
          const [p, q, r] = [short, long, diagonal].map((text) => BigInt(text!.replace('.0 mm', '')));
          expect(p! * p! + q! * q!).toBe(r! * r!);
          const [m, n] = name!.split('-').map(Number);
          expect(Number(p) / m!).toBe(Number(q) / n!);
          expect(Number(q) <= Math.max(a, b) && Number(p) <= Math.min(a, b)).toBe(true);
          expect(Number(q) + n! > Math.max(a, b) || Number(p) + m! > Math.min(a, b)).toBe(true);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('knows 3-4-5, 5-12-13, 8-15-17 and 20-21-29', () => {
    const names = rowsOf(sheetOf({ length: '10m', width: '6m' }), 0).map(([name]) => name);
    expect(names).toEqual(expect.arrayContaining(['3-4-5', '5-12-13', '8-15-17', '20-21-29']));
  });

  it('needs 14.14 across equal legs of 10 (common practice, no source)', () => {
    const rows = rowsOf(sheetOf({ length: '10in', width: '10in' }), 0);
    expect(Number(rows.find(([name]) => name === 'equal legs')![4])).toBeCloseTo(14.14, 2);
  });

  // E. A. Atkins, Practical WrittenSheet and Plate Metal Work: square pipe 3 in on the side is 4 1/4 in on the diagonal.
  it('is 4 1/4 across a square of 3 in (Atkins)', () => {
    const sheet = sheetOf({ length: '3in', width: '3in' });
    expect(factOf(sheet, 'Both diagonals')).toMatch(/^4 1\/4″/);
  });

  it('works out your own legs', () => {
    const rows = rowsOf(sheetOf({ length: '3m', width: '2m', legs: '600mm,900mm' }), 0);
    expect(Number(rows.find(([name]) => name === 'your legs')![4])).toBeCloseTo(Math.hypot(600, 900), 2);
  });
});

describe('a frame out of square', () => {
  /** The lean of a parallelogram whose diagonals differ by `difference`, found by halving on its corners. */
  const leanOf = (l: number, w: number, difference: number): number => {
    let [low, high] = [0, 1];
    for (let i = 0; i < 60; i += 1) {
      const lean = (low + high) / 2;
      const [x, y] = [w * Math.sin(lean), w * Math.cos(lean)];
      if (Math.hypot(l + x, y) - Math.hypot(l - x, y) < difference) low = lean;
      else high = lean;
    }
    return low;
  };

  it('tells what a difference of diagonals means', () => {
    const rows = rowsOf(sheetOf({ length: '2400mm', width: '1200mm' }), 1);
    expect(rows.map(([difference]) => numberIn(difference!))).toEqual([1, 2, 3, 5, 10, 20]);
    for (const [difference, lean, over, , slide] of rows) {
      const wanted = leanOf(2400, 1200, numberIn(difference!));
      expect(Number(lean!.replace('°', ''))).toBeCloseTo((wanted * 180) / Math.PI, 3);
      expect(Math.abs(Number(over) - 2400 * Math.sin(wanted))).toBeLessThan(0.0501);
      expect(Math.abs(Number(slide) - 1200 * Math.sin(wanted))).toBeLessThan(0.0501);
    }
  });

  it.each([
    [0.5, 'A and C 89.5°, B and D 90.5°', 'toward D'],
    [-0.5, 'B and D 89.5°, A and C 90.5°', 'toward C'],
  ])('names the sharp corners of a frame that leans %d° to the right', (degrees, corners, toward) => {
    // A at 0,0; B at 3000,0; C and D moved to the right by the lean.
    const lean = (degrees * Math.PI) / 180;
    const [x, y] = [1500 * Math.sin(lean), 1500 * Math.cos(lean)];
    const [ac, bd] = [Math.hypot(3000 + x, y), Math.hypot(x - 3000, y)];
    const sheet = sheetOf({
      length: '3000mm',
      width: '1500mm',
      taped: `${ac.toFixed(3)}mm,${bd.toFixed(3)}mm`,
    });
    expect(factOf(sheet, 'Corners')).toBe(corners);
    expect(factOf(sheet, 'Slide')).toContain(toward);
    expect(factOf(sheet, 'Slide')).toContain(`${Math.abs(x).toFixed(1)} mm`);
  });

  it('says square where the diagonals are equal, and doubts the sides where they are too long', () => {
    const equal = sheetOf({ length: '400mm', width: '300mm', taped: '500mm,500mm' });
    expect(factOf(equal, 'As taped')).toContain('equal');
    const long = sheetOf({ length: '4000mm', width: '3000mm', taped: '5010mm,5000mm' });
    expect(factOf(long, 'Sides')).toContain('longer');
  });
});

describe('a square that cannot be', () => {
  it.each([
    [{ width: '0mm' }, 'request width out-of-range', '50 mm to 100000 mm'],
    [{ legs: '600mm' }, 'request legs wrong-count', '600mm,900mm'],
    [{ taped: '1m,2m,3m' }, 'request taped wrong-count', '2690mm,2676mm'],
    [{ taped: '3m,3m' }, 'joint taped other-sides', '2683.3 mm'],
    [{ 'tape-step': '700mm' }, 'request tape-step step-too-large', '400.0 mm'],
    [{ corner: '10mm' }, 'request corner out-of-range', '80 mm'],
  ])('%o', (texts, what, hint) => {
    const refusal = refused('square', { length: '2400mm', width: '1200mm', ...texts });
    expect(refusal.what).toBe(what);
    expect(refusal.hint).toContain(hint);
  });
});
