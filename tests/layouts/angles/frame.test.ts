import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WrittenSheet } from '../../../src/drawing/model.ts';
import { makeWrittenSheets, readRequest, type Texts } from '../../../src/index.ts';
import { angleAt, readPolygons } from '../../support/polygons.ts';
import { printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const sheetOf = (texts: Texts): WrittenSheet =>
  makeWrittenSheets(readRequest('frame', { units: 'mm', ...texts }))[0]!;
const factOf = (sheet: WrittenSheet, label: string): string =>
  sheet.facts.find(([name]) => name === label)?.[1] ?? `no fact ${label}`;
/** Corners of a regular polygon on a circle. */
const corners = (sides: number, radius: number) =>
  Array.from({ length: sides }, (_, i) => ({
    x: radius * Math.cos((2 * Math.PI * i) / sides),
    y: radius * Math.sin((2 * Math.PI * i) / sides),
  }));
const apart = (a: { x: number; y: number }, b: { x: number; y: number }): number =>
  Math.hypot(a.x - b.x, a.y - b.y);

describe('the corner of a frame, from the bytes of its print', () => {
  it.each([
    [3, 60],
    [5, 108],
    [6, 120],
    [8, 135],
    [12, 150],
  ])('%d sides meet at %d°', async (sides, between) => {
    const { file } = await printAndRead('frame', {
      sides: `${sides}`,
      side: '400mm',
      bar: '30mm',
      paper: '1000x1000mm',
    });
    const [one, two] = readPolygons(file, 'frame');
    const [inner, far, , outer] = one!;
    expect(180 - angleAt(inner!, far!, outer!)).toBeCloseTo(between / 2, 3);
    expect(angleAt(two![0]!, two![1]!, far!)).toBeCloseTo(between, 3);
    expect(outer!.y).toBeCloseTo(-30, 3);
  });
});

describe('lengths of a regular frame', () => {
  it('agree with corners set round a circle', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 24 }),
        fc.integer({ min: 400, max: 4000 }),
        fc.integer({ min: 5, max: 60 }),
        (sides, circle, bar) => {
          const sheet = sheetOf({ sides: `${sides}`, 'across-corners': `${circle}mm`, bar: `${bar}mm` });
          const outside = corners(sides, circle / 2);
          // The inside edge is the bar nearer to the center; its corners lie on the same spokes.
          const spoke = bar / Math.cos(Math.PI / sides);
          const inside = corners(sides, circle / 2 - spoke);
          const [cut, diagonals] = sheet.tables;
          const [, number, long, , short] = cut!.rows[0]!;
          expect(Number(number)).toBe(sides);
          expect(Math.abs(Number(long) - apart(outside[0]!, outside[1]!))).toBeLessThan(0.0501);
          expect(Math.abs(Number(short) - apart(inside[0]!, inside[1]!))).toBeLessThan(0.0501);
          expect(diagonals!.rows).toHaveLength(Math.floor(sides / 2) - 1);
          diagonals!.rows.forEach((row, i) => {
            expect(Math.abs(Number(row[1]) - apart(outside[0]!, outside[i + 2]!))).toBeLessThan(0.0501);
            expect(Math.abs(Number(row[3]) - apart(inside[0]!, inside[i + 2]!))).toBeLessThan(0.0501);
          });
        },
      ),
      { numRuns: 40 },
    );
  });

  // A hexagon's side is the radius of the circle through its corners (Euclid, Elements IV, proposition 15).
  it('steps a hexagon off with the radius of its circle (Euclid)', () => {
    const sheet = sheetOf({ sides: '6', side: '300mm', bar: '40mm' });
    expect(factOf(sheet, 'Circle through the corners')).toContain('⌀ 600.0 mm');
    expect(factOf(sheet, 'Every end, cut')).toMatch(/^30° from square/);
  });

  it('reads a corner for its number of sides, and sizes taken inside', () => {
    const sheet = sheetOf({ corner: '135', 'across-flats': '900mm', taken: 'inside', bar: '40mm' });
    expect(sheet.subject[0]).toMatch(/^8 equal sides/);
    expect(factOf(sheet, 'Across flats, inside')).toContain('900.0 mm');
    expect(factOf(sheet, 'Across flats')).toContain('980.0 mm');
  });
});

