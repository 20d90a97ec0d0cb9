import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { appendFile, readdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod';
import { codeOf, guard, tellRefusal } from '../render/file-fault.ts';
import { isOrphan, ownerPattern, ownerTag } from '../render/owner.ts';
import { writeFile } from '../render/write-file.ts';
import { withLock } from './lock.ts';

/** What is known of a file that has been made. */
export interface Done {
  /** The file's name in its folder. */
  readonly file: string;
  /** Digest of all that shaped it. */
  readonly request: string;
  /** Digest of its bytes. */
  readonly content: string;
  readonly identity: string;
  readonly pages: number;
}

/** The files of a folder that are done, so that a run that was stopped is carried on and nothing is made twice. */
export interface DoneList {
  /** What is known of a file, if it was made from the same request and nobody has changed it since. */
  readonly find: (file: string, request: string) => Promise<Done | undefined>;
  /** Notes a file that has been written whole. */
  readonly add: (done: Done) => Promise<void>;
  /** Forgets a file that has been removed. */
  readonly drop: (file: string) => void;
  /** Writes the list afresh, in the order of names, without what is no longer there. */
  readonly close: () => Promise<void>;
}

/** The list's own name. No piece can take it: names of pieces do not begin with a dot. */
export const listName = '.soapstone-done.jsonl';

const doneShape = z.strictObject({
  file: z.string(),
  request: z.string(),
  content: z.string(),
  identity: z.string(),
  pages: z.number().int().nonnegative(),
}) satisfies z.ZodType<Done>;

/** SHA-256 in hexadecimal. */
export const digest = (...parts: readonly (string | Uint8Array)[]): string => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest('hex');
};

const readIfThere = async (path: string): Promise<Uint8Array | undefined> => {
  try {
    return await readFile(path);
  } catch (error) {
    if (codeOf(error) === 'ENOENT' || codeOf(error) === 'EISDIR') return undefined;
    throw tellRefusal(error, 'read', path);
  }
};

/** One line of the list; undefined where the line is not whole, as the last one may be after a loss of power. */
const readLine = (line: string): Done | undefined => {
  try {
    const read = doneShape.safeParse(JSON.parse(line));
    return read.success ? read.data : undefined;
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
};

/** Takes a list's lines up, the later ones in place of the earlier. */
const takeUp = (known: Map<string, Done>, bytes: Uint8Array | undefined): void => {
  for (const line of new TextDecoder().decode(bytes).split('\n')) {
    const done = readLine(line);
    if (done !== undefined) known.set(done.file, done);
  }
};

const ownList = new RegExp(`^\\.soapstone-done-(${ownerPattern})\\.jsonl$`);
const shareList = /^\.soapstone-done-\d+-of-\d+\.jsonl$/;

/** Lists of single runs and shares beside the folder's own, by their names. */
const listOthers = async (folder: string): Promise<readonly string[]> =>
  (await guard('read', folder, () => readdir(folder)))
    .filter((name) => ownList.test(name) || shareList.test(name))
    .sort();

/** Those that nobody adds to any more, so that they may be taken into the folder's own list. */
const listEnded = async (folder: string, mine: string): Promise<readonly string[]> => {
  const ended: string[] = [];
  for (const name of await listOthers(folder)) {
    const [, tag] = ownList.exec(name) ?? [];
    if (name === mine || tag === undefined || (await isOrphan(join(folder, name), tag))) ended.push(name);
  }
  return ended;
};

/**
 * Opens a folder's list. Every file is noted by one line added to a list of this run's own, so that a stop at any moment loses
 * at most one and runs in the same folder do not disturb each other; closing takes it into the folder's list. A `share` such
 * as `2-of-8` keeps its list to itself, so that the folders of several machines can be put together.
 */
export const openDoneList = async (folder: string, share?: string): Promise<DoneList> => {
  const path = join(folder, listName);
  const mine = `.soapstone-done-${share ?? ownerTag}.jsonl`;
  const known = new Map<string, Done>();
  const dropped = new Set<string>();
  for (const name of [listName, ...(await listOthers(folder))])
    takeUp(known, await readIfThere(join(folder, name)));
  // A line that a stop cut off must not swallow the next one.
  let lead = '\n';
  const unchanged = async (done: Done): Promise<boolean> => {
    const bytes = await readIfThere(join(folder, done.file));
    return bytes !== undefined && digest(bytes) === done.content;
  };
  const tidy = async (): Promise<void> => {
    const all = new Map<string, Done>();
    const ended = await listEnded(folder, mine);
    for (const name of [listName, ...ended]) takeUp(all, await readIfThere(join(folder, name)));
    const rows = [...all.values()].filter(({ file }) => !dropped.has(file) && existsSync(join(folder, file)));
    rows.sort((a, b) => (a.file < b.file ? -1 : 1));
    if (rows.length > 0 || existsSync(path))
      await writeFile(path, rows.map((row) => `${JSON.stringify(row)}\n`).join(''));
    for (const name of ended) await rm(join(folder, name), { force: true });
  };
  return {
    find: async (file, request) => {
      const done = known.get(file);
      return done?.request === request && (await unchanged(done)) ? done : undefined;
    },
    add: async (done) => {
      known.set(done.file, done);
      dropped.delete(done.file);
      const line = `${lead}${JSON.stringify(done)}\n`;
      await guard('write', join(folder, mine), () => appendFile(join(folder, mine), line), 'output');
      lead = '';
    },
    drop: (file) => {
      known.delete(file);
      dropped.add(file);
    },
    close: async () => {
      if (share === undefined) await withLock(join(folder, '.soapstone-done.lock'), tidy);
    },
  };
};
