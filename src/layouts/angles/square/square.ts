import type { Fact, Sheet, Table } from '../../../drawing/model.ts';
import type { Values } from '../../../fields/field.ts';
import { lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import {
  fitTriangle,
  rackOfDiagonals,
  type RightTriangle,
  wholeTriangles,
} from '../../../geometry/right-angle.ts';
import { jointError, requestError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { diagonalSteps, differenceTable, rackPicture } from '../../../sheets/squaring.ts';
import { formatLength } from '../../../units/format.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { cornerFigures, cornerMarks, cornerTriangle } from './paper-corner.ts';
import { angleOf, fineOf, lengthOf } from '../../../units/quantity.ts';
import { worded } from '../../../drawing/worded.ts';
import { trianglePicture } from './square-picture.ts';

const fields = {
  length: lengthField('long side of the frame', { example: '2400mm', min: 50, max: 100_000 }),
  width: lengthField('short side of the frame', { example: '1200mm', min: 50, max: 100_000 }),
  legs: lengthField('two legs of your own', {
    example: '600mm,900mm',
    above: 0,
    list: 2,
    optional: true,
  }),
  taped: lengthField(
    'the two diagonals as taped: lower left to upper right, then lower right to upper left',
    { example: '2690mm,2676mm', above: 0, list: 2, optional: true },
  ),
  tapeStep: lengthField(
    'the triangles’ sides come in whole steps of this; left out, 1 mm, or a round part of an inch',
    { example: '5mm', min: 0.5, max: 1000, optional: true },
  ),
  corner: lengthField('long leg of the paper corner, a 3-4-5 triangle; left out, 160 mm or 6 in', {
    example: '160mm',
    min: 80,
    max: 2000,
    optional: true,
  }),
  snip: lengthField('cut off at the paper corner, to clear a weld', {
    default: '0mm',
    example: '10mm',
    max: 30,
  }),
} as const;

type Asked = Values<typeof fields>;

/** A frame's right angles: by tape, by its diagonals, and a paper corner with its corner at the sheet's origin. */
export const square = defineLayout({
  id: 'square',
  summary:
    'right angles of a frame: whole triangles by tape, diagonals, and a paper corner (origin at the corner)',
  family: 'angles and squares',
  words: ['3-4-5', 'diagonal', 'right angle', 'squaring', 'layout corner'],
  fields,
  examples: [
    'square --length 2400mm --width 1200mm',
    'square --length 8ft --width 4ft --taped "107-1/2in,107-1/8in"',
    'square --length 3m --width 2m --legs 600mm,900mm --snip 10mm -o square.pdf',
  ],
  draw: (asked, setting) => {
    const [length, width] = [Math.max(asked.length, asked.width), Math.min(asked.length, asked.width)];
    return [drawSheet({ ...asked, length, width }, setting)];
  },
});

/** Longest leg and roundest steps: parts of an inch as round as twelve steps allow; millimetres whole. */
const stepFor = (
  triangle: RightTriangle,
  { length, width, tapeStep }: Asked,
  { units, denominator }: Setting,
): number => {
  if (tapeStep !== undefined) return tapeStep;
  if (units === 'mm') return 1;
  const scale = Math.min(length / triangle.long, width / triangle.short);
  const parts = [1, 2, 4, 8, 16, 32, 64].filter((part) => part <= denominator);
  return 25.4 / (parts.find((part) => (scale * part) / 25.4 >= 12) ?? denominator);
};

const drawSheet = (asked: Asked, setting: Setting): Sheet => {
  const { length, width } = asked;
  const both = (value: number): string => writeBoth(value, setting);
  const diagonal = Math.hypot(length, width);
  const fitted = wholeTriangles.flatMap((triangle) => {
    const found = fitTriangle(triangle, length, width, stepFor(triangle, asked, setting));
    return found ? [{ name: nameOf(triangle), triangle: found }] : [];
  });
  if (fitted.length === 0)
    throw requestError(
      'tape-step',
      'step-too-large',
      say`no triangle with whole steps fits the frame`,
      say`a 3-4-5 triangle takes steps of at most ${both(Math.min(length / 4, width / 3))}`,
    );
  const best = fitted.reduce((a, b) => (b.triangle.diagonal > a.triangle.diagonal ? b : a));
  const corner = cornerTriangle(asked.corner, setting);
  const write = (value: number): string => formatLength(value, setting);
  const { taped, legs } = asked;
  return plateSheet({
    name: 'square',
    heading: say`Square`,
    subject: [
      say`Frame ${both(length)} by ${both(width)}`,
      say`Square when both diagonals are ${both(diagonal)}`,
      say`Paper corner with sides ${write(corner.short)}, ${write(corner.long)} and ${write(corner.diagonal)}`,
    ],
    marks: cornerMarks(corner, asked.snip, setting),
    fit: fitFlat(cornerFigures(corner, asked.snip)),
    steps: [
      CHECK_PRINT(),
      say`Prove the paper corner before you trust it: its sides are ${write(corner.short)}, ${write(corner.long)} and ${write(corner.diagonal)} by steel rule. Strike a line along it, turn it over on the same edge: the line must fall on itself.`,
      ...diagonalSteps(both(diagonal)),
      say`One corner alone: mark ${write(best.triangle.short)} and ${write(best.triangle.long)} from it along the sides. It is square when the marks are ${write(best.triangle.diagonal)} apart (${best.name}, the longest that fits here).`,
    ],
    facts: [
      [say`Both diagonals`, lengthOf(diagonal)],
      [
        say`Longest triangle`,
        `${best.name}: ${[best.triangle.short, best.triangle.long, best.triangle.diagonal].map(write).join(', ')}`,
      ],
      [
        say`Diagonal of 1 to 1`,
        worded((value) => say`leg × 1.41421, of ${write(width)}: ${value(lengthOf(Math.SQRT2 * width))}`),
      ],
      ...(taped ? tapedFacts(asked, taped, setting) : []),
    ],
    tables: [triangleTable(fitted, asked, legs, setting), differenceTable(length, width, setting)],
    pictures: [
      trianglePicture(length, width, best.triangle, write),
      rackPicture(length, width, write(length), !taped || taped[0] >= taped[1]),
    ],
    cautions: [
      say`A printer may feed out of square: a paper corner is as true as its three sides measure.`,
      say`The longer the legs, the truer the corner: the same slip of the tape turns a corner taped with legs four times as long only a quarter as much.`,
    ],
  });
};

const nameOf = ({ short, long, diagonal }: RightTriangle): string => `${short}-${long}-${diagonal}`;

/** A number on the tape with more places than its marks, for those who set stops. */
const writeDecimal = (mm: number, { units }: Setting): string =>
  units === 'in' ? (mm / 25.4).toFixed(3) : mm.toFixed(2);

const triangleTable = (
  fitted: readonly { readonly name: string; readonly triangle: RightTriangle }[],
  { length, width }: Asked,
  legs: readonly [number, number] | undefined,
  setting: Setting,
): Table => {
  const rowOf = (name: string, { short, long, diagonal }: RightTriangle): readonly string[] => [
    name,
    formatLength(short, setting),
    formatLength(long, setting),
    formatLength(diagonal, setting),
    writeDecimal(diagonal, setting),
  ];
  const own = (short: number, long: number): RightTriangle => ({
    short,
    long,
    diagonal: Math.hypot(short, long),
  });
  return {
    title: say`A right angle by tape: legs along two sides, then across`,
    header: [say`Triangle`, say`leg`, say`leg`, say`across`, say`across, ${setting.units}`],
    rows: [
      ...fitted.map(({ name, triangle }) => rowOf(name, triangle)),
      rowOf(say`equal legs`, own(width, width)),
      rowOf(say`the frame`, own(width, length)),
      ...(legs ? [rowOf(say`your legs`, own(legs[0], legs[1]))] : []),
    ],
  };
};

/** What the diagonals as taped say. Throws where they cannot belong to the frame. */
const tapedFacts = (
  asked: Asked,
  [first, second]: readonly [number, number],
  setting: Setting,
): readonly Fact[] => {
  const { length, width } = asked;
  const both = (value: number): string => writeBoth(value, setting);
  const diagonal = Math.hypot(length, width);
  const mean = Math.sqrt((first * first + second * second) / 2);
  if (Math.abs(mean - diagonal) > diagonal / 100)
    throw jointError(
      'taped',
      'other-sides',
      say`diagonals of ${both(first)} and ${both(second)} do not belong to these sides`,
      say`whatever the lean they come to ${both(diagonal)} in the (root mean square) middle, within 1 %: tape the sides again`,
    );
  const { lean, overWidth } = rackOfDiagonals(length, width, first, second);
  const difference = Math.abs(first - second);
  if (difference < 0.05)
    return [[say`As taped`, say`the diagonals are equal: square, where opposite sides are equal`]];
  const [sharp, blunt] = first > second ? [say`A and C`, say`B and D`] : [say`B and D`, say`A and C`];
  return [
    [
      say`As taped`,
      worded(
        (value) =>
          say`A–C ${value(lengthOf(first))}, B–D ${value(lengthOf(second))}: they differ by ${value(fineOf(difference))}`,
      ),
    ],
    [
      say`Corners`,
      worded(
        (value) =>
          `${sharp} ${value(angleOf(Math.PI / 2 - Math.abs(lean), 3))}, ${blunt} ${value(angleOf(Math.PI / 2 + Math.abs(lean), 3))}`,
      ),
    ],
    [
      say`Slide`,
      worded(
        (value) =>
          say`side D–C by ${value(fineOf(Math.abs(overWidth)))} toward ${first > second ? 'D' : 'C'}, A–B held`,
      ),
    ],
    ...(Math.abs(mean - diagonal) > 1.5
      ? ([
          [
            say`Sides`,
            say`these diagonals belong to sides ${mean > diagonal ? say`longer` : say`shorter`} than given: tape them again`,
          ],
        ] as const)
      : []),
  ];
};
