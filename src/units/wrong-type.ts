import { requestError } from '../issue.ts';
import { say } from '../words/say.ts';

/**
 * Sees to it that a text is one: a program without types may hand over anything.
 *
 * @throws UserError `request` where it is something else
 */
export const checkIsText = (value: unknown, path: string, example: string): void => {
  if (typeof value === 'string') return;
  throw requestError(
    path,
    'wrong-type',
    say`the value given is not ${say`a text`}`,
    say`give a text such as "${example}"`,
  );
};
