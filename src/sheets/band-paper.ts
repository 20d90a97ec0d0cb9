import type { Table } from '../drawing/model.ts';
import type { StationLine } from './band-edges.ts';
import type { Sides } from './band-marks.ts';
import type { Pipe } from '../stock/pipe.ts';
import { formatMm } from '../units/format.ts';
import type { WrapValues } from './band-fields.ts';
import type { Setting } from '../units/setting.ts';
import { lengthCells, lengthColumns, writeBoth, writeShort } from '../units/writing.ts';
import { isQuarter, stationNumber } from '../stock/station.ts';

const TURN = 2 * Math.PI;
const QUARTER_TURN = TURN / 4;

/** How the part is made: from pipe that is wrapped, or from plate that is laid out flat and rolled. */
export type Making = Pick<WrapValues, 'madeFrom' | 'seamAllowance'> & {
  /**
   * True where the numbers run to the left, clockwise seen facing the cut end: at the far end of a piece, so that a number
   * names the same line along the pipe at both ends.
   */
  readonly numbersFall?: boolean;
};

const FROM_PIPE: Making = { madeFrom: 'pipe', seamAllowance: 0 };

/** A pipe's paper, from one seam to the other. */
export interface Paper {
  /** Girth on the sheet, mm. */
  readonly girth: number;
  /** The same on the steel, mm: round the pipe's outside, or along the flat plate. */
  readonly steel: number;
  /** Sheet x of the left seam; station 0 lies at x = 0. */
  readonly from: number;
  /** Sheet x of a station, radians. */
  readonly xAt: (angle: number) => number;
  /** Station of a sheet x, radians. */
  readonly angleAt: (x: number) => number;
  /** The seam's station, radians, in (-180, 180]. */
  readonly seam: number;
  readonly sides: Sides;
}

/** The girth a paper of the given thickness needs round a stock of outside girth `girth`, mm. */
export const paperGirth = (girth: number, paperThickness: number): number => girth + Math.PI * paperThickness;

/** The girth that is laid out: a pipe's outside, or a rolled plate's mean diameter, mm. */
export const steelGirth = (pipe: Pipe, { madeFrom }: Making): number =>
  madeFrom === 'plate' ? pipe.girth - Math.PI * pipe.wall : pipe.girth;

/**
 * Lays a pipe's outside flat on paper, cut open at the seam. Printed side out, a wrap of thickness t lies at radius
 * D/2 + t/2, so its girth is that much longer; paper that lies flat on plate is not stretched.
 */
export const wrapPaper = (pipe: Pipe, seam: number, setting: Setting, making: Making = FROM_PIPE): Paper => {
  const steel = steelGirth(pipe, making);
  const girth = making.madeFrom === 'plate' ? steel : paperGirth(steel, setting.paperThickness);
  const turned = ((seam % TURN) + TURN) % TURN;
  const start = turned > Math.PI + 1e-12 ? turned - TURN : turned;
  const sense = making.numbersFall ? -1 : 1;
  const xAt = (angle: number): number => sense * (angle / TURN) * girth;
  return {
    girth,
    steel,
    from: making.numbersFall ? xAt(start + TURN) : xAt(start),
    xAt,
    angleAt: (x) => sense * (x / girth) * TURN,
    seam: start,
    sides: making.madeFrom === 'plate' ? { kind: 'cut', allowance: making.seamAllowance } : { kind: 'tab' },
  };
};

/** Station lines for the sheet, left to right. `word` names a quarter line, the ordinates are the ways up and down to the cuts, mm. */
export const stationLines = (
  paper: Paper,
  angles: readonly number[],
  setting: Setting,
  word: (quarter: 0 | 1 | 2 | 3) => string,
  ordinate?: (angle: number) => number,
  lowerOrdinate?: (angle: number) => number,
): readonly StationLine[] => {
  const lines = angles.map((angle, i): StationLine => {
    const quarter = isQuarter(angle);
    const number = Math.round(angle / QUARTER_TURN);
    const last = i === angles.length - 1;
    const write = (height: number | undefined) =>
      height === undefined ? undefined : writeShort(height, setting);
    return {
      x: paper.xAt(angle),
      label: last && Math.abs(angle - TURN) < 1e-9 ? '360°' : stationNumber(angle),
      quarter,
      word: quarter ? word((((number % 4) + 4) % 4) as 0 | 1 | 2 | 3) : undefined,
      ordinate: write(ordinate?.(angle)),
      lowerOrdinate: write(lowerOrdinate?.(angle)),
    };
  });
  return lines.sort((a, b) => a.x - b.x);
};

