import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bindBook } from '../../src/jobs/bind.ts';
import type { Bindable } from '../../src/jobs/gather.ts';
import type { Work } from '../../src/jobs/plan.ts';
import { identify } from '../../src/identity.ts';
import { isHolding, isOverlapping } from '../../src/paging/box.ts';
import type { Page } from '../../src/paging/book.ts';
import { makeBook, makePanels, makeSheets } from '../../src/print.ts';
import { proveFile } from '../../src/proof/prove.ts';
import { renderPdf } from '../../src/render/pdf.ts';
import { readRequest, type Texts } from '../../src/request.ts';
import { findCollisions, findInkInMargins, scaleLengths, textsOf } from '../paging/page-checks.ts';
import { runInside } from '../support/command-line.ts';
import { readPdf } from '../support/pdf-reader.ts';

/** A shop's mixed list: bands, miters, branches of two sheets, a turn of three gores, flat plate. */
const pieces: readonly (readonly [mark: string, layout: string, texts: Texts])[] = [
  ['B1', 'band', { stock: 'NPS 6 sch 40' }],
  ['M1', 'miter', { stock: 'NPS 6 sch 40', cut: '22.5' }],
  ['M2', 'miter', { stock: 'NPS 4 sch 40', cut: '30', revision: 'B', quantity: '4' }],
  ['S1', 'branch', { branch: 'NPS 2 sch 40', header: 'NPS 6 sch 40' }],
  ['S2', 'branch', { branch: 'NPS 4 sch 40', header: 'NPS 6 sch 40', angle: '45' }],
  ['T1', 'turn', { stock: 'NPS 4 sch 40', angle: '90', pieces: '3', radius: '6in' }],
  ['F1', 'bolt-circle', { flange: 'NPS 4 class 150' }],
  ['R1', 'ring', { outside: '12in', inside: '8in' }],
  ['H1', 'hole-grid', { columns: '6', 'column-pitch': '3in', hole: '11/16in' }],
  ['W1', 'wye', { pipe: 'NPS 4 sch 40', leg: ['0', '120', '240'] }],
];

const place = { file: 'list.yaml', line: 1, column: 1 };

/** What has been made of some inputs before, so that each is drawn once on all papers and laid once on each. */
const remember = <Made>(): ((key: unknown, make: () => Made) => Made) => {
  const known = new Map<string, Made>();
  return (key, make) => {
    const text = JSON.stringify(key);
    const made = known.get(text) ?? make();
    known.set(text, made);
    return made;
  };
};
const drawnOnce = remember<ReturnType<typeof makeSheets>>();
const laidOnce = remember<ReturnType<typeof layPiece>>();

const layPiece = (mark: string, layout: string, texts: Texts) => {
  const request = readRequest(layout, texts);
  const work: Work = { piece: { request, mark, place, placeOf: () => place }, name: mark, files: [] };
  const sheets = drawnOnce([layout, { ...texts, paper: '' }], () => makeSheets(request));
  const book = makeBook(request, sheets);
  const piece: Bindable = {
    work,
    subject: book.subject,
    identity: identify(request.understood, sheets),
    pages: book.pages.length,
    panels: makePanels(request, sheets),
  };
  return { piece, book };
};

/** The pieces on a paper, as a book asks for them. */
const listPieces = (more: Texts, only = pieces) =>
  only.map(([mark, layout, texts]) => {
    const all = { ...texts, piece: mark, ...more };
    return laidOnce([layout, all], () => layPiece(mark, layout, all));
  });

const bind = (listed: ReturnType<typeof listPieces>, onLoad: (mark: string) => void = () => undefined) =>
  bindBook(
    {
      file: 'list.pdf',
      works: listed.map(({ piece }) => piece.work),
      sources: ['list.yaml'],
      isWhole: true,
    },
    listed.map(({ piece }) => piece),
    (work) => {
      onLoad(work.name);
      return listed.find(({ piece }) => piece.work === work)!.book;
    },
  );

/** The pages of a book after its index, all of them drawn here. */
const bodyOf = (listed: ReturnType<typeof listPieces>): readonly Page[] => {
  const pages = [...bind(listed).stream.pages] as readonly Page[];
  return pages.filter(({ label }) => !label.startsWith('index'));
};

/** How far a roll is unwound for some pages, mm: the side that is not the roll's width. */
const unwound = (pages: readonly Page[], roll: number): number =>
  pages.reduce((sum, { width, height }) => sum + (Math.abs(height - roll) < 0.01 ? width : height), 0);

