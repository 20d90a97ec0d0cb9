import { createHash } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { hostname } from 'node:os';
import { codeOf } from './file-fault.ts';

/** Tells this machine from others that work in the same folder over a network. */
const machine = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);

/** Stands in the names of files that belong to one run: the machine and the process. */
export const ownerTag = `${machine}-${process.pid}`;

/** An owner's tag, as regular-expression source. */
export const ownerPattern = '[0-9a-f]{8}-\\d+';

/** A file of a run on another machine, of which nothing else is known, is left alone so long, ms. */
const longestRun = 24 * 60 * 60 * 1000;

const isRunning = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return codeOf(error) !== 'ESRCH';
  }
};

/** True where the run that a file belongs to has ended: it was killed, or it would have put the file away. */
export const isOrphan = async (path: string, tag: string): Promise<boolean> => {
  const [host, pid] = tag.split('-');
  if (host === machine) return !isRunning(Number(pid));
  const about = await stat(path).catch(() => undefined);
  return about !== undefined && Date.now() - about.mtimeMs > longestRun;
};
