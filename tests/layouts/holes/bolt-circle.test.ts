import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { letteringBox } from '../../../src/drawing/lettering.ts';
import type { WrittenSheet } from '../../../src/drawing/model.ts';
import { makeWrittenSheets, readRequest, UserError, type Texts } from '../../../src/index.ts';
import { readCircles, readCrosses, readLines, widestGap, worstMatch } from '../../support/flat-figures.ts';
import { layerPoints, printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const DEGREE = Math.PI / 180;
/** Paper that holds any sheet here whole. */
const paper = '1200x1300mm';

const holesOf = (count: number, circle: number, firstDegrees: number) =>
  Array.from({ length: count }, (_, i) => {
    const angle = (firstDegrees + (360 / count) * i) * DEGREE;
    return { x: (circle / 2) * Math.cos(angle), y: (circle / 2) * Math.sin(angle) };
  });

describe('a bolt circle, from the bytes of its print', () => {
  it.each([
    [8, 241.3, 22.225, { start: 'straddle' }, 22.5],
    [8, 241.3, 22.2, { start: 'on' }, 0],
    [5, 130, 11, { start: 'on', turn: '90' }, 90],
    [7, 333.3, 14, { start: 'straddle', turn: '-12.5' }, 180 / 7 - 12.5],
    [1, 80, 10, { start: 'on' }, 0],
    [2, 80, 10, { start: 'straddle' }, 90],
    [20, 749.3, 34.9, {}, 9],
  ] as const)('%d holes on %d mm', async (count, circle, hole, more, first) => {
    const texts = { holes: `${count}`, circle: `${circle}mm`, hole: `${hole}mm`, paper, ...more };
    const { file } = await printAndRead('bolt-circle', texts);
    const wanted = holesOf(count, circle, first);
    const circles = readCircles(file, 'bolt circle', 'cut');
    expect(
      worstMatch(
        circles.map((c) => c.at),
        wanted,
      ),
    ).toBeLessThan(0.001);
    for (const { radius, miss } of circles) {
      expect(Math.abs(radius - hole / 2)).toBeLessThan(0.001);
      expect(miss).toBeLessThan(0.001);
    }
    const crosses = readCrosses(file, 'bolt circle');
    expect(worstMatch(crosses, wanted)).toBeLessThan(0.0001);
    for (const { x, y } of crosses) {
      const turned = Math.atan2(y, x) / DEGREE - first;
      const step = 360 / count;
      expect(Math.abs(turned - Math.round(turned / step) * step)).toBeLessThan(0.001);
    }
    // The bolt circle itself, and two center lines through the origin square to each other.
    const [pitch] = readCircles(file, 'bolt circle', 'centre');
    expect(pitch!.radius).toBeCloseTo(circle / 2, 3);
    const lines = readLines(file, 'bolt circle', 'centre');
    expect(lines).toHaveLength(2);
    for (const [a, b] of lines) expect(Math.abs(a.x * b.y - a.y * b.x)).toBeLessThan(0.01);
  });

  it('puts tiles together to the same holes', async () => {
    const { file } = await printAndRead('bolt-circle', { flange: 'NPS 12 class 150', paper: 'letter' });
    const wanted = holesOf(12, 17 * 25.4, 15);
    for (const point of layerPoints(file, 'bolt circle', 'cut')) {
      const offHole = Math.min(
        ...wanted.map((at) => Math.abs(Math.hypot(point.x - at.x, point.y - at.y) - 12.7)),
      );
      const offRim = Math.abs(Math.hypot(point.x, point.y) - 9.5 * 25.4);
      expect(Math.min(offHole, offRim)).toBeLessThan(0.01);
    }
    expect(widestGap(file, 'bolt circle', 'cut', 9.5 * 25.4)).toBeLessThan(0.02);
  });

  it('says how slots are cut, and shows them as slots', () => {
    const drawn = (more: Texts): WrittenSheet | undefined =>
      makeWrittenSheets(
        readRequest('bolt-circle', { holes: '6', circle: '200mm', hole: '18mm', units: 'mm', ...more }),
      )[0];
    const [round, slotted] = [drawn({}), drawn({ slot: '40mm' })];
    expect(slotted?.steps.join(' ')).toContain('A slot: drill its two ends');
    expect(round?.steps.join(' ')).not.toContain('A slot:');
    const straight = (sheet: WrittenSheet | undefined): number =>
      sheet?.pictures[0]?.marks.filter(
        (mark) =>
          mark.kind !== 'text' &&
          mark.path.closed &&
          mark.path.segments.filter(({ kind }) => kind === 'line').length === 2,
      ).length ?? 0;
    expect(straight(slotted)).toBe(6);
    expect(straight(round)).toBe(0);
  });

  it('draws slots with their width, length and direction', async () => {
    const { file } = await printAndRead('bolt-circle', {
      holes: '6',
      circle: '200mm',
      hole: '14mm',
      slot: '30mm',
      'slot-along': 'radius',
      start: 'on',
      outside: '260mm',
      bore: '90mm',
      gasket: '165mm,95mm',
      paper,
    });
    const rings = readCircles(file, 'bolt circle', 'cut').map(
      ({ radius }) => Math.round(radius * 2000) / 1000,
    );
    expect(rings.sort((a, b) => a - b)).toEqual([90, 95, 165, 260]);
    for (const point of layerPoints(file, 'bolt circle', 'cut')) {
      const r = Math.hypot(point.x, point.y);
      if ([45, 47.5, 82.5, 130].some((ring) => Math.abs(r - ring) < 0.01)) continue;
      // Within its own sixth a slot's outline stays 7 mm off the spine from 92 to 108 mm along the radius.
      const angle = Math.atan2(point.y, point.x);
      const own = angle - Math.round(angle / (60 * DEGREE)) * 60 * DEGREE;
      const [x, y] = [r * Math.cos(own), r * Math.sin(own)];
      expect(Math.hypot(x - Math.min(108, Math.max(92, x)), y)).toBeCloseTo(7, 2);
    }
  });
});

describe('flanges', () => {
  /**
   * ASME B16.5 drilling by two open data sets that agree (gumyr/bd_warehouse, hydraulic-institute/edb); chord from hole to
   * hole = bolt circle × factor, factors .3827 .7071 .2588 .1951 .1564 from shopswarf.orcon.net.nz/spacing.html.
   */
  it.each([
    ['NPS 6 class 150', 8, 241.3, 22.225, 92.342],
    ['NPS 4 class 150', 8, 190.5, 19.05, 72.901],
    ['DN 50 class 150', 4, 120.7, 19.05, 85.348],
    ['DN 300 class 150', 12, 431.8, 25.4, 111.758],
    ['DN 400 class 150', 16, 539.8, 28.575, 105.31],
    ['NPS 24 class 150', 20, 749.3, 34.925, 117.216],
    ['NPS 6 class 300', 12, 269.875, 22.225, 69.849],
  ])('%s', async (flange, count, circle, hole, chord) => {
    const { file } = await printAndRead('bolt-circle', { flange, paper });
    const drilled = readCircles(file, 'bolt circle', 'cut').filter((c) => Math.hypot(c.at.x, c.at.y) > 1);
    expect(drilled).toHaveLength(count);
    // Straddling: the first hole half a step above the center line at 0°.
    const crosses = readCrosses(file, 'bolt circle').sort(
      (a, b) => Math.atan2(a.y, a.x) - Math.atan2(b.y, b.x),
    );
    const above = crosses.find((p) => p.y > 0)!;
    const below = crosses[crosses.indexOf(above) - 1]!;
    expect(Math.hypot(above.x - below.x, above.y - below.y)).toBeCloseTo(chord, 2);
    expect(above.y).toBeCloseTo(chord / 2, 2);
    expect(below.y).toBeCloseTo(-chord / 2, 2);
    expect(worstMatch(crosses, holesOf(count, circle, 180 / count))).toBeLessThan(0.001);
    for (const { radius } of drilled) expect(radius).toBeCloseTo(hole / 2, 3);
  });
});

const sheetOf = (texts: Texts) => makeWrittenSheets(readRequest('bolt-circle', texts))[0]!;

describe('tape table', () => {
  /** Two equal holes whose left edges are 5 3/4 apart from a 1 mark are 4 3/4 apart (common practice, no source). */
  it('holes 4 3/4 apart read 5 3/4 on a tape held at 1', () => {
    // Opposite holes are a diameter apart.
    const sheet = sheetOf({ holes: '2', circle: '4-3/4in', hole: '3/4in' });
    const [table] = sheet.tables;
    expect(table!.header[3]).toBe('tape from 1″');
    expect(table!.rows[0]).toEqual(['next hole', '4 3/4″', '120.7', '5 3/4″']);
  });

  it('starts at 100 mm where the sheet is in millimeters, or where asked', () => {
    const texts = { holes: '4', circle: '100mm', hole: '10mm' };
    expect(sheetOf(texts).tables[0]!.rows.map((row) => row[3])).toEqual(['170.7 mm', '200.0 mm']);
    expect(sheetOf({ ...texts, 'tape-start': '10mm' }).tables[0]!.rows[1]![3]).toBe('110.0 mm');
  });

  it('tells the chord to every other hole as D sin(k·180°/n)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 40 }), fc.integer({ min: 500, max: 3000 }), (count, circle) => {
        const rows = sheetOf({ holes: `${count}`, circle: `${circle}mm`, hole: '6mm' }).tables[0]!.rows;
        expect(rows).toHaveLength(Math.floor(count / 2));
        rows.forEach((row, k) =>
          expect(Math.abs(Number(row[1]) - circle * Math.sin(((k + 1) * Math.PI) / count))).toBeLessThan(
            0.0501,
          ),
        );
      }),
      { numRuns: 25 },
    );
  });

  it('names the others by their place from the first', () => {
    const rows = sheetOf({ holes: '24', circle: '500mm', hole: '10mm' }).tables[0]!.rows;
    expect(rows.map(([name]) => name)).toEqual(
      'next hole,2nd,3rd,4th,5th,6th,7th,8th,9th,10th,11th,12th, opposite'.split(/,(?! )/),
    );
  });

  /** A level that reads 1/32 in is not one that reads 1/16 in. */
  it('says what a level reads to the 64th of an inch', () => {
    const table = sheetOf({ flange: 'NPS 6 class 150' }).tables.find(({ title }) => title.startsWith('Two'))!;
    expect(table.rows.map(([reading]) => reading)).toEqual(['1/64″', '1/32″', '1/16″', '1/8″']);
  });

  it('says nothing inside a hole that is drilled', () => {
    const sheet = sheetOf({ holes: '8', circle: '241.3mm', hole: '22.2mm', start: 'on' });
    const words = sheet.marks.filter((mark) => mark.kind === 'text');
    expect(words.map(({ text }) => text)).toContain('0°');
    for (const { x, y } of holesOf(8, 241.3, 0))
      for (const word of words) {
        const { minX, maxX, minY, maxY } = letteringBox(word);
        const [dx, dy] = [Math.max(minX - x, 0, x - maxX), Math.max(minY - y, 0, y - maxY)];
        expect(Math.hypot(dx, dy), word.text).toBeGreaterThan(11.1);
      }
  });

  it('names its outlines in the reader’s words', () => {
    const sheet = sheetOf({
      holes: '6',
      circle: '190mm',
      hole: '19mm',
      outside: '230mm',
      bore: '115mm',
      language: 'es',
    });
    const words = sheet.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
    expect(words.join()).toMatch(/exterior ⌀ 230/);
    expect(words.join()).toMatch(/barreno central ⌀ 115/);
  });

  it('says how to set it level', () => {
    const { facts } = sheetOf({ flange: 'NPS 6 class 150', units: 'mm' });
    expect(facts).toContainEqual(['Level across holes', '2 and 3, 92.3 mm (3 5/8″) apart']);
  });
});