describe('pieces of a book', () => {
  // The pages today, and by themselves: our own measure, so that no change wastes paper unseen.
  it.each([
    ['36in-roll', 2, 10],
    ['24in-roll', 3, 10],
    ['a0', 3, 10],
    ['arch-e', 3, 10],
    ['a1', 6, 10],
  ] as const)('share pages of %s: at most %i, by themselves %i or more', (paper, most, least) => {
    const listed = listPieces({ paper });
    expect(listed.reduce((sum, { book }) => sum + book.pages.length, 0)).toBeGreaterThanOrEqual(least);
    expect(bodyOf(listed).length).toBeLessThanOrEqual(most);
  });

  it('take at least a fifth less of a roll', () => {
    const listed = listPieces({ paper: '36in-roll' });
    const own = listed.flatMap(({ book }) => book.pages);
    expect(unwound(bodyOf(listed), 914.4)).toBeLessThan(0.8 * unwound(own, 914.4));
  });

  it.each(['36in-roll', 'a0', 'ansi-d'])(
    'stand on %s whole, apart, and with nothing in the margins or on each other',
    (paper) => {
      const listed = listPieces({ paper });
      const margin = { sides: 6.5, ends: 13 };
      for (const page of bodyOf(listed)) {
        expect(findCollisions(page)).toEqual([]);
        expect(findInkInMargins(page, { margin })).toEqual([]);
        page.views.forEach(({ viewport }, i) => {
          const whole = { minX: 0, minY: 0, maxX: page.width, maxY: page.height };
          expect(isHolding(whole, viewport)).toBe(true);
          for (const other of page.views.slice(i + 1))
            expect(isOverlapping(viewport, other.viewport)).toBe(false);
        });
      }
    },
  );

  it('carry one pair of scale checks a page, along both axes, and each piece its mark and identity', () => {
    const listed = listPieces({ paper: '36in-roll' });
    const shared = bodyOf(listed).filter(({ label }) => label.includes('…'));
    for (const page of shared) {
      for (const axis of ['x', 'y'] as const) {
        const lengths = scaleLengths(page, axis);
        // Checks of 100 mm and of 4 in = 101.6 mm (the inch is 25.4 mm, ISO 31-1); ticks are shorter than 3 mm.
        const [metric, inches, ...more] = lengths.filter((length) => length > 50);
        expect(metric).toBeCloseTo(100, 9);
        expect(inches).toBeCloseTo(101.6, 9);
        expect(more).toEqual([]);
      }
      const texts = textsOf(page);
      const marks = new Set(page.views.map(({ sheet }) => sheet.split(' ')[0]));
      expect(marks.size).toBeGreaterThan(1);
      for (const { piece, book } of listed) {
        const { mark = '' } = piece.work.piece;
        if (!marks.has(mark)) continue;
        // In the title block of its frame.
        expect(texts).toContain(mark);
        expect(texts).toContain(piece.identity);
        // Over each of its sheets, which are cut apart too.
        const heads = texts.filter((text) => text.startsWith(`${mark}: `));
        expect(heads.length).toBeGreaterThanOrEqual(book.sheets.length);
      }
    }
  });

  it('stay by themselves on small paper, on narrow rolls, where they are too large, and where their papers differ', () => {
    const few = pieces.slice(0, 3);
    for (const paper of ['letter', 'a3', 'tabloid', '102mm-roll']) {
      const listed = listPieces({ paper }, few);
      const own = listed.reduce((sum, { book }) => sum + book.pages.length, 0);
      expect(bodyOf(listed)).toHaveLength(own);
    }
    const large = listPieces({ paper: 'ansi-c' }, [
      ['R1', 'ring', { outside: '30in', inside: '24in' }],
      ['R2', 'ring', { outside: '31in', inside: '24in' }],
    ]);
    expect(bodyOf(large)).toHaveLength(large.reduce((sum, { book }) => sum + book.pages.length, 0));
    const mixed = few.flatMap((piece, i) => listPieces({ paper: ['a0', 'arch-e'][i % 2] ?? '' }, [piece]));
    expect(bodyOf(mixed)).toHaveLength(3);
  });

  it('come out true on the printer that the page is corrected for', async () => {
    const printer = { printer: 'plotter', calibration: '99.6% across, 100.3% along, 2026-03-14' };
    const listed = listPieces({ paper: '36in-roll', ...printer }, pieces.slice(0, 4));
    const [page, ...others] = bodyOf(listed);
    expect(others).toEqual([]);
    // The roll's width stands upright; what is drawn, times what the printer makes of it, is 100 mm.
    for (const [axis, factor] of [
      ['x', 1.003],
      ['y', 0.996],
    ] as const)
      expect(scaleLengths(page!, axis)).toContainEqual(expect.closeTo(100 / factor, 6));
    const proof = proveFile(await renderPdf(bind(listed).stream));
    expect(proof.findings.filter(({ ok }) => !ok)).toEqual([]);
  });

  it('share no page with one that is out of use, or in another language', () => {
    const [first, second] = pieces;
    for (const more of [{ 'superseded-by': 'rev C' }, { language: 'es' }] as Texts[]) {
      const listed = [
        ...listPieces({ paper: 'a0' }, [first!]),
        ...listPieces({ paper: 'a0', ...more }, [second!]),
      ];
      expect(bodyOf(listed)).toHaveLength(2);
    }
    expect(bodyOf(listPieces({ paper: 'a0', language: 'en+es' }, [first!, second!]))).toHaveLength(1);
  });

  it('are asked for page by page, so that no more than one page of them is in memory', () => {
    const many = Array.from({ length: 60 }, (_, i): (typeof pieces)[number] => [
      `P${i + 1}`,
      'band',
      { stock: 'NPS 2 sch 40', height: `${60 + i}mm` },
    ]);
    const listed = listPieces({ paper: '24in-roll' }, many);
    const loaded: string[] = [];
    const bound = bind(listed, (mark) => loaded.push(mark));
    let before = 0;
    let pages = 0;
    for (const page of bound.stream.pages) {
      if (page.label.startsWith('index')) continue;
      pages += 1;
      const own = page.views.map(({ sheet }) => sheet.split(' ')[0]);
      expect(loaded.slice(before)).toEqual(own);
      expect(own.length).toBeLessThanOrEqual(24);
      before = loaded.length;
    }
    expect(loaded).toHaveLength(many.length);
    expect(pages).toBeLessThan(many.length / 5);
  });
});

