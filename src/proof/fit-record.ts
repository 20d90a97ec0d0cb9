import { z } from 'zod';
import type { SheetFit } from '../drawing/fit.ts';

const length = z.number().finite();
const size = length.positive();
const point = z.strictObject({ x: length, y: length, z: length });

const solid = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('plane'), through: point, normal: point }),
  z.strictObject({ kind: z.literal('cylinder'), through: point, along: point, radius: size }),
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
    centre: point,
    axis: point,
    start: point,
    turn: size,
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

const sheetFit = z.strictObject({
  od: size,
  wall: size,
  sheetGirth: size,
  lines: z.array(
    z.strictObject({
      which: z.enum(['upper', 'lower', 'closed']),
      contact: z.enum(['wall', 'od', 'id']),
      gap: length,
      solids: z.array(solid).min(1),
    }),
  ),
}) satisfies z.ZodType<SheetFit>;

/** Reads what `soapstone.json` says of a sheet's fit. Undefined where it says nothing; throws where it makes no sense. */
export const readFit = (recorded: unknown): SheetFit | undefined =>
  recorded === undefined ? undefined : sheetFit.parse(recorded);
