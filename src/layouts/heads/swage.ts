import type { Spot } from '../../drawing/measured.ts';
import type { Mark, Table } from '../../drawing/model.ts';
import { scenePictures } from '../../drawing/scene-picture.ts';
import { mustBeLess } from '../../fields/among.ts';
import { choiceField, countField, lengthField, pipeField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { modulo } from '../../geometry/angle-units.ts';
import { navyArms } from '../../geometry/arms.ts';
import { developTongues, solveTongues, tongueLength, type Taper } from '../../geometry/tongues.ts';
import { jointError } from '../../issue.ts';
import { baseLine, centreLines } from '../../sheets/arms.ts';
import { bandFields, pickBand } from '../../sheets/band-fields.ts';
import { drawBand, edgePoints, seamPosition } from '../../sheets/cut-band.ts';
import { CLOSES } from '../../sheets/fit-record.ts';
import type { Pipe } from '../../stock/pipe.ts';
import { told } from '../../units/format.ts';
import type { Setting } from '../../units/setting.ts';

import type { BandPaper } from '../../sheets/band-paper.ts';
import { bandSheet } from '../../sheets/band-sheet.ts';
import { apart, endAt, fromReference, ORIGIN, shown, uprightAt } from '../../sheets/measured.ts';
import { stationNumber } from '../../stock/station.ts';
import { countOf, lengthOf } from '../../units/quantity.ts';
import { writeBoth, writeSize } from '../../units/writing.ts';
import { say } from '../../words/say.ts';
import { taperScene } from '../../sheets/head-scenes.ts';

const WORDS = () =>
  ({
    concentric: [say`TDC`, '', say`BOTTOM`, ''],
    eccentric: [say`TOP · TDC`, say`SIDE`, say`FLAT`, say`SIDE`],
  }) as const;

/** A reducer made from the end of the larger pipe by cutting out darts. */
export const swage = defineLayout({
  id: 'swage',
  summary: 'reducer made from the end of the pipe by cutting out darts, concentric or eccentric',
  family: 'heads and reducers',
  words: ['reducer', 'concentric', 'eccentric', 'taper', 'darts', 'nipple'],
  fields: {
    stock: pipeField('the larger pipe, which is cut and bent in', {
      example: 'NPS 6 sch 40',
      aliases: ['pipe'],
    }),
    to: pipeField('the smaller pipe it must meet', { example: 'NPS 4 sch 40' }),
    length: lengthField('length of the taper along the axis', { example: '140mm', min: 5, max: 3000 }),
    form: choiceField(
      'concentric, or eccentric with its bottom line (station 180) straight',
      ['concentric', 'eccentric'],
      { default: 'concentric' },
    ),
    darts: countField('number of darts; left out, a fifth of the girth in inches, at least 5', {
      example: '6',
      min: 3,
      max: 36,
      optional: true,
    }),
    ...bandFields,
  },
  examples: [
    'swage --stock "NPS 6 sch 40" --to "NPS 4 sch 40" --length 5-1/2in',
    'swage --stock "DN 200 sch 40" --to "DN 150 sch 40" --length 152mm --form eccentric --darts 8',
  ],
  draw: ({ stock: pipe, to, length, form, darts, ...rest }, setting) => {
    const making = pickBand(rest);
    const taper = readTaper(pipe, to, length, form, setting);
    const count = darts ?? navyArms(pipe.girth);
    const radius = pipe.girth / (2 * Math.PI);
    const arms = developTongues(taper, radius, count, seamPosition(pipe, making, setting));
    const band = drawBand(pipe, { upper: arms, bend: 0 }, making, WORDS()[form], setting);
    const marks: Mark[] = [
      ...centreLines(band.paper, arms.centres, 0, (centre) => arms.ordinate(centre * radius)),
      ...baseLine(band.paper, 0, say`BEND LINE`, arms.centres),
    ];
    return [
      bandSheet(
        {
          name: 'swage',
          heading:
            form === 'concentric'
              ? say`Concentric reducer from the pipe`
              : say`Eccentric reducer from the pipe`,
          stock: pipe,
          band,
          making,
          about: [
            say`${pipe.designation} to ${to.designation}`,
            say`${count} darts, taper ${writeBoth(length, setting)} long`,
          ],
          aboutMore: [
            say`Small end: outside ${writeSize(to.od, setting)}${form === 'eccentric' ? say`, bottom line straight at station 180` : ''}`,
          ],
          lines: [CLOSES],
          figures: { curves: [{ points: edgePoints(arms, band.paper, 10 * count) }] },
          wrap: say`Wrap it printed side out, ${form === 'eccentric' ? say`station 180 on the line that stays straight` : say`station 0 on TDC`}, reference edge toward the part you keep, until that edge meets itself.`,

          after: [
            say`Mark the bend line. Cut out the darts square to the surface, round their roots, then bevel the edges.`,
            say`Heat and bend the tongues in at the bend line until the darts close. Weld each seam.`,
            say`Check the small end: a tape around it reads ${writeBoth(to.girth, setting)}, and it is square to the pipe.`,
          ],
          facts: [
            [say`Small end, circumference (tape check)`, lengthOf(to.girth)],
            [say`Darts`, countOf(count)],
            ...(form === 'concentric'
              ? ([
                  [
                    say`Bend line to small end`,
                    shown(lengthOf(tongueLength(taper, 0)), { kind: 'height', end: 'high' }),
                  ],
                ] as const)
              : ([
                  [say`Bend line to small end, longest`, lengthOf(tongueLength(taper, 0))],
                  [say`Bend line to small end, shortest`, lengthOf(tongueLength(taper, Math.PI))],
                ] as const)),
            [say`Reference edge to bend line`, shown(lengthOf(-band.reference), fromReference(band))],
          ],
          tables: [tongueTable(taper, count, band.paper), dartTable(taper, count, band.paper)],
          pictures: scenePictures(taperScene(pipe, taper, count, setting)),
          cautions: [
            say`A reducer made from the pipe carries no pressure rating: a qualified person decides where it may be used.`,
          ],
          marks,
        },
        setting,
      ),
    ];
  },
  scene: ({ stock, to, length, form, darts }, setting) =>
    taperScene(stock, readTaper(stock, to, length, form, setting), darts ?? navyArms(stock.girth), setting),
});

/** The taper on mean radii: the small end, of the pipe's own wall, has the smaller pipe's outside. */
const readTaper = (
  pipe: Pipe,
  to: Pipe,
  length: number,
  form: 'concentric' | 'eccentric',
  setting: Setting,
): Taper => {
  mustBeLess(
    'to',
    to.od,
    pipe.od,
    say`outside is not smaller than the pipe: choose a smaller one, or swap the two`,
    setting,
  );
  const [large, small] = [(pipe.od - pipe.wall) / 2, (to.od - pipe.wall) / 2];
  const least = form === 'eccentric' ? large / 2 : pipe.wall / 2;
  if (small <= least)
    throw jointError(
      'to',
      'too-small',
      say`the small end, ${told(to.od)} outside, is too small for tongues of ${form === 'eccentric' ? say`an eccentric` : say`a concentric`} reducer from this pipe`,
      say`give a pipe of more than ${told(2 * least + pipe.wall)} outside, or reduce in two steps`,
    );
  return { large, small, length, shift: form === 'eccentric' ? large - small : 0 };
};

/** A corner of a tongue's small end, at a station and from the root beside it as high as the tongue is there. */
const cornerOf = ({ from, girth, xAt }: BandPaper, taper: Taper, station: number, root: number): Spot =>
  endAt('cut', from + modulo(xAt(station) - from, girth), tongueLength(taper, root));

/** In the order in which they lie on the strip, from station 0. */
const byStation = <Item>(items: readonly Item[], stationOf: (item: Item) => number): readonly Item[] => {
  // A hair before a full turn is station 0 too.
  const place = (item: Item): number => modulo(stationOf(item) + 1e-9, 2 * Math.PI);
  return items.toSorted((a, b) => place(a) - place(b));
};

const tongueTable = (taper: Taper, count: number, paper: BandPaper): Table => ({
  title: say`Tongues by tape, from the bend line`,
  header: [say`Center at`, say`up`, say`small end`],
  rows: byStation(solveTongues(taper, count), ({ centre }) => centre).map(
    ({ centre, from, to, left, right }) => [
      stationNumber(centre, 2),
      shown(
        lengthOf(tongueLength(taper, centre)),
        apart(
          ORIGIN,
          uprightAt(
            'cut',
            paper.from + modulo(paper.xAt(centre) - paper.from, paper.girth),
            tongueLength(taper, centre),
          ),
          'y',
        ),
      ),
      shown(
        lengthOf(((right - left) / (2 * Math.PI)) * paper.steel),
        apart(cornerOf(paper, taper, left, from), cornerOf(paper, taper, right, to), 'onward'),
      ),
    ],
  ),
});

const dartTable = (taper: Taper, count: number, paper: BandPaper): Table => {
  const tongues = solveTongues(taper, count);
  const darts = tongues.map((tongue, i) => ({ ...tongue, next: tongues[(i + 1) % count] }));
  return {
    title: say`Darts by tape, root on the bend line`,
    header: [say`Root at`, say`deep`, say`wide`],
    rows: byStation(darts, ({ to }) => to).map(({ to, right, next }) => {
      const width = next ? to - right + (next.left - next.from) : 0;
      const corner = cornerOf(paper, taper, right, to);
      return [
        stationNumber(to, 2),
        shown(lengthOf(tongueLength(taper, to)), apart(ORIGIN, corner, 'y')),
        shown(
          lengthOf((width / (2 * Math.PI)) * paper.steel),
          next && apart(corner, cornerOf(paper, taper, next.left, next.from), 'onward'),
        ),
      ];
    }),
  };
};
