import {
  type FileHandle,
  chmod,
  lstat,
  mkdir,
  open,
  readlink,
  realpath,
  rename,
  rm,
  stat,
} from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { nameDraft, sweepDrafts } from './drafts.ts';
import { codeOf, guard, tellRefusal } from './file-fault.ts';

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
  const [target, old] = await guardWrite(path, async () => {
    const found = await realpath(path).catch(ignoreMissing);
    return [found ?? (await followLinks(path)), found === undefined ? undefined : await stat(found)];
  });
  if (old?.isDirectory()) throw tellRefusal(folderInTheWay, 'write', path, 'output');
  if (old && !old.isFile()) {
    const device = await guardWrite(path, () => open(target, 'w'));
    return fill(path, device, pieces);
  }

  // A file that may not be written must not be replaced either, though its folder would allow it.
  if (old) await guardWrite(path, async () => (await open(target, 'r+')).close());
  const folder = dirname(target);
  await sweepDrafts(folder);
  const draft = join(folder, nameDraft());
  const file = await guardWrite(path, () => open(draft, 'wx'));
  try {
    await fill(path, file, pieces, true);
    if (old) await guardWrite(path, () => chmod(draft, old.mode & 0o7777));
    await guardWrite(path, () => rename(draft, target));
  } catch (error) {
    await rm(draft, { force: true });
    throw error;
  }
};

const folderInTheWay = Object.assign(new Error(), { code: 'EISDIR', syscall: 'open' });

/** As many links as one path may lead through (POSIX asks for 8, Linux takes 40). */
const mostLinks = 40;

/** Where a link leads whose end is not there yet; the path itself where it is no link. */
const followLinks = async (path: string): Promise<string> => {
  let end = path;
  for (let i = 0; i < mostLinks; i++) {
    const about = await lstat(end).catch(ignoreMissing);
    if (about?.isSymbolicLink() !== true) return end;
    end = resolve(dirname(end), await readlink(end));
  }
  return end;
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
    for await (const piece of pieces) await guardWrite(path, () => file.writeFile(piece));
    if (sync) await guardWrite(path, () => file.sync());
  } finally {
    await file.close();
  }
};

const ignoreMissing = (error: unknown): undefined => {
  if (codeOf(error) !== 'ENOENT') throw error;
};

const guardWrite = <Result>(path: string, run: () => Promise<Result>): Promise<Result> =>
  guard('write', path, run, 'output');

const isFolder = (path: string): Promise<boolean> =>
  stat(path).then(
    (about) => about.isDirectory(),
    () => false,
  );

/** One folder; what is there already is as good. */
const makeOne = async (folder: string): Promise<void> => {
  try {
    await mkdir(folder);
  } catch (error) {
    if (!(await isFolder(folder))) throw error;
  }
};

const makeAll = async (folder: string): Promise<void> => {
  try {
    await makeOne(folder);
  } catch (error) {
    const above = dirname(folder);
    if (codeOf(error) !== 'ENOENT' || above === folder) throw error;
    await makeAll(above);
    await makeOne(folder);
  }
};

/**
 * Makes a folder and those above it. Node's own `recursive` tries for ever where a folder that is there takes none, as /proc.
 * Throws a `file` UserError; `input` named the folder.
 */
export const makeFolder = (folder: string, input?: string): Promise<void> =>
  guard('make the folder', folder, () => makeAll(resolve(folder)), input);
