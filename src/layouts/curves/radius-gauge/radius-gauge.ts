import { contourPath } from '../../../drawing/contour-path.ts';
import { textWidth } from '../../../drawing/lettering.ts';
import type { Mark, Sheet } from '../../../drawing/model.ts';
import { letter, NARROW, ruleLine } from '../../../drawing/paths.ts';
import { mustBeAtLeast, mustBeAtMost, mustBeLess } from '../../../fields/among.ts';
import { choiceField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { angleOfChord, riseOfChord } from '../../../geometry/chord.ts';
import { arcEdge, type Contour, lineEdge } from '../../../geometry/contour.ts';
import { vec2 } from '../../../geometry/vector.ts';
import {
  type ChordArc,
  heightOf,
  lightTable,
  ordinateMarks,
  ordinateTable,
  rolledFacts,
  roundStep,
} from '../../../sheets/arcs.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { contourFigures, fitFlat } from '../../../sheets/fit-record.ts';
import { drawOutline, onPaper } from '../../../sheets/flat-marks.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { apart, endAt, ends, ofArc, shown, taken, uprightAt } from '../../../sheets/measured.ts';
import { fineOf, givenOf, lengthOf, writeOnce, writeQuantity } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven } from '../../../units/writing.ts';
import { say, translate } from '../../../words/say.ts';
import { gaugePicture } from './gauge-picture.ts';

/** What is asked of a gauge, mm. */
interface Gauge extends ChordArc {
  readonly side: 'inside' | 'outside';
  readonly depth: number;
  readonly step: number;
  readonly thickness?: number;
}

/** A gauge for a rolled face. The sheet's origin is the center of the circle; the gauge stands above it. */
export const radiusGauge = defineLayout({
  id: 'radius-gauge',
  summary: 'gauge for the inside or outside of a rolled plate, with ordinates from its chord',
  family: 'curves',
  words: ['rolling', 'rolled plate', 'sweep', 'shell', 'template', 'crown'],
  fields: {
    radius: lengthField('radius of the face the gauge lies against', {
      example: '600mm',
      above: 0,
      max: 1_000_000,
    }),
    side: choiceField('the face it lies against: inside is a round gauge, outside a hollow one', [
      'inside',
      'outside',
    ]),
    chord: lengthField('straight length of the gauge from end to end; left out, what one page holds', {
      example: '400mm',
      above: 0,
      optional: true,
    }),
    depth: lengthField('width of the gauge where it is narrowest', {
      default: '30mm',
      example: '40mm',
      min: 5,
      max: 1000,
    }),
    step: lengthField('distance between ordinates', { example: '20mm', min: 1, max: 10_000, optional: true }),
    thickness: lengthField('thickness of the plate, for the length it is cut to', {
      example: '10mm',
      above: 0,
      optional: true,
    }),
  },
  examples: [
    'radius-gauge --radius 600mm --side inside',
    'radius-gauge --radius 24in --side outside --chord 16in --thickness 3/8in -o gauge.pdf',
  ],
  draw: (asked, setting) => {
    const gauge = readGauge(asked, setting);
    return [drawSheet(gauge, setting)];
  },
});

/** Rise of a gauge's arc that a reading is worth something by, mm. */
const LEAST_RISE = 10;
/** Light of this height is seen for certain: 1/64 in, mm. */
const READING = 25.4 / 64;

const readGauge = (
  asked: Pick<Gauge, 'radius' | 'side' | 'depth' | 'thickness'> & { chord?: number; step?: number },
  setting: Setting,
): Gauge => {
  const { radius, side, thickness } = asked;
  mustBeAtMost('chord', asked.chord, 2 * radius, say`is longer than the diameter`, setting);
  mustBeAtLeast(
    'chord',
    asked.chord,
    READING < radius ? 2 * Math.sqrt((2 * radius - READING) * READING) : 0,
    say`rises less than 1/64 in, which shows nothing of the radius`,
    setting,
  );
  if (side === 'outside')
    mustBeLess('thickness', thickness, radius, say`leaves no inside within the radius`, setting);
  const round = setting.units === 'in' ? 25.4 / 4 : 5;
  // At least this rise, so that the light under the gauge says something of the radius.
  const usual = Math.min(1.6 * radius, Math.max(180, Math.sqrt(8 * radius * LEAST_RISE)));
  const chord = asked.chord ?? (usual > 2 * round ? Math.floor(usual / round) * round : usual);
  const step = asked.step ?? roundStep(chord / 2, setting);
  mustBeAtLeast('step', step, chord / 1000, say`makes more than 1000 ordinates`, setting);
  return { ...asked, chord, rise: riseOfChord(radius, chord), step };
};

