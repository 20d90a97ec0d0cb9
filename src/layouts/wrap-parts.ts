import type { Table } from '../drawing/model.ts';
import type { StationLine } from '../drawing/wrap.ts';
import type { Pipe } from '../stock/pipe.ts';
import { formatAngle } from '../units/angle.ts';
import { formatBoth, formatInches, formatMm } from '../units/format.ts';
import type { Setting } from './layout.ts';

const TURN = 2 * Math.PI;
const QUARTER_TURN = TURN / 4;

/** A pipe's paper: printed side out it lies at radius D/2 + t/2, so its girth is that much longer. */
export interface Paper {
  /** Girth on the sheet, mm. */
  readonly girth: number;
  /** Sheet x of the left seam; station 0 lies at x = 0. */
  readonly from: number;
  /** Sheet x of a station, radians. */
  readonly xAt: (angle: number) => number;
  /** Station of a sheet x, radians. */
  readonly angleAt: (x: number) => number;
  /** The seam's station, radians, in (-180, 180]. */
  readonly seam: number;
}

/** The girth a paper of the given thickness needs round a stock of outside girth `girth`, mm. */
export const paperGirth = (girth: number, paperThickness: number): number => girth + Math.PI * paperThickness;

/** Lays a pipe's outside flat on paper, cut open at the seam. */
export const wrapPaper = (pipe: Pipe, seam: number, setting: Setting): Paper => {
  const girth = paperGirth(pipe.girth, setting.paperThickness);
  const turned = ((seam % TURN) + TURN) % TURN;
  const start = turned > Math.PI + 1e-12 ? turned - TURN : turned;
  const xAt = (angle: number): number => (angle / TURN) * girth;
  return { girth, from: xAt(start), xAt, angleAt: (x) => (x / girth) * TURN, seam: start };
};

/** The stations from seam to seam, radians: whole steps from station 0, the quarter lines, and the seam twice. */
export const listStations = (count: number, seam: number): readonly number[] => {
  const end = seam + TURN;
  const inside = (angle: number): boolean => angle > seam + 1e-9 && angle < end - 1e-9;
  const steps = Array.from({ length: 2 * count + 1 }, (_, i) => ((i - count) * TURN) / count);
  const quarters = Array.from({ length: 9 }, (_, i) => (i - 4) * QUARTER_TURN);
  const all = [seam, ...[...steps, ...quarters, ...steps.map((a) => a + TURN)].filter(inside), end].sort(
    (a, b) => a - b,
  );
  return all.filter((angle, i) => i === 0 || angle - (all[i - 1] as number) > 1e-9);
};

/** True on the quarter lines: stations 0, 90, 180 and 270. */
export const isQuarter = (angle: number): boolean =>
  Math.abs(angle / QUARTER_TURN - Math.round(angle / QUARTER_TURN)) < 1e-9;

/** A station's number in [0, 360), written as degrees. */
export const stationNumber = (angle: number): string => {
  const turned = ((angle % TURN) + TURN) % TURN;
  return formatAngle(TURN - turned < 1e-9 ? 0 : turned);
};

/** Station lines for the sheet. `word` names a quarter line, `ordinate` is the height to the cut at a station, mm. */
export const stationLines = (
  paper: Paper,
  angles: readonly number[],
  setting: Setting,
  word: (quarter: 0 | 1 | 2 | 3) => string,
  ordinate?: (angle: number) => number,
): readonly StationLine[] =>
  angles.map((angle, i) => {
    const quarter = isQuarter(angle);
    const number = Math.round(angle / QUARTER_TURN);
    const last = i === angles.length - 1;
    const height = ordinate?.(angle);
    return {
      x: paper.xAt(angle),
      label: last && Math.abs(angle - TURN) < 1e-9 ? '360°' : stationNumber(angle),
      quarter,
      word: quarter ? word((((number % 4) + 4) % 4) as 0 | 1 | 2 | 3) : undefined,
      ordinate: height === undefined ? undefined : writeShort(height, setting),
    };
  });

/** A length in the reader's unit without the unit's name where space is short. */
export const writeShort = (length: number, setting: Setting): string =>
  setting.units === 'in' ? formatInches(length, setting.denominator) : formatMm(length).replace(' mm', '');

/** A length in both units, the reader's first. */
export const writeBoth = (length: number, setting: Setting): string =>
  formatBoth(length, { units: setting.units, denominator: setting.denominator });

/** One column of lengths in both units, as two table columns, the reader's unit first. */
export const lengthColumns = (name: string, { units }: Setting): readonly [string, string] =>
  units === 'in' ? [`${name} in`, `${name} mm`] : [`${name} mm`, `${name} in`];

/** The cells under `lengthColumns`: millimetres to 0.1, inches to the chosen fraction. */
export const lengthCells = (length: number, { units, denominator }: Setting): readonly [string, string] => {
  const mm = formatMm(length).replace(' mm', '');
  const inches = formatInches(length, denominator);
  return units === 'in' ? [inches, mm] : [mm, inches];
};

/** The table for those who lay out with tape and soapstone: true lengths on the steel, without the paper's thickness. */
export const ordinateTable = (
  pipe: Pipe,
  angles: readonly number[],
  ordinate: (angle: number) => number,
  setting: Setting,
): Table => ({
  title: 'By tape: along the pipe from the reference edge',
  header: ['Station', ...lengthColumns('round', setting), ...lengthColumns('up', setting)],
  rows: angles
    .slice(0, -1)
    .map((angle) => [
      stationNumber(angle),
      ...lengthCells(((((angle % TURN) + TURN) % TURN) / TURN) * pipe.girth, setting),
      ...lengthCells(ordinate(angle), setting),
    ]),
});

/** What the sheet says of the pipe. */
export const describePipe = (pipe: Pipe, setting: Setting): string =>
  `${pipe.designation}: outside ${writeBoth(pipe.od, setting)}, wall ${writeBoth(pipe.wall, setting)}`;

/** Where the pipe's outside comes from, in words. */
export const describeSource = (pipe: Pipe): string =>
  pipe.measured ? 'Drawn for the girth that was measured' : `Outside from ${pipe.source}`;

/** The girth to check with a tape. */
export const girthFact = (pipe: Pipe, setting: Setting): readonly [string, string] => [
  'Girth to tape',
  writeBoth(pipe.girth, setting),
];

/** The steps every wrapped sheet begins with. */
export const wrapSteps = (pipe: Pipe, setting: Setting): readonly string[] => [
  'Check the print: every 100 mm rule is 100 mm long, every 4 in rule 4 in.',
  `Check the pipe: a tape round it reads ${writeBoth(pipe.girth, setting)}. If not, print again with the girth you read.`,
];

/** The height of the reference edge: at least `least` mm under `low`, on a round distance from the sheet's origin. */
export const roundBelow = (low: number, least: number, { units }: Setting): number => {
  const step = units === 'in' ? 6.35 : 5;
  return Math.floor((low - least) / step + 1e-9) * step;
};

/** What the paper adds, in words. */
export const describePaper = ({ paperThickness }: Setting): string =>
  paperThickness === 0
    ? 'No paper thickness allowed for: for a cutter'
    : `Wraps on paper ${formatMm(paperThickness, 2)} thick`;