/** The table for those who lay out with tape and soapstone: true lengths on the steel, without the paper's thickness. */
export const ordinateTable = (
  paper: Paper,
  angles: readonly number[],
  ordinate: (angle: number) => number,
  setting: Setting,
  lowerOrdinate?: (angle: number) => number,
): Table => ({
  title: `By tape: along the ${paper.sides.kind === 'cut' ? 'plate' : 'pipe'} from the reference ${lowerOrdinate ? 'line' : 'edge'}`,
  header: [
    'Station',
    ...lengthColumns('round', setting),
    ...lengthColumns('up', setting),
    ...(lowerOrdinate ? lengthColumns('down', setting) : []),
  ],
  rows: angles
    .slice(0, -1)
    .map((angle) => [
      stationNumber(angle),
      ...lengthCells(((((angle % TURN) + TURN) % TURN) / TURN) * paper.steel, setting),
      ...lengthCells(ordinate(angle), setting),
      ...(lowerOrdinate ? lengthCells(lowerOrdinate(angle), setting) : []),
    ]),
});

/** What the sheet says of the pipe. */
export const describePipe = (pipe: Pipe, setting: Setting): string =>
  `${pipe.designation}: outside ${writeBoth(pipe.od, setting)}, wall ${writeBoth(pipe.wall, setting)}`;

/** Where the pipe's outside comes from, in words. */
export const describeSource = (pipe: Pipe): string =>
  pipe.measured ? 'Drawn for the girth that was measured' : `Outside from ${pipe.source}`;

/** The girth to check with a tape, or the width of the plate. */
export const girthFact = (
  pipe: Pipe,
  setting: Setting,
  making: Making = FROM_PIPE,
): readonly [string, string] =>
  making.madeFrom === 'plate'
    ? ['Plate, seam to seam', writeBoth(steelGirth(pipe, making), setting)]
    : ['Girth to tape', writeBoth(pipe.girth, setting)];

/** The steps every wrapped sheet begins with. */
export const wrapSteps = (pipe: Pipe, setting: Setting, making: Making = FROM_PIPE): readonly string[] => [
  'Check the print: every 100 mm rule is 100 mm long, every 4 in rule 4 in.',
  making.madeFrom === 'plate'
    ? `Check the plate: ${writeBoth(pipe.wall, setting)} thick. Another thickness needs another print.`
    : `Check the pipe: a tape round it reads ${writeBoth(pipe.girth, setting)}. If not, print again with the girth you read.`,
];

/** How the sheet is laid on the part: round a pipe as `onPipe` says, or flat on plate that is rolled afterwards. */
export const laySteps = (
  pipe: Pipe,
  setting: Setting,
  making: Making,
  onPipe: string,
  line = 'cut line',
): readonly string[] =>
  making.madeFrom === 'plate'
    ? [
        'Lay it flat on the plate, printed side up: this side rolls to the outside.',
        `Mark along the ${line} and both sides, punch the quarter lines. Take the paper off.`,
        `Cut square to the plate, then roll to an outside girth of ${writeBoth(pipe.girth, setting)}.`,
      ]
    : [onPipe, `Mark along the ${line}, punch the quarter lines. Take the paper off.`];

/** The height of the reference edge: at least `least` mm under `low`, on a round distance from the sheet's origin. */
export const roundBelow = (low: number, least: number, { units }: Setting): number => {
  const step = units === 'in' ? 6.35 : 5;
  return Math.floor((low - least) / step + 1e-9) * step;
};

/** What the paper adds, in words. */
export const describePaper = ({ paperThickness }: Setting, making: Making = FROM_PIPE): string => {
  const { madeFrom, seamAllowance } = making;
  if (madeFrom === 'plate')
    return `Flat pattern on the mean diameter, for plate that will be rolled; ${
      seamAllowance === 0
        ? 'no seam allowance'
        : `seam ${seamAllowance > 0 ? 'allowance' : 'gap'} ${formatMm(Math.abs(seamAllowance))}`
    }`;
  return paperThickness === 0
    ? 'No paper thickness allowed for: for a cutter'
    : `Wraps on paper ${formatMm(paperThickness, 2)} thick`;
};
