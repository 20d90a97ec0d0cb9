import type { Mark, Sheet, Table } from '../../../drawing/model.ts';
import { circlePath, letter, NARROW, stroke } from '../../../drawing/paths.ts';
import { DEGREE, modulo } from '../../../geometry/angle-units.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { degreeRing } from '../../../sheets/degree-ring.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { centreLines, drawOutline, drawPunch } from '../../../sheets/flat-marks.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import type { PipeOutside } from '../../../stock/pipe-outside.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { levelPicture } from './top-center-picture.ts';
const ORIGIN = { x: 0, y: 0 };

/** The card's rim, and the circle that parts its two rings, mm. */
const RIM = 72;
const CIRCLE = 56;
const stations = [15, 22.5, 30, 45, 60, 67.5, 75, 90] as const;

const wrapDegree = (degree: number): number => modulo(degree, 360);

/** What a protractor level reads laid on the pipe at a station, degrees from level: 0 on top and bottom, 90 at the sides. */
export const readLevel = (station: number): number => {
  const half = wrapDegree(station) % 180;
  return half > 90 ? 180 - half : half;
};

/** The card: inside its circle the stations from top dead center, outside what a protractor level reads there. */
export const degreeCard = (sizes: readonly PipeOutside[], setting: Setting): Sheet =>
  plateSheet({
    name: 'degree card',
    heading: say`Degree card`,
    subject: [
      say`Stations from top dead center, counter-clockwise facing the pipe’s end`,
      say`Inner ring: station. Outer ring: what a protractor level reads on the pipe there`,
    ],
    marks: cardMarks(),
    fit: fitFlat({
      circles: [
        { centre: ORIGIN, radius: RIM },
        { centre: ORIGIN, radius: CIRCLE, role: 'reference' },
      ],
      points: [ORIGIN],
      turns: [{ centre: ORIGIN, radius: CIRCLE, from: 0, step: Math.PI / 18, count: 36 }],
    }),
    steps: [
      CHECK_PRINT(),
      say`Cut out the disc. Keep it by the protractor level, or tape it on the pipe’s end, its center on the pipe’s, 0° at the top.`,
      say`To mark a station: find it on the inner ring, read the outer ring beside it, set the protractor level to that.`,
      say`Lay the level across the pipe, square to its axis, and roll it around the outside until the bubble stands in the middle. Where it touches is the station.`,
      say`Under the pipe the level is held from below; the reading is the same.`,
      say`Check with a tape around the outside from top dead center, by the table.`,
    ],
    facts: [[say`One degree around the outside`, say`girth ÷ 360`]],
    tables: [roundTable(sizes, setting)],
    pictures: [levelPicture()],
    cautions: [say`A protractor level reads to about half a degree: on large pipe trust the tape.`],
  });

const cardMarks = (): Mark[] => [
  drawOutline(circlePath(ORIGIN, RIM)),
  ...centreLines(ORIGIN, CIRCLE - 13, CIRCLE - 13),
  stroke('reference', circlePath(ORIGIN, CIRCLE), NARROW),
  // The rings count from the top: the degree 90 of the sheet is station 0.
  ...degreeRing({
    centre: ORIGIN,
    radius: CIRCLE,
    side: -1,
    label: (degree) => `${wrapDegree(degree - 90)}`,
    height: 3.5,
  }),
  ...degreeRing({ centre: ORIGIN, radius: CIRCLE, side: 1, label: (degree) => `${readLevel(degree - 90)}` }),
  letter('text', { x: 2, y: 26 }, say`station`, 3.5, { bold: true }),
  letter('text', { x: 2, y: 21 }, say`inside the circle`, 2.5),
  letter('text', { x: 2, y: -22 }, say`level reads`, 3.5, { bold: true }),
  letter('text', { x: 2, y: -26.5 }, say`outside the circle`, 2.5),
  letter('text', { x: -2, y: 30 }, say`TDC ▲`, 3.5, { align: 'right', bold: true }),
  ...drawPunch(ORIGIN, 3),
];

/** Round the outside from top dead center to each station, in the reader's unit. */
const roundTable = (sizes: readonly PipeOutside[], setting: Setting): Table => ({
  title: say`Around the outside from top dead center to the station, ${setting.units}`,
  header: [say`Size`, ...stations.map((station) => `${station}°`)],
  rows: sizes.map(({ name, od }) => [
    name,
    ...stations.map((station) => writeShort((od * station * DEGREE) / 2, setting)),
  ]),
});
