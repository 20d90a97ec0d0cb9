import { requestError } from '../issue.ts';
import { listInputs } from './describe.ts';
import type { Field } from './field.ts';
import type { Layout } from './layout.ts';
import { say } from '../words/say.ts';

/** A round pipe by its sizes, mm: by its outside diameter or its measured girth. */
export type StockValue =
  { readonly od: number; readonly wall: number } | { readonly girth: number; readonly wall: number };

/**
 * An input as a program gives it: its text, or its value: millimeters for lengths, radians for angles, a number for counts
 * and numbers, a boolean for yes or no, sizes for stock.
 */
export type InputValue = string | number | boolean | StockValue;

/** Inputs by name, as texts or as values; several of one input as a list. */
export type Inputs = Readonly<Record<string, InputValue | readonly InputValue[]>>;

/** What kinds of field a number may stand for, and how it is written so that it reads back as the same number. */
const numbers: Partial<Record<Field<unknown>['kind'], (value: number) => string>> = {
  length: (value) => `${value}mm`,
  angle: (value) => `${value}rad`,
  count: String,
  number: String,
};

/** One size across or around, and the wall: nothing else, so that a misspelt one is not passed over. */
const isStock = (value: unknown): value is StockValue => {
  if (typeof value !== 'object' || value === null) return false;
  const names = Object.keys(value).sort().join(' ');
  return ['od wall', 'girth wall'].includes(names) && Object.values(value).every(Number.isFinite);
};

/** Plain decimals: a number written with an exponent is no length of a shop. */
const plain = (value: number): string =>
  value.toLocaleString('en-US', { useGrouping: false, maximumFractionDigits: 20 });

const spellValue = (field: Field<unknown> | undefined, value: unknown, name: string): string => {
  if (typeof value === 'string') return value;
  if (typeof value === 'number' && Number.isFinite(value)) {
    const write = field && numbers[field.kind];
    if (write) return write(value).replace(String(value), plain(value));
    if (field?.choices?.includes(String(value))) return String(value);
  }
  if (typeof value === 'boolean' && field?.kind === 'flag') return value ? 'yes' : 'no';
  if (field?.kind === 'stock' && isStock(value))
    return 'od' in value
      ? `OD ${plain(value.od)}mm wall ${plain(value.wall)}mm`
      : `girth ${plain(value.girth)}mm wall ${plain(value.wall)}mm`;
  throw requestError(
    name,
    'wrong-type',
    say`the value given is not ${field === undefined ? say`a text` : say`what ${/^[aeiou]/.test(field.kind) ? say`an` : 'a'} ${field.kind} takes`}`,
    field === undefined ? say`give a text` : say`give a text such as "${field.example}"`,
  );
};

/** Several values: of a field that reads a list in one text, that text. */
const spellList = (
  field: Field<unknown> | undefined,
  values: readonly unknown[],
  name: string,
): string | readonly string[] => {
  const texts = values.map((value) => spellValue(field, value, name));
  return field?.list === true && !field.many ? texts.join(',') : texts;
};

/** Inputs as texts, each value written so that it reads back the same. Throws a `request` UserError for a wrong type. */
export const spellInputs = (
  layout: Layout,
  given: Inputs,
): Readonly<Record<string, string | readonly string[]>> => {
  // A program without types may hand over anything.
  if (typeof given !== 'object' || (given as Inputs | null) === null || Array.isArray(given))
    throw requestError(
      'inputs',
      'wrong-type',
      say`the inputs are not an object of names and values`,
      say`give an object, such as { stock: "NPS 6 sch 40" }`,
    );
  const fields = listInputs(layout);
  const byAlias = new Map(
    Object.values(layout.fields).flatMap((field) =>
      (field.aliases ?? []).map((alias) => [alias, field] as const),
    ),
  );
  return Object.fromEntries(
    Object.entries(given).map(([name, value]) => {
      const field = fields.get(name) ?? byAlias.get(name);
      return [name, Array.isArray(value) ? spellList(field, value, name) : spellValue(field, value, name)];
    }),
  );
};
