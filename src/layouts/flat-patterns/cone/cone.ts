import { mustBeAtMost } from '../../../fields/among.ts';
import { angleField, countField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { coneSector, type ConeShape, isSector } from '../../../geometry/cone-pattern.ts';
import { jointError } from '../../../issue.ts';
import type { BodySpec } from '../../../joint/bodies/body.ts';
import { bodiesField } from '../../../sheets/bodies-field.ts';
import { checkBends, plateFields, seamFields, toMean } from '../../../sheets/pattern-fields.ts';
import { grooveField } from '../../../sheets/weld-data.ts';
import { told } from '../../../units/format.ts';
import type { Setting } from '../../../units/setting.ts';
import { say } from '../../../words/say.ts';
import { placeCuts } from './cone-cuts.ts';
import { type ConeRequest, coneScene, coneSheets } from './cone-sheet.ts';

/** A cone or a reducer from plate, right or leaning, its ends square or cut to any body. */
export const cone = defineLayout({
  id: 'cone',
  summary: 'cone or reducer from plate, right or leaning, whole or in parts, its ends cut to any body',
  family: 'flat patterns',
  words: [
    'reducer',
    'frustum',
    'taper',
    'funnel',
    'radial line',
    'oblique cone',
    'eccentric reducer',
    'flat pattern',
  ],
  fields: {
    large: lengthField('diameter of the large end', { example: '400mm', above: 0, max: 50_000 }),
    small: lengthField('diameter of the small end; 0 for a cone that runs to a point', {
      example: '200mm',
      max: 50_000,
    }),
    height: lengthField('from the large end square up to the small end', {
      example: '300mm',
      above: 0,
      max: 50_000,
    }),
    offset: lengthField('how far the small end’s center lies toward station 0', {
      default: '0mm',
      example: '100mm',
      min: -20_000,
      max: 20_000,
    }),
    largeEnd: bodiesField(
      'what the large end is cut to, in place of its circle, its work point in the circle’s center',
      'plate angle 60',
    ),
    smallEnd: bodiesField('the same for the small end', 'pipe NPS 6 sch 40'),
    seam: angleField('station at which the pattern is cut open', { default: '180', example: '0' }),
    parts: countField('number of pieces, cut at equal stations from the seam on', {
      default: '1',
      example: '2',
      min: 1,
      max: 24,
    }),
    step: angleField(
      'angle between bend lines, counted round the cone; must go into 360 a whole number of times',
      { default: '15', example: '10', min: DEGREE, max: 90 * DEGREE },
    ),
    ...plateFields,
    ...seamFields,
    groove: grooveField,
  },
  examples: [
    'cone --large 400mm --small 200mm --height 300mm',
    'cone --large 20in --small 0in --height 9in --thickness 1/8in --sizes inside --seam-allowance 1/2in',
    'cone --large 600mm --small 300mm --height 350mm --offset 150mm --parts 2',
    'cone --large 300mm --small 168.3mm --height 400mm --large-end "pipe NPS 16 sch 40" --thickness 6mm --sizes outside',
    'cone --large 219.1mm --small 114.3mm --height 250mm --small-end "plate angle 67.5"',
  ],
  sheets: ['cone', 'cone N'],
  draw: (asked, setting) => coneSheets(readCone(asked, setting), setting),
  scene: (asked, setting) => coneScene(readCone(asked, setting)),
});

type Asked = Omit<ConeRequest, 'shape' | 'cuts'> & {
  readonly largeEnd: readonly BodySpec[] | undefined;
  readonly smallEnd: readonly BodySpec[] | undefined;
};

/** The cone on the middle of its plate. Throws where it cannot be made. */
const readCone = (asked: Asked, setting: Setting): ConeRequest => {
  const { large, small, height, offset, step } = asked;
  mustBeAtMost('small', small, large, say`is larger than the large end: swap the two`, setting);
  const out = 2 * toMean(asked);
  const pointed = small === 0;
  if (large + out <= 0 || (!pointed && small + out <= 0))
    throw jointError(
      'thickness',
      'too-thick',
      say`the plate is thicker than the small end of ${told(small)} is wide`,
      say`give a thinner plate`,
    );
  checkBends(step, large);
  const shape: ConeShape = {
    large: (large + out) / 2,
    small: pointed ? 0 : (small + out) / 2,
    height,
    offset,
  };
  checkSlope(shape);
  return { ...asked, shape, cuts: placeCuts(asked, shape) };
};

/** The flattest cone that is still a cone and no disc, as its sector: 359.9°. */
const checkSlope = (shape: ConeShape): void => {
  if (!isSector(shape) || coneSector(shape).angle < 2 * Math.PI * 0.9997) return;
  throw jointError(
    'height',
    'too-flat',
    say`a cone only ${told(shape.height)} high is a flat ring`,
    say`give more height than ${told((shape.large - shape.small) * 0.025)}`,
  );
};
