import { statSync } from 'node:fs';
import { dirname, extname, resolve } from 'node:path';
import { fileError, requestError } from '../issue.ts';
import { findNearMiss } from '../near-miss.ts';
import { formats, isFormat, writers, type Made, type Writer } from '../render/formats.ts';

export type { Made };

/** Extensions of the formats that can be written. */
export const outputFormats: readonly string[] = formats.map((format) => `.${format}`);

/** A file to be written, and how. */
export interface Output {
  readonly file: string;
  readonly write: Writer;
}

const findWriter = (file: string): Writer => {
  const extension = extname(file).toLowerCase();
  const format = extension.slice(1);
  if (isFormat(format)) return writers[format];
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
