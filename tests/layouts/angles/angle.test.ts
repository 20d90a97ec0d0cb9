import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WrittenSheet } from '../../../src/drawing/model.ts';
import { makeWrittenSheets, readRequest, type Texts } from '../../../src/index.ts';
import { readLines } from '../../support/flat-figures.ts';
import { angleAt, apart, readPolygons } from '../../support/polygons.ts';
import { printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';
import { strayStrokes } from '../../support/strokes.ts';

const DEGREE = Math.PI / 180;
const sheetOf = (texts: Texts): WrittenSheet => makeWrittenSheets(readRequest('angle', texts))[0]!;
const factOf = (sheet: WrittenSheet, label: string): string =>
  sheet.facts.find(([name]) => name === label)?.[1] ?? `no fact ${label}`;

describe('a mitered corner, from the bytes of its print', () => {
  it.each([
    [90, 50, 50, 0],
    [120, 127, 127, 3],
    [67.5, 100, 60, 2],
    [135, 101.6, 50.8, 3.175],
    [20, 20, 20, 0],
    [172, 30, 25, 1],
  ])('%d° between widths %d and %d, gap %d', async (between, w1, w2, gap) => {
    const { file } = await printAndRead('angle', {
      angle: `${between}`,
      width: `${w1}mm`,
      'other-width': `${w2}mm`,
      gap: `${gap}mm`,
      paper: '1500x1500mm',
    });
    const [one, two, ...more] = readPolygons(file, 'angle');
    expect(more).toEqual([]);
    // Which miter each gets: tan a = sin θ / (w'/w + cos θ), the angle between cut and edge.
    const edge = (own: number, other: number): number =>
      Math.atan2(Math.sin(between * DEGREE), other / own + Math.cos(between * DEGREE)) / DEGREE;
    for (const [outline, own, other] of [
      [one!, w1, w2],
      [two!, w2, w1],
    ] as const) {
      const [inner, far, , outer] = outline as [
        (typeof outline)[0],
        (typeof outline)[0],
        (typeof outline)[0],
        (typeof outline)[0],
      ];
      // The cut's angle inside the scrap's corner, off the part's direction.
      expect(Math.abs(180 - angleAt(inner, far, outer) - edge(own, other))).toBeLessThan(0.001);
    }
    // Part 1 lies along +x under its inside edge, part 2 along the angle outside it; the cuts are parallel, a gap apart.
    const [inner1, far1, , outer1] = one!;
    const [inner2, far2] = two!;
    expect(Math.abs(far1!.y) + Math.abs(inner1!.y)).toBeLessThan(0.001);
    expect(outer1!.y).toBeCloseTo(-w1, 3);
    expect(Math.atan2(far2!.y, far2!.x) / DEGREE).toBeCloseTo(between, 3);
    const cut = { x: outer1!.x - inner1!.x, y: outer1!.y - inner1!.y };
    const [dx, dy] = [inner2!.x - inner1!.x, inner2!.y - inner1!.y];
    expect(Math.abs(cut.x * dy - cut.y * dx) / Math.hypot(cut.x, cut.y)).toBeCloseTo(gap, 3);
    // The check marks lie on the inside edges, equally far out.
    const marks = readLines(file, 'angle', 'reference')
      .filter(([a, b]) => Math.abs(apart(a, b) - 5) < 0.001)
      .map(([a, b]) => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }));
    expect(marks).toHaveLength(2);
    expect(marks[0]!.y).toBeCloseTo(0, 3);
    expect(angleAt({ x: 0, y: 0 }, marks[0]!, marks[1]!)).toBeCloseTo(between, 3);
    expect(Math.hypot(marks[1]!.x, marks[1]!.y)).toBeCloseTo(marks[0]!.x, 3);
    expect(marks[0]!.x / 10).toBeCloseTo(Math.round(marks[0]!.x / 10), 4);
    // Without the gap the inside corner is the origin.
    if (gap === 0) expect(apart(inner1!, { x: 0, y: 0 })).toBeLessThan(0.001);
  });
});

describe('which miter each part gets', () => {
  // E. A. Atkins, Practical WrittenSheet and Plate Metal Work, chapter VI: 5 in across, 120° between: 30°, 2.9 in (2.8867).
  it('is 30° and 2 7/8 in at 120° for 5 in (Atkins)', () => {
    const sheet = sheetOf({ angle: '120', width: '5in' });
    expect(factOf(sheet, 'Both parts, cut')).toBe('30° from square; 60° to the edge');
    expect(factOf(sheet, 'Both parts, point to point')).toBe('2 7/8″ (73.3 mm)');
  });

  it('is 45° each for a square corner (common practice, no source), with the joint line √2 of the width', () => {
    const sheet = sheetOf({ angle: '90', width: '100mm' });
    expect(factOf(sheet, 'Both parts, cut')).toContain('45° from square');
    expect(factOf(sheet, 'Joint line')).toContain('141.4 mm');
  });

  it('gives the diagonal of a rectangle at 90° for unequal widths', () => {
    const sheet = sheetOf({ angle: '90', width: '80mm', 'other-width': '60mm' });
    expect(factOf(sheet, 'Joint line')).toContain('100.0 mm');
    expect(factOf(sheet, 'Part 1, cut')).toMatch(/^36\.87° from square/);
    expect(factOf(sheet, 'Part 2, cut')).toMatch(/^53\.13° from square/);
  });

  it('draws whatever is asked for, inside its bounds', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 160 }),
        fc.integer({ min: 5, max: 400 }),
        fc.integer({ min: 70, max: 140 }),
        (between, width, percent) => {
          const sheet = sheetOf({
            angle: `${between}`,
            width: `${width}mm`,
            'other-width': `${(width * percent) / 100}mm`,
          });
          expect(strayStrokes(sheet)).toBe(0);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('a corner that cannot be', () => {
  it.each([
    [{ angle: '180' }, 'request angle out-of-range', '10° to 175°'],
    [{ angle: '0' }, 'request angle out-of-range', '10° to 175°'],
    [{ width: '0mm' }, 'request width out-of-range', '3 mm to 3000 mm'],
    [{ 'other-width': '3mm', width: '300mm' }, 'joint other-width thin-point', 'at least'],
    [{ gap: '30mm' }, 'request gap out-of-range', '25 mm'],
  ])('%o', (texts, what, hint) => {
    const refusal = refused('angle', { angle: '90', width: '50mm', ...texts });
    expect(refusal.what).toBe(what);
    expect(refusal.hint).toContain(hint);
  });

  it('draws at the limit it names', () => {
    const { hint } = refused('angle', { angle: '90', width: '300mm', 'other-width': '3mm' });
    const least = Number(/at least ([\d.]+) mm/.exec(hint)![1]);
    expect(sheetOf({ angle: '90', width: '300mm', 'other-width': `${least + 0.1}mm` }).name).toBe('angle');
  });
});
