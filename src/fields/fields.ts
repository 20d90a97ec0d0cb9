import { TURN } from '../geometry/angle-units.ts';
import { requestError, type UserError } from '../issue.ts';
import { parsePipe, type Pipe } from '../stock/pipe.ts';
import { parseStock } from '../stock/read-stock.ts';
import { type Stock, type StockKind, stockKinds } from '../stock/stock.ts';
import { parseAngle } from '../units/angle.ts';
import { parseLength } from '../units/length.ts';
import type { Reading } from '../units/reading.ts';
import { say, translate } from '../words/say.ts';
import type { Field, FieldKind } from './field.ts';
import { checkLimit, describeLimit, type Limit } from './limit.ts';

/** What a field of any kind is declared with, besides its one line of help (lower case, no full stop). */
interface Told<O extends boolean, L extends List, M extends boolean> {
  /** A value as a person would type it. */
  readonly example?: string;
  /** The text used when the input is left out; without one (and without `optional`) the input is required. */
  readonly default?: string;
  /** Other names that the input is also given by. */
  readonly aliases?: readonly string[];
  /** True where it may be left out; the layout then gets undefined. */
  readonly optional?: O;
  /**
   * Where one text holds several values with commas between, `25mm,50mm`: how many, or true for any number. The layout gets an
   * array.
   */
  readonly list?: L;
  /** True where it may be given several times; the layout gets an array, empty when it is left out. */
  readonly many?: M;
}

/** So many values; as many as one likes; one that stands for both, or two. */
type List = boolean | 2 | 3 | 4 | 'both';

/** What the layout gets for a field whose text reads to a `T`. */
type Given<T, O, L, M> = Several<Listed<T, L>, M> | (O extends true ? undefined : never);
type Several<T, S> = S extends true ? readonly T[] : T;
type Listed<T, L> = L extends 2 | 'both'
  ? readonly [T, T]
  : L extends 3
    ? readonly [T, T, T]
    : L extends 4
      ? readonly [T, T, T, T]
      : Several<T, L>;

/** Declares a field whose text reads to a `T`; `More` is what else may be said of it. */
type Declare<T, More = unknown> = <
  O extends boolean = false,
  L extends List = false,
  M extends boolean = false,
>(
  help: string,
  told?: Told<O, L, M> & More,
) => Field<Given<T, O, L, M>>;

/** Longest length any input may have, mm: longer is a slip of the hand, not a part. */
const longest = 50_000;

