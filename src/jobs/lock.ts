import { open, readFile, rename, rm, stat } from 'node:fs/promises';
import { setTimeout as wait } from 'node:timers/promises';
import { fileError } from '../issue.ts';
import { codeOf, tellRefusal } from '../render/file-fault.ts';
import { isOrphan, ownerTag } from '../render/owner.ts';
import { say } from '../words/say.ts';

/** How long another program is waited for, ms; what is done under a lock takes a fraction of it. */
const patience = 20_000;

const tryLock = async (lock: string): Promise<boolean> => {
  const file = await open(lock, 'wx').catch((error: unknown) => {
    if (codeOf(error) !== 'EEXIST') throw tellRefusal(error, 'write', lock);
  });
  if (file === undefined) return false;
  try {
    await file.writeFile(ownerTag);
    return true;
  } catch (error) {
    // A full disk takes the name and not the tag; without the tag nobody could tell whose lock it is.
    await rm(lock, { force: true });
    throw tellRefusal(error, 'write', lock);
  } finally {
    await file.close();
  }
};

/** True where the program that took the lock has ended. One without a tag is being written, unless it has stood too long for that. */
const isStale = async (lock: string): Promise<boolean> => {
  const tag = await readFile(lock, 'utf8').catch(() => undefined);
  if (tag === undefined) return false;
  if (tag !== '') return isOrphan(lock, tag);
  const about = await stat(lock).catch(() => undefined);
  return about !== undefined && Date.now() - about.mtimeMs > patience / 2;
};

/** Takes away the lock of a program that was killed. It is moved first, so that of two that find it only one has it. */
const dropStale = async (lock: string): Promise<void> => {
  if (!(await isStale(lock))) return;
  const aside = `${lock}.${ownerTag}`;
  await rename(lock, aside).catch(() => undefined);
  await rm(aside, { force: true });
};

/**
 * Runs `task` while no other program that uses the same lock runs one: for files that are read, changed and written again.
 * Throws a `file` UserError where the lock cannot be had.
 */
export const withLock = async <Result>(lock: string, task: () => Promise<Result>): Promise<Result> => {
  const end = Date.now() + patience;
  while (!(await tryLock(lock))) {
    await dropStale(lock);
    if (Date.now() > end)
      throw fileError(
        '',
        'locked',
        say`another program holds ${lock}`,
        say`wait until it ends; if none runs, remove that file`,
      );
    await wait(10 + Math.random() * 30);
  }
  try {
    return await task();
  } finally {
    await rm(lock, { force: true });
  }
};
