import { requestError, UserError } from '../issue.ts';
import { say } from '../words/say.ts';

/** Most pages made of one request unless the person is sure. */
export const pageLimit = 100;

const code = 'many-pages';

/** The error for more pages than anybody means to print. */
export const manyPagesError = (most: number): UserError =>
  requestError(
    'paper',
    code,
    say`this makes more than ${most} pages`,
    say`choose larger paper, or add --yes to make them all`,
  );

/** True for that error: another way to hold the paper may take fewer pages. */
export const isManyPages = (error: unknown): error is UserError =>
  error instanceof UserError && error.issues.some((issue) => issue.code === code);
