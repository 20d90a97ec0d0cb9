import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/issue.ts';
import type { PagingOptions } from '../../src/paging/options.ts';
import { paginate } from '../../src/paging/paginate.ts';
import { bandSheet, optionsFor, ringSheet, slabSheet } from './fixtures.ts';
import { findCollisions, findInkInMargins, scaleLengths, textsOf } from './page-checks.ts';

const sheets = {
  'small band': bandSheet(67, 60),
  'band of 2 in': bandSheet(189.5, 110),
  'band of 24 in': bandSheet(1915, 300),
  'band without words': bandSheet(300, 100, true),
  ring: ringSheet(600),
  tall: slabSheet(180, 900),
  wide: slabSheet(1400, 120),
};
const papers = [
  'letter',
  'a4',
  'a5',

  'legal',
  'tabloid',
  'a3',
  'a1',
  'arch-d',
  '24in-roll',
  '36in-roll',
  '300x500mm',
];
const cases = Object.keys(sheets).flatMap((name) => papers.map((paper) => [name, paper] as const));
const titles: readonly PagingOptions['title'][] = [
  {},
  {
    title: 'Cooling line to the second pump house, supply and return, with the drain below the valve pit',
    piece: 'S12-3',
    job: 'Pump house',
    order: 'W-1042',
    number: 'PH-210-0042-B',
    revision: 'B',
    date: '2026-03-14',
    documentType: 'Full-size template',
    owner: 'Shop 3, Harbour yard',
    drawn: 'k.l.',
    checked: 'm.n.',
    approved: 'o.p.',
  },
];

describe.each(cases)('%s on %s', (name, paper) => {
  const sheet = sheets[name as keyof typeof sheets];
  // The smallest paper has no room for a title block with every field.
  it.each(paper === 'b6' ? [0] : [0, 1])(
    'title block %i: nothing overlaps, nothing in the margins, checks true',
    (t) => {
      const options = optionsFor(paper, { title: titles[t] ?? {}, units: t === 0 ? 'in' : 'mm' });
      const { pages, sheets: index } = paginate([sheet], options);
      expect(pages.flatMap(findCollisions)).toEqual([]);
      expect(pages.flatMap((page) => findInkInMargins(page, options))).toEqual([]);
      for (const page of pages) {
        for (const axis of ['x', 'y'] as const) {
          const lengths = scaleLengths(page, axis);
          for (const length of [100, 101.6])
            expect(
              lengths.some((found) => Math.abs(found - length) < 1e-9),
              `${page.label} ${axis} ${length}`,
            ).toBe(true);
        }
        const texts = textsOf(page).join('\n');
        expect(texts).toContain('7F3K-29QD');
        expect(texts).toMatch(/Print at actual size/);
        expect(texts).toMatch(/^\d+ of \d+$/m);
      }
      expect(index).toEqual([
        { name: sheet.name, heading: sheet.heading, pages: pages.map((_, i) => i + 1) },
      ]);
      expect(new Set(pages.map((page) => page.label)).size).toBe(pages.length);
      // Every word said beside the drawing is on some page: no block is lost.
      const all = pages.flatMap(textsOf).join(' ').replace(/\s+/g, ' ');
      for (const [label] of sheet.facts) expect(all).toContain(label);
      for (const picture of sheet.pictures) expect(all).toContain(picture.title);
      for (const table of sheet.tables) for (const [first = ''] of table.rows) expect(all).toContain(first);
      expect(all).toContain('Geometry only');
    },
  );
});

