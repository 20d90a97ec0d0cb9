import { mkdir, readdir, rename, rm, rmdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileError } from '../issue.ts';
import { nameDraft, ownerOfDraft } from '../render/drafts.ts';
import { codeOf, tellRefusal } from '../render/file-fault.ts';
import { isOrphan } from '../render/owner.ts';
import { say } from '../words/say.ts';

/** How long another program is waited for, ms; what is done under a lock takes a fraction of it. */
const patience = 20_000;

/** What systems say of a folder that is to take the place of one that holds something (POSIX, rename; Windows has words of its own). */
const takenCodes: ReadonlySet<string> = new Set(['ENOTEMPTY', 'EEXIST', 'ENOTDIR', 'EPERM', 'EACCES']);

/** Puts a folder in the lock's place. Returns false where another program's stands there. */
const tryLock = async (draft: string, lock: string): Promise<boolean> => {
  try {
    await rename(draft, lock);
    return true;
  } catch (error) {
    if (takenCodes.has(codeOf(error))) return false;
    throw tellRefusal(error, 'write', lock);
  }
};

/** Takes one program's claim off a lock. Another program's claim keeps its folder from going. */
const release = async (lock: string, claim: string): Promise<void> => {
  await rm(join(lock, claim), { force: true });
  await rmdir(lock).catch(() => undefined);
};

/** Takes the claims of programs that were killed off a lock, and the lock itself where it holds none. */
const dropStale = async (lock: string): Promise<void> => {
  const claims = await readdir(lock).catch(() => undefined);
  if (claims === undefined) return;
  if (claims.length === 0) await rmdir(lock).catch(() => undefined);
  for (const claim of claims) {
    const owner = ownerOfDraft(claim);
    if (owner !== undefined && (await isOrphan(join(lock, claim), owner))) await release(lock, claim);
  }
};

/** Waits until a folder stands in the lock's place. */
const takeLock = async (draft: string, lock: string): Promise<void> => {
  const end = Date.now() + patience;
  while (!(await tryLock(draft, lock))) {
    await dropStale(lock);
    if (Date.now() > end)
      throw fileError(
        '',
        'locked',
        say`another program holds ${lock}`,
        say`wait until it ends; if none runs, remove that folder`,
      );
    await wait(10 + Math.random() * 30);
  }
};

/**
 * Runs `task` while no other program that uses the same lock runs one: for files that are read, changed and written again.
 * The lock is a folder that holds a claim, a file whose name is its owner's alone: what is done to a claim that was found
 * a while ago can never hit the claim of the one who holds the lock by now.
 *
 * Throws a `file` UserError where the lock cannot be had.
 */
export const withLock = async <Result>(lock: string, task: () => Promise<Result>): Promise<Result> => {
  const claim = nameDraft();
  const draft = join(dirname(lock), claim);
  try {
    await mkdir(draft);
    await writeFile(join(draft, claim), '');
    await takeLock(draft, lock);
  } catch (error) {
    await rm(draft, { recursive: true, force: true });
    throw tellRefusal(error, 'write', lock);
  }
  try {
    return await task();
  } finally {
    await release(lock, claim);
  }
};
