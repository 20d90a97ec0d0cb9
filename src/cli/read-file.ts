import { readFileSync } from 'node:fs';
import { fileError } from '../issue.ts';

/** A file's bytes. Throws a `file` UserError where it cannot be read. */
export const readInput = (file: string): Uint8Array => {
  try {
    return readFileSync(file);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const why =
      code === 'ENOENT'
        ? 'there is no such file'
        : code === 'EISDIR'
          ? 'it is a folder'
          : (code ?? 'unknown');
    throw fileError(
      '',
      'cannot-read',
      `cannot read ${file}: ${why}`,
      'give the name of a file that can be read',
    );
  }
};
