import type { Sheet } from '../../drawing/model.ts';
import { drawWrap } from '../../sheets/band-marks.ts';
import { formatAngle } from '../../units/angle.ts';
import { countStations } from '../../sheets/band-fields.ts';
import { pickWrap } from '../../sheets/band-fields.ts';
import { wrapFields } from '../../sheets/band-fields.ts';
import { endPicture } from '../../sheets/end-picture.ts';
import { lengthField, many, markField, pipeField, type StationMark } from '../../fields/fields.ts';
import { fitBand } from '../../sheets/fit-record.ts';
import { defineLayout } from '../../fields/layout.ts';
import { type Setting } from '../../units/setting.ts';
import {
  describePaper,
  describePipe,
  describeSource,
  girthFact,
  stationLines,
  wrapPaper,
  wrapSteps,
} from '../../sheets/band-paper.ts';
import { listStations } from '../../stock/station.ts';
import { stationNumber } from '../../stock/station.ts';
import { lengthCells } from '../../units/writing.ts';
import { lengthColumns } from '../../units/writing.ts';
import { writeBoth } from '../../units/writing.ts';

const TURN = 2 * Math.PI;

/** Degree stations round a pipe: both long edges square, any degree marked with its own label. */
export const band = defineLayout({
  id: 'band',
  summary: 'degree band that wraps round a pipe, with top dead center, quarter lines and marks at any degree',
  fields: {
    pipe: pipeField({ help: 'the pipe it wraps round', example: 'NPS 6 sch 40' }),
    height: lengthField({ help: 'height of the band', default: '60mm', example: '3in', min: 45, max: 1000 }),
    mark: many(markField({ help: 'a labeled line at any degree', example: '37.5:lug' })),
    ...wrapFields,
  },
  examples: [
    'band --pipe "NPS 6 sch 40"',
    'band --pipe "DN 150 sch 40" --mark "37.5:lug" --mark "142.5:drain" --paper a4',
    'band --pipe "girth 530mm wall 7mm" --divisions 16 --height 80mm',
  ],
  draw: ({ pipe, height, mark, ...rest }, setting) => {
    const wrap = pickWrap(rest);
    const count = countStations(wrap);
    const paper = wrapPaper(pipe, wrap.seam, setting, wrap);
    const angles = listStations(count, paper.seam);
    const placed = mark.map(({ angle, label }) => ({ angle: intoSpan(angle, paper.seam), label }));
    const words = ['TDC', '', 'BOTTOM', ''] as const;
    const { marks, bounds } = drawWrap({
      from: paper.from,
      to: paper.from + paper.girth,
      reference: 0,
      top: height,
      sides: paper.sides,
      stations: stationLines(paper, angles, setting, (quarter) => words[quarter] ?? ''),
      labels: placed.map(({ angle, label }) => ({
        x: paper.xAt(angle),
        text: `${stationNumber(angle)} ${label}`.trim(),
      })),
    });
    const sheet: Sheet = {
      name: 'band',
      heading: 'Degree band',
      subject: [
        describePipe(pipe, setting),
        `${describeSource(pipe)}. ${describePaper(setting, wrap)}`,
        `Stations every ${formatAngle(TURN / count)}, rising counter-clockwise seen facing the end`,
      ],
      marks,
      bounds,
      fit: fitBand(pipe, paper, []),
      steps: [
        ...wrapSteps(pipe, setting, wrap),
        ...(wrap.madeFrom === 'plate'
          ? [
              'Lay it flat on the plate, printed side up, one long edge on the plate’s square edge: this side rolls to the outside.',
            ]
          : [
              'Wrap it printed side out, TDC on the pipe’s top line, until each long edge meets itself: then it is square.',
              'Tape the tab under the other end.',
            ]),
        'Mark the stations, punch the quarter lines.',
      ],
      facts: [
        girthFact(pipe, setting, wrap),
        ['One degree', writeFine(paper.steel / 360, setting)],
        ['One quarter', writeBoth(paper.steel / 4, setting)],
        ['TDC in from the side', writeBoth(pipe.od / 2, setting)],
      ],
      tables: [
        ...(placed.length > 0 ? [markTable(paper.steel, placed, setting)] : []),
        {
          title: 'By tape: round from TDC',
          header: ['Station', ...lengthColumns('round', setting)],
          rows: angles
            .slice(0, -1)
            .map((angle) => [
              stationNumber(angle),
              ...lengthCells((fromZero(angle) / TURN) * paper.steel, setting),
            ]),
        },
      ],
      pictures: [
        endPicture(
          'Facing the end of the pipe',
          pipe,
          ['TDC', '', 'bottom', ''],
          placed.map(({ angle, label }) => ({ angle, text: `${stationNumber(angle)} ${label}`.trim() })),
        ),
      ],
      cautions: [],
    };
    return [sheet];
  },
});

const fromZero = (angle: number): number => {
  const turned = ((angle % TURN) + TURN) % TURN;
  return TURN - turned < 1e-9 ? 0 : turned;
};

/** The same station between the seams. */
const intoSpan = (angle: number, seam: number): number => seam + ((((angle - seam) % TURN) + TURN) % TURN);

const writeFine = (length: number, setting: Setting): string =>
  setting.units === 'in'
    ? `${(length / 25.4).toFixed(4)} in (${length.toFixed(3)} mm)`
    : `${length.toFixed(3)} mm (${(length / 25.4).toFixed(4)} in)`;

const markTable = (girth: number, marks: readonly StationMark[], setting: Setting) => ({
  title: 'Marks: round the pipe from TDC',
  header: ['Mark', 'Station', ...lengthColumns('round', setting)],
  rows: marks.map(({ angle, label }) => [
    label,
    stationNumber(angle),
    ...lengthCells((fromZero(angle) / TURN) * girth, setting),
  ]),
});
