import { commonFields, pagingFields, settingFields, titleFields } from './common.ts';
import type { Field, Fields } from './field.ts';
import type { Layout } from './layout.ts';

/** How an input is written on the command line and in job files: `paperThickness` is `paper-thickness`. */
export const spellInput = (key: string): string =>
  key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

/** Inputs under one heading, by the name a person writes. */
export interface InputGroup {
  readonly heading: string;
  readonly inputs: ReadonlyMap<string, Field<unknown>>;
}

const group = (heading: string, fields: Fields): InputGroup => ({
  heading,
  inputs: new Map(Object.entries(fields).map(([key, field]) => [spellInput(key), field])),
});

/** Every input of a layout under its heading, the layout's own first. */
export const groupInputs = (layout: Layout): readonly InputGroup[] => [
  group('Template', layout.fields),
  group('Paper', pagingFields),
  group('Lengths', settingFields),
  group('Title block', titleFields),
];

/** Every input of a layout by the name a person writes. */
export const listInputs = (layout: Layout): ReadonlyMap<string, Field<unknown>> =>
  group('', { ...layout.fields, ...commonFields }).inputs;

/** True where a request cannot do without the input. */
export const isRequired = (field: Field<unknown>): boolean => !field.optional && field.default === undefined;

/** Kinds whose example says something that their help does not. */
const showsExample = new Set<Field<unknown>['kind']>(['length', 'angle', 'stock', 'mark', 'designation']);

/** One line of help: what it is, its default and range, whether it is required or may be repeated, an example. */
export const describeInput = (field: Field<unknown>): string => {
  const notes = [
    isRequired(field) ? 'required' : '',
    field.many ? 'may be repeated' : '',
    field.kind === 'flag' || field.default === undefined ? '' : `default ${field.default}`,
    field.range ?? '',
    showsExample.has(field.kind) && field.default === undefined ? `as in "${field.example}"` : '',
  ].filter((note) => note !== '');
  const symbol = field.kind === 'flag' ? '' : `${field.symbol}: `;
  return `${symbol}${field.help}${notes.length > 0 ? ` (${notes.join('; ')})` : ''}`;
};
