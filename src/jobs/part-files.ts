import { closeSync, openSync, readFileSync, readSync } from 'node:fs';
import { rm, rmdir } from 'node:fs/promises';

import { join } from 'node:path';
import type { Page } from '../paging/book.ts';
import type { Written, WrittenPage } from '../render/pdf.ts';
import type { RecordedSheet } from '../render/pdf-record.ts';
import type { Part } from './bind.ts';
import type { DoneList } from './done-list.ts';
import type { Bindable } from './gather.ts';
import { digestRequest } from './make.ts';
import type { Work } from './plan.ts';

const folderName = '.soapstone-parts';

/** The part's file, by name in the output folder. */
export const partFile = (work: Work): string => `${folderName}/${digestRequest(work, 'part')}.part`;

/** Stand in a part for a sheet's record and a page's content, which follow in the file. */
type ListedSheet = Omit<RecordedSheet, 'recorded'> & { readonly length: number };
type ListedPage =
  Page | (Omit<WrittenPage, 'written'> & { readonly written: Omit<Written, 'packed'> & { length: number } });
type Listed = Omit<Part, 'sheets' | 'pages'> & {
  readonly sheets: readonly ListedSheet[];
  readonly pages: readonly ListedPage[];
};

/** A part as bytes: how long its list is, the list, then the records of its sheets and the contents of its pages one after the other. */
export const packPart = (part: Part): Uint8Array => {
  const contents: Uint8Array[] = [];
  const sheets = part.sheets.map(({ recorded, ...sheet }): ListedSheet => {
    contents.push(recorded);
    return { ...sheet, length: recorded.length };
  });
  const pages = part.pages.map((page): ListedPage => {
    if (!('written' in page)) return page;
    const { packed, ...written } = page.written;
    contents.push(packed);
    return { ...page, written: { ...written, length: packed.length } };
  });
  const list = Buffer.from(JSON.stringify({ ...part, sheets, pages } satisfies Listed));
  const length = Buffer.alloc(4);
  length.writeUInt32LE(list.length);
  return Buffer.concat([length, list, ...contents]);
};

/** What a book must know of a piece before it is bound: the list alone is read, without the pages' contents. */
export const loadHead = (folder: string, work: Work): Omit<Bindable, 'work'> => {
  const file = openSync(join(folder, partFile(work)), 'r');
  try {
    const read = (length: number): Buffer => {
      const bytes = Buffer.alloc(length);
      readSync(file, bytes);
      return bytes;
    };
    const list = read(read(4).readUInt32LE()).toString('utf8');
    const { subject, identity, pages, panels } = JSON.parse(list) as Listed;
    return { subject, identity, pages: pages.length, panels };
  } finally {
    closeSync(file);
  }
};

/** A piece's pages again. */
export const loadPart = (folder: string, work: Work): Part => {
  const bytes = readFileSync(join(folder, partFile(work)));
  let at = 4 + bytes.readUInt32LE();
  const part = JSON.parse(bytes.toString('utf8', 4, at)) as Listed;
  const take = (length: number): Uint8Array => bytes.subarray(at, (at += length));
  const sheets = part.sheets.map(({ length, ...sheet }) => ({
    ...sheet,
    recorded: take(length),
  }));
  const pages = part.pages.map((page) => {
    if (!('written' in page)) return page;
    const { length, ...written } = page.written;
    return { ...page, written: { ...written, packed: take(length) } };
  });
  return { ...part, sheets, pages };
};

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
