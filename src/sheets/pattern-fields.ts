import type { Fact } from '../drawing/model.ts';
import type { Values } from '../fields/field.ts';
import { choiceField, lengthField } from '../fields/fields.ts';
import { DEGREE } from '../geometry/angle-units.ts';
import { requestError } from '../issue.ts';
import { formatAngle } from '../units/angle.ts';
import { told } from '../units/format.ts';
import { areaOf, lengthOf, massOf, sizeOf } from '../units/quantity.ts';
import { say, translate } from '../words/say.ts';
import { countStations } from './band-fields.ts';
import { rise, shown, widthOf } from './measured.ts';
import { densityField } from './plate-mass.ts';

/** Inputs of what is rolled or folded from plate. */
export const plateFields = {
  thickness: lengthField('thickness of the plate', { default: '0mm', example: '3mm', max: 200 }),
  sizes: choiceField(
    'what the given sizes are taken on: the plate’s inside, its outside, or the middle of its thickness',
    ['inside', 'outside', 'mean'],
    { default: 'mean' },
  ),
  density: densityField,
} as const;
export type PlateValues = Values<typeof plateFields>;

/** Inputs of a seam. */
export const seamFields = {
  seamAllowance: lengthField(
    'width of the lap or flange past the seam; for a weld the root gap, half of it off each edge',
    { default: '0mm', example: '12mm', max: 200 },
  ),
  join: choiceField(
    'how the seam is made: the right edge laps under the left one, both edges are flanged, or they are welded edge to edge',
    ['lap', 'flange', 'weld'],
    { default: 'lap' },
  ),
} as const;
export type SeamValues = Values<typeof seamFields>;

/** Bend lines closer than this cannot be told apart, nor bent, mm. */
const CLOSEST_BENDS = 1;
/** Whole degrees that go into a turn, up to the widest step. */
const EVEN_STEPS = Array.from({ length: 90 }, (_, i) => i + 1).filter((degrees) => 360 % degrees === 0);

/**
 * The bend lines of a cone by the angle between them, radians, and the diameter of its large end, mm. Throws a `request`
 * UserError where they do not go round evenly or lie too close to be told apart.
 */
export const checkBends = (step: number, diameter: number): void => {
  countStations({ step, divisions: undefined });
  const apartAt = (angle: number): number => (angle * diameter) / 2;
  if (apartAt(step) >= CLOSEST_BENDS) return;
  const wide = EVEN_STEPS.find((degrees) => apartAt(degrees * DEGREE) >= CLOSEST_BENDS);
  throw requestError(
    'step',
    'too-close',
    say`bend lines every ${formatAngle(step)} lie only ${told(apartAt(step))} apart at an end of ${told(diameter)}`,
    wide === undefined ? say`give a larger cone` : say`give a step of at least ${formatAngle(wide * DEGREE)}`,
  );
};

/** How far the middle of the plate lies outside the surface the sizes are taken on, mm. */
export const toMean = ({ thickness, sizes }: PlateValues): number =>
  sizes === 'inside' ? thickness / 2 : sizes === 'outside' ? -thickness / 2 : 0;

/** The same for the inside, on which folded plate with sharp corners is laid out. */
export const toInside = (plate: PlateValues): number => toMean(plate) - plate.thickness / 2;

/** What the sizes are taken on, in words. */
export const describeSizes = ({ sizes }: PlateValues): string =>
  sizes === 'mean' ? say`sizes on the middle of the plate` : say`sizes ${translate(sizes)}`;

/** Area of what is cut, mm², its thickness and mass. */
export const plateFacts = (area: number, plate: PlateValues): readonly Fact[] => [
  [say`Area of the pattern`, shown(areaOf(area), { kind: 'area' })],
  ...plateMassFacts(area, plate),
];

/** Thickness and mass of so much plate, where it has a thickness. */
export const plateMassFacts = (area: number, { thickness, density }: PlateValues): readonly Fact[] =>
  thickness > 0
    ? [
        [say`Plate`, sizeOf(thickness)],
        [say`Mass at ${density} kg/m³`, massOf(area * thickness * density * 1e-9)],
      ]
    : [];

/** Width and height of the plate a pattern is cut from. */
export const blankFacts = (across: number, height: number): readonly Fact[] => [
  [say`Plate needed, along`, shown(lengthOf(across), widthOf('x'))],
  [say`Plate needed, across`, shown(lengthOf(height), rise())],
];
