import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { streamPdf } from '../render/pdf.ts';
import { writeFile } from '../render/write-file.ts';
import { bindBook } from './bind.ts';
import type { IndexRow } from './cover.ts';
import { digest, type Done } from './done-list.ts';
import { digestRequest } from './make.ts';
import { loadPart } from './parts.ts';
import type { BookWork } from './plan.ts';
import { programDigest } from './program.ts';

/** Thrown where a book is stopped before it is whole. */
export class Stopped extends Error {}

/** A turn of the event loop, in which signals are seen. */
export const breathe = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** Digest of all that shapes a book. */
export const digestBook = ({ file, works, sources, isWhole }: BookWork): string =>
  digest(
    JSON.stringify([
      programDigest(),
      file,
      sources,
      isWhole,
      works.map((work) => [work.name, digestRequest(work, 'part')]),
    ]),
  );

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

/**
 * Writes a book from its pieces' parts: cover, then every piece's pages. One piece is in memory at a time. A stop leaves no
 * file, or the old one as it was. Throws `Stopped` then.
 */
export const writeBook = async (folder: string, work: BookWork, signal: AbortSignal): Promise<Done> => {
  const rows = await readRows(folder, work, signal);
  const { stream, identity, coverPages } = bindBook(work, rows, (one) => {
    if (signal.aborted) throw new Stopped();
    return loadPart(folder, one);
  });
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
    identity,
    pages: coverPages + rows.reduce((sum, row) => sum + row.pages, 0),
  };
};
