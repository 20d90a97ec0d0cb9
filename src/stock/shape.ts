import type { ContourOutline } from '../geometry/contour-outline.ts';
import type { Section } from '../geometry/section.ts';
import { formatMm } from '../units/format.ts';
import type { LengthOptions } from '../units/length.ts';
import type { Refusal } from '../units/notation.ts';
import type { Clauses } from './clauses.ts';

/** What kind of straight stock it is. */
export type ShapeKind = 'tube' | 'angle' | 'channel' | 'beam' | 'flat' | 'oval' | 'ellipse' | 'half-round';

/** Straight stock that is not a round pipe. Lengths in mm, in the stock frame. */
export interface Shaped {
  readonly kind: ShapeKind;
  /** As printed; reads back as the same stock. */
  readonly designation: string;
  readonly section: Section;
  readonly outline: ContourOutline;
  /** Wall of hollow stock, least thickness of other stock. */
  readonly wall: number;
  /** What a tape round it reads. */
  readonly girth: number;
  /** True where the girth was measured on the stock itself. */
  readonly measured: boolean;
  /** Where the sizes come from: a table's name, `given`, `measured girth` or the assumption made. */
  readonly source: string;
  /** Its sizes as the table or the designation gives them. */
  readonly sizes: readonly { readonly label: string; readonly length: number }[];
  /** How far it is turned about its axis, radians. */
  readonly turned: number;
  /** Distance from the outside of a flange or leg to the end of the fillet, mm, where that is known. */
  readonly k?: number;
}

/** What a designation begins with, and how it goes on. */
export const FORMS: Readonly<Record<string, string>> = {
  tube: 'tube 100x100x6mm, tube 4x3x1/4in corner 1/2in or tube 100x100x6mm girth 380mm',
  hss: 'HSS 6x4x1/4',
  'en 10219': 'EN 10219 100x60x5',
  'en 10210': 'EN 10210 100x60x5',
  flat: 'flat 100x10mm',
  angle: 'angle 80x60x7mm or angle 3x3x1/4in root 3/8in',
  channel: 'channel 152x49x5.1x8.7mm: depth, width, web and flange, then root, toe and taper if wanted',
  beam: 'beam 200x100x5.6x8.5mm: depth, width, web and flange, then root, toe and taper if wanted',
  oval: 'oval 200x100mm wall 5mm',
  ellipse: 'ellipse 200x100mm wall 5mm',
  'half-round': 'half-round 100mm wall 5mm',
};

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

export type Read = Omit<Shaped, 'outline' | 'turned' | 'measured' | 'girth' | 'wall'> & {
  readonly measured?: boolean;
  readonly girth?: number;
};

/** A length in a message. */
export const mm = (length: number): string => formatMm(length, 2);

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
  const hint = `write ${FORMS[head] ?? head}`;
  if (sizes.length !== names.length || sizes.includes(''))
    throw refuse('not-understood', `${head} needs ${names.join(' x ')}`, hint);
  const unit = /(?:[a-z]+\.?|["'])$/.exec(sizes.at(-1) ?? '')?.[0] ?? '';
  const texts = sizes.map((size) => (/[a-z"']/.test(size) ? size : `${size}${unit}`));
  return texts.map((text, i) => {
    const value = length(text);
    if (value <= 0)
      throw refuse('size-not-positive', `the ${names[i] ?? ''} ${text} is not above zero`, hint);
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
    throw refuse('size-not-positive', `the ${word} ${text} is below zero`, `write ${FORMS[head] ?? head}`);
  return { value, print: ` ${word} ${written(value, text)}` };
};