describe('bolt circles that are refused', () => {
  const good = { holes: '8', circle: '100mm', hole: '10mm' };
  it.each([
    [{ ...good, hole: '40mm' }, 'joint hole holes-overlap', /holes 1 and 2 overlap by/, /38\.3 mm/],
    [{ ...good, hole: '38.2683432365mm' }, 'joint hole holes-overlap', /touch/, /smaller or fewer/],
    [{ ...good, slot: '60mm' }, 'joint slot holes-overlap', /overlap/, /./],
    [{ ...good, slot: '8mm' }, 'joint slot too-small', /less than it is wide/, /./],
    [{ ...good, outside: '109mm' }, 'joint outside too-small', /no rim/, /more than 110\.0 mm/],
    [{ ...good, bore: '91mm' }, 'joint bore too-large', /runs into/, /less than 90\.0 mm/],
    [
      { ...good, gasket: '100mm,60mm' },
      'joint gasket gasket-cuts-holes',
      /through the holes/,
      /at most 90\.0/,
    ],
    [{ ...good, gasket: '60mm,70mm' }, 'joint gasket too-large', /outside,inside/, /less than 60\.0 mm/],
    [{ ...good, outside: '130mm', gasket: '140mm,60mm' }, 'joint gasket too-large', /larger/, /./],
    [{ ...good, gasket: '80mm,70mm,60mm' }, 'request gasket too-many', /two outlines/, /./],
    [{ holes: '8', circle: '100mm' }, 'request hole missing', /hole is not given/, /flange/],
    [{ ...good, flange: 'NPS 6 class 150' }, 'request holes given-twice', /its own holes/, /./],
    [{ ...good, turn: '361' }, 'request turn too-large', /full turn/, /./],
    [{ ...good, holes: '0' }, 'request holes out-of-range', /./, /1 to 360/],
    [{ flange: 'NPS 6 class 150', outside: '10in' }, 'joint outside too-small', /./, /10 3\/8″/],
  ])('%j', (texts, what, message, hint) => {
    const said = refused('bolt-circle', texts);
    expect(said.what).toBe(what);
    expect(said.message).toMatch(message);
    expect(said.hint).toMatch(hint);
  });
});

