import { fileError } from '../issue.ts';
import { say, translate } from '../words/say.ts';

/** What is being done with a file or folder. */
export type Doing = 'read' | 'write' | 'make the folder';

type Reason = readonly [reason: string, hint: string];

/** What it means, for each, that something is not there and that the right is missing. */
const missing = (): Readonly<Record<Doing, Reason>> => ({
  read: [say`there is no such file`, say`give the name of a file that can be read`],
  write: [say`there is no such folder`, say`make the folder first, or name another`],
  'make the folder': [say`part of its path is missing`, say`name another folder`],
});
const forbidden = (): Readonly<Record<Doing, Reason>> => ({
  read: [say`you have no permission to read it`, say`get permission to read it`],
  write: [
    say`you have no permission to write it`,
    say`get permission to write there, or name another folder`,
  ],
  'make the folder': [
    say`you have no permission to write there`,
    say`get permission to write there, or name another folder`,
  ],
});

/** What the system's other refusals mean, by its own codes (POSIX, errno.h). */
const refusals = (): ReadonlyMap<string, Reason> =>
  new Map(
    Object.entries({
      ENOTDIR: [say`part of its path is a file, not a folder`, say`name a file in a folder`],
      EEXIST: [say`a file is in its place`, say`name another folder`],
      EISDIR: [say`it is a folder`, say`give the name of a file`],
      EROFS: [say`the disk is read-only`, say`name a folder on a disk that can be written`],
      ENOSPC: [say`the disk is full`, say`make room on the disk, or name another folder`],
      EDQUOT: [say`your disk quota is full`, say`make room on the disk, or name another folder`],
      EFBIG: [say`it would be larger than the limit here`, say`split the job, or name another folder`],
      ENAMETOOLONG: [say`its name is too long`, say`give a shorter name`],
      ELOOP: [say`its links lead in a circle`, say`fix the links, or name the file itself`],
      EIO: [say`the disk has a fault`, say`name a folder on another disk`],
      EMFILE: [say`too many files are open`, say`close other programs and run it again`],
      ENFILE: [say`too many files are open`, say`close other programs and run it again`],
      EBUSY: [say`it is in use`, say`close the program that uses it`],
      ETXTBSY: [say`it is in use`, say`close the program that uses it`],
      ENXIO: [say`nothing reads at the other end`, say`start the reader first, or name a file`],
      EINVAL: [say`the system takes no such name`, say`give another name`],
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
      ? missing()[doing]
      : code === 'EACCES' || code === 'EPERM'
        ? forbidden()[doing]
        : (refusals().get(code) ?? [say`the system says ${code}`, say`name another file or folder`]);
  return fileError(input, 'file-refused', say`cannot ${translate(doing)} ${path}: ${reason}`, hint);
};

/** Runs what touches a file, and reports the system's refusal as a `file` UserError. */
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
