import { readClauses, type Clauses } from '../../stock/clauses.ts';
import { parseAngle } from '../../units/angle.ts';
import { parseLength } from '../../units/length.ts';
import { plainText, refusals, type Refusal } from '../../units/notation.ts';
import type { Reading } from '../../units/reading.ts';
import { say } from '../../words/say.ts';

/** A body's designation taken apart: what it is, and the words that say how it lies. */
export interface Placed {
  /** The stock's own designation. */
  readonly stock: string;
  /** The words that say how it lies, in the order of the alphabet. */
  readonly lies: string;
  readonly refuse: Refusal;
  readonly has: (word: string) => boolean;
  /** An angle in radians, or `usual` where the word is not there. */
  readonly angle: <T>(word: string, usual: T) => number | T;
  /** A length in mm. */
  readonly length: <T>(word: string, usual: T) => number | T;
}

/** Words that move any body among several. */
const EVERY = ['roll', 'ahead'];

/** Parts a body's text at the first word that says how it lies. `flags` are words with nothing after them. */
export const readPlaced = (
  text: string,
  words: readonly string[],
  flags: readonly string[],
  reading: Reading,
): Placed => {
  const refuse = refusals(reading.path);
  const all = [...words, ...flags, ...EVERY];
  const plain = plainText(text);
  const start = new RegExp(`(?<![a-z])(?:${all.join('|')})(?![a-z])`).exec(plain)?.index ?? plain.length;
  const rest = plain.slice(start);
  const hint = say`after the body, say how it lies by ${all.join(', ')}`;
  const clauses: Clauses = rest === '' ? new Map<string, string>() : readClauses(rest, all, refuse, hint);
  for (const flag of flags)
    if (clauses.get(flag))
      throw refuse('not-understood', say`"${clauses.get(flag) ?? ''}" after ${flag} is not understood`, hint);
  const value = <T>(word: string, usual: T, read: (text: string) => number): number | T => {
    const given = clauses.get(word);
    if (given === undefined) return usual;
    if (given === '') throw refuse('no-value', say`nothing is given after ${word}`, hint);
    return read(given);
  };
  return {
    stock: plain.slice(0, start).trim(),
    lies: [...clauses]
      .map((clause) => clause.join(' ').trim())
      .sort()
      .join(' '),
    refuse,
    has: (word) => clauses.has(word),
    angle: (word, usual) => value(word, usual, (given) => parseAngle(given, { path: reading.path })),
    length: (word, usual) => value(word, usual, (given) => parseLength(given, reading)),
  };
};

/** A trailing angle such as `45deg`, and the text before it. */
export const takeAngle = (stock: string, reading: Reading): readonly [string, number | undefined] => {
  const found = /^(.*\S) ((?:\d[\d./ ]*|\d[\d.]*)(?:deg|°)\S*)$/.exec(stock);
  return found ? [found[1] ?? '', parseAngle(found[2] ?? '', { path: reading.path })] : [stock, undefined];
};

/** Refuses a placing that is out of its range. */
export const within = (
  value: number,
  from: number,
  to: number,
  message: string,
  hint: string,
  refuse: Refusal,
): number => {
  if (value >= from && value <= to) return value;
  throw refuse('out-of-range', message, hint);
};
