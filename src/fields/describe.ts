import { requestError } from '../issue.ts';
import { commonFields, pagingFields, settingFields, titleFields } from './common.ts';
import type { Field, Fields } from './field.ts';
import type { Layout } from './layout.ts';
import { say, translate } from '../words/say.ts';

/** How an input is written on the command line and in job files: `paperThickness` is `paper-thickness`. */
export const spellInput = (key: string): string =>
  key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

/** Inputs under one heading, by the name a person writes. */
export interface InputGroup {
  /** In English, as it is declared: to be translated where it is shown. */
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

/** Other names that inputs of a layout go by. */
export const listAliases = (layout: Layout): readonly string[] =>
  Object.values(layout.fields).flatMap(({ aliases = [] }) => aliases);

/** What a person gave, under the names it is read by, and by which name each was given. */
export interface Named<T> {
  readonly texts: Readonly<Record<string, T>>;
  readonly givenAs: ReadonlyMap<string, string>;
}

const spelled = <T extends string | readonly string[]>(text: T, spell: (text: string) => string): T =>
  (typeof text === 'string' ? spell(text) : text.map(spell)) as T;

/**
 * Inputs under their own names: those given by another name are renamed, short forms are written out. Throws a `request`
 * UserError where an input is given in both ways.
 */
export const ownNames = <T extends string | readonly string[]>(
  layout: Layout,
  given: Readonly<Record<string, T>>,
): Named<T> => {
  const texts = new Map(Object.entries(given));
  const givenAs = new Map<string, string>();
  const rename = (from: string, to: string, spell: (text: string) => string): void => {
    const text = texts.get(from);
    if (text === undefined) return;
    if (texts.has(to))
      throw requestError(
        from,
        'two-names',
        say`${from} and ${to} are both given`,
        say`give one of them: they are the same`,
      );
    texts.delete(from);
    texts.set(to, spelled(text, spell));
    givenAs.set(to, from);
  };
  for (const [key, { aliases = [], shortFor }] of Object.entries(layout.fields)) {
    for (const alias of aliases) rename(alias, spellInput(key), (text) => text);
    if (shortFor) rename(spellInput(key), shortFor.input, shortFor.spell);
  }
  return { texts: Object.fromEntries(texts), givenAs };
};

/** True where a request cannot do without the input. */
export const isRequired = (field: Field<unknown>): boolean => !field.optional && field.default === undefined;

/** Kinds whose example says something that their help does not. */
const showsExample = new Set<Field<unknown>['kind']>(['length', 'angle', 'stock', 'mark', 'designation']);

/** What an input is and how its value is written. */
export const tellInput = ({ help, notation }: Pick<Field<unknown>, 'help' | 'notation'>): string =>
  notation ? `${translate(help)}: ${notation()}` : translate(help);

/** One line of help: what it is, its default and range, whether it is required or may be repeated, an example. */
export const describeInput = (field: Field<unknown>): string => {
  const notes = [
    isRequired(field) ? say`required` : '',
    field.many ? say`may be repeated` : '',
    (field.aliases ?? []).map((alias) => say`also --${alias}`).join(', '),
    field.kind === 'flag' || field.default === undefined ? '' : say`default ${field.default}`,
    field.range?.() ?? '',
    showsExample.has(field.kind) && field.default === undefined ? say`as in "${field.example}"` : '',
  ].filter((note) => note !== '');
  const symbol = field.kind === 'flag' ? '' : `${field.symbol}: `;
  return `${symbol}${tellInput(field)}${notes.length > 0 ? ` (${notes.join('; ')})` : ''}`;
};
