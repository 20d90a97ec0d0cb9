import { createHash } from 'node:crypto';

import { join } from 'node:path';
import { streamPdf } from '../render/pdf.ts';
import { writeFile } from '../render/write-file.ts';
import { bindBook } from './bind.ts';
import { digest, type Done } from './done-list.ts';
import type { Bindable } from './gather.ts';
import { digestRequest } from './make.ts';
import { loadHead, loadPart } from './part-files.ts';
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

/** What the book must know of its pieces, from their parts. */
const readPieces = async (
  folder: string,
  { works }: BookWork,
  signal: AbortSignal,
): Promise<readonly Bindable[]> => {
  const pieces: Bindable[] = [];
  for (const work of works) {
    await breathe();
    if (signal.aborted) throw new Stopped();
    pieces.push({ work, ...loadHead(folder, work) });
  }
  return pieces;
};

/**
 * Writes a book from its pieces' parts: cover, then every piece's pages. The pieces of one page are in memory at a time. A stop leaves no
 * file, or the old one as it was. Throws `Stopped` then.
 */
export const writeBook = async (folder: string, work: BookWork, signal: AbortSignal): Promise<Done> => {
  const pieces = await readPieces(folder, work, signal);
  const { stream, identity, pages } = bindBook(work, pieces, (one) => {
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
    pages,
  };
};
