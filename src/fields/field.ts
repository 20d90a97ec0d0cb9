import type { StockKind } from '../stock/stock.ts';
import type { Reading } from '../units/reading.ts';

/** What kind of text a field takes; the page's forms and the JSON Schema choose by it. */
export type FieldKind =
  'length' | 'angle' | 'count' | 'number' | 'choice' | 'flag' | 'text' | 'stock' | 'mark' | 'designation';

/**
 * The declaration of one input. Command-line options, job-file keys, page forms, help, README tables, JSON Schema and
 * title-block lines are all made from these; nothing else states a name, a range or a default.
 */
export interface Field<T> {
  readonly kind: FieldKind;
  /** One line of help, lower case, no full stop. */
  readonly help: string;
  /** How its value is written, where that takes more than a line: told after the help, or in one place for all such inputs. */
  readonly notation?: () => string;
  /** What stands for the value in help: `L`, `A`, `N`, `P`, `TEXT`. */
  readonly symbol: string;
  /** A value as a person would type it. */
  readonly example: string;
  /** The text used when the input is left out. A field with neither default nor `optional` is required. */
  readonly default?: string;
  readonly optional: boolean;
  /** True where the input may be given several times; it then reads to an array. */
  readonly many: boolean;
  /** True where one text holds several values with commas between. */
  readonly list?: boolean;
  readonly choices?: readonly string[];
  /** Other names, as written on the command line, that the input is also given by. */
  readonly aliases?: readonly string[];
  /** The input this one is a short form of, and how its text is written there. */
  readonly shortFor?: { readonly input: string; readonly spell: (text: string) => string };
  /** The kinds of stock it takes, for those who offer a choice of them. */
  readonly stocks?: readonly StockKind[];
  /** Tells the allowed range in words, e.g. `more than 0° and less than 90°`. */
  readonly range?: () => string | undefined;
  /** Turns one text to the value (mm, radians). Throws a `request` UserError. */
  readonly parse: (text: string, reading: Reading) => unknown;
  /** Where the value may stand in a CSV file instead: the text that the rows of its cells stand for. */
  readonly fromRows?: (rows: readonly (readonly string[])[]) => string;
  /** Only for the type: the value the layout receives. */
  readonly value?: T;
}

export type Fields = Readonly<Record<string, Field<unknown>>>;

/** The values a layout receives for its fields. */
export type Values<F extends Fields> = { readonly [K in keyof F]: F[K] extends Field<infer T> ? T : never };
