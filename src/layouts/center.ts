import { markBounds } from '../drawing/extent.ts';
import type { Mark, Table } from '../drawing/model.ts';
import {
  centreLines,
  CHECK_PRINT,
  circleBoxes,
  drawHole,
  drawOutline,
  drawPunch,
  drawTarget,
  plateSheet,
} from '../drawing/plate.ts';
import { degreeRing } from '../drawing/degree-ring.ts';
import { circlePath, FINE, letter, NARROW, ruleLine, stroke } from '../drawing/shape.ts';
import { polar2 } from '../geometry/vector.ts';
import { jointError, requestError } from '../issue.ts';
import { formatAngle } from '../units/angle.ts';
import { angleField, flagField, lengthField, listOf, optional } from './fields.ts';
import { centerPicture } from './center-picture.ts';
import { placeWindows, windowPath } from './center-windows.ts';
import { defineLayout, type Setting } from './layout.ts';
import { axisBoxes, labelRings } from './ring-parts.ts';
import { lengthCells, lengthColumns, stationNumber, writeBoth } from './wrap-parts.ts';

const TURN = 2 * Math.PI;
const ORIGIN = { x: 0, y: 0 };

/** An overlay whose windows show the stock's edge all round: where it is even, the middle is the center. */
export const center = defineLayout({
  id: 'center',
  summary:
    'overlay that finds the center of a disc, hole, flange or pipe end, with rings, degrees and punch marks',
  fields: {
    diameter: lengthField({
      help: 'diameter of the disc, hole or pipe end',
      example: '168.3mm',
      above: 0,
      max: 5000,
    }),
    rings: optional(
      listOf(
        lengthField({
          help: 'diameters of circles to mark about the center',
          example: '50mm,100mm',
          above: 0,
        }),
      ),
    ),
    ringStep: optional(
      lengthField({ help: 'thin circles every so much of diameter', example: '25mm', min: 2 }),
    ),
    punch: optional(
      listOf(
        angleField({
          help: 'degrees to punch, counter-clockwise from 0° at the right: on each ring, or on the edge itself',
          example: '0,90,180,270',
          min: -TURN,
          max: TURN,
        }),
      ),
    ),
    windows: flagField({ help: 'windows to cut out, through which the edge shows', default: 'yes' }),
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
      punch: punch.map((angle) => ((angle % TURN) + TURN) % TURN),
      windows,
    };
    checkRings(overlay, setting);
    return [drawSheet(overlay, setting)];
  },
});

/** What the overlay shows, mm and radians. */
interface Overlay {
  readonly diameter: number;
  readonly rings: readonly number[];
  readonly steps: readonly number[];
  readonly punch: readonly number[];
  readonly windows: boolean;
}

/** Where punch marks lie: on the rings, else on the edge. */
const punchedRings = ({ diameter, rings }: Overlay): readonly number[] =>
  rings.length > 0 ? rings : [diameter];

const listSteps = (diameter: number, step: number): readonly number[] => {
  const count = Math.ceil(diameter / step - 1e-9) - 1;
  if (count > 200)
    throw requestError(
      'ring-step',
      'too-many',
      `${count} circles are asked for`,
      'take a wider step: a sheet has at most 200',
    );
  return Array.from({ length: count }, (_, i) => (i + 1) * step);
};

const checkRings = ({ diameter, rings, punch }: Overlay, setting: Setting): void => {
  const both = (length: number): string => writeBoth(length, setting);
  const over = rings.find((ring) => ring > diameter + 1e-9);
  if (over !== undefined)
    throw jointError(
      'rings',
      'ring-too-large',
      `the ring ⌀ ${both(over)} does not fit on ⌀ ${both(diameter)}`,
      `a ring is at most ${both(diameter)}`,
    );
  const twin = rings.find((ring, i) => i > 0 && ring - (rings[i - 1] as number) < 0.2);
  if (twin !== undefined)
    throw requestError(
      'rings',
      'same-ring',
      `the ring ⌀ ${both(twin)} is given twice`,
      'give each ring once',
    );
  const sorted = [...punch].sort((a, b) => a - b);
  const double = sorted.find((angle, i) => i > 0 && angle - (sorted[i - 1] as number) < 1e-6);
  if (double !== undefined)
    throw requestError(
      'punch',
      'same-degree',
      `${formatAngle(double)} is given twice`,
      'give each degree once',
    );
};

/** Where the degree ring stands: clear outside the windows. */
const ringRadius = (overlay: Overlay): number =>
  overlay.diameter / 2 + placeWindows(overlay.diameter).reach + 1.5;

