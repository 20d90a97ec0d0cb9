import { styleText } from 'node:util';
import { UserError, type Failure } from '../issue.ts';
import { version } from '../version.ts';
import { codeOf } from '../render/file-fault.ts';
import { program } from './command.ts';
import { say } from '../words/say.ts';

const exitCodes: Readonly<Record<Failure, number>> = { request: 2, joint: 3, file: 4 };

const isColourful = (): boolean => process.stderr.isTTY && !process.env.NO_COLOR;

/** Two lines on stderr: what is wrong, and what would be right. */
const tell = (wrong: string, right: string): void => {
  const oneLine = (text: string) => text.replace(/\s+/g, ' ');
  const head = isColourful() ? styleText('red', say`wrong:`) : say`wrong:`;
  process.stderr.write(say`${head} ${oneLine(wrong)}\nright: ${oneLine(right)}\n`);
};

const nameOption = (path: string, message: string): string =>
  message.startsWith(`${path} `) ? `--${message}` : `--${path}: ${message}`;

/** Another program removed the folder that the command line stands in: the system no longer says where that is. */
const isFolderGone = (error: unknown): boolean =>
  codeOf(error) === 'ENOENT' && (error as NodeJS.ErrnoException).syscall === 'uv_cwd';

/**
 * Tells a person what went wrong and returns the exit code: 2 the request is not understood, 3 the joint cannot be
 * made, 4 a file cannot be read or written, 1 our own fault. `options` are the names that issues may refer to.
 */
export const tellFault = (error: unknown, options: ReadonlySet<string>): number => {
  if (error instanceof UserError) {
    for (const { path, message, hint } of error.issues)
      tell(options.has(path) ? nameOption(path, message) : message, hint);
    return exitCodes[error.failure];
  }
  if (isFolderGone(error)) {
    tell(say`the folder you are in is gone`, say`go to one that is there, and run it again`);
    return exitCodes.file;
  }
  tell(
    say`${program} ${version} failed. The mistake is ours, not yours`,
    say`report the whole command line and what SOAPSTONE_TRACE=1 set before it shows`,
  );
  if (process.env.SOAPSTONE_TRACE && error instanceof Error)
    process.stderr.write(`${error.stack ?? error.message}\n`);
  return 1;
};
