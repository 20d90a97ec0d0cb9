import type { BookSpec } from '../book-spec.ts';
import { identify } from '../identity.ts';
import { tellAsked, type Book, type Page } from '../paging/book.ts';
import type { PagingOptions, PaperSize } from '../paging/options.ts';
import { drawPiecesPage } from '../paging/pieces-page.ts';
import { makePanels } from '../print.ts';
import type { PageStream, StreamedPage, WrittenPage } from '../render/pdf.ts';
import type { RecordedSheet, SheetToRecord } from '../render/pdf-record.ts';
import { inLanguage, languagesOf } from '../words/languages.ts';
import { say } from '../words/say.ts';
import { layCover, sharedTitle, titleBook, type IndexRow } from './cover.ts';
import { gatherPieces, type Bindable, type Gathered } from './gather.ts';
import type { BookWork, Work } from './plan.ts';

/**
 * A piece's pages, kept beside the book until the book is written: only the pieces of one page are in memory at a time, and a
 * book that was stopped carries on with the pieces it has.
 */
export interface Part extends Pick<Book, 'title' | 'subject'> {
  readonly sheets: readonly RecordedSheet[];
  readonly identity: string;
  readonly pages: readonly (Page | WrittenPage)[];
  /** Sizes of the ways it may be made on a page with other pieces; none where it stays by itself. */
  readonly panels: readonly PaperSize[];
}

/** What a book takes of a piece when it comes to its pages. */
interface SheetsAndPages extends Pick<Part, 'pages'> {
  readonly sheets: readonly SheetToRecord[];
}

/** Views, and with them pages, under names that no other piece of the book has. */
const nameViews = (name: string, views: Page['views']): Page['views'] =>
  views.map((view) => ({ ...view, sheet: `${name} ${view.sheet}` }));
const namePages = (name: string, pages: Part['pages']): Part['pages'] =>
  pages.map((page) => ({ ...page, label: `${name} ${page.label}`, views: nameViews(name, page.views) }));

const pagesOf = (gathered: Gathered): number => (gathered.kind === 'own' ? gathered.piece.pages : 1);
const piecesOf = (gathered: Gathered): readonly Bindable[] =>
  gathered.kind === 'own' ? [gathered.piece] : gathered.pieces;

/** Every piece with the place of its pages, the first of the pieces' pages being 1. */
const listRows = (all: readonly Gathered[]): readonly IndexRow[] => {
  let before = 0;
  return all.flatMap((gathered) => {
    const [first, pages] = [before + 1, pagesOf(gathered)];
    before += pages;
    return piecesOf(gathered).map(({ work, subject, identity }) => ({
      work,
      subject,
      identity,
      first,
      pages,
    }));
  });
};

/** A page of several pieces. `index` is its number in the book of `count` pages. */
const drawShared = (
  { pieces, plan }: Extract<Gathered, { kind: 'shared' }>,
  index: number,
  count: number,
): Page => {
  const requests = pieces.map(({ work }) => work.piece.request);
  const [first] = requests;
  if (first === undefined) throw new Error('a page of no pieces');
  const { paging, language } = first;
  const marks = pieces.map(({ work }) => work.piece.mark ?? work.name);
  const options: PagingOptions = {
    ...paging,
    title: { ...sharedTitle(requests), piece: say`${pieces.length} pieces` },
    identity: identify(
      pieces.map((piece) => [piece.work.name, piece.identity]),
      [],
    ),
  };
  const panels = requests.map((request, i) => {
    const panel = makePanels(request)[plan.places[i]?.way ?? 0];
    if (panel === undefined) throw new Error(`${marks[i]} has no such panel`);
    const draw: typeof panel.draw = () => {
      const { views, ...rest } = panel.draw();
      return { ...rest, views: nameViews(pieces[i]?.work.name ?? '', views) };
    };
    return { ...panel, draw };
  });
  const names = pieces.map(({ work }) => work.name);
  const label = `${names[0] ?? ''} … ${names.at(-1) ?? ''}`;
  const about = { label, heading: marks.join(', '), index, count };
  const page = inLanguage(languagesOf(language)[0], () => drawPiecesPage(plan, panels, about, options));
  return { ...page, asked: tellAsked(paging) };
};

/** What the book keeps of itself: all that is needed to make it again, and where each piece's pages are. */
const listPieces = (
  { file, sources, isWhole }: BookWork,
  rows: readonly IndexRow[],
  coverPages: number,
): BookSpec => ({
  book: file,
  sources,
  isWhole,
  pieces: rows.map(({ work, first, pages }) => ({
    name: work.name,
    first: coverPages + first,
    pages,
    spec: work.piece.request.spec,
  })),
});

/** A book ready to be written, its pages made as they are asked for. */
export interface BoundBook {
  readonly stream: PageStream;
  readonly identity: string;
  /** All its pages, the cover's included. */
  readonly pages: number;
}

/**
 * Binds a book from its pieces: cover, then every piece's pages, or on rolls and large sheets pages of several pieces. `loadPart`
 * gives a piece's pages, asked for in order, and only those of one page need be in memory.
 */
export const bindBook = (
  work: BookWork,
  pieces: readonly Bindable[],
  loadPart: (work: Work) => SheetsAndPages,
): BoundBook => {
  const all = gatherPieces(pieces);
  const rows = listRows(all);
  const cover = layCover(work, rows);
  const count = cover.pages.length + all.reduce((sum, gathered) => sum + pagesOf(gathered), 0);
  const sheetsOf = (
    one: Work,
    { sheets }: SheetsAndPages,
    place: (page: number) => number,
  ): readonly SheetToRecord[] =>
    sheets.map((sheet) => ({
      ...sheet,
      name: `${one.name} ${sheet.name}`,
      pages: [...new Set(sheet.pages.map(place))],
    }));
  function* pages(): Generator<StreamedPage> {
    yield* cover.pages;
    let before = cover.pages.length;
    for (const gathered of all) {
      const first = before;
      before += pagesOf(gathered);
      if (gathered.kind === 'own') {
        const one = gathered.piece.work;
        const part = loadPart(one);
        const sheets = sheetsOf(one, part, (page) => page + first);
        yield* namePages(one.name, part.pages).map((page, i) => (i === 0 ? { ...page, sheets } : page));
      } else {
        const sheets = gathered.pieces.flatMap(({ work: one }) => sheetsOf(one, loadPart(one), () => before));
        yield { ...drawShared(gathered, before, count), sheets };
      }
    }
  }
  return {
    identity: cover.identity,
    pages: count,
    stream: {
      title: titleBook(work.file, rows),
      author: rows[0]?.work.piece.request.paging.title.owner ?? '',
      subject: say`${rows.length} pieces`,
      spec: listPieces(work, rows, cover.pages.length),
      sheets: cover.sheets,
      pages: pages(),
    },
  };
};
