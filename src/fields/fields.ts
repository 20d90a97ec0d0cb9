import { requestError } from '../issue.ts';
import { parsePipe, type Pipe } from '../stock/pipe.ts';
import { parseStock } from '../stock/read-stock.ts';
import { stockKinds, type Stock, type StockKind } from '../stock/stock.ts';
import { parseAngle } from '../units/angle.ts';
import { parseLength } from '../units/length.ts';
import type { Reading } from '../units/reading.ts';
import type { Field, FieldKind } from './field.ts';
import { checkLimit, describeLimit, type Limit } from './limit.ts';

/** What every kind of field is declared with. */
interface Told {
  /** One line of help, lower case, no full stop. */
  readonly help: string;
  /** A value as a person would type it. */
  readonly example?: string;
  /** The text used when the input is left out; without one (and without `optional`) the input is required. */
  readonly default?: string;
  /** Other names that the input is also given by. */
  readonly aliases?: readonly string[];
}

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

/** A field of any kind from its own reader; the layouts' designations (flange, elbow, tube, mate) are made with it. */
export const parsedField = <T>(
  told: Told & {
    readonly kind: FieldKind;
    readonly symbol: string;
    readonly example: string;
    readonly choices?: readonly string[];
    readonly stocks?: readonly StockKind[];
    readonly range?: string;
    readonly fromRows?: Field<T>['fromRows'];
    readonly parse: (text: string, reading: Reading) => T;
  },
): Field<T> => ({ ...told, optional: false, many: false });

/** A length, read to mm. Limits are in mm; negative lengths only pass where the limit lets them. */
export const lengthField = (told: Told & Limit): Field<number> => {
  const limit: Limit = {
    min: told.min ?? (told.above === undefined ? 0 : undefined),
    above: told.above,
    below: told.below,
    max: told.max ?? (told.below === undefined ? longest : undefined),
  };
  return parsedField({
    help: told.help,
    default: told.default,
    kind: 'length',
    symbol: 'L',
    example: told.example ?? '100mm',
    range: describeLimit(told, writeLength),
    parse: (text, reading) =>
      checkLimit(parseLength(text, reading), limit, text, reading.path, writeLike(text, reading)),
  });
};

/** An angle or slope, read to radians. Limits are in radians. */
export const angleField = (told: Told & Limit): Field<number> =>
  parsedField({
    help: told.help,
    default: told.default,
    kind: 'angle',
    symbol: 'A',
    example: told.example ?? '22.5',
    range: describeLimit(told, writeDegrees),
    parse: (text, reading) => checkLimit(parseAngle(text, reading), told, text, reading.path, writeDegrees),
  });

const readNumber = (
  text: string,
  { path }: Reading,
  pattern: RegExp,
  what: string,
  example: string,
): number => {
  const trimmed = text.trim();
  if (pattern.test(trimmed)) return Number(trimmed);
  throw requestError(path, 'not-a-number', `"${text}" is not ${what}`, `write it like ${example}`);
};

/** A whole number. */
export const countField = (told: Told & Limit): Field<number> => {
  const example = told.example ?? '16';
  return parsedField({
    help: told.help,
    default: told.default,
    kind: 'count',
    symbol: 'N',
    example,
    range: describeLimit(told, String),
    parse: (text, reading) =>
      checkLimit(
        readNumber(text, reading, /^[+-]?\d+$/, 'a whole number', example),
        told,
        text,
        reading.path,
        String,
      ),
  });
};

/** A plain number without a unit, such as a density or a factor. */
export const numberField = (told: Told & Limit): Field<number> => {
  const example = told.example ?? '1.5';
  const pattern = /^[+-]?(\d+(\.\d*)?|\.\d+)$/;
  return parsedField({
    help: told.help,
    default: told.default,
    kind: 'number',
    symbol: 'N',
    example,
    range: describeLimit(told, String),
    parse: (text, reading) =>
      checkLimit(readNumber(text, reading, pattern, 'a number', example), told, text, reading.path, String),
  });
};

/** One of a few words. */
export const choiceField = <const C extends string>(choices: readonly C[], told: Told): Field<C> =>
  parsedField({
    help: told.help,
    default: told.default,
    kind: 'choice',
    symbol: choices.join('|'),
    example: told.example ?? choices[0] ?? '',
    choices,
    parse: (text, { path }) => {
      const found = choices.find((choice) => choice === text.trim().toLowerCase());
      if (found !== undefined) return found;
      throw requestError(path, 'not-a-choice', `"${text}" is not known`, `choose from ${choices.join(', ')}`);
    },
  });

/** On or off; off when left out. */
export const flagField = (told: Told): Field<boolean> =>
  parsedField({
    help: told.help,
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
        `"${text}" is neither yes nor no`,
        'write yes or no, or name it alone for yes',
      );
    },
  });

/** Longest text a sheet can carry on one line. */
const longestText = 80;

/** A line of text. Control characters and texts over 80 characters are errors. */
export const textField = (told: Told): Field<string> =>
  parsedField({
    help: told.help,
    default: told.default,
    kind: 'text',
    symbol: 'TEXT',
    example: told.example ?? 'text',
    parse: (text, { path }) => {
      const trimmed = text.trim();
      if (/\p{Cc}/u.test(trimmed))
        throw requestError(
          path,
          'bad-text',
          'the text holds a control character',
          'write one line of plain text',
        );
      if ([...trimmed].length > longestText)
        throw requestError(
          path,
          'long-text',
          `the text is ${[...trimmed].length} characters long`,
          `write at most ${longestText} characters`,
        );
      return trimmed;
    },
  });

/** Any straight stock by its designation; `kinds` says which may be given. */
export const stockField = (told: Told & { readonly kinds?: readonly StockKind[] }): Field<Stock> =>
  parsedField({
    help: told.help,
    default: told.default,
    aliases: told.aliases,
    kind: 'stock',
    symbol: 'P',
    example: told.example ?? 'NPS 4 sch 40',
    stocks: told.kinds ?? stockKinds,
    parse: (text, reading) => parseStock(text, reading, told.kinds),
  });

/** A round pipe by its designation. */
export const pipeField = (told: Told): Field<Pipe> =>
  parsedField({
    help: told.help,
    default: told.default,
    aliases: told.aliases,
    kind: 'stock',
    symbol: 'P',
    example: told.example ?? 'NPS 4 sch 40',
    stocks: ['pipe'],
    parse: (text, reading) => parsePipe(text, reading),
  });

/**
 * A short form of another input: its text is put in the other's words and read there, so that both ways of asking are one
 * request. It has no value of its own.
 */
export const shortForm = (input: string, spell: (text: string) => string, told: Told): Field<undefined> => ({
  help: told.help,
  kind: 'stock',
  symbol: 'P',
  example: told.example ?? '',
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
export const markField = (told: Told): Field<StationMark> =>
  parsedField({
    help: told.help,
    default: told.default,
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

/** Lets an input be left out; the layout then gets undefined. */
export const optional = <T>(field: Field<T>): Field<T | undefined> => ({ ...field, optional: true });

/** Lets an input be given several times; the layout gets an array, empty when left out. */
export const many = <T>(field: Field<T>): Field<readonly T[]> =>
  ({ ...field, many: true, optional: true }) as Field<readonly T[]>;

/** Several values in one text with commas between, `25mm,50mm`. */
export const listOf = <T>(field: Field<T>): Field<readonly T[]> =>
  ({
    ...field,
    list: true,
    symbol: `${field.symbol},…`,
    parse: (text: string, reading: Reading) =>
      text.split(',').map((part) => field.parse(part.trim(), reading)),
  }) as Field<readonly T[]>;
