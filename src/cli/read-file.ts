import { closeSync, fstatSync, openSync, readFileSync, readSync } from 'node:fs';
import { fileError, UserError } from '../issue.ts';
import { tellRefusal } from '../render/file-fault.ts';
import { say } from '../words/say.ts';

/** Reads no more than `most` bytes and one: a device or a pipe may never end. */
const readBounded = (file: string, most: number): Uint8Array => {
  const handle = openSync(file, 'r');
  try {
    const stat = fstatSync(handle);
    if (stat.isFile() && stat.size <= most) return readFileSync(handle);
    if (stat.isFile() || stat.isCharacterDevice() || stat.isBlockDevice()) throw tooLong(file, most);
    const chunks: Buffer[] = [];
    for (let left = most + 1; left > 0;) {
      const chunk = Buffer.alloc(Math.min(left, 65_536));
      const size = readSync(handle, chunk);
      if (size === 0) return Buffer.concat(chunks);
      chunks.push(chunk.subarray(0, size));
      left -= size;
    }
    throw tooLong(file, most);
  } finally {
    closeSync(handle);
  }
};

const tooLong = (file: string, most: number): UserError =>
  fileError(
    '',
    'too-long',
    say`${file} is not a file of at most ${Math.round(most / 1e6)} MB`,
    say`give the name of a finished print`,
  );

/** A file's bytes, of which there may be at most `most`. Throws a `file` UserError where it cannot be read. */
export const readInput = (file: string, most = Infinity): Uint8Array => {
  try {
    return most === Infinity ? readFileSync(file) : readBounded(file, most);
  } catch (error) {
    if (error instanceof UserError) throw error;
    throw tellRefusal(error, 'read', file);
  }
};
