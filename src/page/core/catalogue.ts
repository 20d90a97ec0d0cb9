import { groupInputs, isRequired, tellInput } from '../../fields/describe.ts';
import type { Field } from '../../fields/field.ts';
import { families, type Layout } from '../../fields/layout.ts';
import { layouts } from '../../layouts/registry.ts';
import { paperNames } from '../../paging/paper.ts';
import { formats } from '../../render/formats.ts';
import { offerStock } from '../../stock/offers.ts';
import { version } from '../../version.ts';
import { translate } from '../../words/say.ts';
import { readExample } from './example.ts';
import type { Catalogue, InputView, LayoutView } from './views.ts';

/**
 * Inputs that all layouts share are one object in all of them, so that they go to the page once: messages keep what is the same
 * the same.
 */
const shared = new Map<Field<unknown>, InputView>();

const viewInput = (name: string, field: Field<unknown>): InputView => {
  const known = shared.get(field);
  if (known !== undefined) return known;
  const view = describe(name, field);
  shared.set(field, view);
  return view;
};

const describe = (name: string, field: Field<unknown>): InputView => ({
  name,
  kind: field.kind,
  help: tellInput(field),
  example: field.example,
  default: field.default,
  range: field.range?.(),
  choices: field.choices,
  required: isRequired(field),
  many: field.many,
  list: field.list === true,
  stocks: field.stocks ?? (field.kind === 'stock' ? ['pipe'] : []),
  shortFor: field.shortFor?.input,
});

const viewLayout = (layout: Layout): LayoutView => ({
  id: layout.id,
  summary: translate(layout.summary),
  family: translate(layout.family),
  words: layout.words,
  groups: groupInputs(layout).map(({ heading, inputs }) => ({
    heading: translate(heading),
    inputs: [...inputs].map(([name, field]) => viewInput(name, field)),
  })),
  isBody: layout.scene !== undefined,
  examples: layout.examples.map((example) => readExample(layout, example)),
});

/** Everything a person can ask for, made from the layouts' own declarations. */
export const listCatalogue = (): Catalogue => ({
  version,
  layouts: layouts.map(viewLayout),
  families: families.map(translate),
  papers: paperNames,
  offers: offerStock(),
  formats,
});
