import type { Mark, Picture, Table } from '../../drawing/model.ts';
import { FINE, WIDE } from '../../drawing/paths.ts';
import { fitView, makePicture, type Sight, viewDimension, viewLine, viewText } from '../../drawing/view.ts';
import { lengthField, pipeField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { DEGREE, TURN } from '../../geometry/angle-units.ts';
import { type Arms, developPeel, type Dome, domeAngle, measureDome } from '../../geometry/arms.ts';
import { vec3 } from '../../geometry/vector.ts';
import { armsField, baseLine, bendLines, centreLines, countArms, LEAST_BEND } from '../../sheets/arms.ts';
import { bandFields, pickBand } from '../../sheets/band-fields.ts';
import { drawBand, edgePoints, seamPosition } from '../../sheets/cut-band.ts';
import { CLOSES } from '../../sheets/fit-record.ts';
import type { Setting } from '../../units/setting.ts';

import { scenePictures } from '../../drawing/scene-picture.ts';
import type { BandPaper } from '../../sheets/band-paper.ts';
import { bandSheet } from '../../sheets/band-sheet.ts';
import { apart, endAt, fromReference, ORIGIN, shown, taken } from '../../sheets/measured.ts';
import { angleOf, countOf, lengthOf } from '../../units/quantity.ts';
import { writeBoth, writeShort } from '../../units/writing.ts';
import { say } from '../../words/say.ts';
import { domeScene } from '../../sheets/head-scenes.ts';

/** How far the arms have turned in at the bend lines. */
const LEANS = [15, 30, 45, 60, 75].map((degrees) => degrees * DEGREE);
const WORDS = () => [say`TDC`, '', say`BOTTOM`, ''] as const;

/** The end of a pipe cut into arms that close to a dome. */
export const orangePeel = defineLayout({
  id: 'orange-peel',
  summary: 'orange-peel head: arms cut from the end of the pipe and bent in to a dome',
  family: 'heads and reducers',
  words: ['cap', 'closure', 'dome', 'arms', 'close a pipe'],
  fields: {
    stock: pipeField('the pipe that is closed', { example: 'NPS 8 sch 40', aliases: ['pipe'] }),
    arms: armsField,
    rise: lengthField('height of the dome over the bend line, at mid-wall; left out, half round', {
      example: '100mm',
      min: 5,
      max: 2000,
      optional: true,
    }),
    ...bandFields,
  },
  examples: [
    'orange-peel --stock "NPS 8 sch 40"',
    'orange-peel --stock "DN 300 sch 40" --arms 10 --paper a3',
    'orange-peel --stock "NPS 12 STD" --rise 3in -o head.pdf',
  ],
  draw: ({ stock: pipe, arms: given, rise, ...rest }, setting) => {
    const making = pickBand(rest);
    const count = countArms(given, pipe);
    const mean = (pipe.od - pipe.wall) / 2;
    const dome: Dome = { radius: mean, rise: rise ?? mean };
    const radius = pipe.girth / (2 * Math.PI);
    const arms = developPeel(dome, radius, count, seamPosition(pipe, making, setting));
    const band = drawBand(pipe, { upper: arms, bend: 0 }, making, WORDS(), setting);
    const measure = measureDome(dome);
    const bends = LEANS.map((lean) => {
      const t = domeAngle(dome, lean);
      return { y: measure(t), half: (Math.PI / count) * Math.cos(t) };
    });
    const marks: Mark[] = [
      ...bendLines(band.paper, arms.centres, bends),
      ...centreLines(band.paper, arms.centres, 0, () => arms.high),
      ...baseLine(band.paper, 0, say`BEND LINE`, arms.centres),
    ];
    return [
      bandSheet(
        {
          name: 'orange peel',
          heading: say`Orange-peel head`,
          stock: pipe,
          band,
          making,
          about: [
            say`${count} arms${given === undefined ? say`, by the Navy rule: a fifth of the girth in inches` : ''}`,
          ],
          aboutMore: [
            say`Dome ${writeBoth(dome.rise, setting)} high over ${writeBoth(2 * mean, setting)}, both at mid-wall`,
          ],
          lines: [CLOSES],
          figures: { curves: [{ points: edgePoints(arms, band.paper, 10 * count) }] },
          wrap: say`Wrap it printed side out, reference edge toward the part you keep, until that edge meets itself.`,

          after: [
            say`Mark the bend lines across every arm. Cut square to the surface, round the roots, then bevel the edges.`,
            say`Heat and bend the arms in, a little at each bend line from the root out, until the edges meet. Weld each seam.`,
          ],
          facts: [
            [say`Arms`, countOf(count)],
            [
              say`Arm at the bend line, around`,
              shown(lengthOf(band.paper.steel / count), taken({ kind: 'girth' }, 1 / count)),
            ],
            [say`Bend line to tip`, shown(lengthOf(arms.high), { kind: 'height', end: 'high' })],
            [say`Reference edge to bend line`, shown(lengthOf(-band.reference), fromReference(band))],
          ],
          tables: [armTable(band.paper, arms.centres, dome, count), band.table],
          pictures: [
            ...scenePictures(domeScene(pipe, dome, count, setting)),
            armPicture(pipe.girth, band.paper.steel, arms, setting),
          ],
          cautions: [
            say`A head made from the pipe carries no pressure rating: a qualified person decides where it may be used.`,
          ],
          marks,
        },
        setting,
      ),
    ];
  },
  scene: ({ stock, arms, rise }, setting) => {
    const radius = (stock.od - stock.wall) / 2;
    return domeScene(stock, { radius, rise: rise ?? radius }, countArms(arms, stock), setting);
  },
});

/** One arm in figures, measured on one that the seam does not part. */
const armTable = (paper: BandPaper, centres: readonly number[], dome: Dome, count: number): Table => {
  const half = Math.PI / count;
  const end = paper.from + paper.girth;
  const centre = centres
    .flatMap((one) => [-TURN, 0, TURN].map((turn) => one + turn))
    .find((one) => paper.xAt(one - half) > paper.from - 1e-6 && paper.xAt(one + half) < end + 1e-6);
  const measure = measureDome(dome);
  return {
    title: say`One arm by tape, from the bend line up its center line`,
    header: [say`Bent in by`, say`up`, say`width`],
    rows: [0, ...LEANS, 90 * DEGREE].map((lean) => {
      const t = domeAngle(dome, lean);
      const [up, width] = [measure(t), (paper.steel / count) * Math.max(0, Math.cos(t))];
      const x = (side: 1 | -1): number => paper.xAt((centre ?? 0) + side * half * Math.cos(t));
      const isDrawn = centre !== undefined && LEANS.includes(lean) && x(1) - x(-1) > LEAST_BEND;
      const at = (side: 1 | -1) => endAt('bend', x(side), up);
      return [
        angleOf(lean),
        shown(lengthOf(up), isDrawn ? apart(ORIGIN, at(1), 'y') : undefined),
        shown(lengthOf(width), isDrawn ? apart(at(-1), at(1), 'around') : undefined),
      ];
    }),
  };
};

/** One arm flat, as `girth` around the pipe lies on `steel` that is laid out, both mm. */
const armPicture = (girth: number, steel: number, arms: Arms, setting: Setting): Picture => {
  const width = steel / arms.count;
  const flat: Sight = { right: vec3(1, 0, 0), up: vec3(0, 1, 0) };
  const edge = Array.from({ length: 97 }, (_, i) => (width * i) / 96).map((x) =>
    vec3(x - width / 2, arms.ordinate((x * girth) / steel), 0),
  );
  const foot = -arms.high * 0.18;
  const { project } = fitView(flat, [...edge, vec3(0, foot, 0)], 30, 40);
  const line = [vec3(-width / 2, 0, 0), vec3(width / 2, 0, 0)] as const;
  return makePicture(say`One arm, flat, from outside`, [
    viewLine(project, edge, 'continuous', WIDE),
    viewLine(project, line, 'long-dash-double-dot'),
    viewLine(project, [line[0], vec3(-width / 2, foot, 0)], 'continuous', FINE),
    viewLine(project, [line[1], vec3(width / 2, foot, 0)], 'continuous', FINE),
    viewLine(project, [vec3(0, foot, 0), vec3(0, arms.high, 0)], 'long-dash-dot'),
    ...viewDimension(
      project(line[1]),
      project(vec3(width / 2, arms.high, 0)),
      -3,
      writeShort(arms.high, setting),
    ),
    ...viewDimension(
      project(vec3(-width / 2, foot, 0)),
      project(vec3(width / 2, foot, 0)),
      -4,
      writeShort(width, setting),
    ),
    ...viewText({ x: 0, y: project(vec3(0, arms.high * 0.16, 0)).y }, say`KEEP`, 'centre', true),
  ]);
};
