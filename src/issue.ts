/** One thing wrong with a request, for a person: what is wrong, which input, what would be right. */
export interface Issue {
  /** Short stable name of the kind of problem, e.g. `bare-number`. */
  readonly code: string;
  /** Which input, e.g. `header` or `pieces[2].angle`. */
  readonly path: string;
  /** What is wrong, one line. */
  readonly message: string;
  /** What would be right, one line. */
  readonly hint: string;
  /** The piece of a job it is about: its mark or what it is made under, and where it stands. */
  readonly piece?: { readonly name: string; readonly place: string };
}

/**
 * Why a request failed, which sets the exit code:
 * `request` is not understood (2), `joint` cannot be made (3), `file` cannot be read or written (4).
 */
export type Failure = 'request' | 'joint' | 'file';

/** Longest text repeated in a message, and longest message, in signs: a person reads it on a few lines. */
const longest = { quoted: 80, line: 1000 };

const cut = (text: string, length: number): string =>
  text.length <= length ? text : `${text.slice(0, length - 1).replace(/[\ud800-\udbff]$/, '')}…`;

/** The same line with what was typed cut where it is too long to read; every input could be a whole book. */
const shorten = (line: string): string =>
  cut(
    line.replace(/"([^"]{81,})"/g, (_, text: string) => `"${cut(text, longest.quoted)}"`),
    longest.line,
  );

/** An error meant for the person who asked; anything else thrown is our own fault (exit code 1). */
export class UserError extends Error {
  readonly failure: Failure;
  readonly issues: readonly Issue[];

  constructor(failure: Failure, issues: readonly Issue[]) {
    const told = issues.map((issue) => ({
      ...issue,
      message: shorten(issue.message),
      hint: shorten(issue.hint),
    }));
    super(told.map((issue) => issue.message).join('; '));
    this.name = 'UserError';
    this.failure = failure;
    this.issues = told;
  }
}

/** The request is not understood (exit code 2). */
export const requestError = (path: string, code: string, message: string, hint: string): UserError =>
  new UserError('request', [{ code, path, message, hint }]);

/** The joint cannot be made (exit code 3). */
export const jointError = (path: string, code: string, message: string, hint: string): UserError =>
  new UserError('joint', [{ code, path, message, hint }]);

/** A file cannot be read or written (exit code 4). */
export const fileError = (path: string, code: string, message: string, hint: string): UserError =>
  new UserError('file', [{ code, path, message, hint }]);
