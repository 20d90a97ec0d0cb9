import { statSync } from 'node:fs';
import { basename, dirname, extname, resolve } from 'node:path';
import { fileError, requestError } from '../issue.ts';
import { fileKey } from '../jobs/file-name.ts';
import { findNearMiss } from '../near-miss.ts';
import { tellRefusal } from '../render/file-fault.ts';
import { formats, isFormat, writers, type Made, type Writer } from '../render/formats.ts';
import { say } from '../words/say.ts';

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
    extension === ''
      ? say`"${file}" has no extension that says its format`
      : say`there is no format "${extension}"`,
    near === undefined ? say`end the file's name in ${known.join(say` or `)}` : say`did you mean ${near}?`,
  );
};

/** What is at a path, or undefined where nothing is. Throws a `file` UserError where that cannot be found out. */
const look = (path: string, file: string) => {
  try {
    return statSync(path, { throwIfNoEntry: false });
  } catch (error) {
    throw tellRefusal(error, 'write', file, 'output');
  }
};

const checkFolder = (file: string): void => {
  const folder = dirname(resolve(file));
  if (look(folder, file)?.isDirectory() !== true)
    throw fileError(
      'output',
      'no-folder',
      say`cannot write ${file}: there is no folder ${folder}`,
      say`make the folder first`,
    );
  if (look(resolve(file), file)?.isDirectory() === true)
    throw fileError(
      'output',
      'is-folder',
      say`cannot write ${file}: it is a folder`,
      say`give the name of a file`,
    );
};

/** What two names of one file have in common, however they lead there; a device may be written to several times. */
const fileKeyOf = (file: string): string | undefined => {
  const about = look(resolve(file), file);
  if (about === undefined) {
    const folder = look(dirname(resolve(file)), file);
    return `${folder?.dev}:${folder?.ino}:${fileKey(basename(resolve(file)))}`;
  }
  return about.isFile() ? `${about.dev}:${about.ino}` : undefined;
};

/** Checks the names of files before any work is done: formats, folders, and that no file is named twice. */
export const planOutputs = (files: readonly string[]): readonly Output[] => {
  const outputs = files.map((file) => ({ file, write: findWriter(file) }));
  files.forEach(checkFolder);
  const keys = new Map<string, string>();
  for (const file of files) {
    const key = fileKeyOf(file);
    const other = key === undefined ? undefined : keys.get(key);
    if (other !== undefined)
      throw requestError(
        'output',
        'same-file',
        other === file ? say`${file} is named twice` : say`${file} is named twice, also as ${other}`,
        say`give every file a name of its own`,
      );
    if (key !== undefined) keys.set(key, file);
  }
  return outputs;
};

/** Writes all files, each whole or not at all. Nothing is written before everything has been rendered. */
export const writeOutputs = async (outputs: readonly Output[], made: Made): Promise<void> => {
  const rendered: { file: string; bytes: Uint8Array }[] = [];
  for (const { file, write } of outputs) rendered.push({ file, bytes: await write(made) });
  const { writeFile } = await import('../render/write-file.ts');
  for (const { file, bytes } of rendered) await writeFile(file, bytes);
};