/** The gauge's outline, counter-clockwise, the circle's center at the origin. */
const gaugeContour = ({ radius, chord, rise, side, depth }: Gauge): Contour => {
  const half = angleOfChord(radius, chord) / 2;
  const top = Math.PI / 2;
  const foot = radius - rise;
  const [x, base] = [chord / 2, side === 'inside' ? foot - depth : radius + depth];
  const arc =
    side === 'inside'
      ? arcEdge(vec2(0, 0), radius, top - half, 2 * half)
      : arcEdge(vec2(0, 0), radius, top + half, -2 * half);
  // Inside: over the top from right to left, then down and back. Outside: from left to right, then up and back.
  const end = side === 'inside' ? -1 : 1;
  return [
    arc,
    lineEdge(arc.to, vec2(end * x, base)),
    lineEdge(vec2(end * x, base), vec2(-end * x, base)),
    lineEdge(vec2(-end * x, base), arc.from),
  ];
};

/** The gauge's own words, as large as it has room for. */
const nameMarks = (gauge: Gauge, setting: Setting): Mark[] => {
  const { radius, chord, rise, side, depth } = gauge;
  const lines = [
    `R ${writeGiven(radius, setting)}`,
    side === 'inside' ? say`INSIDE of the plate` : say`OUTSIDE of the plate`,
  ];
  const room = chord - 8;
  const height = [5, 3.5, 2.5].find((size) =>
    lines.every((line) => textWidth(line, size, true) <= room && 3.6 * size + 14 <= depth),
  );
  if (height === undefined) return [];
  const low = side === 'inside' ? radius - rise - depth + 3 : radius + depth - 3 - 2.6 * height;
  return lines.flatMap((line, i) =>
    onPaper(
      letter('text', vec2(0, low + (1 - i) * 1.6 * height), line, height, { align: 'centre', bold: i === 0 }),
    ),
  );
};

const drawSheet = (gauge: Gauge, setting: Setting): Sheet => {
  const { radius, chord, rise, side, depth, step, thickness } = gauge;
  const both = (length: number): string => writeBoth(length, setting);
  const convex = side === 'inside';
  const foot = radius - rise;
  const half = angleOfChord(radius, chord) / 2;
  const curve = { centre: vec2(0, 0), radius, from: Math.PI / 2 - half, sweep: 2 * half };
  const [low, high] = convex ? [foot - depth, radius] : [foot, radius + depth];
  return plateSheet({
    name: 'radius gauge',
    heading: say`Radius gauge`,
    subject: [
      convex
        ? say`For the inside of a plate rolled to inside radius ${writeGiven(radius, setting)}`
        : say`For the outside of a plate rolled to outside radius ${writeGiven(radius, setting)}`,
      convex
        ? say`Round gauge, ${both(chord)} from end to end`
        : say`Hollow gauge, ${both(chord)} from end to end`,
    ],
    fit: fitFlat(contourFigures(gaugeContour(gauge))),
    marks: [
      drawOutline(contourPath(gaugeContour(gauge))),
      ruleLine('centre', vec2(0, low - 4), vec2(0, high + 4), NARROW, 'long-dash-dot'),
      ...ordinateMarks(gauge, vec2(0, foot), step, setting),
      ...nameMarks(gauge, setting),
    ],
    steps: [
      CHECK_PRINT(),
      say`Glue the sheet on card, plywood or sheet metal. Cut close to the line and file to it.`,
      convex
        ? say`Check the gauge: ${both(chord)} from end to end, ${writeQuantity(heightOf(rise, rise), setting)} from there to the top.`
        : say`Check the gauge: ${both(chord)} from end to end, ${writeQuantity(heightOf(rise, rise), setting)} from there to the bottom of the hollow.`,
      say`Hold it across the roll, square to the ${translate(side)} face, away from flat ends. Look for light.`,
      convex
        ? say`Light in the middle: rolled too tight; at both ends: too flat. The table gives the radius it has.`
        : say`Light in the middle: rolled too flat; at both ends: too tight. The table gives the radius it has.`,
      say`Try both edges of the plate: where they differ, the rolls are not parallel.`,
    ],
    facts: [
      [convex ? say`Inside radius` : say`Outside radius`, shown(givenOf(radius), ofArc('radius', curve))],
      [say`Diameter`, shown(lengthOf(2 * radius), taken(ofArc('radius', curve), 2))],
      [say`Chord, end to end`, shown(lengthOf(chord), ends(vec2(-chord / 2, foot), vec2(chord / 2, foot)))],
      [
        say`Rise in the middle`,
        shown(heightOf(rise, rise), apart(endAt('cut', chord / 2, foot), uprightAt('cut', 0, radius), 'y')),
      ],
      [
        say`${writeOnce(fineOf(READING), setting)} of light: radius off by`,
        lengthOf((radius * READING) / rise),
      ],
      ...rolledFacts(radius, side, thickness, undefined),
    ],
    tables: [
      // For laying the gauge out by hand: the print does without.
      { ...ordinateTable(gauge, step, undefined, vec2(0, foot)), ifRoom: true as const },
      lightTable(gauge, convex, setting),
    ],
    pictures: [gaugePicture(convex, 'middle'), gaugePicture(convex, 'ends')],
    cautions: [
      say`Plate springs back: read the gauge with the plate out of the rolls or the top roll lifted.`,
    ],
  });
};
