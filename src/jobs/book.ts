import { createHash } from 'node:crypto';
import { join } from 'node:path';
import type { Book, Page } from '../paging/book.ts';
import { streamPdf, type PageStream } from '../render/pdf.ts';
import { writeFile } from '../render/write-file.ts';
import { version } from '../version.ts';
import type { BookSpec } from '../book-spec.ts';
import { layCover, titleBook, type IndexRow } from './cover.ts';
import { digest, type Done } from './done-list.ts';
import { digestRequest } from './make.ts';
import { loadPart } from './parts.ts';
import type { BookWork } from './plan.ts';

/** Thrown where a book is stopped before it is whole. */
export class Stopped extends Error {}

/** A turn of the event loop, in which signals are seen. */
export const breathe = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** Digest of all that shapes a book. */
export const digestBook = ({ file, works, sources, isWhole }: BookWork): string =>
  digest(
    JSON.stringify([
      version,
      file,
      sources,
      isWhole,
      works.map((work) => [work.name, digestRequest(work, 'part')]),
    ]),
  );

/** A piece's pages under names that no other piece of the book has. */
const namePages = (name: string, pages: readonly Page[]): readonly Page[] =>
  pages.map((page) => ({ ...page, label: `${name} ${page.label}` }));

const readRows = async (
  folder: string,
  { works }: BookWork,
  signal: AbortSignal,
): Promise<readonly IndexRow[]> => {
  const rows: IndexRow[] = [];
  for (const work of works) {
    await breathe();
    if (signal.aborted) throw new Stopped();
    const { subject, identity, pages } = loadPart(folder, work);
    rows.push({ work, subject, identity, pages: pages.length });
  }
  return rows;
};

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

/**
 * Writes a book from its pieces' parts: cover, then every piece's pages. One piece is in memory at a time. A stop leaves no
 * file, or the old one as it was. Throws `Stopped` then.
 */
export const writeBook = async (folder: string, work: BookWork, signal: AbortSignal): Promise<Done> => {
  const rows = await readRows(folder, work, signal);
  const cover = layCover(work, rows);
  const sheets: Book['sheets'][number][] = [...cover.sheets];
  // The writer asks for a piece's pages after it has written those before, so its sheets are known when it ends.
  function* pages(): Generator<Page> {
    yield* cover.pages;
    let before = cover.pages.length;
    for (const one of work.works) {
      if (signal.aborted) throw new Stopped();
      const part = loadPart(folder, one);
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
  const stream: PageStream = {
    title: titleBook(work.file, rows),
    author: rows[0]?.work.piece.request.paging.title.owner ?? '',
    subject: `${rows.length} pieces`,
    spec: listPieces(work, rows, cover.pages.length),
    sheets,
    pages: pages(),
  };
  const hash = createHash('sha256');
  async function* hashed(): AsyncGenerator<Uint8Array> {
    for await (const chunk of streamPdf(stream)) {
      hash.update(chunk);
      yield chunk;
    }
  }
  await writeFile(join(folder, work.file), hashed());
  return {
    file: work.file,
    request: digestBook(work),
    content: hash.digest('hex'),
    identity: cover.identity,
    pages: cover.pages.length + rows.reduce((sum, row) => sum + row.pages, 0),
  };
};
