import { lengthField, numberField } from '../fields/fields.ts';
import { massOf, sizeOf } from '../units/quantity.ts';
import { worded } from '../drawing/worded.ts';
import type { Fact } from '../drawing/model.ts';
import { say } from '../words/say.ts';

/** Asks for the density of plate. */
export const densityField = numberField('density in kg/m³; 7850 is carbon steel by common practice', {
  default: '7850',
  example: '7850',
  min: 100,
  max: 25_000,
});

/** Inputs of layouts that give a mass. */
export const massFields = {
  thickness: lengthField('thickness of the plate, for its mass', {
    example: '10mm',
    above: 0,
    max: 1000,
    optional: true,
  }),
  density: densityField,
} as const;

export interface MassAsked {
  readonly thickness?: number;
  readonly density: number;
}

/** Density of carbon steel, kg/mm³: 7850 kg/m³ (EN 1991-1-1, table A.4, at the upper end of its range). */
export const STEEL = 7.85e-6;

/** The mass as a fact, with the density it was taken with; nothing where no thickness is given. */
export const massFacts = (
  area: number,
  { thickness, density }: MassAsked,
  name = say`Mass`,
): readonly Fact[] =>
  thickness === undefined
    ? []
    : [
        [
          name,
          worded(
            (value) =>
              say`${value(massOf(area * thickness * 1e-9 * density))}, ${value(sizeOf(thickness))} thick at ${density} kg/m³${
                density === 7850 ? say` (steel, common practice)` : ''
              }`,
          ),
        ],
      ];
