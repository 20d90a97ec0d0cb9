import { describe, expect, it } from 'vitest';
import type { View } from '../../src/paging/book.ts';
import { moveBox } from '../../src/paging/box.ts';
import { roundCheck } from '../../src/paging/check-line.ts';
import { paginate } from '../../src/paging/paginate.ts';
import { bandSheet, optionsFor, ringSheet } from './fixtures.ts';
import { armsOf, crossesOf, isAt, scaleLengths, textsOf } from './page-checks.ts';

describe('taped pages', () => {
  it.each(['ring', 'band', 'strips'] as const)(
    'show every cross of a %s whole on the tile under, and its half at the edge of the tile laid on',
    (kind) => {
      const sheet = { ring: ringSheet(600), band: bandSheet(900, 400), strips: bandSheet(700, 50) }[kind];
      const { pages } = paginate([sheet], optionsFor('letter'));
      const tiles = pages.flatMap((page) =>
        page.views.filter(({ name }) => /^\d/.test(name)).map((view) => ({ page, view })),
      );
      const boxOf = ({ viewport, origin }: View) => moveBox(viewport, -origin.x, -origin.y);
      const crosses = tiles.flatMap((tile) =>
        crossesOf(tile.page, tile.view).map((cross) => ({ ...cross, tile })),
      );
      expect(crosses.length).toBeGreaterThanOrEqual(2 * (tiles.length - 1));
      for (const { x, y, reach, tile } of crosses) {
        const over = tiles.filter(({ view }) => {
          const { minX, maxX, minY, maxY } = boxOf(view);
          const isOnLeft = Math.abs(x - minX) < 1e-6 && y > minY && y < maxY;
          const isOnTop = Math.abs(y - maxY) < 1e-6 && x > minX && x < maxX;
          return view !== tile.view && (isOnLeft || isOnTop);
        });
        expect(over.length, `${x} ${y}`).toBeGreaterThanOrEqual(1);
        // The half that the upper tile shows; the other half lies outside its trimmed edge, so that it stays in sight.
        const halves = over.filter(({ page, view }) =>
          armsOf(page, view).some(
            ({ from, to }) =>
              (isAt(from, x, y) && isAt(to, x + reach, y)) || (isAt(from, x, y - reach) && isAt(to, x, y)),
          ),
        );
        expect(halves.length, `half at ${x} ${y}`).toBe(1);
      }
    },
  );

  it('carry a check length across the whole sheet, its length told, in the reader’s round units', () => {
    for (const [units, step] of [
      ['mm', 1],
      ['in', 25.4 / 8],
    ] as const) {
      const { pages } = paginate([bandSheet(1915, 300)], optionsFor('letter', { units }));
      const pieces = pages.flatMap((page) => scaleLengths(page, 'x').filter((length) => length > 102));
      expect(pieces.length).toBeGreaterThan(5);
      const told = pages.flatMap(textsOf).filter((text) => text.startsWith('taping check'));
      const mm = Math.max(...told.map((text) => Number(/([\d.]+) mm/.exec(text)?.[1])));
      expect(mm).toBeGreaterThan(1800);
      expect(mm).toBeLessThanOrEqual(1931);
      expect(Math.abs(mm / step - Math.round(mm / step))).toBeLessThan(0.05);
    }
  });

  it('are said to be full size only where something is, and checked only where they are taped', () => {
    const wide = bandSheet(165, 100, true);
    // Wider than one page, but blank there.
    const sheet = { ...wide, bounds: { ...wide.bounds, maxX: wide.bounds.minX + 200 } };
    const picture = { ...sheet, marks: sheet.marks.map((mark) => ({ ...mark, role: 'dimension' as const })) };
    const wordsOf = (one: typeof sheet): string => {
      const { pages } = paginate([one], optionsFor('a4', { orientation: 'portrait' }));
      expect(pages.map(({ views }) => views.map(({ name }) => name))).toEqual([['1.1']]);
      return pages.flatMap(textsOf).join(' ');
    };
    expect(wordsOf(sheet)).toMatch(/FULL SIZE/);
    expect(wordsOf(sheet)).not.toMatch(/taping check/);
    expect(wordsOf(picture)).not.toMatch(/FULL SIZE/);
  });

  it('name the part in the first words that their head has room for', () => {
    const long =
      'a very long fact that no head of any page of this size has room for beside its title '.repeat(2);
    const { pages } = paginate(
      [{ ...bandSheet(900, 400), subject: [long, 'NPS 6 sch 40'] }],
      optionsFor('letter'),
    );
    for (const page of pages.filter(({ views }) => views.length > 0))
      expect(textsOf(page)).toContain('NPS 6 sch 40');
  });

  it('show a plan of all tiles on one page', () => {
    for (const sheet of [bandSheet(1915, 300), ringSheet(600)]) {
      const { pages } = paginate([sheet], optionsFor('a4'));
      const names = pages
        .flatMap(({ views }) => views.map(({ name }) => name))
        .filter((name) => /^\d/.test(name));
      expect(names.length).toBeGreaterThan(1);
      expect(pages.some((page) => names.every((name) => textsOf(page).includes(name)))).toBe(true);
    }
  });
});

describe('roundCheck', () => {
  it('takes the roundest length that passes the least', () => {
    expect(roundCheck(1930, 1800, 'mm')).toBe(1900);
    expect(roundCheck(1930, 1915, 'mm')).toBe(1930);
    expect(roundCheck(1934.7, 1931, 'mm')).toBe(1934);
    expect(roundCheck(1930, 1800, 'in')).toBeCloseTo(72 * 25.4, 9);
    expect(roundCheck(1930.2, 1930.1, 'mm')).toBe(1930.2);
  });
});
