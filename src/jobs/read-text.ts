import { open, realpath } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, sep } from 'node:path';
import { fileError, requestError } from '../issue.ts';
import { limits } from './entry.ts';

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  EACCES: 'it may not be read',
};

const refuse = (file: string, error: unknown) => {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return error;
  const why = reasons[error.code] ?? `the system says ${error.code}`;
  return fileError(
    '',
    'not-read',
    `cannot read ${file}: ${why}`,
    'name a job file (.yaml) or a cut list (.csv)',
  );
};

const readBytes = async (file: string): Promise<Uint8Array> => {
  try {
    const handle = await open(file, 'r');
    try {
      const about = await handle.stat();
      if (!about.isFile())
        throw fileError(
          '',
          'no-file',
          `cannot read ${file}: it is no plain file`,
          'name a job file or a cut list',
        );
      if (about.size > limits.bytes)
        throw fileError(
          '',
          'large-file',
          `${file} has ${about.size} bytes, more than ${limits.bytes}`,
          'divide the job over several files',
        );
      return await handle.readFile();
    } finally {
      await handle.close();
    }
  } catch (error) {
    throw refuse(file, error);
  }
};

const decode = (bytes: Uint8Array, encoding: string): string | undefined => {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch (error) {
    if (error instanceof TypeError) return undefined;
    throw error;
  }
};

/** A file's text in UTF-8. Throws a `file` UserError where it cannot be read or is too large. */
export const readUtf8 = async (file: string): Promise<string> => {
  const text = decode(await readBytes(file), 'utf-8');
  if (text !== undefined) return text;
  throw fileError('', 'not-utf8', `${file} is not written in UTF-8`, 'save it as UTF-8 in the editor');
};

/** As `readUtf8`, and the other ways in which spreadsheets save their lists: UTF-16 and Windows-1252. */
export const readSpreadsheet = async (file: string): Promise<string> => {
  const bytes = await readBytes(file);
  const isWide = bytes[0] === 0xff && bytes[1] === 0xfe;
  return (isWide ? decode(bytes, 'utf-16le') : decode(bytes, 'utf-8')) ?? decode(bytes, 'windows-1252') ?? '';
};

/**
 * The path of a file that a job file names: in the job file's own folder or below. Throws a `request` UserError for any
 * other, links that lead out of the folder included.
 */
export const resolveBeside = async (jobFile: string, name: string): Promise<string> => {
  const outside = () =>
    requestError(
      'list',
      'list-outside',
      `"${name}" lies outside the job file’s folder`,
      'put it beside the job file',
    );
  if (isAbsolute(name) || /[\\:\0]/.test(name) || name.split('/').includes('..')) throw outside();
  const folder = dirname(jobFile);
  const file = join(folder, name);
  const way = await Promise.all([realpath(folder), realpath(file)]).catch((error: unknown) => {
    throw refuse(file, error);
  });
  const inside = relative(way[0], way[1]);
  if (inside.startsWith(`..${sep}`) || inside === '..' || isAbsolute(inside)) throw outside();
  return file;
};
