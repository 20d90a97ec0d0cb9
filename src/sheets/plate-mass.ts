import { lengthField, numberField } from '../fields/fields.ts';
import { formatExactMm } from '../units/format.ts';
import { say } from '../words/say.ts';

/** Mass of a flat part, as an aid for lifting and ordering. */

/** Inputs of layouts that give a mass. */
export const massFields = {
  thickness: lengthField('thickness of the plate, for its mass', {
    example: '10mm',
    above: 0,
    max: 1000,
    optional: true,
  }),
  density: numberField('density in kg/m³; 7850 is carbon steel by common practice', {
    default: '7850',
    example: '7850',
    min: 100,
    max: 25_000,
  }),
} as const;

export interface MassAsked {
  readonly thickness?: number;
  readonly density: number;
}

const KG_PER_LB = 0.45359237;

/** Kilograms and pounds with three significant figures. */
export const writeMass = (kg: number): string => {
  const write = (value: number): string => String(Number(value.toPrecision(3)));
  return `${write(kg)} kg (${write(kg / KG_PER_LB)} lb)`;
};

/** Mass in kg of an area in mm². */
export const massOf = (area: number, thickness: number, density: number): number =>
  area * thickness * 1e-9 * density;

/** The mass as a fact, with the density it was taken with; nothing where no thickness is given. */
export const massFacts = (
  area: number,
  { thickness, density }: MassAsked,
  name = say`Mass`,
): readonly (readonly [string, string])[] =>
  thickness === undefined
    ? []
    : [
        [
          name,
          say`${writeMass(massOf(area, thickness, density))}, ${formatExactMm(thickness)} thick at ${density} kg/m³${
            density === 7850 ? say` (steel, common practice)` : ''
          }`,
        ],
      ];
