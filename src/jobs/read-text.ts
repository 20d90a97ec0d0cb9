import { open, realpath } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, sep } from 'node:path';
import { fileError, requestError } from '../issue.ts';
import { tellRefusal } from '../render/file-fault.ts';
import { decodeSpreadsheet, decodeUnicode } from './decode.ts';
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

/** A job file's text. Throws a `file` UserError where it cannot be read, is too large or is not written in Unicode. */
export const readUnicode = async (file: string): Promise<string> =>
  decodeUnicode(await readBytes(file), file);

/** A cut list's text, as `readUnicode`. */
export const readSpreadsheet = async (file: string): Promise<string> =>
  decodeSpreadsheet(await readBytes(file), file);

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
