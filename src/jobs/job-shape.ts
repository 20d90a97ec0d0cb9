import * as z from 'zod';
import { commonFields } from '../fields/common.ts';
import { describeInput, spellInput } from '../fields/describe.ts';
import type { Field, Fields } from '../fields/field.ts';
import type { Layout } from '../fields/layout.ts';
import { formats } from '../render/formats.ts';

/**
 * The shape of a job file, made from the layouts' fields. What a text means is the field's own to say, so the shape only
 * says where texts, lists and pieces stand; the rest of the JSON Schema (choices, examples) is for editors.
 */

type Shape = Record<string, z.ZodType>;

/** A choice as an editor knows it: YAML takes an unquoted `16` for a number. */
const spellings = (choice: string): readonly (string | number | boolean)[] =>
  /^\d+$/.test(choice) ? [choice, Number(choice)] : [choice];

const scalar = (field: Field<unknown>): z.ZodType => {
  const told = {
    description: describeInput(field),
    examples: [field.example],
    ...(field.default === undefined ? {} : { default: field.default }),
  };
  if (field.kind === 'flag')
    return z.union([z.boolean(), z.string()]).meta({ ...told, enum: ['yes', 'no', true, false] });
  if (field.choices !== undefined)
    return z.union([z.string(), z.number()]).meta({ ...told, enum: field.choices.flatMap(spellings) });
  return z.union([z.string(), z.number()]).meta(told);
};

const inputShape = (id: string, field: Field<unknown>): z.ZodType => {
  const one = scalar(field);
  const isList = field.many || field.list === true;
  return (isList ? z.union([one, z.array(one)]) : one).meta({ ...one.meta(), id }).optional();
};

const shapeOf = (fields: Fields, owner: string): Shape =>
  Object.fromEntries(
    Object.entries(fields).flatMap(([key, field]) =>
      [spellInput(key), ...(field.aliases ?? [])].map((name) => [name, inputShape(`${owner}${name}`, field)]),
    ),
  );

/** Shared by all layouts, so that the schema says each of them once. */
const commonShape = shapeOf(commonFields, '');

const ownShapes = new Map<Layout, Shape>();
const ownShape = (layout: Layout): Shape => {
  const shape = ownShapes.get(layout) ?? shapeOf(layout.fields, `${layout.id}.`);
  ownShapes.set(layout, shape);
  return shape;
};

/** A piece of one layout: its inputs, exactly as on the command line. */
export const pieceShape = (layout: Layout): z.ZodObject =>
  z
    .strictObject({ layout: z.literal(layout.id), ...ownShape(layout), ...commonShape })
    .meta({ title: layout.id, description: layout.summary });

/** Any input of any layout. */
const anyInputs = (layouts: readonly Layout[]): Shape => ({
  ...Object.fromEntries([...layouts].reverse().flatMap((layout) => Object.entries(ownShape(layout)))),
  ...commonShape,
});

const layoutName = (layouts: readonly Layout[]): z.ZodType =>
  z.string().meta({
    description: 'which template; the other keys of a piece are its inputs',
    enum: layouts.map(({ id }) => id),
  });

/** All of a job file but what its pieces say, which depends on their layouts. */
export const fileShape = z.strictObject({
  defaults: z
    .record(z.string(), z.union([z.string(), z.array(z.string())]))
    .optional()
    .meta({ description: 'inputs for every piece that does not give them itself and whose layout has them' }),
  formats: z
    .union([z.string(), z.array(z.string())])
    .optional()
    .meta({ description: `what to write: ${formats.join(', ')}; left out, pdf`, examples: [['pdf', 'dxf']] }),
  book: z
    .string()
    .optional()
    .meta({
      description: 'name of one PDF for all pieces, with a cover that lists them',
      examples: ['laterals.pdf'],
    }),
  list: z
    .string()
    .optional()
    .meta({
      description: 'a CSV file of more pieces in the same folder; its first row names inputs',
      examples: ['cuts.csv'],
    }),
  pieces: z.array(z.unknown()).optional().meta({ description: 'the pieces, in the order they are made' }),
});

/** The whole job file, for editors. */
export const jobShape = (layouts: readonly Layout[]): z.ZodObject => {
  const inputs = anyInputs(layouts);
  const loose = z
    .strictObject(inputs)
    .meta({ title: 'as in defaults', description: 'a piece whose layout stands in the defaults' });
  return fileShape.extend({
    defaults: z
      .strictObject({ layout: layoutName(layouts).optional(), ...inputs })
      .optional()
      .meta({ description: fileShape.shape.defaults.meta()?.description }),
    pieces: z
      .array(z.union([...layouts.map(pieceShape), loose]))
      .optional()
      .meta({ description: 'the pieces, in the order they are made' }),
  });
};

/** The JSON Schema of job files (draft 2020-12). */
export const jobSchema = (layouts: readonly Layout[]): object => ({
  title: 'Soapstone job file',
  description: 'Pieces to be made, each a template and its inputs, with what they share',
  ...z.toJSONSchema(jobShape(layouts), { io: 'input' }),
});
