import type { SheetFit } from '../../../drawing/fit-up.ts';
import type { Table } from '../../../drawing/model.ts';
import { mustBeAtMost } from '../../../fields/among.ts';
import { angleField, flagField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { TURN, modulo } from '../../../geometry/angle-units.ts';
import { itemAt } from '../../../lists.ts';
import { polar2 } from '../../../geometry/vector.ts';
import { requestError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { apart, crossAt, levelAt, ofArc, shown, taken, uprightAt } from '../../../sheets/measured.ts';
import { stationNumber } from '../../../stock/station.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { centerMarks, punchedRings, type Overlay } from './center-marks.ts';
import { givenOf, lengthOf } from '../../../units/quantity.ts';
import { centerPicture } from './center-picture.ts';

/** An overlay whose windows show the stock's edge all round: where it is even, the middle is the center. */
export const center = defineLayout({
  id: 'center',
  summary:
    'overlay that finds the center of a disc, hole, flange or pipe end, with rings, degrees and punch marks',
  family: 'centers',
  words: ['centerpoint', 'middle', 'disc', 'flange', 'shaft', 'pipe end', 'rings'],
  fields: {
    diameter: lengthField('diameter of the disc, hole or pipe end', {
      example: '168.3mm',
      above: 0,
      max: 5000,
    }),
    rings: lengthField('diameters of circles to mark about the center', {
      example: '50mm,100mm',
      above: 0,
      list: true,
      optional: true,
    }),
    ringStep: lengthField('thin circles every so much of diameter', {
      example: '25mm',
      min: 2,
      optional: true,
    }),
    punch: angleField(
      'degrees to punch, counter-clockwise from 0° at the right: on each ring, or on the edge itself',
      { example: '0,90,180,270', list: true, optional: true },
    ),
    windows: flagField('windows to cut out, through which the edge shows', { default: 'yes' }),
  },
  examples: [
    'center --diameter 168.3mm --rings 50mm,100mm --punch 0,90,180,270',
    'center --diameter 0.84in',
    'center --diameter 600mm --ring-step 100mm --punch 22.5,67.5 --paper a3 -o center.pdf',
  ],
  draw: ({ diameter, rings = [], ringStep, punch = [], windows }, setting) => {
    const overlay: Overlay = {
      diameter,
      rings: [...rings].sort((a, b) => a - b),
      steps: ringStep === undefined ? [] : listSteps(diameter, ringStep),
      punch: punch.map((angle) => modulo(angle, TURN)),
      windows,
    };
    checkRings(overlay, setting);
    return [drawSheet(overlay, setting)];
  },
});

const listSteps = (diameter: number, step: number): readonly number[] => {
  const count = Math.ceil(diameter / step - 1e-9) - 1;
  if (count > 200)
    throw requestError(
      'ring-step',
      'too-many',
      say`${count} circles are asked for`,
      say`take a wider step: a sheet has at most 200`,
    );
  return Array.from({ length: count }, (_, i) => (i + 1) * step);
};

const checkRings = ({ diameter, rings, punch }: Overlay, setting: Setting): void => {
  const both = (length: number): string => writeBoth(length, setting);
  mustBeAtMost('rings', Math.max(0, ...rings), diameter + 1e-9, say`does not fit on the diameter`, setting);
  const twin = rings.find((ring, i) => i > 0 && ring - itemAt(rings, i - 1) < 0.2);
  if (twin !== undefined)
    throw requestError(
      'rings',
      'same-ring',
      say`the ring ⌀ ${both(twin)} is given twice`,
      say`give each ring once`,
    );
  const sorted = [...punch].sort((a, b) => a - b);
  const double = sorted.find((angle, i) => i > 0 && angle - itemAt(sorted, i - 1) < 1e-6);
  if (double !== undefined)
    throw requestError(
      'punch',
      'same-degree',
      say`${formatAngle(double)} is given twice`,
      say`give each degree once`,
    );
};

const drawSheet = (overlay: Overlay, setting: Setting) => {
  const { diameter, rings, punch } = overlay;
  const given = (length: number): string => writeGiven(length, setting);
  const both = (length: number): string => writeBoth(length, setting);
  const edge = { centre: { x: 0, y: 0 }, radius: diameter / 2 };
  return plateSheet({
    name: 'center',
    heading: say`Center overlay`,
    subject: [
      say`For ⌀ ${given(diameter)}: disc, hole, flange or pipe end`,
      ...(rings.length > 0 ? [say`Rings ${rings.map((ring) => `⌀ ${given(ring)}`).join(', ')}`] : []),
      say`Degrees counter-clockwise from 0° at the right${punch.length > 0 ? say`; punch at ${punch.map((angle) => stationNumber(angle)).join(', ')}` : ''}`,
    ],
    marks: centerMarks(overlay, setting),
    fit: fitOverlay(overlay),
    steps: [
      CHECK_PRINT(),
      say`Measure the stock two ways: ${given(diameter)} both times. If the two differ it is out of round: share the difference out evenly.`,
      ...(overlay.windows
        ? [
            say`Cut out the windows. Lay the sheet on the face and move it until the edge meets the line at both ends of every window. Tape it down.`,
          ]
        : [say`Lay the sheet on the face and feel the edge through the paper all around. Tape it down.`]),
      say`A hole or pipe end: first wedge a bar across it, flush with the face, to carry the center mark.`,
      say`Prick the center with a pin through the cross in the small ring; prick the other crosses. Lift the sheet, punch.`,
      say`Check with dividers: from the center mark to the edge ${both(diameter / 2)} on all four quarter lines.`,
    ],
    facts: [
      [say`Diameter`, shown(givenOf(diameter), taken(ofArc('radius', edge), 2))],
      [
        say`Center to edge`,
        shown(lengthOf(diameter / 2), apart(crossAt('punch', 0, 0), levelAt('cut', diameter / 2, 0))),
      ],
      [
        say`Around the edge, by tape`,
        shown(lengthOf(Math.PI * diameter), taken(ofArc('radius', edge), 2 * Math.PI)),
      ],
      [
        say`Quarter line to the next, straight across the edge`,
        shown(
          lengthOf(diameter * Math.SQRT1_2),
          apart(levelAt('cut', diameter / 2, 0), uprightAt('cut', 0, diameter / 2)),
        ),
      ],
    ],
    tables: punch.length > 0 ? [punchTable(overlay)] : [],
    pictures: [centerPicture(overlay.windows)],
  });
};

/** What proves the print: the edge and the rings, the center and the punch marks. */
const fitOverlay = (overlay: Overlay): SheetFit => {
  const centre = { x: 0, y: 0 };
  const { diameter, rings, punch } = overlay;
  return fitFlat({
    circles: [diameter, ...rings].map((size) => ({ centre, radius: size / 2 })),
    points: [
      centre,
      ...punchedRings(overlay).flatMap((ring) => punch.map((angle) => polar2(ring / 2, angle))),
    ],
  });
};

/** The chord from 0° to each punch mark on its ring, and the way round: dividers and tape without the sheet. */
const punchTable = (overlay: Overlay): Table => ({
  title: say`Punch marks, from 0° on the same ring: straight across, and around`,
  header: [say`Degree`, say`ring ⌀`, say`across`, say`around`],
  rows: punchedRings(overlay).flatMap((ring) =>
    overlay.punch.map((angle) => [
      stationNumber(angle),
      lengthOf(ring),
      lengthOf(ring * Math.sin(angle / 2)),
      lengthOf((ring * angle) / 2),
    ]),
  ),
});
