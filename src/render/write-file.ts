import { randomBytes } from 'node:crypto';
import { type FileHandle, chmod, open, realpath, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { type UserError, fileError } from '../issue.ts';

/** A file's content, whole or in pieces as they are made. */
export type Content = string | Uint8Array | AsyncIterable<Uint8Array>;

/**
 * Writes a file whole or not at all: into a new file in the same folder, which takes the old one's place only when all of
 * it is on the disk. A link is followed, an existing file's permissions are kept. A device or pipe is written straight.
 *
 * Fails with a file error that names the file and says what stands in the way. A failure of `content` itself is passed on.
 */
export const writeFile = async (path: string, content: Content): Promise<void> => {
  const pieces = piecesOf(content);
  const [target, old] = await guard(path, async () => {
    const found = await realpath(path).catch(ignoreMissing);
    return [found ?? path, found === undefined ? undefined : await stat(found)];
  });
  if (old?.isDirectory()) throw refusal(path, 'EISDIR');
  if (old && !old.isFile()) {
    const device = await guard(path, () => open(target, 'w'));
    return fill(path, device, pieces);
  }

  // A file that may not be written must not be replaced either, though its folder would allow it.
  if (old) await guard(path, async () => (await open(target, 'r+')).close());
  const draft = join(dirname(target), `.soapstone-${randomBytes(6).toString('hex')}.part`);
  const file = await guard(path, () => open(draft, 'wx'));
  try {
    await fill(path, file, pieces, true);
    if (old) await guard(path, () => chmod(draft, old.mode & 0o7777));
    await guard(path, () => rename(draft, target));
  } catch (error) {
    await rm(draft, { force: true });
    throw error;
  }
};

async function* piecesOf(content: Content): AsyncGenerator<Uint8Array> {
  if (typeof content === 'string') yield new TextEncoder().encode(content);
  else if (content instanceof Uint8Array) yield content;
  else yield* content;
}

/** Writes everything to an open file and closes it, also on failure. */
const fill = async (
  path: string,
  file: FileHandle,
  pieces: AsyncIterable<Uint8Array>,
  sync = false,
): Promise<void> => {
  try {
    for await (const piece of pieces) await guard(path, () => file.writeFile(piece));
    if (sync) await guard(path, () => file.sync());
  } finally {
    await file.close();
  }
};

const ignoreMissing = (error: unknown): undefined => {
  if (codeOf(error) !== 'ENOENT') throw error;
};

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';

/** Why the system refuses, and what would be right. */
const refusals: Readonly<Record<string, readonly [reason: string, hint: string]>> = {
  ENOENT: ['there is no such folder', 'make the folder first, or name another'],
  ENOTDIR: ['part of its path is a file, not a folder', 'name a file in a folder'],
  EISDIR: ['it is a folder', 'give the name of a file'],
  EACCES: ['it may not be written', 'ask for the right to write there, or name another folder'],
  EPERM: ['it may not be written', 'ask for the right to write there, or name another folder'],
  EROFS: ['the disk is read-only', 'name a folder on a disk that can be written'],
  ENOSPC: ['the disk is full', 'make room on the disk, or name another folder'],
  ENAMETOOLONG: ['its name is too long', 'give a shorter name'],
};

const refusal = (path: string, code: string): UserError => {
  const [reason, hint] = refusals[code] ?? [`the system says ${code}`, 'name another file or folder'];
  return fileError('output', 'not-written', `cannot write ${path}: ${reason}`, hint);
};

/** Runs a file operation, telling its failure as a file error. */
const guard = async <Result>(path: string, run: () => Promise<Result>): Promise<Result> => {
  try {
    return await run();
  } catch (error) {
    const code = codeOf(error);
    throw code === '' ? error : refusal(path, code);
  }
};