describe('paginate', () => {
  it('puts a small sheet and all that is said about it on one page', () => {
    for (const paper of ['letter', 'a4']) {
      const { pages } = paginate([bandSheet(67, 60)], optionsFor(paper));
      expect(pages.map((page) => page.label)).toEqual(['band 1.1']);
    }
  });

  it('makes one long page of a roll', () => {
    const { pages } = paginate([bandSheet(1915, 300)], optionsFor('24in-roll'));
    expect(pages).toHaveLength(1);
    expect(pages[0]?.height).toBeCloseTo(609.6, 9);
    expect(pages[0]?.width).toBeGreaterThan(1915);
  });

  it('makes more pages of a roll than one only past 5080 mm, none of them longer', () => {
    const { pages } = paginate([slabSheet(9000, 600)], optionsFor('36in-roll'));
    expect(pages.length).toBe(2);
    for (const page of pages) expect(Math.max(page.width, page.height)).toBeLessThanOrEqual(5080);
  });

  it('takes the orientation with the fewest pages', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 60, max: 1200 }),
        fc.integer({ min: 60, max: 900 }),
        fc.constantFrom('letter', 'a4', 'a3'),
        (width, height, paper) => {
          const count = (orientation: PagingOptions['orientation']): number =>
            paginate([slabSheet(width, height)], optionsFor(paper, { orientation })).pages.length;
          expect(count('auto')).toBe(Math.min(count('portrait'), count('landscape')));
        },
      ),
      { numRuns: 25 },
    );
  });

  it('gives the same pages for the same input', () => {
    const run = () => JSON.stringify(paginate([bandSheet(700, 300), ringSheet(500)], optionsFor('a4')));
    expect(run()).toBe(run());
  });

  it('keeps page labels unique when two sheets have one name', () => {
    const { pages } = paginate([bandSheet(400, 150), bandSheet(420, 150)], optionsFor('a4'));
    expect(pages.map((page) => page.label)).toEqual(expect.arrayContaining(['band 1.1', 'band 1.1 (2)']));
  });

  it.each([
    ['portrait', 1 / 0.98, 1 / 1.004],
    ['landscape', 1 / 1.004, 1 / 0.98],
  ] as const)('corrects for a printer about the lower left corner, %s, within the margins', (hold, x, y) => {
    const printer = { name: 'shop laser', across: 0.98, along: 1.004, date: '2026-03-14' };
    const options = optionsFor('letter', { printer, orientation: hold });
    const { pages } = paginate([bandSheet(400, 150)], options);
    expect(pages.length).toBeGreaterThan(1);
    for (const page of pages) {
      expect(page.stretch).toEqual({ x, y });
      expect(scaleLengths(page, 'x').some((length) => Math.abs(length - 100 * x) < 1e-9)).toBe(true);
      expect(scaleLengths(page, 'y').some((length) => Math.abs(length - 100 * y) < 1e-9)).toBe(true);
      expect(findInkInMargins(page, options)).toEqual([]);
      expect(findCollisions(page)).toEqual([]);
      const words = textsOf(page).join(' ');
      expect(words).toContain('True on printer "shop laser" only, calibrated 2026-03-14');
      expect(words).toMatch(/102\.04 % across and 99\.60 % along/);
    }
  });

  it.each([
    ['a6', {}],
    ['50x80mm', {}],
    ['letter', { margin: { sides: 70, ends: 70 } }],
    ['letter', { margin: { sides: 200, ends: 13 } }],
  ] as const)('refuses %s with %j: no room', (paper, changes) => {
    const run = () => paginate([bandSheet(189.5, 110)], optionsFor(paper, changes));
    expect(run).toThrow(UserError);
    try {
      run();
    } catch (error) {
      const issue = error instanceof UserError ? error.issues[0] : undefined;
      expect(issue?.code).toBe('no-room');
      expect(issue?.hint).toMatch(/needs at least \d+ x \d+ mm/);
    }
  });

  it.each([
    [0, 'overlap-too-small'],
    [3, 'overlap-too-small'],
    [90, 'overlap-too-large'],
  ])('refuses an overlap of %i mm', (overlap, code) => {
    try {
      paginate([bandSheet(1915, 300)], optionsFor('letter', { overlap }));
    } catch (error) {
      if (error instanceof UserError) {
        expect(error.issues[0]?.code).toBe(code);
        return;
      }
      throw error;
    }
    throw new Error('accepted');
  });

  it('refuses a sheet of a million pages at once', () => {
    expect(() => paginate([slabSheet(1e6, 1e6)], optionsFor('letter'))).toThrow(UserError);
  });
});

it.each([
  [700, 215],
  [215, 700],
  [860, 400],
])('a sheet of %d by %d mm takes no more of a roll than it needs', (width, height) => {
  const { pages } = paginate([bandSheet(width, height)], optionsFor('36in-roll'));
  const [page] = pages;
  expect(pages).toHaveLength(1);
  // Across the roll where it goes, with room for its words.
  expect(((page?.width ?? 0) * (page?.height ?? 0)) / 914.4).toBeLessThan(Math.min(width, height) + 160);
});
