import { plainText, quoted, type Refusal } from '../units/notation.ts';
import { say } from '../words/say.ts';

/** A designation taken apart: each word it uses, with the plain text that follows the word. */
export type Clauses = ReadonlyMap<string, string>;

/**
 * Takes a designation such as `NPS 6 sch 40` apart at the given words, in any order and case. `synonyms` names other
 * spellings of a word. Refuses text before the first word, a word given twice, and anything over 200 signs.
 */
export function readClauses(
  text: string,
  words: readonly string[],
  refuse: Refusal,
  hint: string,
  synonyms: Readonly<Record<string, string>> = {},
): Clauses {
  const shown = quoted(text);
  if (shown === '') throw refuse('empty', say`nothing is given`, hint);
  if (text.length > 200) throw refuse('too-long', say`${shown} is too long`, hint);
  const spellings = [...Object.keys(synonyms), ...words].map((spelling) => spelling.replace('.', '\\.'));
  const word = new RegExp(`(?<![a-z])(?:${spellings.join('|')})(?![a-z])`, 'g');
  const plain = plainText(text);
  const found = [...plain.matchAll(word)];
  if (found[0]?.index !== 0) throw refuse('not-understood', say`${shown} is not understood`, hint);
  const clauses = new Map<string, string>();
  for (const [i, match] of found.entries()) {
    const key = synonyms[match[0]] ?? match[0];
    if (clauses.has(key)) throw refuse('given-twice', say`${shown} gives ${key.toUpperCase()} twice`, hint);
    const value = plain.slice(match.index + match[0].length, found[i + 1]?.index);
    clauses.set(key, value.replace(/^[ :=]+|[ ,;]+$/g, ''));
  }
  return clauses;
}

/** The rows of a table module, each split at its commas. */
export const tableRows = (table: string): string[][] =>
  table
    .trim()
    .split('\n')
    .map((row) => row.split(','));
