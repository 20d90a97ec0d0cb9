import type { LengthOptions } from '../units/length.ts';
import type { Refusal } from '../units/notation.ts';
import { say } from '../words/say.ts';
import type { Clauses } from './clauses.ts';
import type { Stock } from './stock.ts';

/** What a designation begins with, and how it goes on. */
export const FORMS = (): ReadonlyMap<string, string> =>
  new Map(
    Object.entries({
      tube: 'tube 100x100x6mm, tube 4x3x1/4in corner 1/2in or tube 100x100x6mm girth 380mm',
      hss: 'HSS 6x4x1/4',
      'en 10219': 'EN 10219 100x60x5',
      'en 10210': 'EN 10210 100x60x5',
      flat: 'flat 100x10mm',
      angle: 'angle 80x60x7mm or angle 3x3x1/4in root 3/8in',
      channel: say`channel 152x49x5.1x8.7mm: depth, width, web and flange, then root, toe and taper if wanted`,
      beam: say`beam 200x100x5.6x8.5mm: depth, width, web and flange, then root, toe and taper if wanted`,
      'oval pipe': 'NPS 6 sch 40 oval 170.1x166.4mm at 30deg',
      oval: 'oval 200x100mm wall 5mm',
      ellipse: 'ellipse 200x100mm wall 5mm',
      'half-round': 'half-round 100mm wall 5mm',
    }),
  );

/** What the readers share. */
export interface Reading {
  readonly head: string;
  readonly sizes: readonly string[];
  readonly clauses: Clauses;
  readonly options: LengthOptions;
  readonly refuse: Refusal;
  readonly length: (text: string) => number;
  readonly written: (length: number, text: string) => string;
}

/** What a reader finds out; outline, girth and lines follow from the section. */
export type Read = Pick<Stock, 'kind' | 'designation' | 'section' | 'source' | 'sizes' | 'rolled'> & {
  readonly measured?: boolean;
};

/** A size as it was typed, and its length, mm. */
export interface Sized {
  readonly text: string;
  readonly value: number;
}

/** Sizes written `100x60x5mm`: the last unit serves those without one. Refuses a wrong number of them, and any not above zero. */
export const readSizes = (
  { head, sizes, refuse, length }: Reading,
  names: readonly string[],
): readonly Sized[] => {
  const hint = say`write ${FORMS().get(head) ?? head}`;
  if (sizes.length !== names.length || sizes.includes(''))
    throw refuse('not-understood', say`${head} needs ${names.join(' x ')}`, hint);
  const unit = /(?:[a-z]+\.?|["'])$/.exec(sizes.at(-1) ?? '')?.[0] ?? '';
  const texts = sizes.map((size) => (/[a-z"']/.test(size) ? size : `${size}${unit}`));
  return texts.map((text, i) => {
    const value = length(text);
    if (value <= 0)
      throw refuse('size-not-positive', say`the ${names[i] ?? ''} ${text} is not above zero`, hint);
    return { text, value };
  });
};

/** Sizes as they are printed: each in the unit it was typed in. */
export const joinSizes = (sizes: readonly Sized[], reading: Reading): string =>
  sizes.map(({ text, value }) => reading.written(value, text)).join(' x ');

/** A length after a word, zero or more, and how it is printed. */
export const readClause = (
  { clauses, length, written, refuse, head }: Reading,
  word: string,
): { readonly value: number; readonly print: string } | undefined => {
  const text = clauses.get(word);
  if (text === undefined) return undefined;
  const value = length(text);
  if (value < 0)
    throw refuse(
      'size-not-positive',
      say`the ${word} ${text} is below zero`,
      say`write ${FORMS().get(head) ?? head}`,
    );
  return { value, print: ` ${word} ${written(value, text)}` };
};
