import { describe, expect, it } from 'vitest';
import { makeSheets, makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { readCircles, readLines } from '../../support/flat-figures.ts';
import { sheetPages } from '../../support/pdf-reader.ts';
import { printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const DEGREE = Math.PI / 180;

describe('a top center strip, from the bytes of its print', () => {
  /**
   * The center line lies half the outside diameter from the inside corner of a square with one leg level: NAVEDTRA 14251
   * p. 3-16. Outside diameters: ASME B36.10M inch table and metric table, by two open data sets that agree.
   */
  it.each([
    ['NPS 1/2,NPS 6,NPS 8,NPS 12', [0.84, 6.625, 8.625, 12.75].map((inch) => inch * 25.4)],
    ['DN 150,DN 300,OD 90mm', [90, 168.3, 323.8]],
  ])('%s', async (sizes, ods) => {
    const { file } = await printAndRead('top-center', { sizes, paper: '400x300mm' });
    const ticks = readLines(file, 'top center strip', 'station').map(([a, b]) => {
      expect(Math.abs(a.x - b.x)).toBeLessThan(0.0001);
      expect(Math.min(a.y, b.y)).toBeCloseTo(0, 4);
      return a.x;
    });
    expect(ticks).toHaveLength(ods.length);
    ticks.sort((a, b) => a - b).forEach((x, i) => expect(Math.abs(x - ods[i]! / 2)).toBeLessThan(0.001));
  });

  it('fits one letter page with the usual sizes, labels in the order of the ticks', async () => {
    const { file } = await printAndRead('top-center', { units: 'in', paper: 'letter' });
    expect(sheetPages(file, 'top center strip')).toHaveLength(1);
    const [sheet] = makeSheets(readRequest('top-center', { units: 'in' }));
    const labels = sheet!.marks.flatMap((mark) =>
      mark.kind === 'text' && mark.text.startsWith('NPS') ? [{ text: mark.text, x: mark.at.x }] : [],
    );
    const names = sheet!.tables[0]!.rows.map((row) => row[0]);
    expect(labels.map(({ text }) => text)).toEqual(names);
    labels.forEach(({ x }, i) => {
      if (i > 0) expect(x - labels[i - 1]!.x).toBeGreaterThanOrEqual(3.5);
    });
  });
});

describe('a degree card, from the bytes of its print', () => {
  it('has a tick at every degree inside and outside its circle', async () => {
    const { file } = await printAndRead('top-center', { sizes: 'NPS 6', paper: '400x300mm' });
    const ticks = readLines(file, 'degree card', 'station');
    const [circle] = readCircles(file, 'degree card', 'reference');
    for (const inside of [true, false]) {
      const degrees = ticks
        .filter(([a, b]) => Math.hypot(b.x, b.y) < Math.hypot(a.x, a.y) === inside)
        .map(([a, b]) => {
          expect(Math.hypot(a.x, a.y)).toBeCloseTo(circle!.radius, 3);
          const degree = Math.atan2(b.y, b.x) / DEGREE;
          expect(Math.abs(degree - Math.round(degree))).toBeLessThan(0.001);
          return (Math.round(degree) + 360) % 360;
        });
      expect(new Set(degrees).size).toBe(360);
    }
  });

  it('numbers stations from the top, counter-clockwise, and the level’s reading beside them', () => {
    const [, card] = makeSheets(readRequest('top-center', { sizes: 'NPS 6' }));
    const numbers = card!.marks.flatMap((mark) =>
      mark.kind === 'text' && /^\d+$/.test(mark.text)
        ? [{ n: Number(mark.text), r: Math.hypot(mark.at.x, mark.at.y), at: mark.at }]
        : [],
    );
    const inner = numbers.filter(({ r }) => r < 56);
    const outer = numbers.filter(({ r }) => r > 56);
    expect(inner.length).toBeGreaterThan(20);
    expect(outer.length).toBeGreaterThan(30);
    for (const { n, at } of inner) {
      const fromTop = (Math.atan2(at.y, at.x) / DEGREE - 90 + 360) % 360;
      expect(Math.abs(((fromTop - n + 540) % 360) - 180)).toBeLessThan(0.001);
    }
    // A straight edge touching the pipe at a station is square to its radius: its angle from level.
    for (const { n, at } of outer)
      expect(Math.abs(Math.atan2(Math.abs(at.x), Math.abs(at.y)) / DEGREE - n)).toBeLessThan(0.001);
  });

  it('a quarter of NPS 6 by tape is a quarter of its girth', () => {
    const [, card] = makeSheets(readRequest('top-center', { sizes: 'NPS 6', units: 'mm' }));
    const row = card!.tables[0]!.rows[0]!;
    expect(Number(row[row.length - 1])).toBeCloseTo((Math.PI * 168.275) / 4, 0);
  });
});

describe('sizes that are refused', () => {
  it.each([
    [{ sizes: 'NPS 7' }, 'request sizes unknown-size', /NPS 7/],
    [{ sizes: '6in' }, 'request sizes not-understood', /6in/],
    [{ sizes: 'NPS 6 OD 90mm' }, 'request sizes two-sizes', /one size/],
    [{ sizes: 'OD 0mm' }, 'request sizes size-not-positive', /above zero/],
  ])('%j', (texts, what, message) => {
    const said = refused('top-center', texts);
    expect(said.what).toBe(what);
    expect(said.message).toMatch(message);
  });
});

/** NPS 1/2 is 0.840 in outside by ASME B36.10M: as the standard gives it, never rounded to a fraction. */
it('names outsides as their standard gives them', () => {
  const [sheet] = makeWrittenSheets(readRequest('top-center', { sizes: 'NPS 1/2,NPS 6' }));
  expect(sheet!.tables[0]!.rows.map(([name, outside]) => [name, outside])).toEqual([
    ['NPS 1/2', '.840″'],
    ['NPS 6', '6.625″'],
  ]);
});
