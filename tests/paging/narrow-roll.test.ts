import { describe, expect, it } from 'vitest';
import { isNarrowRoll } from '../../src/paging/narrow-roll.ts';
import { paginate } from '../../src/paging/paginate.ts';
import { parsePaper } from '../../src/paging/paper.ts';
import { makeBook } from '../../src/print.ts';
import { proveFile } from '../../src/proof/prove.ts';
import { renderPdf } from '../../src/render/pdf.ts';
import { readRequest } from '../../src/request.ts';
import { bandSheet, optionsFor } from './fixtures.ts';
import { findCollisions, findInkInMargins, scaleLengths, textsOf } from './page-checks.ts';

/** Widths in which rolls for label and receipt printers are sold (common trade sizes). */
const rolls = ['62mm-roll', '102mm-roll', '152mm-roll', '4in-roll', '6in-roll', '8in-roll'];
const margin = { sides: 3, ends: 3 };

describe.each(rolls)('a strip on %s', (paper) => {
  it.each([
    ['a small band', bandSheet(189.5, 50)],
    ['a tall one', bandSheet(300, 130)],
  ])('%s: nothing overlaps, nothing in the margins, checks along and across', (_, sheet) => {
    const options = optionsFor(paper, { margin });
    const { pages } = paginate([sheet], options);
    expect(pages.flatMap(findCollisions)).toEqual([]);
    expect(pages.flatMap((page) => findInkInMargins(page, options))).toEqual([]);
    for (const page of pages) {
      expect(page.height).toBeCloseTo(options.paper.width, 9);
      for (const length of [100, 101.6])
        expect(scaleLengths(page, 'x').some((found) => Math.abs(found - length) < 1e-9)).toBe(true);
      for (const length of [50, 50.8])
        expect(scaleLengths(page, 'y').some((found) => Math.abs(found - length) < 1e-9)).toBe(true);
      expect(textsOf(page).join(' ')).toContain('7F3K-29QD');
    }
    // Everything that is said stands on some strip.
    const all = pages.flatMap(textsOf).join(' ');
    for (const [label] of sheet.facts) expect(all).toContain(label);
    for (const table of sheet.tables) for (const [first] of table.rows) expect(all).toContain(first);
  });

  it('holds the template in one length where the roll is wide enough, else in lanes', () => {
    const { pages } = paginate([bandSheet(189.5, 50)], optionsFor(paper, { margin }));
    const strips = pages.filter(({ views }) => views.some(({ name }) => /^\d/.test(name)));
    expect(strips).toHaveLength(1);
    const tall = paginate([bandSheet(300, 230)], optionsFor(paper, { margin })).pages;
    const lanes = tall.filter(({ views }) => views.some(({ name }) => /^\d/.test(name)));
    expect(lanes.length).toBeGreaterThan(1);
  });
});

describe('a request for a narrow roll', () => {
  it('is proved from the bytes of its print', async () => {
    const request = readRequest('band', { stock: 'NPS 2 sch 40', paper: '102mm-roll' });
    const { findings } = proveFile(await renderPdf(makeBook(request)));
    expect(findings.length).toBeGreaterThan(8);
    expect(findings.filter(({ ok }) => !ok)).toEqual([]);
  });

  it('says what it is, its sizes and its identity on one line, and under the check only how to print it', () => {
    const request = readRequest('branch', {
      branch: 'NPS 2 sch 40',
      header: 'NPS 4 sch 40',
      paper: '62mm-roll',
    });
    const [page] = makeBook(request).pages;
    const start = (page?.marks ?? []).filter((mark) => mark.kind === 'text' && mark.role === 'page');
    const levels = start.flatMap((mark) => (mark.kind === 'text' ? [mark.at.y.toFixed(3)] : []));
    expect(new Set(levels).size).toBe(2);
    const [top] = [...levels].sort((a, b) => Number(b) - Number(a));
    const first = start.flatMap((mark) =>
      mark.kind === 'text' && mark.at.y.toFixed(3) === top ? [mark.text] : [],
    );
    expect(first).toHaveLength(3);
    expect(first).toContain('NPS 2 sch 40 on pipe NPS 4 sch 40');
  });

  it('lays every card on a strip of its own', () => {
    const { pages } = makeBook(readRequest('cope', { stock: 'W 8x31', to: 'W 12x40', paper: '8in-roll' }));
    const names = pages.flatMap(({ views }) => views.map(({ name }) => name));
    // The web, 157 mm by 105 mm, on one; the flange, 8 in wide, in two lanes.
    expect(names).toEqual(['1.1', '2.1', '3.1', 'notes']);
  });

  it('puts its words on the paper that is asked for', () => {
    const request = readRequest('band', {
      stock: 'NPS 2 sch 40',
      paper: '102mm-roll',
      'notes-paper': 'letter',
    });
    const { pages } = makeBook(request);
    expect(pages.map(({ height }) => height)).toEqual([102, expect.closeTo(279.4, 6)]);
  });

  it('is told from a roll for drawings', () => {
    expect(isNarrowRoll(parsePaper('8in-roll'))).toBe(true);
    expect(isNarrowRoll(parsePaper('24in-roll'))).toBe(false);
    expect(isNarrowRoll(parsePaper('a6'))).toBe(false);
  });
});
