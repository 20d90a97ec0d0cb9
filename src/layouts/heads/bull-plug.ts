import type { Mark, Picture } from '../../drawing/model.ts';
import { scenePictures } from '../../drawing/scene-picture.ts';
import { FINE, MEDIUM, WIDE } from '../../drawing/paths.ts';
import { fitView, makePicture, viewDimension, viewLine, viewText, type Sight } from '../../drawing/view.ts';
import { lengthField, pipeField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { developZigzag, type Arms } from '../../geometry/arms.ts';
import { vec3 } from '../../geometry/vector.ts';
import { armsField, baseLine, countArms } from '../../sheets/arms.ts';
import { bandFields, pickBand } from '../../sheets/band-fields.ts';
import { drawBand, edgePoints, seamPosition } from '../../sheets/cut-band.ts';
import { CLOSES } from '../../sheets/fit-record.ts';
import type { Setting } from '../../units/setting.ts';

import { bandSheet } from '../../sheets/band-sheet.ts';
import { fromReference, shown, taken } from '../../sheets/measured.ts';
import { angleOf, countOf, lengthOf } from '../../units/quantity.ts';
import { writeBoth, writeShort } from '../../units/writing.ts';
import { plugScene } from '../../sheets/head-scenes.ts';
import { formatAngle } from '../../units/angle.ts';
import { say } from '../../words/say.ts';

const WORDS = () => [say`TDC`, '', say`BOTTOM`, ''] as const;

/** Two pointed plugs from one zigzag cut. */
export const bullPlug = defineLayout({
  id: 'bull-plug',
  summary: 'pair of bull plugs: one zigzag cut parts the pipe into two pointed heads without waste',
  family: 'heads and reducers',
  words: ['cap', 'closure', 'bullet', 'point', 'close a pipe'],
  fields: {
    stock: pipeField('the pipe that is closed', { example: 'NPS 6 sch 40', aliases: ['pipe'] }),
    arms: armsField,
    rise: lengthField('length of the point over the bend line, at mid-wall; left out, the outside diameter', {
      example: '150mm',
      min: 5,
      max: 3000,
      optional: true,
    }),
    ...bandFields,
  },
  examples: [
    'bull-plug --stock "NPS 6 sch 40"',
    'bull-plug --stock "DN 200 sch 40" --arms 8 --rise 150mm --paper a3',
  ],
  draw: ({ stock: pipe, arms: given, rise: asked, ...rest }, setting) => {
    const making = pickBand(rest);
    const count = countArms(given, pipe);
    const mean = (pipe.od - pipe.wall) / 2;
    const rise = asked ?? pipe.od;
    const length = Math.hypot(rise, mean);
    const arms = developZigzag(
      length,
      pipe.girth / (2 * Math.PI),
      count,
      seamPosition(pipe, making, setting),
    );
    const band = drawBand(
      pipe,
      { upper: arms, pair: [say`PLUG A ▲`, say`PLUG B ▼`] },
      making,
      WORDS(),
      setting,
    );
    const hanging = arms.centres.map((centre) => centre + Math.PI / count);
    const marks: Mark[] = [
      ...baseLine(band.paper, 0, say`BEND LINE OF A`, arms.centres),
      ...baseLine(band.paper, length, say`BEND LINE OF B`, hanging, -1),
    ];
    const slope = Math.atan2(mean, rise);
    return [
      bandSheet(
        {
          name: 'bull plug',
          heading: say`Bull-plug pair`,
          stock: pipe,
          band,
          making,
          about: [
            say`${count} arms${given === undefined ? say`, by the Navy rule: a fifth of the girth in inches` : ''}`,
          ],
          aboutMore: [
            say`Point ${writeBoth(rise, setting)} long over ${writeBoth(2 * mean, setting)}, both at mid-wall`,
          ],
          lines: [CLOSES],
          figures: { curves: [{ points: edgePoints(arms, band.paper, 10 * count) }] },
          wrap: say`Wrap it printed side out until both long edges meet themselves.`,
          line: say`zigzag and both bend lines`,
          after: [
            say`Cut once along the zigzag, square to the surface: both parts are kept. Round the roots, bevel the edges.`,
            say`Heat and bend the arms of each plug in by ${formatAngle(slope, 1)} at its bend line until the edges meet. Weld each seam.`,
          ],
          facts: [
            [say`Arms of each plug`, countOf(count)],
            [
              say`Arm at the bend line, around`,
              shown(lengthOf(band.paper.steel / count), taken({ kind: 'girth' }, 1 / count)),
            ],
            [say`Bend line to tip`, shown(lengthOf(length), { kind: 'height', end: 'high' })],
            [say`Arms bend in by`, angleOf(slope, 1)],
            [say`Long edge to bend line`, shown(lengthOf(-band.reference), fromReference(band))],
          ],
          tables: [band.table],
          pictures: [
            ...scenePictures(plugScene(pipe, rise, count, setting)),
            pairPicture(band.paper.steel, arms, setting),
          ],
          cautions: [
            say`A head made from the pipe carries no pressure rating: a qualified person decides where it may be used.`,
            say`The cut takes its kerf from both plugs: keep it narrow, and grind the seams to fit.`,
          ],
          marks,
        },
        setting,
      ),
    ];
  },
  scene: ({ stock, arms, rise }, setting) =>
    plugScene(stock, rise ?? stock.od, countArms(arms, stock), setting),
});

/** Some of the zigzag, flat; `girth` is laid out, mm: around the pipe, or along the plate. */
const pairPicture = (girth: number, arms: Arms, setting: Setting): Picture => {
  const width = girth / arms.count;
  const ends = arms.high * 0.4;
  const points = Array.from({ length: 5 }, (_, i) => vec3((width * i) / 2, i % 2 === 0 ? 0 : arms.high, 0));
  const right = 2 * width;
  const flat: Sight = { right: vec3(1, 0, 0), up: vec3(0, 1, 0) };
  const { project } = fitView(flat, [vec3(0, -ends, 0), vec3(right, arms.high + ends, 0)], 40, 44);
  const across = (y: number, width_: number): Mark =>
    viewLine(
      project,
      [vec3(0, y, 0), vec3(right, y, 0)],
      width_ === FINE ? 'long-dash-double-dot' : 'continuous',
      width_,
    );
  return makePicture(say`The cut, flat, from outside`, [
    viewLine(project, points, 'continuous', WIDE),
    across(0, FINE),
    across(arms.high, FINE),
    across(-ends, MEDIUM),
    across(arms.high + ends, MEDIUM),
    ...viewText(
      { x: project(vec3(right / 2, 0, 0)).x, y: project(vec3(0, -ends / 2, 0)).y },
      say`PLUG A`,
      'centre',
      true,
    ),
    ...viewText(
      { x: project(vec3(right / 2, 0, 0)).x, y: project(vec3(0, arms.high + ends / 2, 0)).y },
      say`PLUG B`,
      'centre',
      true,
    ),
    ...viewDimension(
      project(vec3(right, 0, 0)),
      project(vec3(right, arms.high, 0)),
      -3,
      writeShort(arms.high, setting),
    ),
    ...viewDimension(
      project(vec3(0, -ends, 0)),
      project(vec3(width, -ends, 0)),
      -4,
      writeShort(width, setting),
    ),
  ]);
};
