import { fileError } from '../issue.ts';

/** What is being done with a file or folder. */
export type Doing = 'read' | 'write' | 'make the folder';

type Reason = readonly [reason: string, hint: string];

/** What it means, for each, that something is not there and that the right is missing. */
const missing: Readonly<Record<Doing, Reason>> = {
  read: ['there is no such file', 'give the name of a file that can be read'],
  write: ['there is no such folder', 'make the folder first, or name another'],
  'make the folder': ['part of its path is missing', 'name another folder'],
};
const forbidden: Readonly<Record<Doing, Reason>> = {
  read: ['you have no permission to read it', 'get permission to read it'],
  write: ['you have no permission to write it', 'get permission to write there, or name another folder'],
  'make the folder': [
    'you have no permission to write there',
    'get permission to write there, or name another folder',
  ],
};

/** What the system's other refusals mean, by its own codes (POSIX, errno.h). */
const refusals: ReadonlyMap<string, Reason> = new Map(
  Object.entries({
    ENOTDIR: ['part of its path is a file, not a folder', 'name a file in a folder'],
    EEXIST: ['a file is in its place', 'name another folder'],
    EISDIR: ['it is a folder', 'give the name of a file'],
    EROFS: ['the disk is read-only', 'name a folder on a disk that can be written'],
    ENOSPC: ['the disk is full', 'make room on the disk, or name another folder'],
    EDQUOT: ['your disk quota is full', 'make room on the disk, or name another folder'],
    EFBIG: ['it would be larger than the limit here', 'split the job, or name another folder'],
    ENAMETOOLONG: ['its name is too long', 'give a shorter name'],
    ELOOP: ['its links lead in a circle', 'fix the links, or name the file itself'],
    EIO: ['the disk has a fault', 'name a folder on another disk'],
    EMFILE: ['too many files are open', 'close other programs and run it again'],
    ENFILE: ['too many files are open', 'close other programs and run it again'],
    EBUSY: ['it is in use', 'close the program that uses it'],
    ETXTBSY: ['it is in use', 'close the program that uses it'],
    ENXIO: ['nothing reads at the other end', 'start the reader first, or name a file'],
    EINVAL: ['the system takes no such name', 'give another name'],
  } as const),
);

/** The system's code of a refusal, as `ENOSPC`; empty where the error is none of the system's. */
export const codeOf = (error: unknown): string =>
  error instanceof Error &&
  'code' in error &&
  typeof error.code === 'string' &&
  /^E[A-Z0-9]+$/.test(error.code) &&
  'syscall' in error
    ? error.code
    : '';

/** The system's refusal as a `file` UserError that names the file; any other error as it is. `input` named the file. */
export const tellRefusal = (error: unknown, doing: Doing, path: string, input = ''): unknown => {
  const code = codeOf(error);
  if (code === '') return error;
  const [reason, hint] =
    code === 'ENOENT'
      ? missing[doing]
      : code === 'EACCES' || code === 'EPERM'
        ? forbidden[doing]
        : (refusals.get(code) ?? [`the system says ${code}`, 'name another file or folder']);
  return fileError(input, 'file-refused', `cannot ${doing} ${path}: ${reason}`, hint);
};

/** Runs what touches a file, telling the system's refusal as a `file` UserError. */
export const guard = async <Result>(
  doing: Doing,
  path: string,
  run: () => Promise<Result>,
  input?: string,
): Promise<Result> => {
  try {
    return await run();
  } catch (error) {
    throw tellRefusal(error, doing, path, input);
  }
};
