import { statSync } from 'node:fs';
import { dirname, extname, resolve } from 'node:path';
import type { Sheet } from '../drawing/model.ts';
import { fileError, requestError } from '../issue.ts';
import { findNearMiss } from '../near-miss.ts';
import type { Book } from '../paging/book.ts';

/** What the writers draw on: the sheets, and the book of pages made of them. */
export interface Made {
  readonly sheets: readonly Sheet[];
  readonly book: Book;
  /** The sheets as a cutter needs them; drawn when asked for. */
  readonly cutterSheets: () => readonly Sheet[];
}

type Writer = (made: Made) => Promise<Uint8Array>;

/** File formats by extension. A new format is one line here. */
const writers: Readonly<Record<string, Writer>> = {
  '.pdf': async ({ book }) => (await import('../render/pdf.ts')).renderPdf(book),
  '.csv': async ({ sheets }) =>
    new TextEncoder().encode((await import('../render/csv.ts')).renderCsv(sheets)),
  '.svg': async ({ cutterSheets, book }) =>
    new TextEncoder().encode((await import('../render/svg.ts')).renderSvg(cutterSheets(), book.title)),
  '.dxf': async ({ cutterSheets }) =>
    new TextEncoder().encode((await import('../render/dxf.ts')).renderDxf(cutterSheets())),
};

/** Extensions of the formats that can be written. */
export const outputFormats: readonly string[] = Object.keys(writers);

/** A file to be written, and how. */
export interface Output {
  readonly file: string;
  readonly write: Writer;
}

const findWriter = (file: string): Writer => {
  const extension = extname(file).toLowerCase();
  const writer = writers[extension];
  if (writer !== undefined) return writer;
  const known = outputFormats;
  const near = findNearMiss(extension, known);
  throw requestError(
    'output',
    'unknown-format',
    extension === '' ? `"${file}" has no extension to tell its format` : `there is no format "${extension}"`,
    near === undefined ? `end the file's name in ${known.join(' or ')}` : `did you mean ${near}?`,
  );
};

const checkFolder = (file: string): void => {
  const folder = dirname(resolve(file));
  const isFolder = (path: string) => statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
  if (!isFolder(folder))
    throw fileError(
      'output',
      'no-folder',
      `cannot write ${file}: there is no folder ${folder}`,
      'make the folder first',
    );
  if (isFolder(resolve(file)))
    throw fileError('output', 'is-folder', `cannot write ${file}: it is a folder`, 'give the name of a file');
};

/** Checks the names of files before any work is done: formats, folders, and that no file is named twice. */
export const planOutputs = (files: readonly string[]): readonly Output[] => {
  const outputs = files.map((file) => ({ file, write: findWriter(file) }));
  const twice = files.find((file, i) => files.findIndex((other) => resolve(other) === resolve(file)) < i);
  if (twice !== undefined)
    throw requestError('output', 'same-file', `${twice} is named twice`, 'give every file a name of its own');
  files.forEach(checkFolder);
  return outputs;
};

/** Writes all files, each whole or not at all. Nothing is written before everything has been rendered. */
export const writeOutputs = async (outputs: readonly Output[], made: Made): Promise<void> => {
  const rendered: { file: string; bytes: Uint8Array }[] = [];
  for (const { file, write } of outputs) rendered.push({ file, bytes: await write(made) });
  const { writeFile } = await import('../render/write-file.ts');
  for (const { file, bytes } of rendered) await writeFile(file, bytes);
};
