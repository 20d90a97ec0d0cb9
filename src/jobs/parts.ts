import { readFileSync } from 'node:fs';
import { mkdir, rmdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import type { Book } from '../paging/book.ts';
import { writeFile } from '../render/write-file.ts';
import { digest, type DoneList } from './done-list.ts';
import { digestRequest, type Drawn } from './make.ts';
import type { Work } from './plan.ts';

/**
 * A piece's pages, kept beside the book until the book is written: only one piece is in memory at a time, and a book that
 * was stopped carries on with the pieces it has.
 */
export interface Part extends Pick<Book, 'title' | 'subject' | 'sheets' | 'pages'> {
  readonly identity: string;
}

const folderName = '.soapstone-parts';

/** The part's file, by name in the output folder. */
export const partFile = (work: Work): string => `${folderName}/${digestRequest(work, 'part')}.json.gz`;

/** Keeps a piece's pages. */
export const savePart = async (folder: string, list: DoneList, work: Work, drawn: Drawn): Promise<void> => {
  const { book, identity } = drawn;
  const { title, subject, sheets, pages } = book;
  const part: Part = { title, subject, sheets, pages, identity };
  const bytes = gzipSync(JSON.stringify(part), { level: 1 });
  await mkdir(join(folder, folderName), { recursive: true });
  const file = partFile(work);
  await writeFile(join(folder, file), bytes);
  await list.add({
    file,
    request: digestRequest(work, 'part'),
    content: digest(bytes),
    identity,
    pages: pages.length,
  });
};

/** A piece's pages again; numbers come back exactly as they were. */
export const loadPart = (folder: string, work: Work): Part =>
  JSON.parse(gunzipSync(readFileSync(join(folder, partFile(work)))).toString('utf8')) as Part;

/** Removes the parts of a book that is written. */
export const removeParts = async (folder: string, list: DoneList, works: readonly Work[]): Promise<void> => {
  for (const work of works) {
    const file = partFile(work);
    await rm(join(folder, file), { force: true });
    list.drop(file);
  }
  // The parts of another book may still be there.
  await rmdir(join(folder, folderName)).catch((error: unknown) => {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code !== 'ENOTEMPTY' && code !== 'ENOENT' && code !== 'EEXIST') throw error;
  });
};
