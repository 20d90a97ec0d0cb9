import { jointError, requestError } from '../issue.ts';
import type { Setting } from '../units/setting.ts';
import { writeBoth } from '../units/writing.ts';
import { say, translate } from '../words/say.ts';

/**
 * Holds an input to a limit that others set it, mm. Throws a `joint` UserError, `too-large` or `too-small`, in the reader's
 * units; a value or a limit that is not there is passed over.
 * @param wrong what is wrong where the limit is not kept, said of the value
 */
type Hold = (
  path: string,
  value: number | undefined,
  limit: number | undefined,
  wrong: string,
  setting: Setting,
) => void;

const hold =
  (code: string, words: string, isKept: (value: number, limit: number) => boolean): Hold =>
  (path, value, limit, wrong, setting) => {
    if (value === undefined || limit === undefined || isKept(value, limit)) return;
    throw jointError(
      path,
      code,
      `${path} ${writeBoth(value, setting)} ${wrong}`,
      say`${path} must be ${translate(words)} ${writeBoth(limit, setting)}`,
    );
  };

export const mustBeLess = hold('too-large', 'less than', (value, limit) => value < limit);
export const mustBeAtMost = hold('too-large', 'at most', (value, limit) => value <= limit);
export const mustBeMore = hold('too-small', 'more than', (value, limit) => value > limit);
export const mustBeAtLeast = hold('too-small', 'at least', (value, limit) => value >= limit);

/** An input's name as it is typed: `corner-radius` for `cornerRadius`. */
const typed = (name: string): string => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

/** Inputs by name, some of them left out. */
type Some = Readonly<Record<string, unknown>>;

const givenOf = (inputs: Some): readonly string[] =>
  Object.keys(inputs)
    .filter((name) => inputs[name] !== undefined)
    .map(typed);

/** Throws a `request` UserError where more than one of these inputs is given, since one gives the others. */
export const onlyOne = (inputs: Some, hint: string): void => {
  const [first, second] = givenOf(inputs);
  if (first === undefined || second === undefined) return;
  throw requestError(second, 'given-twice', say`${first} and ${second} are both given`, hint);
};

/** Throws a `request` UserError where some of these inputs are given and others, without which they say nothing, are not. */
export const allOrNone = (inputs: Some, hint: string): void => {
  const given = givenOf(inputs);
  const missing = Object.keys(inputs)
    .map(typed)
    .find((name) => !given.includes(name));
  if (given.length === 0 || missing === undefined) return;
  throw requestError(missing, 'missing', say`${given.join(say` and `)} needs ${missing}`, hint);
};

/** An input that this request cannot do without. Throws a `request` UserError where it is not given. */
export const needed = <T>(name: string, value: T | undefined, hint: string): T => {
  if (value !== undefined) return value;
  throw requestError(typed(name), 'missing', say`${typed(name)} is not given`, hint);
};
