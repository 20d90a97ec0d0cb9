import { open, realpath } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, sep } from 'node:path';
import { fileError, requestError } from '../issue.ts';
import { tellRefusal } from '../render/file-fault.ts';
import { limits } from './entry.ts';
import { say } from '../words/say.ts';

const readBytes = async (file: string): Promise<Uint8Array> => {
  try {
    const handle = await open(file, 'r');
    try {
      const about = await handle.stat();
      if (!about.isFile())
        throw fileError(
          '',
          'no-file',
          say`cannot read ${file}: it is not a plain file`,
          say`name a job file or a cut list`,
        );
      if (about.size > limits.bytes)
        throw fileError(
          '',
          'large-file',
          say`${file} has ${about.size} bytes, more than ${limits.bytes}`,
          say`split the job into several files`,
        );
      return await handle.readFile();
    } finally {
      await handle.close();
    }
  } catch (error) {
    throw tellRefusal(error, 'read', file);
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

/** UTF-16 by its byte order mark, else UTF-8; undefined where the bytes are neither. */
const decodeUnicode = (bytes: Uint8Array): string | undefined => {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return decode(bytes, 'utf-16le');
  if (first === 0xfe && second === 0xff) return decode(bytes, 'utf-16be');
  return decode(bytes, 'utf-8');
};

/** A file's text in UTF-8, or UTF-16 with its mark. Throws a `file` UserError where it cannot be read or is too large. */
export const readUnicode = async (file: string): Promise<string> => {
  const text = decodeUnicode(await readBytes(file));
  if (text !== undefined) return text;
  throw fileError('', 'not-utf8', say`${file} is not written in UTF-8`, say`save it as UTF-8 in the editor`);
};

/** As `readUnicode`, and the other way in which spreadsheets save their lists: Windows-1252. */
export const readSpreadsheet = async (file: string): Promise<string> => {
  const bytes = await readBytes(file);
  return decodeUnicode(bytes) ?? decode(bytes, 'windows-1252') ?? '';
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
      say`"${name}" lies outside the job file’s folder`,
      say`put it beside the job file`,
    );
  if (isAbsolute(name) || /[\\:\0]/.test(name) || name.split('/').includes('..')) throw outside();
  const folder = dirname(jobFile);
  const file = join(folder, name);
  const way = await Promise.all([realpath(folder), realpath(file)]).catch((error: unknown) => {
    throw tellRefusal(error, 'read', file);
  });
  const inside = relative(way[0], way[1]);
  if (inside.startsWith(`..${sep}`) || inside === '..' || isAbsolute(inside)) throw outside();
  return file;
};
