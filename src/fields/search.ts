import { findNearMiss } from '../near-miss.ts';
import { translate } from '../words/say.ts';

/** What a layout is found by. */
export interface Findable {
  readonly id: string;
  readonly summary: string;
  /** What people of the trade call it, and what it is used for. */
  readonly words: readonly string[];
  readonly family: string;
}

/** The words of a text without their accents. */
const split = (text: string): readonly string[] =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .match(/[\p{L}\p{N}]+/gu) ?? [];

/** Trade words as they are declared, and in the language in force. */
const saidOf = (words: readonly string[]): readonly string[] => [...words, ...words.map(translate)];

/** How well a layout answers one word that was typed, 0 for not at all: names before trade words before descriptions. */
const scoreWord = (word: string, { id, words, summary, family }: Findable): number => {
  const begins = (texts: readonly string[]): boolean =>
    texts.some((text) => split(text).some((one) => one.startsWith(word)));
  if (begins([id])) return 4;
  if (begins(saidOf(words))) return 3;
  if (begins(saidOf([family]))) return 2;
  return begins(saidOf([summary])) ? 1 : 0;
};

const rank = <L extends Findable>(typed: readonly string[], layouts: readonly L[]): readonly L[] =>
  layouts
    .map((layout) => {
      const scores = typed.map((word) => scoreWord(word, layout));
      return { layout, score: scores.includes(0) ? 0 : scores.reduce((sum, one) => sum + one, 0) };
    })
    .filter(({ score }) => score > 0)
    .sort((a, b) => b.score - a.score)
    .map(({ layout }) => layout);

/**
 * Layouts that answer all words of a text, the best first: by name, by what the trade calls them, by family and description.
 * Where none does, an unknown word is read as the nearest known one.
 */
export const searchLayouts = <L extends Findable>(text: string, layouts: readonly L[]): readonly L[] => {
  const typed = split(text);
  if (typed.length === 0) return [];
  const found = rank(typed, layouts);
  if (found.length > 0) return found;
  const known = [...new Set(layouts.flatMap(({ id, words }) => [id, ...saidOf(words)].flatMap(split)))];
  const mended = typed.map((word) => findNearMiss(word, known) ?? word);
  return rank(mended, layouts);
};