const trim = (value: number, places: number): string => String(Number(value.toFixed(places)));
const writesInches = (text: string): boolean => /["″'′]|\b(in|ft)\b|\d(in|ft)/.test(text);

/** Writes a limit in the units the person used. */
const writeLike =
  (text: string, reading: Reading) =>
  (value: number): string =>
    writesInches(text) || (reading.units === 'in' && !/mm|cm|m\b/.test(text))
      ? `${trim(value / 25.4, 4)} in`
      : `${trim(value, 3)} mm`;
const writeLength = (value: number): string => `${trim(value, 3)} mm`;
const writeDegrees = (value: number): string => `${trim((value * 180) / Math.PI, 6)}°`;

/** What is particular to a kind of field. */
interface Kind<T> {
  readonly kind: FieldKind;
  readonly symbol: string;
  readonly example: string;
  readonly choices?: readonly string[];
  readonly stocks?: readonly StockKind[];
  readonly range?: () => string | undefined;
  readonly notation?: Field<T>['notation'];
  readonly fromRows?: Field<T>['fromRows'];
  readonly parse: (text: string, reading: Reading) => T;
}

/** Values with commas between. Throws a `request` UserError where there are not as many as there should be. */
const readList = <T>(
  text: string,
  reading: Reading,
  list: List | undefined,
  { parse, example }: Pick<Kind<T>, 'parse' | 'example'>,
): readonly T[] => {
  const values = text.split(',').map((part) => parse(part.trim(), reading));
  const [count, most] = [values.length, list === 'both' ? 2 : list];
  if (typeof most !== 'number' || count === most) return values;
  if (list === 'both' && count === 1) return [...values, ...values];
  throw requestError(
    reading.path,
    'wrong-count',
    say`${count} ${count === 1 ? say`value is` : say`values are`} given`,
    list === 'both' ? say`give one that stands for both, or two` : say`give ${most}, such as ${example}`,
  );
};

/** A field of any kind from its own reader; the layouts' designations (flange, elbow, tube, mate) are made with it. */
export const parsedField = <T, O extends boolean = false, L extends List = false, M extends boolean = false>(
  help: string,
  told: Omit<Told<O, L, M>, 'example'> & Kind<T>,
): Field<Given<T, O, L, M>> => ({
  ...told,
  help,
  optional: told.optional === true || told.many === true,
  many: told.many === true,
  list: false,
  ...(told.list !== undefined &&
    told.list !== false && {
      list: true,
      symbol: `${told.symbol},…`,
      parse: (text: string, reading: Reading) => readList(text, reading, told.list, told),
    }),
});

/** A length, read to mm. Limits are in mm; negative lengths only pass where the limit lets them. */
export const lengthField: Declare<number, Limit> = (help, told = {}) => {
  const limit: Limit = {
    min: told.min ?? (told.above === undefined ? 0 : undefined),
    above: told.above,
    below: told.below,
    max: told.max ?? (told.below === undefined ? longest : undefined),
  };
  return parsedField(help, {
    ...told,
    kind: 'length',
    symbol: 'L',
    example: told.example ?? '100mm',
    range: () => describeLimit(told, writeLength),
    parse: (text, reading) =>
      checkLimit(parseLength(text, reading), limit, text, reading.path, writeLike(text, reading)),
  });
};

const LIMITS = ['min', 'above', 'max', 'below'] as const;

/** An angle or slope, read to radians. Limits are in radians; where none is given, it may be a whole turn either way. */
export const angleField: Declare<number, Limit> = (help, told = {}) => {
  const limit = LIMITS.some((name) => told[name] !== undefined) ? told : { min: -TURN, max: TURN };
  return parsedField(help, {
    ...told,
    kind: 'angle',
    symbol: 'A',
    example: told.example ?? '22.5',
    range: () => describeLimit(limit, writeDegrees),
    parse: (text, reading) => checkLimit(parseAngle(text, reading), limit, text, reading.path, writeDegrees),
  });
};

/** A field of numbers without a unit, of the kind whose texts match the pattern. */
const plainField =
  (kind: 'count' | 'number', pattern: RegExp, what: string, usual: string): Declare<number, Limit> =>
  (help, told = {}) => {
    const example = told.example ?? usual;
    return parsedField(help, {
      ...told,
      kind,
      symbol: 'N',
      example,
      range: () => describeLimit(told, String),
      parse: (text, { path }) => {
        if (pattern.test(text.trim())) return checkLimit(Number(text.trim()), told, text, path, String);
        throw requestError(
          path,
          'not-a-number',
          say`"${text}" is not ${translate(what)}`,
          say`write it like ${example}`,
        );
      },
    });
  };

/** A whole number. */
export const countField = plainField('count', /^[+-]?\d+$/, 'a whole number', '16');

/** A plain number without a unit, such as a density or a factor. */
export const numberField = plainField('number', /^[+-]?(\d+(\.\d*)?|\.\d+)$/, 'a number', '1.5');

/** One of a few words. */
export const choiceField = <
  const C extends string,
  O extends boolean = false,
  L extends List = false,
  M extends boolean = false,
>(
  help: string,
  choices: readonly C[],
  told: Told<O, L, M> = {},
): Field<Given<C, O, L, M>> =>
  parsedField(help, {
    ...told,
    kind: 'choice',
    symbol: choices.join('|'),
    example: told.example ?? choices[0] ?? '',
    choices,
    parse: (text, { path }) => {
      const found = choices.find((choice) => choice === text.trim().toLowerCase());
      if (found !== undefined) return found;
      throw requestError(
        path,
        'not-a-choice',
        say`"${text}" is not known`,
        say`choose from ${choices.join(', ')}`,
      );
    },
  });

/** On or off; off when left out. */
export const flagField: Declare<boolean> = (help, told = {}) =>
  parsedField(help, {
    ...told,
    default: told.default ?? 'no',
    kind: 'flag',
    symbol: 'yes|no',
    example: 'yes',
    choices: ['yes', 'no'],
    parse: (text, { path }) => {
      const word = text.trim().toLowerCase();
      if (['yes', 'true', 'on'].includes(word)) return true;
      if (['no', 'false', 'off'].includes(word)) return false;
      throw requestError(
        path,
        'not-a-flag',
        say`"${text}" is neither yes nor no`,
        say`write yes or no, or name it alone for yes`,
      );
    },
  });

/** Longest text a sheet can carry on one line. */
const longestText = 80;

/** A line of text. Control characters and texts over 80 characters are errors. */
export const textField: Declare<string> = (help, told = {}) =>
  parsedField(help, {
    ...told,
    kind: 'text',
    symbol: 'TEXT',
    example: told.example ?? 'text',
    parse: (text, { path }) => {
      const trimmed = text.trim();
      const count = [...trimmed].length;
      const refuse = (code: string, message: string, hint: string): UserError =>
        requestError(path, code, message, hint);
      if (/\p{Cc}/u.test(trimmed))
        throw refuse('bad-text', say`the text holds a control character`, say`write one line of plain text`);
      if (count > longestText)
        throw refuse(
          'long-text',
          say`the text is ${count} characters long`,
          say`write at most ${longestText} characters`,
        );
      return trimmed;
    },
  });

/** What stock is declared by where nothing else is said. */
const stockKind = { kind: 'stock', symbol: 'P', example: 'NPS 4 sch 40' } as const;

/** Any straight stock by its designation; `kinds` says which may be given. */
export const stockField: Declare<Stock, { readonly kinds?: readonly StockKind[] }> = (help, told = {}) =>
  parsedField(help, {
    ...stockKind,
    ...told,
    stocks: told.kinds ?? stockKinds,
    parse: (text, reading) => parseStock(text, reading, told.kinds),
  });

/** A round pipe by its designation. */
export const pipeField: Declare<Pipe> = (help, told = {}) =>
  parsedField(help, { ...stockKind, ...told, stocks: ['pipe'], parse: parsePipe });

/**
 * A short form of another input: its text is put in the other's words and read there, so that both ways of asking are one
 * request. It has no value of its own.
 */
export const shortForm = (
  help: string,
  example: string,
  input: string,
  spell: (text: string) => string,
): Field<undefined> => ({
  ...stockKind,
  help,
  example,
  optional: true,
  many: false,
  shortFor: { input, spell },
  parse: () => undefined,
});

/** A labelled station: where it is, and what is written there. */
export interface StationMark {
  /** Station, radians. */
  readonly angle: number;
  readonly label: string;
}

/** A labelled mark, `"37.5:lug"`; the label may be left out. Stations run from −360° to 360°. */
export const markField: Declare<StationMark> = (help, told = {}) =>
  parsedField(help, {
    ...told,
    kind: 'mark',
    symbol: 'A:TEXT',
    example: told.example ?? '37.5:lug',
    parse: (text, reading) => {
      // "37.5 lug" can only mean what "37.5:lug" does.
      const spaced = /^\s*[+-]?[\d.]+\s*(?:°|deg)?(?=\s+[a-z])/i.exec(text)?.[0].length ?? -1;
      const colon = text.includes(':') ? text.indexOf(':') : spaced;
      const angleText = colon < 0 ? text : text.slice(0, colon);
      const limit = { min: -2 * Math.PI, max: 2 * Math.PI };
      const angle = checkLimit(parseAngle(angleText, reading), limit, text, reading.path, writeDegrees);
      return { angle, label: colon < 0 ? '' : text.slice(colon + 1).trim() };
    },
  });
