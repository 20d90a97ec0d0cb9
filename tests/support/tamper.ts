import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { makeBook, readRequest, renderPdf, type Texts } from '../../src/index.ts';
import type { Mark, Stroke } from '../../src/drawing/model.ts';
import { runTool, withFile } from './external.ts';

/** The file with its streams laid open, one object after another, by qpdf. */
export const layOpen = (bytes: Uint8Array): string =>
  withFile(bytes, (file, folder) => {
    const open = join(folder, 'open.pdf');
    runTool('qpdf', [
      '--qdf',
      '--no-original-object-ids',
      '--stream-data=uncompress',
      '--object-streams=disable',
      '--normalize-content=n',
      file,
      open,
    ]);
    return readFileSync(open).toString('latin1');
  });

/** A file edited as text, its table of objects and its lengths put right again by qpdf. */
export const mend = (text: string): Uint8Array =>
  withFile(new Uint8Array(Buffer.from(text, 'latin1')), (file, folder) => {
    const mended = join(folder, 'mended.pdf');
    try {
      runTool('qpdf', ['--object-streams=disable', file, mended]);
    } catch {
      // qpdf warns of the offsets it mends.
    }
    return new Uint8Array(readFileSync(mended));
  });

/** A print's own record, as far as tests change it. */
export interface Told {
  version: string;
  spec: Record<string, unknown>;
  sheets: { name: string; fit: { lines: { which: string; solids: Record<string, unknown>[] }[] } }[];
  pages: unknown[];
}

/**
 * A print that was laid open, with another record in it and no check sum of that: what is left is what measuring must see.
 * `change` may alter what it is given or return another. Fails where the record stays the same.
 */
export const withRecord = (open: string, change: (record: Told) => unknown): Uint8Array => {
  const at = open.indexOf('{"program"');
  const end = open.indexOf('endstream', at);
  const before = open.slice(at, end);
  const record = JSON.parse(before) as Told;
  const after = JSON.stringify(change(record) ?? record);
  if (after === before.trim()) throw new Error('the record is as it was');
  return mend(`${open.slice(0, at) + after}\n${open.slice(end)}`.replace(/\/CheckSum \([^)]*\)/, ''));
};

type Pages = ReturnType<typeof makeBook>['pages'];

/** A print whose pages were changed before they were written, so that every digest in it is that of the changed page. */
export const printChanged = (
  layout: string,
  texts: Texts,
  change: (marks: readonly Mark[], page: number) => readonly Mark[],
): Promise<Uint8Array> => {
  const book = makeBook(readRequest(layout, texts));
  const pages: Pages = book.pages.map((page, i) => ({ ...page, marks: change(page.marks, i) }));
  return renderPdf({ ...book, pages });
};

/** True for a line that steel is cut by. */
export const isCut = (mark: Mark): mark is Stroke => mark.kind === 'stroke' && mark.role === 'cut';