describe('a rectangular frame', () => {
  const sheet = sheetOf({ length: '1200mm', width: '900mm', bar: '50mm', kerf: '3mm' });

  it('has pieces, opening and diagonals', () => {
    expect(sheet.tables[0]!.rows.map((row) => [row[1], row[2], row[4]])).toEqual([
      ['2', '1200.0', '1100.0'],
      ['2', '900.0', '800.0'],
    ]);
    expect(factOf(sheet, 'Diagonals, outside')).toContain('1500.0 mm');
    expect(factOf(sheet, 'Opening')).toMatch(/^1100\.0 mm .* by 800\.0 mm/);
  });

  it('needs bar by laying the pieces end to end, each turned', () => {
    // Trapezoids nested: 1150 + 1150 + 850 + 850, half a corner of 50 at both ends, five cuts of 3 at 45°.
    expect(factOf(sheet, 'Bar for all, turned end for end')).toContain(
      `${(4000 + 50 + 15 * Math.SQRT2).toFixed(1)} mm`,
    );
  });

  it('takes the gap off every piece: half of it at each end, along the bar', () => {
    const gapped = sheetOf({ length: '1200mm', width: '900mm', bar: '50mm', gap: '2mm' });
    expect(Number(gapped.tables[0]!.rows[0]![2])).toBeCloseTo(1200 - 2 * Math.SQRT2, 1);
    // Four pieces, each shorter by the gap along the bar at 45°.
    expect(factOf(gapped, 'Bar for all, turned end for end')).toContain(
      `${(4050 - 4 * 2 * Math.SQRT2).toFixed(1)} mm`,
    );
  });
});

describe('a square frame', () => {
  it('names its pieces in the language of the sheet', () => {
    const spanish = sheetOf({ length: '900mm', width: '900mm', bar: '50mm', language: 'es' });
    expect(spanish.tables[0]!.rows[0]![0]).toBe('lado');
  });
});

describe('a frame that cannot be', () => {
  it.each([
    [{ corner: '100', side: '1m' }, 'request corner no-such-frame', '90° (4 sides) or 108° (5 sides)'],
    [{ corner: '179', side: '1m' }, 'request corner no-such-frame', '174° (60 sides)'],
    [{ sides: '2', side: '1m' }, 'request sides out-of-range', '3 to 60'],
    [{ sides: '6', side: '0mm' }, 'request side out-of-range', 'more than 0 mm'],
    [{ sides: '6', side: '100mm', bar: '90mm' }, 'joint bar too-large', '86.6 mm'],
    [{ length: '100mm', width: '60mm', bar: '30mm' }, 'joint bar too-large', '30.0 mm'],
    [{ length: '100mm' }, 'request width missing', '--length'],
    [{ sides: '5', 'across-flats': '100mm' }, 'request across-flats no-flats-across', 'across-corners'],
    [{ sides: '5', side: '100mm', 'across-corners': '90mm' }, 'request across-corners given-twice', 'one of'],
    [{ sides: '5' }, 'request side missing', 'one of'],
    [{ sides: '5', corner: '108', side: '1m' }, 'request corner given-twice', 'give one'],
    [{ sides: '4', length: '1m', width: '1m' }, 'request sides two-shapes', 'length and width'],
    [{}, 'request sides missing', 'give sides'],
  ])('%o', (texts, what, hint) => {
    const refusal = refused('frame', { bar: '10mm', ...texts });
    expect(refusal.what).toBe(what);
    expect(refusal.hint).toContain(hint);
  });
});