describe('two-holing and the higher classes', () => {
  const draw = (texts: Record<string, string>) => makeWrittenSheets(readRequest('bolt-circle', texts))[0]!;

  /**
   * NPS 6 class 600: 12 holes on 11 1/2 in (ASME B16.5, from memory). Its two level holes straddle the top, 11.5 sin 15° in
   * apart: 1/16 in across them is asin(1/16 / 2.976) = 1.2°.
   */
  it('a reading across two holes', () => {
    const sheet = draw({ flange: 'NPS 6 class 600', reading: '1/16in' });
    const facts = new Map(sheet.facts);
    expect(facts.get('Holes')).toMatch(/^12 × /);
    expect(facts.get('Circle diameter')).toMatch(/^11 1\/2″/);
    const span = 11.5 * Math.sin((15 * Math.PI) / 180);
    expect(parseFloat(facts.get('It is turned by')!)).toBeCloseTo(
      (Math.asin(1 / 16 / span) * 180) / Math.PI,
      2,
    );
    expect(sheet.tables.some(({ title }) => title.startsWith('Advice only'))).toBe(true);
  });

  it('no reading past the holes’ own distance', () => {
    const refused = () => draw({ flange: 'NPS 6 class 600', reading: '12in' });
    expect(refused).toThrow(UserError);
  });
});
