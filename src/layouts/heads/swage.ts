import type { Mark, Picture, Table } from '../../drawing/model.ts';
import { circlePath, FINE, MEDIUM, QUARTER, ruleLine, stroke, WIDE } from '../../drawing/shape.ts';
import { fitView, makePicture, viewDimension, viewLine, viewText, type Sight } from '../../drawing/view.ts';
import { choiceField, countField, lengthField, optional, pipeField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { navyArms } from '../../geometry/arms.ts';
import { developTongues, smallEnd, solveTongues, tongueLength, type Taper } from '../../geometry/tongues.ts';
import { polar2, vec3 } from '../../geometry/vector.ts';
import { jointError } from '../../issue.ts';
import { baseLine, centreLines } from '../../sheets/arms.ts';
import { bandFields, pickBand } from '../../sheets/band-fields.ts';
import { drawBand, seamPosition } from '../../sheets/cut-band.ts';
import { CLOSES } from '../../sheets/fit-record.ts';
import type { Pipe } from '../../stock/pipe.ts';
import { formatMm } from '../../units/format.ts';
import { type Setting } from '../../units/setting.ts';

import { bandSheet } from '../../sheets/band-sheet.ts';
import { stationNumber } from '../../stock/station.ts';
import { countOf, lengthOf } from '../../units/quantity.ts';
import { lengthCells, lengthColumns, writeBoth, writeShort } from '../../units/writing.ts';

const WORDS = {
  concentric: ['TDC', '', 'BOTTOM', ''],
  eccentric: ['TOP · TDC', 'SIDE', 'FLAT', 'SIDE'],
} as const;

/** A reducer made from the end of the larger pipe by cutting out darts. */
export const swage = defineLayout({
  id: 'swage',
  summary: 'reducer made from the end of the pipe by cutting out darts, concentric or eccentric',
  family: 'heads and reducers',
  words: ['reducer', 'concentric', 'eccentric', 'taper', 'darts', 'nipple'],
  fields: {
    stock: pipeField({
      help: 'the larger pipe, which is cut and bent in',
      example: 'NPS 6 sch 40',
      aliases: ['pipe'],
    }),
    to: pipeField({ help: 'the smaller pipe it must meet', example: 'NPS 4 sch 40' }),
    length: lengthField({ help: 'length of the taper along the axis', example: '140mm', min: 5, max: 3000 }),
    form: choiceField(['concentric', 'eccentric'], {
      help: 'concentric, or eccentric with its bottom line (station 180) straight',
      default: 'concentric',
    }),
    darts: optional(
      countField({
        help: 'number of darts; left out, a fifth of the girth in inches, at least 5',
        example: '6',
        min: 3,
        max: 36,
      }),
    ),
    ...bandFields,
  },
  examples: [
    'swage --stock "NPS 6 sch 40" --to "NPS 4 sch 40" --length 5-1/2in',
    'swage --stock "DN 200 sch 40" --to "DN 150 sch 40" --length 152mm --form eccentric --darts 8',
  ],
  draw: ({ stock: pipe, to, length, form, darts, ...rest }, setting) => {
    const making = pickBand(rest);
    const taper = readTaper(pipe, to, length, form);
    const count = darts ?? navyArms(pipe.girth);
    const radius = pipe.girth / (2 * Math.PI);
    const arms = developTongues(taper, radius, count, seamPosition(pipe, making, setting));
    const band = drawBand(pipe, { upper: arms, bend: 0 }, making, WORDS[form], setting);
    const marks: Mark[] = [
      ...centreLines(band.paper, arms.centres, 0, (centre) => arms.ordinate(centre * radius)),
      ...baseLine(band.paper, 0, 'BEND LINE', arms.centres),
    ];
    return [
      bandSheet(
        {
          name: 'swage',
          heading:
            form === 'concentric' ? 'Concentric reducer from the pipe' : 'Eccentric reducer from the pipe',
          stock: pipe,
          band,
          making,
          about: [
            `${pipe.designation} to ${to.designation}, ${count} darts, taper ${writeBoth(length, setting)} long`,
          ],
          aboutMore: [
            `Small end: outside ${writeBoth(to.od, setting)}${form === 'eccentric' ? ', bottom line straight at station 180' : ''}`,
          ],
          lines: [CLOSES],
          wrap: `Wrap it printed side out, ${form === 'eccentric' ? 'station 180 on the line that stays straight' : 'station 0 on TDC'}, reference edge toward the part you keep, until that edge meets itself.`,

          after: [
            'Mark the bend line. Cut out the darts square to the surface, round their roots, then bevel the edges.',
            'Heat and bend the tongues in at the bend line until the darts close. Weld each seam.',
            `Check the small end: a tape around it reads ${writeBoth(to.girth, setting)}, and it is square to the pipe.`,
          ],
          facts: [
            ['Small end, girth to tape', lengthOf(to.girth)],
            ['Darts', countOf(count)],
            ['Bend line to small end, longest', lengthOf(tongueLength(taper, 0))],
            ['Bend line to small end, shortest', lengthOf(tongueLength(taper, Math.PI))],
            ['Reference edge to bend line', lengthOf(-band.reference)],
          ],
          tables: [tongueTable(pipe, taper, count, setting), dartTable(pipe, taper, count, setting)],
          pictures: [taperPicture(pipe, taper, setting), endPicture(pipe, taper, count)],
          cautions: [
            'A reducer made from the pipe carries no pressure rating: a qualified person decides where it may be used.',
          ],
          marks,
        },
        setting,
      ),
    ];
  },
});

/** The taper on mean radii: the small end, of the pipe's own wall, has the smaller pipe's outside. */
const readTaper = (pipe: Pipe, to: Pipe, length: number, form: 'concentric' | 'eccentric'): Taper => {
  if (to.od >= pipe.od)
    throw jointError(
      'to',
      'not-smaller',
      `the small end, ${formatMm(to.od)} outside, is not smaller than the pipe of ${formatMm(pipe.od)}`,
      `give a pipe of less than ${formatMm(pipe.od)} outside, or swap the two`,
    );
  const [large, small] = [(pipe.od - pipe.wall) / 2, (to.od - pipe.wall) / 2];
  const least = form === 'eccentric' ? large / 2 : pipe.wall / 2;
  if (small <= least)
    throw jointError(
      'to',
      'too-small',
      `the small end, ${formatMm(to.od)} outside, is too small for tongues of ${form === 'eccentric' ? 'an eccentric' : 'a concentric'} reducer from this pipe`,
      `give a pipe of more than ${formatMm(2 * least + pipe.wall)} outside, or reduce in two steps`,
    );
  return { large, small, length, shift: form === 'eccentric' ? large - small : 0 };
};

const tongueTable = (pipe: Pipe, taper: Taper, count: number, setting: Setting): Table => ({
  title: 'Tongues by tape, from the bend line',
  header: ['Center at', ...lengthColumns('up', setting), ...lengthColumns('small end', setting)],
  rows: solveTongues(taper, count).map(({ centre, left, right }) => [
    stationNumber(centre),
    ...lengthCells(tongueLength(taper, centre), setting),
    ...lengthCells(((right - left) / (2 * Math.PI)) * pipe.girth, setting),
  ]),
});

const dartTable = (pipe: Pipe, taper: Taper, count: number, setting: Setting): Table => {
  const tongues = solveTongues(taper, count);
  return {
    title: 'Darts by tape, root on the bend line',
    header: ['Root at', ...lengthColumns('deep', setting), ...lengthColumns('wide', setting)],
    rows: tongues.map(({ to, right }, i) => {
      const next = tongues[(i + 1) % count];
      const width = next ? to - right + (next.left - next.from) : 0;
      return [
        stationNumber(to),
        ...lengthCells(tongueLength(taper, to), setting),
        ...lengthCells((width / (2 * Math.PI)) * pipe.girth, setting),
      ];
    }),
  };
};

/** The finished reducer from station 90: station 180, the bottom of an eccentric one, at the right. */
const fromStation90: Sight = { right: vec3(-1, 0, 0), up: vec3(0, 0, 1) };

const taperPicture = (pipe: Pipe, taper: Taper, setting: Setting): Picture => {
  const half = pipe.wall / 2;
  const r = pipe.od / 2;
  const foot = -0.7 * r;
  const [top, bottom] = [smallEnd(taper, 0) + half, smallEnd(taper, Math.PI) + half];
  const ring = [
    vec3(r, 0, foot),
    vec3(r, 0, 0),
    vec3(top, 0, taper.length),
    vec3(-bottom, 0, taper.length),
    vec3(-r, 0, 0),
    vec3(-r, 0, foot),
    vec3(r, 0, foot),
  ];
  const { project } = fitView(fromStation90, ring, 38, 44);
  const end = (x: number) => project(vec3(x, 0, taper.length));
  return makePicture('The finished reducer, seen from station 90', [
    viewLine(project, ring, 'continuous', MEDIUM),
    viewLine(project, [vec3(-r, 0, 0), vec3(r, 0, 0)], 'long-dash-double-dot'),
    viewLine(project, [vec3(0, 0, foot), vec3(0, 0, 0)], 'long-dash-dot'),
    viewLine(project, [vec3(-taper.shift, 0, 0), vec3(-taper.shift, 0, taper.length)], 'long-dash-dot'),
    ...viewDimension(
      project(vec3(-r, 0, 0)),
      project(vec3(-r, 0, taper.length)),
      -5,
      writeShort(taper.length, setting),
    ),
    ...viewDimension(project(vec3(r, 0, foot)), project(vec3(-r, 0, foot)), -5, writeShort(pipe.od, setting)),
    ...viewDimension(end(top), end(-bottom), 3.5, writeShort(top + bottom, setting)),
    ...viewText({ x: project(vec3(r, 0, 0)).x - 1.5, y: project(vec3(r, 0, foot / 2)).y }, '0°', 'right'),
    ...viewText({ x: project(vec3(-r, 0, 0)).x + 1.5, y: project(vec3(-r, 0, foot / 2)).y }, '180°', 'left'),
  ]);
};

/** Facing the small end, station 0 on top, a line for every closed dart. */
const endPicture = (pipe: Pipe, taper: Taper, count: number): Picture => {
  const scale = 16 / (pipe.od / 2);
  const half = pipe.wall / 2;
  const at = (angle: number, r: number) => polar2(r * scale, angle + Math.PI / 2);
  const marks: Mark[] = [
    stroke('dimension', circlePath({ x: 0, y: 0 }, 16), QUARTER),
    stroke('dimension', circlePath({ x: 0, y: -taper.shift * scale }, (taper.small + half) * scale), QUARTER),
    ruleLine('dimension', { x: 0, y: -18 }, { x: 0, y: 18 }, FINE, 'long-dash-dot'),
    ruleLine('dimension', { x: -18, y: 0 }, { x: 18, y: 0 }, FINE, 'long-dash-dot'),
    ...solveTongues(taper, count).map(({ to }) =>
      ruleLine('dimension', at(to, taper.large + half), at(to, smallEnd(taper, to) + half), WIDE),
    ),
    ...viewText({ x: 0, y: 21 }, taper.shift > 0 ? '0° top' : '0° TDC', 'centre', true),
    ...viewText({ x: 0, y: -21 }, taper.shift > 0 ? '180° flat' : '180°'),
    ...viewText({ x: -19, y: 0 }, '90°', 'right'),
    ...viewText({ x: 19, y: 0 }, '270°', 'left'),
  ];
  return makePicture('Facing the small end: the welds', marks);
};