const drawSheet = (overlay: Overlay, setting: Setting) => {
  const { diameter, rings, punch } = overlay;
  const both = (length: number): string => writeBoth(length, setting);
  return plateSheet({
    name: 'center',
    heading: 'Center overlay',
    subject: [
      `For ⌀ ${both(diameter)}: disc, hole, flange or pipe end`,
      ...(rings.length > 0 ? [`Rings ${rings.map((ring) => `⌀ ${both(ring)}`).join(', ')}`] : []),
      `Degrees counter-clockwise from 0° at the right${punch.length > 0 ? `; punch at ${punch.map(stationNumber).join(', ')}` : ''}`,
    ],
    marks: drawMarks(overlay, setting),
    steps: [
      CHECK_PRINT,
      `Measure the stock two ways: ${both(diameter)} both times. If the two differ it is out of round: share the difference out evenly.`,
      ...(overlay.windows
        ? [
            'Cut out the windows. Lay the sheet on the face and move it until the edge meets the line at both ends of every window. Tape it down.',
          ]
        : ['Lay the sheet on the face and feel the edge through the paper all round. Tape it down.']),
      'A hole or pipe end: first wedge a bar across it, flush with the face, to carry the center mark.',
      'Prick the center with a pin through the cross in the small ring; prick the other crosses. Lift the sheet, punch.',
      `Check with dividers: from the center mark to the edge ${both(diameter / 2)} on all four quarter lines.`,
    ],
    facts: [
      ['Diameter', both(diameter)],
      ['Center to edge', both(diameter / 2)],
      ['Round the edge, by tape', both(Math.PI * diameter)],
      ['Quarter line to the next, straight across the edge', both(diameter * Math.SQRT1_2)],
    ],
    tables: punch.length > 0 ? [punchTable(overlay, setting)] : [],
    pictures: [centerPicture(overlay.windows)],
  });
};

/** The chord from 0° to each punch mark on its ring, and the way round: dividers and tape without the sheet. */
const punchTable = (overlay: Overlay, setting: Setting): Table => ({
  title: 'Punch marks, from 0° on the same ring: straight across, and round',
  header: [
    'Degree',
    ...lengthColumns('ring ⌀', setting),
    ...lengthColumns('across', setting),
    ...lengthColumns('round', setting),
  ],
  rows: punchedRings(overlay).flatMap((ring) =>
    overlay.punch.map((angle) => [
      stationNumber(angle),
      ...lengthCells(ring, setting),
      ...lengthCells(ring * Math.sin(angle / 2), setting),
      ...lengthCells((ring * angle) / 2, setting),
    ]),
  ),
});

const drawMarks = (overlay: Overlay, setting: Setting): Mark[] => {
  const { diameter, rings, steps, punch } = overlay;
  const radius = diameter / 2;
  const base = ringRadius(overlay);
  const target = Math.min(2, radius / 6);
  const free = steps.filter((step) => [...rings, diameter].every((ring) => Math.abs(ring - step) > 0.2));
  const degrees = degreeRing({ centre: ORIGIN, radius: base, side: 1 });
  const outer = base + 5 + 1 + 4.5;
  const crosses = punchedRings(overlay).flatMap((ring) =>
    punch.flatMap((angle) => drawPunch(polar2(ring / 2, angle), ring === diameter ? 2 : 2.5)),
  );
  const taken = [
    ...axisBoxes(base),
    ...rings.flatMap((ring) => circleBoxes(ORIGIN, ring)),
    ...free.flatMap((ring) => circleBoxes(ORIGIN, ring)),
    ...circleBoxes(ORIGIN, diameter),
    ...crosses.map(markBounds),
    ...punch.flatMap((angle) => rayBoxes(angle, base)),
  ];
  return [
    ...free.map((ring) => stroke('reference', circlePath(ORIGIN, ring / 2), FINE)),
    ...centreLines(ORIGIN, base, base),
    ...punch.map((angle) => ruleLine('station', polar2(3 * target, angle), polar2(base, angle), NARROW)),
    ...rings.filter((ring) => ring !== diameter).map((ring) => drawHole(ORIGIN, ring)),
    drawHole(ORIGIN, diameter),
    ...(overlay.windows
      ? placeWindows(diameter).spans.map((span) => drawOutline(windowPath(diameter, span)))
      : []),
    ...degrees,
    ...punch.map((angle) =>
      letter('text', polar2(outer + 4, angle), stationNumber(angle), 3.5, {
        align: 'centre',
        valign: 'middle',
        bold: true,
      }),
    ),
    ...labelRings(
      [
        ...free.map((ring) => ({ diameter: ring, text: writeBoth(ring, setting), side: 1 as const })),
        ...rings.map((ring) => ({ diameter: ring, text: `⌀ ${writeBoth(ring, setting)}`, side: 1 as const })),
      ],
      taken,
    ),
    ...crosses,
    ...drawTarget(ORIGIN, target),
  ];
};

/** Small boxes along a line from the center, which labels keep clear of. */
const rayBoxes = (angle: number, reach: number) =>
  Array.from({ length: Math.ceil(reach / 1.5) }, (_, i) => {
    const { x, y } = polar2(i * 1.5, angle);
    return { minX: x - 0.5, maxX: x + 0.5, minY: y - 0.5, maxY: y + 0.5 };
  });
