import { angleField, choiceField, lengthField, numberField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import type { BendRule } from '../../../geometry/bend-allowance.ts';
import { requestError } from '../../../issue.ts';
import { plateFields } from '../../../sheets/pattern-fields.ts';
import { say } from '../../../words/say.ts';
import { holeField } from './blank-hole.ts';
import { blankScene } from './blank-scene.ts';
import { type BlankAsked, solveBlank } from './blank-shape.ts';
import { blankSheet, STRIP } from './blank-sheet.ts';

/** A folded strip: legs with a bend between each two, laid out flat. */
export const blank = defineLayout({
  id: 'blank',
  summary: 'flat length of folded plate: bend lines, allowances and holes by legs and angles',
  family: 'flat patterns',
  words: ['bend allowance', 'bend deduction', 'press brake', 'fold', 'channel', 'setback', 'flat pattern'],
  fields: {
    legs: lengthField('the legs in order, measured as --measure says', {
      example: '50mm,100mm,50mm',
      above: 0,
      list: true,
    }),
    angles: angleField(
      'angle bent through between each two legs, in order; negative bends down. 90 is a square corner',
      { example: '90,90', min: -180 * DEGREE, max: 180 * DEGREE, list: true },
    ),
    thickness: lengthField('thickness of the plate', { example: '3mm', above: 0, max: 200 }),
    radius: lengthField('inside radius of the bends: one for all, or one for each', {
      example: '3mm',
      max: 5000,
      list: true,
    }),
    k: numberField('neutral line in thicknesses from the inside, in place of a rule', {
      example: '0.44',
      min: 0.2,
      max: 0.6,
      optional: true,
    }),
    rule: choiceField(
      'what the bend allowance goes by: the empirical formula of aircraft sheet, DIN 6935, or the handbook table by metal',
      ['empirical', 'din', 'table'],
      { default: 'empirical' },
    ),
    metal: choiceField(
      'for the table: soft brass and copper; half-hard, mild steel and aluminum; bronze, hard copper, cold-rolled and spring steel',
      ['soft', 'medium', 'hard'],
      { default: 'medium' },
    ),
    measure: choiceField(
      'legs are measured over the outside, over the inside, or to where the outside faces would meet',
      ['outside', 'inside', 'mold-line'],
      { default: 'outside' },
    ),
    width: lengthField('width of the blank; left out, a strip of 50 mm shows the bend lines', {
      example: '200mm',
      above: 0,
      max: 20_000,
      optional: true,
    }),
    hole: holeField,
    density: plateFields.density,
  },
  examples: [
    'blank --legs 50mm,100mm,50mm --angles 90,90 --thickness 3mm --radius 3mm',
    'blank --legs 1in,2in,1in --angles 90,90 --thickness 0.04in --radius 0.16in --measure mold-line --width 6in',
    'blank --legs 40mm,80mm,30mm --angles 90,-45 --thickness 2mm --radius 2mm --rule din --width 120mm --hole "2: 40mm,60mm: 12mm"',
  ],
  scene: (asked, setting) =>
    blankScene(solveBlank(readBlank(asked), setting), asked.thickness, asked.width ?? STRIP),
  draw: (asked, setting) => {
    const read = readBlank(asked);
    return [blankSheet(read, solveBlank(read, setting), setting)];
  },
});

type Asked = Omit<BlankAsked, 'rule'> & {
  readonly k: number | undefined;
  readonly rule: 'empirical' | 'din' | 'table';
  readonly metal: 'soft' | 'medium' | 'hard';
};

/** The strip with its rule. Throws where holes have no width to lie in. */
const readBlank = (asked: Asked): BlankAsked => {
  if (asked.hole.length > 0 && asked.width === undefined)
    throw requestError(
      'width',
      'missing',
      say`holes are given, but not the width they are measured across`,
      say`give width, such as 120mm`,
    );
  const rule: BendRule =
    asked.k !== undefined
      ? { kind: 'factor', k: asked.k }
      : asked.rule === 'table'
        ? { kind: 'table', metal: asked.metal }
        : { kind: asked.rule };
  return { ...asked, rule };
};
