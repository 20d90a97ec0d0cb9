import { describe, expect, it } from 'vitest';
import type { Page } from '../../src/paging/book.ts';
import { roundCheck } from '../../src/paging/check-line.ts';
import { paginate } from '../../src/paging/paginate.ts';
import { bandSheet, optionsFor, ringSheet } from './fixtures.ts';
import { scaleLengths, textsOf } from './page-checks.ts';

/** Crosses of a page in sheet mm: pairs of strokes of role `page` that halve each other at right angles. */
const crossesOf = (page: Page): string[] => {
  const middles = (axis: 'x' | 'y'): string[] =>
    page.marks.flatMap((mark) => {
      if (mark.kind !== 'stroke' || mark.role !== 'page' || mark.path.segments.length !== 1) return [];
      const { start, segments } = mark.path;
      const to = segments[0]?.to ?? start;
      const other = axis === 'x' ? 'y' : 'x';
      if (start[other] !== to[other] || Math.abs(Math.abs(to[axis] - start[axis]) - 8) > 1e-6) return [];
      const [x, y] = [
        (start.x + to.x) / 2 - page.views[0]!.origin.x,
        (start.y + to.y) / 2 - page.views[0]!.origin.y,
      ];
      return [`${x.toFixed(6)} ${y.toFixed(6)}`];
    });
  const upright = new Set(middles('y'));
  return middles('x').filter((middle) => upright.has(middle));
};

describe('taped pages', () => {
  it('show each cross at the same place of the sheet on exactly two pages', () => {
    const { pages } = paginate([ringSheet(600)], optionsFor('letter'));
    const seen = new Map<string, number>();
    for (const page of pages)
      for (const cross of crossesOf(page)) seen.set(cross, (seen.get(cross) ?? 0) + 1);
    expect(seen.size).toBeGreaterThan(10);
    for (const [cross, count] of seen) expect(count, cross).toBe(2);
  });

  it('carry a check length across the whole sheet, its length told, in the reader’s round units', () => {
    for (const [units, step] of [
      ['mm', 1],
      ['in', 25.4 / 8],
    ] as const) {
      const { pages } = paginate([bandSheet(1915, 300)], optionsFor('letter', { units }));
      const pieces = pages.flatMap((page) => scaleLengths(page, 'x').filter((length) => length > 102));
      expect(pieces.length).toBeGreaterThan(5);
      const told = pages.flatMap(textsOf).filter((text) => text.startsWith('check after taping'));
      const mm = Math.max(...told.map((text) => Number(/([\d.]+) mm/.exec(text)?.[1])));
      expect(mm).toBeGreaterThan(1850);
      expect(mm).toBeLessThanOrEqual(1931);
      expect(Math.abs(mm / step - Math.round(mm / step))).toBeLessThan(0.05);
    }
  });

  it('show a plan of all pages on the first one', () => {
    for (const sheet of [bandSheet(1915, 300), ringSheet(600)]) {
      const { pages } = paginate([sheet], optionsFor('a4'));
      const names = pages
        .map(({ label }) => label.split(' ').pop() ?? '')
        .filter((name) => /^\d+\.\d+$/.test(name));
      const first = pages[0];
      for (const name of names) expect(first && textsOf(first)).toContain(name);
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
