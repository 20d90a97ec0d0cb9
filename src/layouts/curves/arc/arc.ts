import type { Fact, Sheet, Table } from '../../../drawing/model.ts';
import { mustBeAtLeast, mustBeAtMost, mustBeLess } from '../../../fields/among.ts';
import type { Values } from '../../../fields/field.ts';
import { angleField, choiceField, countField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { TURN } from '../../../geometry/angle-units.ts';
import { type Arc, arcByAngle, arcPoint, solveArc } from '../../../geometry/chord-arc.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { jointError, requestError } from '../../../issue.ts';
import { heightOf, ordinateTable, rolledFacts, roundStep } from '../../../sheets/arcs.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { apart, endAt, ends, ofArc, shown, uprightAt } from '../../../sheets/measured.ts';
import { writeAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { arcFigures, arcMarks, type DrawnArc, isShallow } from './arc-marks.ts';
import { angleOf, fineOf, lengthOf, writeQuantity } from '../../../units/quantity.ts';
import { worded } from '../../../drawing/worded.ts';
import { arcPicture } from './arc-picture.ts';

/** Flatter arcs are straight lines for any tool, mm. */
const LARGEST = 10_000_000;

const figure = (help: string, example: string) =>
  lengthField(help, { example, above: 0, max: 1_000_000, optional: true });

const fields = {
  chord: figure('straight length from end to end', '3000mm'),
  rise: figure('from the middle of the chord to the arc', '120mm'),
  radius: figure('radius', '9435mm'),
  angle: angleField('angle of the arc at its center', {
    example: '18',
    above: 0,
    below: TURN,
    optional: true,
  }),
  segments: countField('equal segments the arc is struck in; one of them is drawn', {
    default: '1',
    example: '12',
    min: 1,
    max: 1000,
  }),
  width: lengthField('width of a curved strip along the arc', {
    example: '80mm',
    above: 0,
    max: 5000,
    optional: true,
  }),
  widen: choiceField('the strip lies within the arc, toward its center, or outside it', ['in', 'out'], {
    default: 'in',
  }),
  step: lengthField('distance between ordinates', {
    example: '100mm',
    min: 1,
    max: 10_000,
    optional: true,
  }),
  thickness: lengthField('thickness of plate rolled to the arc, for the length it is cut to', {
    example: '10mm',
    above: 0,
    max: 1000,
    optional: true,
  }),
  face: choiceField('the face of the rolled plate the arc is', ['outside', 'inside'], {
    default: 'outside',
  }),
} as const;

type Asked = Values<typeof fields>;

/** An arc by two of its figures. The sheet's origin is the middle of its chord, which may be far from its center. */
export const arc = defineLayout({
  id: 'arc',
  summary: 'arc of any size by two of chord, rise, radius and angle (origin at the chord’s middle)',
  family: 'curves',
  words: ['large radius', 'camber', 'trammel', 'rise', 'sweep', 'chord'],
  fields,
  examples: [
    'arc --chord 16in --rise 6in',
    'arc --radius 60in --rise 8in --thickness 1/2in',
    'arc --chord 6m --rise 250mm --segments 24 --width 100mm -o arc.pdf',
  ],
  draw: (asked, setting) => {
    const whole = readArc(asked, setting);
    const { segments, width, widen } = asked;
    const drawn = segments === 1 ? whole : arcByAngle(whole.radius, whole.angle / segments);
    const step = asked.step ?? roundStep(drawn.chord / 2, setting);
    mustBeAtLeast('step', step, drawn.chord / 1000, say`makes more than 1000 ordinates`, setting);
    const strip = width === undefined ? undefined : { width, inward: widen === 'in' };
    return [drawSheet({ ...drawn, segments, strip, step }, whole, asked, setting)];
  },
});

const readArc = (asked: Asked, setting: Setting): Arc => {
  const { chord, rise, radius, width, widen, thickness, face } = asked;
  const both = (length: number): string => writeBoth(length, setting);
  const names = (['chord', 'rise', 'radius', 'angle'] as const).filter((name) => asked[name] !== undefined);
  const diameter = radius === undefined ? undefined : 2 * radius;
  mustBeAtMost('chord', chord, diameter, say`is longer than the diameter`, setting);
  mustBeLess('rise', rise, diameter, say`is not less than the diameter`, setting);
  const found = solveArc(asked);
  if (!found)
    throw requestError(
      names[0] ?? 'chord',
      'not-two-figures',
      names.length === 0
        ? say`no figure of the arc is given`
        : say`${names.join(', ')} given: an arc has two figures`,
      say`give two of chord, rise, radius and angle`,
    );
  if (!(found.radius <= LARGEST))
    throw jointError(
      names[0] ?? 'chord',
      'arc-too-flat',
      say`the radius comes to ${both(found.radius)}: practically straight`,
      say`the radius is at most ${both(LARGEST)}`,
    );
  if (widen === 'in') mustBeLess('width', width, found.radius, say`does not fit within the radius`, setting);
  if (face === 'outside')
    mustBeLess('thickness', thickness, found.radius, say`leaves no inside within the radius`, setting);
  return found;
};

/** A drawn arc that rises less tells nothing of its radius: the last digits in a print are too coarse for that, mm. */
const LEAST_RISE = 0.05;

/** What of an arc is measured on the drawing: the curve, its ends, and its middle over them. */
const shownOn = (drawn: DrawnArc) => {
  const curve = {
    centre: { x: 0, y: drawn.rise - drawn.radius },
    radius: drawn.radius,
    from: Math.PI / 2 - drawn.angle / 2,
    sweep: drawn.angle,
  };
  const arcEnds = [-1, 1].map((side) => arcPoint(drawn, (side * drawn.angle) / 2)) as [Vec2, Vec2];
  const topOf = apart(endAt('cut', arcEnds[1].x, arcEnds[1].y), uprightAt('cut', 0, drawn.rise), 'y');
  return { curve, arcEnds, topOf };
};

/** Where the arc is halved between its middle and its ends. */
const halfwayFact = (whole: Arc): Fact => {
  const { x, y } = arcPoint(whole, whole.angle / 4);
  return [
    say`Halfway along the arc to each end`,
    worded((value) => say`${value(lengthOf(Math.abs(x)))} along, ${value(heightOf(y, whole.rise))} up`),
  ];
};

const describeStrip = (
  { width, inward }: { readonly width: number; readonly inward: boolean },
  setting: Setting,
): string =>
  inward
    ? say`A strip ${writeBoth(width, setting)} wide, within the arc`
    : say`A strip ${writeBoth(width, setting)} wide, outside the arc`;

const drawSheet = (drawn: DrawnArc, whole: Arc, asked: Asked, setting: Setting): Sheet => {
  const { segments, strip } = drawn;
  const both = (length: number): string => writeBoth(length, setting);
  const fine = (height: number): string => writeQuantity(heightOf(height, height), setting);
  const parted = segments > 1;
  const { radius } = whole;
  const { curve, arcEnds, topOf } = shownOn(drawn);
  return plateSheet({
    name: 'arc',
    heading: parted ? say`Arc segment` : say`Arc`,
    subject: [
      say`Radius ${both(radius)}, chord ${both(whole.chord)}, rise ${fine(whole.rise)}`,
      parted
        ? say`One of ${segments} equal segments of ${writeAngle(drawn.angle)}`
        : say`Angle at the center ${writeAngle(whole.angle)}`,
      ...(strip ? [describeStrip(strip, setting)] : []),
    ],
    marks: arcMarks(drawn, setting),
    fit: fitFlat(arcFigures(drawn)),
    steps: [
      CHECK_PRINT(),
      say`Check the sheet: ${both(drawn.chord)} straight from end to end of the arc${
        isShallow(drawn) ? say`, ${fine(drawn.rise)} from there to its middle` : ''
      }.`,
      say`Strike a straight line. Mark the whole chord on it, ${both(whole.chord)}, and its middle; square up the rise, ${fine(whole.rise)}.`,
      ...(parted
        ? [
            say`Mark all joints from the chord by the table. Never step the segment from one end: errors add up.`,
            say`Lay the segment between two joints, strike along it, go on to the next.`,
          ]
        : [
            strip
              ? say`Lay the sheet with the ends of its arc on the chord’s ends and its middle on the rise. Mark around it.`
              : say`Lay the sheet with the ends of its arc on the chord’s ends, its middle on the rise. Prick along the arc.`,
            say`Take the sheet off. Bend a batten through the marks and strike the arc.`,
          ]),
      ...(radius <= 3000
        ? [
            say`Or by trammel, ${both(radius)} from a center on the middle line, ${both(Math.abs(radius - whole.rise))} ${
              whole.rise > radius ? say`above` : say`below`
            } the chord.`,
          ]
        : []),
    ],
    facts: [
      [say`Radius`, shown(lengthOf(radius), drawn.rise < LEAST_RISE ? undefined : ofArc('radius', curve))],
      [say`Chord, end to end`, shown(lengthOf(whole.chord), parted ? undefined : ends(...arcEnds))],
      [say`Rise in the middle`, shown(heightOf(whole.rise, whole.rise), parted ? undefined : topOf)],
      halfwayFact(whole),
      [say`Angle`, shown(angleOf(whole.angle), parted || strip ? undefined : ofArc('angle', curve))],
      [
        say`Length along the arc`,
        shown(lengthOf(radius * whole.angle), parted ? undefined : ofArc('length', curve)),
      ],
      ...(parted
        ? ([
            [say`One segment, joint to joint`, shown(lengthOf(drawn.chord), ends(...arcEnds))],
            [say`Rise of one segment`, shown(heightOf(drawn.rise, drawn.rise), topOf)],
          ] as const)
        : []),
      ...rolledFacts(radius, asked.face, asked.thickness, whole.angle),
    ],
    tables: [
      ...(parted ? [pointTable(whole, segments, say`Joints, from the middle of the whole chord`)] : []),
      drawn.rise <= drawn.radius
        ? ordinateTable(drawn, drawn.step)
        : pointTable(drawn, 24, say`Points along the arc, from the middle of its chord`),
    ],
    pictures: [arcPicture(whole, segments, setting)],
  });
};

/** Points that part an arc equally, from the top to one end; the other side is the same. */
const pointTable = (whole: Arc, parts: number, title: string): Table => {
  const turns = Array.from({ length: parts + 1 }, (_, i) => (whole.angle * (2 * i - parts)) / (2 * parts));
  return {
    title,
    header: [say`± along`, say`up`],
    rows: turns
      .filter((turn) => turn > -1e-12)
      .map((turn) => {
        const { x, y } = arcPoint(whole, turn);
        return [fineOf(Math.abs(x)), fineOf(Math.max(0, y))];
      }),
  };
};
