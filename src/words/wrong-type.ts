import { requestError, type UserError } from '../issue.ts';
import { say } from './say.ts';

/*
 * A program without types may hand over anything. These say so at the door, in words, where it would come out as a fault deep inside.
 */

/**
 * Sees to it that a text is one.
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

const hasAll = (value: unknown, members: readonly string[]): boolean =>
  typeof value === 'object' && value !== null && members.every((name) => name in value);

/** The refusal of an object of a wrong kind, `request`, to be thrown. */
export const refuseKind = (path: string, hint: string): UserError =>
  requestError(path, 'wrong-type', say`what is given as ${path} is not of the right kind`, hint);

/**
 * Sees to it that an object has the members it is known by.
 *
 * @param hint what would be right: where such an object comes from
 * @throws UserError `request` where it is something else
 */
export const checkIsKind = (value: unknown, members: readonly string[], path: string, hint: string): void => {
  if (!hasAll(value, members)) throw refuseKind(path, hint);
};

/** The same for each of a list, which may be empty. */
export const checkAreKind = (
  values: unknown,
  members: readonly string[],
  path: string,
  hint: string,
): void => {
  if (!Array.isArray(values) || !values.every((value) => hasAll(value, members)))
    throw refuseKind(path, hint);
};