describe('a book of them from the command line', () => {
  let folder = '';
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
    const listed = pieces.map(([piece, layout, texts]) => ({ piece, layout, ...texts }));
    const job = { book: 'all.pdf', defaults: { paper: '36in-roll' }, pieces: listed };
    // YAML holds JSON.
    writeFileSync(join(folder, 'list.yaml'), JSON.stringify(job));
    expect((await runInside(folder, ['job', 'list.yaml', '-o', 'out'])).code).toBe(0);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const read = (): Buffer => readFileSync(join(folder, 'out/all.pdf'));

  it('proves, every code by the identity beside it, and is made again from itself', async () => {
    const { ok, findings } = proveFile(read());
    expect(findings.filter((finding) => !finding.ok)).toEqual([]);
    expect(ok).toBe(true);
    // One on the index, and one in each piece's frame.
    expect(findings.find(({ check }) => check === 'codes')?.measured).toBe(`${pieces.length + 1} read`);
    const again = await runInside(folder, ['reprint', 'out/all.pdf', '-o', 'again.pdf']);
    expect(again.stdout).toMatch(/Drawn exactly as the first print\./);
    expect(readFileSync(join(folder, 'again.pdf')).equals(read())).toBe(true);
    const small = await runInside(folder, ['reprint', 'out/all.pdf', '--paper', 'a4', '-o', 'small.pdf']);
    expect(small.code).toBe(0);
    expect(proveFile(readFileSync(join(folder, 'small.pdf'))).ok).toBe(true);
  }, 120_000);

  it('leads from its record and its bookmarks to the page of every piece', () => {
    const { record, bookmarks, pages } = readPdf(read());
    const spec = record?.spec as { pieces: { name: string; first: number; pages: number }[] };
    expect(spec.pieces.map(({ name }) => name)).toEqual(pieces.map(([mark]) => mark));
    for (const { name, first, pages: count } of spec.pieces) {
      const own = record?.sheets.filter((sheet) => sheet.name.startsWith(`${name} `)) ?? [];
      expect(own.length).toBeGreaterThan(0);
      for (const sheet of own) {
        expect(sheet.pages).toEqual([first]);
        expect(bookmarks.find(({ title }) => title === sheet.name)?.page).toBe(first);
        expect(pages[first - 1]?.viewports.map((view) => view.name)).toContain(`${sheet.name} 1.1`);
      }
      expect(count).toBe(1);
    }
  });
});
