import { requestError, type UserError } from '../issue.ts';
import { add, fromDecimal, rational, type Rational } from './rational.ts';
import { say } from '../words/say.ts';

/** Makes the error for one input; the caller throws it. */
export type Refusal = (code: string, message: string, hint: string) => UserError;

/** An unsigned number as regular-expression source: `6`, `6.625`, `.5`, `5/8`, `6-5/8`, `6 5/8`. */
export const NUMBER = String.raw`(?:\d+(?: ?- ?| ))?\d+\/\d+|\d+(?:\.\d+)?|\.\d+`;

const LONGEST = 80;

/** Text as typed, made fit to stand in a message: one line, no control signs, not too long. */
export const quoted = (text: string): string => {
  const line = text.replace(/[\p{C}\s]+/gu, ' ').trim();
  return line.length > 40 ? `${line.slice(0, 39)}…` : line;
};

/**
 * Typed or printed text in one plain spelling: `'` and `"` for feet and inches (or minutes and seconds), `-` for every
 * dash, `1/2` for ½, single spaces, lower case.
 */
export const plainText = (text: string): string =>
  text
    .replace(/[¼-¾⅐-⅞]/g, (sign) => ` ${sign.normalize('NFKC')}`)
    .replace(/⁄/g, '/')
    .replace(/[′’‘]/g, "'")
    .replace(/[″”“]|''/g, '"')
    .replace(/[−–‐‑]/g, '-')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();

/**
 * Plain text of one number with units, after the slips that every number shares have been refused. `hint` shows right
 * ways to write it.
 */
export function checkedText(text: string, what: string, hint: string, refuse: Refusal): string {
  const shown = quoted(text);
  if (shown === '') throw refuse('empty', say`no ${what} is given`, hint);
  if (text.length > LONGEST)
    throw refuse('too-long', say`${shown} is too long for ${what === 'angle' ? say`an` : 'a'} ${what}`, hint);
  const plain = plainText(text);
  if (/\d,\d/.test(plain)) {
    const point = shown.replace(',', '.');
    const both = /\d,\d{3}(?!\d)/.test(plain) ? say` or ${shown.replaceAll(',', '')}` : '';
    throw refuse('decimal-comma', say`${shown} has a comma`, say`write ${point}${both}`);
  }
  if (/\de[+-]?\d/.test(plain)) {
    throw refuse(
      'exponent',
      say`${shown} is written with a power of ten`,
      say`write it out in full, without an e`,
    );
  }
  if (/^[+-] ?[+-]/.test(plain)) {
    throw refuse(
      'two-signs',
      say`${shown} has two signs`,
      say`write ${shown.replace(/^[+\-−–\s]+/, '-')} or ${shown.replace(/^[+\-−–\s]+/, '')}`,
    );
  }
  return plain;
}

/** The exact value of text that matches NUMBER. `shown` is the whole input, for the message. */
export function readNumber(text: string, shown: string, refuse: Refusal): Rational {
  const fraction = /^(?:(\d+)(?: ?- ?| ))?(\d+)\/(\d+)$/.exec(text);
  if (!fraction) return fromDecimal(text);
  const [, whole, n = '', d = ''] = fraction;
  if (BigInt(d) === 0n)
    throw refuse('zero-denominator', say`${shown} divides by zero`, say`write a fraction such as 5/8`);
  const part = rational(BigInt(n), BigInt(d));
  if (whole === undefined) return part;
  if (part.n >= part.d) {
    throw refuse(
      'improper-fraction',
      say`${shown} has ${n}/${d} beside a whole number`,
      say`write a fraction below one, such as 6 5/8`,
    );
  }
  return add(rational(BigInt(whole)), part);
}

/** Refusals for the input called `path`. */
export const refusals =
  (path: string): Refusal =>
  (code, message, hint) =>
    requestError(path, code, message, hint);
