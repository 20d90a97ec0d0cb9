import * as z from 'zod';
import { limits } from './limits.ts';
import { roles } from './record.ts';

/** What `soapstone.json` says of the figures a sheet prints: their text and value, and how its own drawing shows them. */

const length = z.number().finite();
const spot = z.strictObject({ x: length, y: length });
const role = z.enum(roles);
const words = z.string().max(400);

const place = z.discriminatedUnion('find', [
  z.strictObject({ find: z.literal('origin') }),
  ...(['end', 'upright', 'level', 'cross'] as const).map((find) =>
    z.strictObject({ find: z.literal(find), on: role, at: spot }),
  ),
]);

const more = {
  times: length.exactOptional(),
  plus: length.exactOptional(),
};
const which = {
  line: z.union([z.enum(['upper', 'lower', 'closed']), z.int().positive()]).exactOptional(),
};
const along = z.enum(['x', 'y', 'around']);
const measured = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('distance'),
    from: place,
    to: place,
    along: z.enum(['x', 'y', 'around', 'onward']).exactOptional(),
    ...more,
  }),
  z.strictObject({ kind: z.literal('extent'), along, ...which, ...more }),
  z.strictObject({ kind: z.literal('height'), end: z.enum(['high', 'low']), ...which, ...more }),
  z.strictObject({ kind: z.literal('area'), ...which, ...more }),
  z.strictObject({ kind: z.literal('rolled'), ...which, ...more }),
  z.strictObject({ kind: z.literal('tilt'), ...which, ...more }),
  z.strictObject({ kind: z.literal('across'), along: spot, ...which, ...more }),
  z.strictObject({ kind: z.literal('girth'), ...more }),
  z.strictObject({
    kind: z.literal('circle'),
    give: z.enum(['radius', 'length', 'angle']),
    through: z.tuple([place, place, place]),
    ...more,
  }),
  z.strictObject({
    kind: z.literal('angle'),
    give: z.literal('cotangent').exactOptional(),
    from: z.tuple([place, place]),
    to: z.tuple([place, place]),
    ...more,
  }),
]);

const figures = z
  .array(
    z.strictObject({
      value: length.exactOptional(),
      unit: z.enum(['mm', 'mm2', 'rad', 'n']).exactOptional(),
      measured,
    }),
  )
  .min(1)
  .max(8);
const printed = z.strictObject({
  facts: z.array(z.strictObject({ label: words, text: words, figures })).max(limits.printed),
  tables: z
    .array(
      z.strictObject({
        // Prints of older versions have none.
        title: words.default(''),
        rows: z.array(z.array(words).max(limits.printed)).max(limits.printed),
        cells: z
          .array(
            z.strictObject({
              row: z.int().nonnegative(),
              columns: z.array(z.int().nonnegative()).min(1).max(2),
              figures,
            }),
          )
          .max(limits.printed),
      }),
    )
    .max(limits.printed),
});

export type Spot = z.infer<typeof place>;
export type Measured = z.infer<typeof measured>;
export type PrintedFigures = z.infer<typeof printed>;
export type PrintedFigure = PrintedFigures['facts'][number]['figures'][number];

/** Reads what `soapstone.json` says of a sheet's printed figures. Undefined where it says nothing; throws where it makes no sense. */
export const readPrinted = (recorded: unknown): PrintedFigures | undefined =>
  recorded === undefined ? undefined : printed.parse(recorded);
