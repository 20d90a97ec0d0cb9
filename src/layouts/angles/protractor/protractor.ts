import type { Fact, Mark, Sheet, Table } from '../../../drawing/model.ts';
import { angleField, choiceField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { requestError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { angleOf, lengthOf, sizeOf, writeOnce } from '../../../units/quantity.ts';
import { type Setting, tapeMark } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say, translate } from '../../../words/say.ts';
import { type Protractor, protractorFigures, protractorMarks, sweepOf } from './protractor-marks.ts';
import { worded } from '../../../drawing/worded.ts';
import { formatAngle, writeAngle } from '../../../units/angle.ts';
import { layPicture, tapePicture } from './protractor-picture.ts';

/** A full-size protractor, its center at the sheet's origin and its straight edge through it, with angles laid off by tape. */
export const protractor = defineLayout({
  id: 'protractor',
  summary:
    'protractor of any radius, with your angles drawn and a table to lay them off by tape (origin at its center)',
  family: 'angles and squares',
  words: ['degrees', 'angle gauge', 'fan'],
  fields: {
    radius: lengthField('radius of the degree arc; left out, 100 mm or 4 in', {
      example: '150mm',
      min: 30,
      max: 2000,
      optional: true,
    }),
    arc: choiceField('how much of the circle', ['half', 'quarter', 'full'], { default: 'half' }),
    at: angleField('angles to draw from the right end of the straight edge', {
      example: '22.5,45',
      min: 0,
      max: 2 * Math.PI,
      list: true,
      optional: true,
    }),
    tapeRadius: lengthField(
      'radius on which the table lays angles off; left out, 573 mm or 57-5/16 in, where a degree is 10 mm or 1 in long',
      { example: '1m', min: 50, max: 20_000, optional: true },
    ),
  },
  examples: [
    'protractor --radius 100mm',
    'protractor --radius 4in --at 22.5,37.5',
    'protractor --radius 300mm --arc quarter --tape-radius 1m -o quarter.pdf',
  ],
  draw: (asked, setting) => {
    const inches = setting.units === 'in';
    const figure: Protractor = {
      radius: asked.radius ?? (inches ? 101.6 : 100),
      arc: asked.arc,
      rays: checkRays(asked.at ?? [], asked.arc),
    };
    return [drawSheet(figure, asked.tapeRadius ?? (inches ? 57.3125 * 25.4 : 573), setting)];
  },
});

const checkRays = (rays: readonly number[], arc: Protractor['arc']): readonly number[] => {
  const sweep = sweepOf(arc);
  const outside = rays.find((ray) => ray > sweep + 1e-9);
  if (outside !== undefined)
    throw requestError(
      'at',
      'off-the-arc',
      say`${formatAngle(outside, 4)} is not on a ${translate(arc)} circle`,
      say`give angles up to ${writeAngle(sweep)}, or a larger arc`,
    );
  if (rays.length > 24)
    throw requestError('at', 'too-many', say`${rays.length} angles are given`, say`give at most 24`);
  return rays;
};

const chordOf = (radius: number, angle: number): number => 2 * radius * Math.sin(angle / 2);

const drawSheet = (figure: Protractor, tapeRadius: number, setting: Setting): Sheet => {
  const { radius, arc, rays } = figure;
  const both = (length: number): string => writeBoth(length, setting);
  const slip = tapeMark(setting) / 2;
  const rayFacts = rays
    .filter((ray) => ray > 0)
    .map((ray): Fact => [
      say`${formatAngle(ray, 4)} by tape`,
      worded(
        (value) =>
          say`${value(lengthOf(chordOf(tapeRadius, ray)))} across, ${value(lengthOf(tapeRadius))} out`,
      ),
    ]);
  const marks: readonly Mark[] = protractorMarks(figure);
  return plateSheet({
    name: 'protractor',
    heading: say`Protractor`,
    subject: [
      say`${arc === 'half' ? say`Half` : arc === 'quarter' ? say`Quarter` : say`Full`} circle, degree arc of radius ${both(radius)}`,
      ...(rays.length > 0 ? [say`With ${rays.map((ray) => formatAngle(ray, 4)).join(', ')}`] : []),
    ],
    marks,
    fit: fitFlat(protractorFigures(figure)),
    steps: [
      CHECK_PRINT(),
      say`Prove the arc: marks 0 and 60 are ${both(radius)} apart, as far as 60 is from the center; 0 and 90 are ${both(radius * Math.SQRT2)} apart.`,
      arc === 'full'
        ? say`Cut around the arc. Prick the center on the corner of the angle, the 0–180 line along the edge.`
        : say`Cut along the straight edge and around the arc. Lay the edge on the edge of the part, its center on the corner of the angle.`,
      say`Prick the mark on the arc. Strike the line from the corner through it.`,
      arc === 'full'
        ? say`Outer numbers run counter-clockwise from the right, inner numbers clockwise: use the row that runs the way you turn.`
        : say`Outer numbers run from the right, inner numbers from the left: use the row that starts at the edge you measure from.`,
      say`Long legs by tape: from the corner strike an arc of ${both(tapeRadius)}, from the edge step the chord off on it. Over 90°, work back from the other end of the line: 180° less the angle.`,
    ],
    facts: [
      [say`Mark 0 to mark 60`, lengthOf(radius)],
      [say`Mark 0 to mark 90`, lengthOf(radius * Math.SQRT2)],
      [
        say`One degree on the arc`,
        worded(
          (value) =>
            say`${value(sizeOf(radius * DEGREE))}; ${writeOnce(lengthOf(slip), setting)} off is ${value(angleOf(slip / radius))}`,
        ),
      ],
      ...rayFacts,
    ],
    tables: [chordTable(tapeRadius, setting)],
    pictures: [layPicture(), tapePicture(tapeRadius, setting)],
    cautions: [
      say`The longer the leg, the truer the angle: past the end of the paper use the tape and the table.`,
    ],
  });
};

const tableAngles = [
  1, 2, 3, 4, 5, 10, 15, 20, 22.5, 25, 30, 35, 40, 45, 50, 55, 60, 65, 67.5, 70, 75, 80, 85, 90,
];

const chordTable = (radius: number, setting: Setting): Table => ({
  title: say`Chords on a radius of ${writeBoth(radius, setting)}`,
  header: [say`Angle`, say`across`],
  rows: tableAngles.map((degrees) => [
    angleOf(degrees * DEGREE),
    lengthOf(chordOf(radius, degrees * DEGREE)),
  ]),
});
