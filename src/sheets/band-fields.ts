import { onlyOne } from '../fields/among.ts';
import type { Values } from '../fields/field.ts';
import { angleField, choiceField, countField, lengthField } from '../fields/fields.ts';
import { requestError } from '../issue.ts';
import { say } from '../words/say.ts';

const degree = Math.PI / 180;
const defaultStep = 15 * degree;

/** Inputs of every sheet that wraps round a part; a layout spreads them into its own fields. */
export const bandFields = {
  step: angleField('angle between stations; must go into 360 a whole number of times; left out, 15', {
    example: '15',
    min: degree / 2,
    max: 90 * degree,
    optional: true,
  }),
  divisions: countField('number of equal stations, instead of a step', {
    example: '16',
    min: 4,
    max: 720,
    optional: true,
  }),
  seam: angleField('station at which the band is cut open', {
    default: '0',
    example: '180',
    min: -360 * degree,
    max: 360 * degree,
  }),
  madeFrom: choiceField(
    'pipe is wrapped; plate is laid out flat on its mean diameter, then rolled',
    ['pipe', 'plate'],
    { default: 'pipe' },
  ),
  seamAllowance: lengthField(
    'plate past the right seam, for a lap or for trimming; negative for the root gap of the seam',
    { default: '0mm', example: '25mm', min: -10, max: 200 },
  ),
} as const;

/** What the inputs of a wrapped sheet read to. */
export type BandValues = Values<typeof bandFields>;

/** The wrapped sheet's own inputs out of a layout's. */
export const pickBand = ({ step, divisions, seam, madeFrom, seamAllowance }: BandValues): BandValues => ({
  step,
  divisions,
  seam,
  madeFrom,
  seamAllowance,
});

/**
 * The number of equal stations round the part, from `--step` or `--divisions` (24 when neither is given).
 * Throws a `request` UserError where both are given or the step leaves a remainder.
 */
export const countStations = ({ step, divisions }: Pick<BandValues, 'step' | 'divisions'>): number => {
  onlyOne({ step, divisions }, say`give the angle between stations or their number, not both`);
  if (divisions !== undefined) return divisions;
  const exact = (2 * Math.PI) / (step ?? defaultStep);
  const count = Math.round(exact);
  if (Math.abs(exact - count) < 1e-9 * count) return count;
  const below = Math.max(1, Math.floor(exact));
  const near = [below + 1, below]
    .map((stations) => `${Number((360 / stations).toFixed(4))}°`)
    .join(say` or `);
  throw requestError(
    'step',
    'uneven-step',
    say`the step does not go into 360° a whole number of times`,
    say`nearest even steps: ${near}; or give divisions`,
  );
};
