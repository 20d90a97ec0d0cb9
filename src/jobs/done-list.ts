import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { appendFile, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { writeFile } from '../render/write-file.ts';

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

const isMissing = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'EISDIR');

const readIfThere = async (path: string): Promise<Uint8Array | undefined> => {
  try {
    return await readFile(path);
  } catch (error) {
    if (isMissing(error)) return undefined;
    throw error;
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

/** Opens a folder's list. Every file is noted by one line added to it, so that a stop at any moment loses at most one. */
export const openDoneList = async (folder: string): Promise<DoneList> => {
  const path = join(folder, listName);
  const text = new TextDecoder().decode((await readIfThere(path)) ?? new Uint8Array());
  const known = new Map<string, Done>();
  for (const line of text.split('\n')) {
    const done = readLine(line);
    if (done !== undefined) known.set(done.file, done);
  }
  // A line that was cut off must not swallow the next one.
  let lead = text === '' || text.endsWith('\n') ? '' : '\n';
  const unchanged = async (done: Done): Promise<boolean> => {
    const bytes = await readIfThere(join(folder, done.file));
    return bytes !== undefined && digest(bytes) === done.content;
  };
  return {
    find: async (file, request) => {
      const done = known.get(file);
      return done?.request === request && (await unchanged(done)) ? done : undefined;
    },
    add: async (done) => {
      known.set(done.file, done);
      await appendFile(path, `${lead}${JSON.stringify(done)}\n`);
      lead = '';
    },
    drop: (file) => {
      known.delete(file);
    },
    close: async () => {
      const rows: Done[] = [];
      for (const done of known.values()) if (existsSync(join(folder, done.file))) rows.push(done);
      rows.sort((a, b) => (a.file < b.file ? -1 : 1));
      if (rows.length === 0 && text === '') return;
      await writeFile(path, rows.map((row) => `${JSON.stringify(row)}\n`).join(''));
    },
  };
};
