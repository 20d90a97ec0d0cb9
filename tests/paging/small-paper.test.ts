import { describe, expect, it } from 'vitest';
import { tableBlock } from '../../src/paging/table-block.ts';
import { UserError } from '../../src/issue.ts';
import { makeBook, makeSheets } from '../../src/print.ts';
import { readRequest, type Texts } from '../../src/request.ts';
import { readExample } from '../support/example.ts';
import { findCollisions, findUnsaid, textsOf } from './page-checks.ts';

const pagesOf = (id: string, texts: Texts) => makeBook(readRequest(id, texts)).pages;

it('a piece mark that is too long for its cell keeps both its ends', () => {
  const mark = (end: string) => `BRACKET-0017-LEFT-HAND-WITH-STIFFENER-${end}`;
  for (const end of ['REV-C', 'REV-D']) {
    const texts = pagesOf('band', { stock: 'NPS 2 sch 40', piece: mark(end) }).flatMap(textsOf);
    const ends = texts.filter((text) => text.includes('…'));
    expect(texts.some((text) => text.startsWith('BRACKET-0017'))).toBe(true);
    expect(ends).toHaveLength(1);
    expect(ends[0]).toMatch(new RegExp(`${end}$`));
  }
});

describe('on A5', () => {
  it('a branch with its opening takes 8 pages, each with two rows of title block', () => {
    const pages = pagesOf('branch', { branch: 'NPS 2 sch 40', header: 'NPS 4 sch 40', paper: 'a5' });
    expect(pages.length).toBeLessThanOrEqual(8);
    expect(pages.flatMap(findCollisions)).toEqual([]);
    for (const page of pages)
      expect(textsOf(page)).toEqual(expect.arrayContaining(['Job', 'Piece mark', 'Identity', 'Revision']));
  });

  it('a bolt circle leaves out general advice that no page is wide enough for, and nothing else', () => {
    const request = readRequest('bolt-circle', { flange: 'NPS 2 class 150', paper: 'a5' });
    const { pages } = makeBook(request);
    expect(pages.flatMap(textsOf).filter((text) => text.startsWith('Advice only'))).toEqual([]);
    const needed = makeSheets(request).map((sheet) => ({
      ...sheet,
      tables: sheet.tables.filter(({ ifRoom }) => ifRoom !== true),
    }));
    expect(findUnsaid(pages, needed, request.setting)).toEqual([]);
  });

  it.each([
    ['frame', 'frame --length 1200mm --width 800mm --stock "L 50x50x5" --kerf 3mm'],
    ['center-square', 'center-square --chord 10in --leg 12in'],
  ] as const)('a table of a %s that cannot be divided names paper on which it goes', (id, example) => {
    const texts = readExample(example);
    const refuse = (): string => {
      try {
        pagesOf(id, { ...texts, paper: 'a5' });
      } catch (error) {
        if (error instanceof UserError) return error.issues[0]?.hint ?? '';
        throw error;
      }
      return '';
    };
    const [, width, height] = /at least (\d+) x (\d+) mm/.exec(refuse()) ?? [];
    // The usual margins: 6.5 mm at the sides, 13 mm at the top and bottom.
    const paper = `${Number(width) + 13}x${Number(height) + 26}mm`;
    expect(pagesOf(id, { ...texts, paper }).length).toBeGreaterThan(0);
  });
});

describe('tables and figures too wide for their page', () => {
  const MAKEUP: Texts = {
    run: '7350mm',
    start: 'elbow NPS 6 LR',
    finish: 'flange NPS 6 class 150 weld-neck',
    between: 'tee NPS 6 at 1200mm, valve 267mm, tee NPS 6',
    gap: '3mm',
    gasket: '3mm',
    pipe: 'NPS 6 sch 40',
    paper: 'a5',
  };

  it('are continued after their first part, every row with its name', () => {
    const pages = pagesOf('makeup', MAKEUP).map(textsOf);
    const pageOf = (title: string): number => pages.findIndex((texts) => texts.includes(title));
    for (const title of ['Along the run, from its start', 'Parts and where their lengths come from']) {
      expect(pageOf(title)).toBeGreaterThan(0);
      expect(pageOf(`${title}, continued`)).toBeGreaterThanOrEqual(pageOf(title));
    }
    // Rows of gaps have no number: what they are is said on both pages.
    const gaps = (title: string): number =>
      pages[pageOf(title)]!.filter((text) => text === 'root gap').length;
    expect(gaps('Along the run, from its start, continued')).toBe(8);
    expect(gaps('Along the run, from its start')).toBe(8);
  });

  it('share a page with what else goes there', () => {
    const pages = pagesOf('rolling-offset', {
      stock: 'DN 300 sch 40',
      set: '900mm',
      roll: '1350mm',
      turn: '33',
      gap: '3mm',
      paper: 'a5',
    });
    const texts = pages.map(textsOf);
    const figures = ['Pipe to cut, square ends', 'Take-off of each turn', 'Take-off from'];
    expect(texts.some((page) => figures.every((figure) => page.includes(figure)))).toBe(true);
  });
});

it('figures with a word among them stand under each other at the right', () => {
  const rows = [
    ['0°', 'none'],
    ['15°', '3.3°'],
    ['30°', '64.2°'],
    ['45°', 'none'],
  ];
  const block = tableBlock({ title: 'Bevels', header: ['Station', 'bevel'], rows });
  const marks = block.fit(30, 2.5)!.draw();
  const cells = marks.flatMap((mark) =>
    mark.kind === 'text' && ['none', '3.3°', '64.2°'].includes(mark.text) ? [mark] : [],
  );
  expect(cells).toHaveLength(4);
  expect(new Set(cells.map(({ align }) => align))).toEqual(new Set(['right']));
  expect(new Set(cells.map(({ at }) => at.x)).size).toBe(1);
});

it('a piece mark on two lines is broken after a hyphen, as by hand', () => {
  const texts = pagesOf('band', { stock: 'NPS 2 sch 40', piece: 'SPOOL-1042-B-LONG-MARK-07' }).flatMap(
    textsOf,
  );
  const parts = texts.filter((text) => /SPOOL|MARK-07/.test(text));
  expect(parts).toEqual(['SPOOL-1042-B-', 'LONG-MARK-07']);
});
