import type { BookSpec } from '../book-spec.ts';
import type { Book, Page } from '../paging/book.ts';
import type { PageStream, WrittenPage } from '../render/pdf.ts';
import { layCover, titleBook, type IndexRow } from './cover.ts';
import type { BookWork, Work } from './plan.ts';
import { say } from '../words/say.ts';

/**
 * A piece's pages, kept beside the book until the book is written: only one piece is in memory at a time, and a book that
 * was stopped carries on with the pieces it has.
 */
export interface Part extends Pick<Book, 'title' | 'subject' | 'sheets'> {
  readonly identity: string;
  readonly pages: readonly (Page | WrittenPage)[];
}

/** A piece's pages under names that no other piece of the book has. */
const namePages = (name: string, pages: Part['pages']): Part['pages'] =>
  pages.map((page) => ({
    ...page,
    label: `${name} ${page.label}`,
    views: page.views.map((view) => ({ ...view, sheet: `${name} ${view.sheet}` })),
  }));

/** What the book keeps of itself: all that is needed to make it again, and where each piece's pages are. */
const listPieces = (
  { file, sources, isWhole }: BookWork,
  rows: readonly IndexRow[],
  coverPages: number,
): BookSpec => {
  let page = coverPages + 1;
  const pieces = rows.map(({ work, pages }) => {
    const first = page;
    page += pages;
    return { name: work.name, first, pages, spec: work.piece.request.spec };
  });
  return { book: file, sources, isWhole, pieces };
};

/** A book ready to be written, its pages made as they are asked for. */
export interface BoundBook {
  readonly stream: PageStream;
  readonly identity: string;
  readonly coverPages: number;
}

/**
 * Binds a book from its pieces: cover, then every piece's pages. `loadPart` gives a piece's pages, asked for one piece at a
 * time and in order, so that only one need be in memory.
 */
export const bindBook = (
  work: BookWork,
  rows: readonly IndexRow[],
  loadPart: (work: Work) => Pick<Part, 'sheets' | 'pages'>,
): BoundBook => {
  const cover = layCover(work, rows);
  const sheets: Book['sheets'][number][] = [...cover.sheets];
  // The writer asks for a piece's pages after it has written those before, so its sheets are known when it ends.
  function* pages(): Generator<Page | WrittenPage> {
    yield* cover.pages;
    let before = cover.pages.length;
    for (const one of work.works) {
      const part = loadPart(one);
      const first = before;
      sheets.push(
        ...part.sheets.map((sheet) => ({
          ...sheet,
          name: `${one.name} ${sheet.name}`,
          pages: sheet.pages.map((page) => page + first),
        })),
      );
      before += part.pages.length;
      yield* namePages(one.name, part.pages);
    }
  }
  return {
    identity: cover.identity,
    coverPages: cover.pages.length,
    stream: {
      title: titleBook(work.file, rows),
      author: rows[0]?.work.piece.request.paging.title.owner ?? '',
      subject: say`${rows.length} pieces`,
      spec: listPieces(work, rows, cover.pages.length),
      sheets,
      pages: pages(),
    },
  };
};
