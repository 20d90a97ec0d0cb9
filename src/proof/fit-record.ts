import * as z from 'zod';
import { limits } from './limits.ts';
import { roles, type SheetFit } from './record.ts';

// Recorded figures are rounded.
const TURN = 2 * Math.PI + 1e-5;
const length = z.number().finite();
const size = length.positive();
const angle = size.max(Math.PI);
const point = z.strictObject({ x: length, y: length, z: length });
const face = { through: point, normal: point };

const spot = z.strictObject({ x: length, y: length });
const named = { face: z.string(), inner: z.boolean().exactOptional(), wall: size.exactOptional() };
const edge = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('line'), ...named, from: spot, to: spot }),
  z.strictObject({
    kind: z.literal('arc'),
    ...named,
    centre: spot,
    radius: size,
    start: length,
    sweep: length.min(-TURN).max(TURN),
  }),
  z.strictObject({
    kind: z.literal('ellipse'),
    ...named,
    centre: spot,
    radii: z.tuple([size, size]),
    turn: length,
    start: length,
    sweep: size.max(TURN),
    inset: length,
  }),
]);
const section = z.strictObject({
  outside: z.array(edge).min(1),
  inside: z.array(edge).exactOptional(),
  thickness: size,
});

const solid = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('plane'), ...face }),
  z.strictObject({
    kind: z.literal('cylinder'),
    through: point,
    along: point,
    radius: size,
    ends: z.array(z.strictObject(face)).max(limits.solids).exactOptional(),
  }),
  z.strictObject({ kind: z.literal('sphere'), centre: point, radius: size }),
  z.strictObject({
    kind: z.literal('cone'),
    from: point,
    radiusFrom: size,
    to: point,
    radiusTo: size,
    along: point,
  }),
  z.strictObject({
    kind: z.literal('bend'),
    corner: point,
    legs: z.tuple([point, point]),
    bendRadius: length.nonnegative(),
    radius: size,
  }),
  z.strictObject({
    kind: z.literal('bar'),
    through: point,
    along: point,
    across: point,
    width: size,
    depth: size,
    corner: length.nonnegative(),
    length: size.exactOptional(),
  }),
  z.strictObject({
    kind: z.literal('prism'),
    through: point,
    along: point,
    across: point,
    section,
    length: size.exactOptional(),
    ends: z.array(z.strictObject(face)).max(limits.solids).exactOptional(),
  }),
  z.strictObject({
    kind: z.literal('ellipsoidal head'),
    tangent: point,
    axis: point,
    radius: size,
    depth: size,
  }),
  z.strictObject({
    kind: z.literal('torispherical head'),
    tangent: point,
    axis: point,
    radius: size,
    crown: size,
    knuckle: size,
  }),
]);

const lay = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('section'), section, lift: length.nonnegative() }),
  z.strictObject({ kind: z.literal('round'), od: size, sheetGirth: size, allowance: length }),
  z.strictObject({ kind: z.literal('flat') }),
  z.strictObject({
    kind: z.literal('bar'),
    width: size,
    depth: size,
    corner: length.nonnegative(),
    turned: length,
    lift: length.nonnegative(),
  }),
  z.strictObject({
    kind: z.literal('cone'),
    radius: size,
    halfAngle: angle.max(Math.PI / 2),
    lift: length.nonnegative(),
  }),
]);

const role = z.enum(roles).exactOptional();
const many = <T extends z.ZodType>(figure: T) => z.array(figure).max(limits.figures);
const figures = z.strictObject({
  circles: many(z.strictObject({ centre: spot, radius: size, role })),
  points: many(spot),
  lines: many(z.strictObject({ from: spot, to: spot, role })).exactOptional(),
  arcs: many(
    z.strictObject({
      centre: spot,
      radius: size,
      from: length,
      sweep: length.min(-2 * Math.PI).max(2 * Math.PI),
      role,
    }),
  ).exactOptional(),
  turns: many(
    z.strictObject({
      centre: spot,
      radius: size,
      from: length,
      step: length,
      count: z.int().positive().max(limits.figures),
      role,
    }),
  ).exactOptional(),
  scales: many(
    z.strictObject({ from: spot, to: spot, count: z.int().min(2).max(limits.figures), role }),
  ).exactOptional(),
  corners: many(z.strictObject({ angle: angle, role })).exactOptional(),
  curves: many(z.strictObject({ points: many(spot), role })).exactOptional(),
});

const sheetFit = z.strictObject({
  lay,
  wall: length.nonnegative(),
  lines: z
    .array(
      z.strictObject({
        which: z.union([z.enum(['upper', 'lower', 'closed', 'inner']), z.int().positive()]),
        contact: z.enum(['wall', 'od', 'id']),
        gap: length,
        solids: z.array(solid).max(limits.solids),
      }),
    )
    .max(limits.lines),
  figures: figures.exactOptional(),
}) satisfies z.ZodType<SheetFit>;

/** Reads what `soapstone.json` says of a sheet's fit. Undefined where it says nothing; throws where it makes no sense. */
export const readFit = (recorded: unknown): SheetFit | undefined =>
  recorded === undefined ? undefined : sheetFit.parse(recorded);
