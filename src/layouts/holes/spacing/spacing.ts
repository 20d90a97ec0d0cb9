import type { Measured, Spot } from '../../../drawing/measured.ts';
import type { Fact, Sheet, Table } from '../../../drawing/model.ts';
import { needed, onlyOne } from '../../../fields/among.ts';
import type { Values } from '../../../fields/field.ts';
import { countField, lengthField, pipeField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { jointError } from '../../../issue.ts';
import { paperGirth } from '../../../sheets/band-paper.ts';
import { CHECK_PRINT, describePaper, describeStock } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { apart, endAt, ORIGIN, shown, taken } from '../../../sheets/measured.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { type Spacing, spacingFigures, spacingMarks } from './spacing-marks.ts';
import { countOf, fineOf, lengthOf } from '../../../units/quantity.ts';
import { worded } from '../../../drawing/worded.ts';
import { spacingPicture } from './spacing-picture.ts';

/** Closest marks a scriber can set apart, mm. */
const CLOSEST = 1;

const fields = {
  length: lengthField('straight length from end to end', {
    example: '2400mm',
    above: 0,
    max: 100_000,
    optional: true,
  }),
  girth: lengthField('girth the strip is wrapped around', {
    example: '28in',
    above: 0,
    max: 100_000,
    optional: true,
  }),
  pipe: pipeField('pipe the strip is wrapped around, instead of its girth', { optional: true }),
  parts: countField('number of equal parts', { example: '16', min: 1, max: 2000 }),
  first: lengthField('from the start to the first mark', { default: '0mm', example: '50mm', max: 100_000 }),
  last: lengthField('from the last mark to the end', { default: '0mm', example: '50mm', max: 100_000 }),
  punchLine: lengthField('crosses to punch on a line this far from the edge that is marked along', {
    example: '30mm',
    min: 20,
    max: 1000,
    optional: true,
  }),
} as const;

type Asked = Values<typeof fields>;

/** A strip with equal parts. The sheet's origin is the strip's start on the edge that is marked along; x runs along it. */
export const spacing = defineLayout({
  id: 'spacing',
  summary: 'strip with equal parts of a length or a girth, with first and last allowances',
  family: 'holes and spacing',
  words: ['equal parts', 'pitch', 'rungs', 'pickets', 'divide a length', 'balusters', 'stitch'],
  fields,
  examples: [
    'spacing --girth 28in --parts 16',
    'spacing --length 2400mm --parts 18 --first 60mm --last 60mm',
    'spacing --pipe "NPS 6 sch 40" --parts 8 --punch-line 2in -o strip.pdf',
  ],
  draw: (asked, setting) => {
    const strip = readSpacing(asked, setting);
    return [drawSheet(strip, asked.pipe, setting)];
  },
});

const readSpacing = (asked: Asked, setting: Setting): Spacing => {
  const { parts, first, last, punchLine } = asked;
  const both = (length: number): string => writeBoth(length, setting);
  const { length, girth, pipe } = asked;
  const one = say`give one of length, girth and pipe`;
  onlyOne({ length, girth, pipe }, one);
  const total = needed('length', length ?? girth ?? pipe?.girth, one);
  if (first + last >= total)
    throw jointError(
      first >= total ? 'first' : 'last',
      'nothing-to-part',
      say`first and last, ${both(first + last)} together, leave nothing of ${both(total)}`,
      say`together they must be less than ${both(total)}`,
    );
  const part = (total - first - last) / parts;
  if (part < CLOSEST)
    throw jointError(
      'parts',
      'parts-too-small',
      say`${parts} parts are ${both(part)} each, too close to mark`,
      say`at most ${Math.floor((total - first - last) / CLOSEST)} parts of ${both(CLOSEST)}`,
    );
  const wraps = asked.length === undefined;
  const stretch = wraps ? paperGirth(total, setting.paperThickness) / total : 1;
  return { total, parts, first, last, part, wraps, stretch, punchLine };
};

/** Distances of all marks from the start, on the steel. */
const placesOf = ({ first, part, parts }: Spacing): readonly number[] =>
  Array.from({ length: parts + 1 }, (_, i) => first + i * part);

/** True where the last mark falls on the first. */
const closesAround = ({ wraps, first, last }: Spacing): boolean => wraps && first + last === 0;

const spacingFacts = (strip: Spacing): readonly Fact[] => {
  const { total, parts, first, part, wraps, stretch } = strip;
  const diameter = total / Math.PI;
  const at = (i: number): Spot => endAt('station', (first + i * part) * stretch, 0);
  /** From mark to mark on the steel. */
  const ticks = (from: number, to: number): Measured => taken(apart(at(from), at(to), 'x'), 1 / stretch);
  /** From its start to its end, or to the seam. */
  const whole = taken(
    apart(ORIGIN, endAt(wraps ? 'reference' : 'cut', total * stretch, 0), 'x'),
    1 / stretch,
  );
  const onFirst = closesAround(strip) ? say`; the last, ${parts}, falls on 0` : '';
  return [
    [wraps ? say`Circumference (tape check)` : say`Length`, shown(lengthOf(total), whole)],
    [say`Each part`, shown(fineOf(part), ticks(0, 1))],
    [say`First mark to last`, shown(lengthOf(part * parts), ticks(0, parts))],
    [say`Marks`, worded((value) => `${value(countOf(parts + 1))}${onFirst}`)],
    ...(wraps
      ? ([
          [say`Diameter for this girth`, shown(lengthOf(diameter), taken(whole, 1 / Math.PI))],
          [say`One part straight across, for dividers`, fineOf(diameter * Math.sin(part / diameter))],
        ] as const)
      : []),
  ];
};

const drawSheet = (strip: Spacing, pipe: Pipe | undefined, setting: Setting): Sheet => {
  const { total, parts, first, last, wraps, stretch, punchLine } = strip;
  const both = (length: number): string => writeBoth(length, setting);
  const fine = (length: number): string => writeBoth(length, { ...setting, denominator: 64 });
  const diameter = total / Math.PI;
  const closes = closesAround(strip);
  return plateSheet({
    name: 'spacing',
    heading: wraps ? say`Spacing strip, to wrap` : say`Spacing strip`,
    subject: [
      wraps
        ? say`${parts} equal parts of a girth of ${both(total)}`
        : say`${parts} equal parts of a length of ${both(total)}`,
      ...(pipe ? [describeStock(pipe, setting)] : []),
      first + last === 0
        ? say`From end to end, no allowances`
        : say`First mark ${writeGiven(first, setting)} from the start, last ${writeGiven(last, setting)} from the end`,
      ...(wraps
        ? [
            `${describePaper(setting)}${
              stretch === 1
                ? ''
                : say`: flat, the sheet is ${fine(total * (stretch - 1))} longer than the girth`
            }`,
          ]
        : []),
    ],
    marks: spacingMarks(strip, setting),
    fit: fitFlat(spacingFigures(strip)),
    steps: [
      CHECK_PRINT(),
      wraps
        ? say`Check the stock: a tape around it reads ${both(total)}. If not, print again with the girth you read.`
        : say`Check the stock: a tape along it reads ${both(total)}. If not, print again with the length you read.`,
      say`Cut along the upper edge and the ends.`,
      ...(wraps
        ? [
            say`Wrap the strip printed side out. The upper edge must meet itself at the seam; tape it down.`,
            say`Mark every tick at the edge and number the marks. Carry them along the pipe with an angle bar as a straightedge.`,
          ]
        : [
            say`Lay the edge along the line with its start on the end of the stock, tape it down.`,
            say`Mark every tick at the edge. Square the marks across.`,
          ]),
      ...(punchLine === undefined
        ? []
        : [say`Prick and punch through the crosses, ${both(punchLine)} below the edge.`]),
      say`Without the strip: hold the tape at the start once and mark by the table. Stepped parts add their errors up.`,
      ...(wraps && closes
        ? [
            say`With dividers: set them to ${fine(diameter * Math.sin(Math.PI / parts))} straight across, step around, change the setting by 1/${parts} of what is left or over, step again.`,
          ]
        : []),
    ],
    facts: spacingFacts(strip),
    tables: [placeTable(strip, setting)],
    pictures: [spacingPicture(strip, setting)],
  });
};

/** Every mark, or every tenth where there are very many. */
const placeTable = (strip: Spacing, { denominator }: Setting): Table => {
  const every = strip.parts > 200 ? 10 : 1;
  const parts = denominator === 64 ? 64 : 32;
  return {
    title:
      every === 1 ? say`By tape, all from the start` : say`By tape, all from the start: every tenth mark`,
    header: [say`Mark`, say`from start`],
    rows: placesOf(strip).flatMap((place, i) =>
      i % every === 0 || i === strip.parts
        ? [
            [
              `${i}`,
              shown(
                fineOf(place, 1, parts),
                taken(apart(ORIGIN, endAt('station', place * strip.stretch, 0), 'x'), 1 / strip.stretch),
              ),
            ],
          ]
        : [],
    ),
  };
};
