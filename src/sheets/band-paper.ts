import type { Spot } from '../drawing/measured.ts';
import type { Figure, Said, Table } from '../drawing/model.ts';
import { modulo, QUARTER_TURN, TURN } from '../geometry/angle-units.ts';
import { contourOutline } from '../geometry/contour-outline.ts';
import { mapCubics, type Cubic } from '../geometry/cubic.ts';
import { halve } from '../geometry/halving.ts';
import { itemAt } from '../lists.ts';
import { jointError } from '../issue.ts';
import { isQuarter, listStations, stationNumber } from '../stock/station.ts';
import type { Stock } from '../stock/stock.ts';
import { lengthOf } from '../units/quantity.ts';
import type { Setting } from '../units/setting.ts';
import { writeShort } from '../units/writing.ts';
import { say, translateName } from '../words/say.ts';
import type { StationLine } from './band-edges.ts';
import type { BandValues } from './band-fields.ts';
import type { Sides } from './band-marks.ts';
import { apart, levelAt, ORIGIN, shown, uprightAt } from './measured.ts';

/** How the part is made: from stock that is wrapped, or from plate that is laid out flat and rolled. */
export type Making = Pick<BandValues, 'madeFrom' | 'seamAllowance'> & {
  /**
   * True where the numbers run to the left, clockwise seen facing the cut end: at the far end of a piece, so that a number
   * names the same line along the stock at both ends.
   */
  readonly numbersFall?: boolean;
};

/** Stock that is wrapped as it is. */
export const WRAPPED: Making = { madeFrom: 'pipe', seamAllowance: 0 };

/**
 * How the outside of a stock comes to lie on paper, from one seam to the other. Stations are angles that part the girth
 * evenly: station A lies at girth position A/360 of the girth.
 */
export interface BandPaper {
  /** Girth on the sheet, mm. */
  readonly girth: number;
  /** The same on the steel, mm: around the outside, or along the flat plate. */
  readonly steel: number;
  /** Sheet x of the left seam; station 0 lies at x = 0. */
  readonly from: number;
  /** Sheet x of a station, radians. */
  readonly xAt: (angle: number) => number;
  /** Girth position on the outline of a sheet x, mm. */
  readonly positionAt: (x: number) => number;
  /** A line developed on the outline's girth as it lies on the sheet. */
  readonly lay: (line: readonly Cubic[]) => readonly Cubic[];
  /** The seam's station, radians, in (-180, 180]. */
  readonly seam: number;
  readonly sides: Sides;
}

/** The girth a paper of the given thickness needs around a stock of outside girth `girth`, mm. */
export const paperGirth = (girth: number, paperThickness: number): number => girth + Math.PI * paperThickness;

/** The girth that is laid out: the outside of the stock, or a rolled plate's mean diameter, mm. */
export const steelGirth = ({ girth, wall }: Stock, { madeFrom }: Making): number =>
  madeFrom === 'plate' ? girth - Math.PI * wall : girth;

/**
 * How girth positions lie along paper of thickness t wrapped printed side out. The print lies t/2 over the steel, so
 * every stretch is longer by t/2 for each radian it turns: evenly around a round, only around the corners of a tube.
 */
const stretchOver = ({ round, section }: Stock, paperThickness: number): ((s: number) => number) => {
  const lift = paperThickness / 2;
  if (round !== undefined) return (s) => s * ((round + lift) / round);
  if (lift === 0) return (s) => s;
  const { turningAt } = contourOutline(section);
  return (s) => s + lift * turningAt(s);
};

/** The position a rising function takes to a place, by halving within one turn around it. */
const invert = (place: (s: number) => number, girth: number, x: number): number =>
  halve((s) => place(s) < x, x - girth / 2, x + girth / 2).middle;

/** Stretches of a stock's girth that its paper bridges, for an angle, a channel or a beam; from and to in girth positions. */
export const openingsOf = ({ section }: Stock): readonly { readonly from: number; readonly to: number }[] =>
  contourOutline(section).faces.filter(({ face }) => face === undefined);

/** Where the paper of a stock is cut open when station 0 is asked for: over the opening of stock that has one. */
const usualSeam = (stock: Stock, seam: number): number => {
  const [opening] = seam === 0 ? openingsOf(stock) : [];
  return opening ? ((opening.from + opening.to) / 2 / stock.girth) * TURN : seam;
};

/** Lays a stock's outside flat on paper, cut open at the seam. Paper that lies flat on plate is not stretched. */
export const bandPaper = (
  stock: Stock,
  seam: number,
  { paperThickness }: Pick<Setting, 'paperThickness'>,
  making: Making = WRAPPED,
): BandPaper => {
  const steel = steelGirth(stock, making);
  const isPlate = making.madeFrom === 'plate';
  if (isPlate && stock.round === undefined)
    throw jointError(
      'made-from',
      'not-round',
      say`${stock.designation} is not round: only a round is rolled from flat plate`,
      say`leave made-from out, and wrap the sheet around the stock`,
    );
  const sense = making.numbersFall ? -1 : 1;
  const place = isPlate
    ? (s: number): number => s * (steel / stock.girth)
    : stretchOver(stock, paperThickness);
  const girth = isPlate ? steel : paperGirth(steel, paperThickness);
  const turned = modulo(usualSeam(stock, seam), TURN);
  const start = turned > Math.PI + 1e-12 ? turned - TURN : turned;
  const xAt = (angle: number): number => place((sense * angle * stock.girth) / TURN);
  const even = isPlate || stock.round !== undefined || paperThickness === 0;
  return {
    girth,
    steel,
    from: making.numbersFall ? xAt(start + TURN) : xAt(start),
    xAt,
    positionAt: even ? (x) => (x * stock.girth) / girth : (x) => invert(place, stock.girth, x),
    lay: (line) => mapCubics(line, place),
    seam: start,
    sides: isPlate ? { kind: 'cut', allowance: making.seamAllowance } : { kind: 'tab' },
  };
};

/** A line along the stock that a band shows: a station, the middle of a face, where a corner begins or ends. */
export interface BandLine {
  /** Station, radians. */
  readonly angle: number;
  readonly label: string;
  readonly quarter: boolean;
  /** 0 to 3 on the quarter lines of a round. */
  readonly quarterNumber?: number;
}

/** A pipe's lines from seam to seam: equal stations and the quarter lines. */
const pipeLines = (count: number, seam: number): readonly BandLine[] => {
  const angles = listStations(count, seam);
  return angles.map((angle, i) => {
    const quarter = isQuarter(angle);
    const number = Math.round(angle / QUARTER_TURN);
    const last = i === angles.length - 1;
    return {
      angle,
      label: last && Math.abs(angle - TURN) < 1e-9 ? '360°' : stationNumber(angle),
      quarter,
      quarterNumber: quarter ? modulo(number, 4) : undefined,
    };
  });
};

/** A shaped stock's own lines from seam to seam. */
const shapedLines = (
  { lines, girth, outline }: Stock,
  seam: number,
  numbersFall: boolean,
): readonly BandLine[] => {
  /** Which quarter a face looks to, where it looks squarely to one: the layout's words stand on its middle. */
  const quarterOf = (s: number): number | undefined => {
    const [p, q] = [outline.at(s, 0), outline.at(s, 1)];
    const quarters = Math.atan2(p.y - q.y, p.x - q.x) / QUARTER_TURN;
    const whole = Math.round(quarters);
    if (Math.abs(quarters - whole) > 1e-6) return undefined;
    return modulo(numbersFall ? -whole : whole, 4);
  };
  const own = lines.map(({ s, name, kind }): BandLine => {
    const angle = ((numbersFall ? -s : s) / girth) * TURN;
    const quarter = kind === 'middle';
    return { angle, label: translateName(name), quarter, quarterNumber: quarter ? quarterOf(s) : undefined };
  });
  const inside = [-2, -1, 0, 1, 2]
    .flatMap((turn) => own.map((line) => ({ ...line, angle: line.angle + turn * TURN })))
    .filter(({ angle }) => angle > seam + 1e-9 && angle < seam + TURN - 1e-9);
  const at = own.find(({ angle }) => Math.abs(Math.sin((angle - seam) / 2)) < 1e-9);
  const ends = [seam, seam + TURN].map((angle): BandLine => ({
    angle,
    label: at?.label ?? '',
    quarter: at?.quarter ?? false,
    quarterNumber: at?.quarterNumber,
  }));
  return [itemAt(ends, 0), ...inside, itemAt(ends, 1)].sort((a, b) => a.angle - b.angle);
};

/** The lines along a stock that its band shows, from seam to seam; `count` equal stations around a pipe. */
export const bandLines = (
  stock: Stock,
  count: number,
  { seam }: BandPaper,
  numbersFall = false,
): readonly BandLine[] =>
  stock.kind === 'pipe' ? pipeLines(count, seam) : shapedLines(stock, seam, numbersFall);

/** True for a line along the stock; false for a seam that lies over none, where there may be no steel. */
const isNamed = ({ label }: BandLine): boolean => label !== '';

/** Station lines for the sheet, left to right. `word` names a quarter line, the ordinates are the ways up and down to the cuts, mm. */
export const stationLines = (
  paper: BandPaper,
  lines: readonly BandLine[],
  setting: Setting,
  word: (quarter: number) => string,
  ordinate?: (angle: number) => number,
  lowerOrdinate?: (angle: number) => number,
): readonly StationLine[] => {
  const write = (height: number | undefined): string | undefined =>
    height === undefined ? undefined : writeShort(height, setting);
  return lines
    .map(({ angle, label, quarter, quarterNumber }) => ({
      x: paper.xAt(angle),
      label,
      quarter,
      word: quarterNumber === undefined ? undefined : word(quarterNumber),
      ...(label !== '' && {
        ordinate: write(ordinate?.(angle)),
        lowerOrdinate: write(lowerOrdinate?.(angle)),
      }),
    }))
    .sort((a, b) => a.x - b.x);
};

const tapeTitle = (isPlate: boolean, hasLine: boolean): string =>
  isPlate
    ? hasLine
      ? say`By tape: along the plate from the reference line`
      : say`By tape: along the plate from the reference edge`
    : hasLine
      ? say`By tape: along the stock from the reference line`
      : say`By tape: along the stock from the reference edge`;

/** The table for those who lay out with tape and soapstone: true lengths on the steel, without the paper's thickness. */
export const ordinateTable = (
  paper: BandPaper,
  lines: readonly BandLine[],
  reference: number,
  ordinate: (angle: number) => number,
  lowerOrdinate?: (angle: number) => number,
): Table => ({
  title: tapeTitle(paper.sides.kind === 'cut', lowerOrdinate !== undefined),
  goesAround: true,
  header: [say`Station`, say`around`, say`up`, ...(lowerOrdinate ? [say`down`] : [])],
  rows: lines
    .slice(0, -1)
    .filter(isNamed)
    .map(({ angle, label }): readonly Said[] => {
      const x = paper.xAt(angle);
      const [edge, up] = [uprightAt('reference', x, reference), ordinate(angle)];
      const down = lowerOrdinate?.(angle);
      return [
        label,
        aroundTo(
          paper,
          angle,
          // On a narrow gore a station's number may stand in the place of its line.
          down === undefined ? levelAt('station', x, reference + 1) : undefined,
        ),
        shown(
          lengthOf(up),
          isSteady(ordinate, angle, paper.steel)
            ? apart(edge, uprightAt('cut', x, reference + up), 'y')
            : undefined,
        ),
        ...(down === undefined
          ? []
          : [shown(lengthOf(down), apart(uprightAt('cut', x, reference - down), edge, 'y'))]),
      ];
    }),
});

/** Where a line rises this many times as much as it runs, a hair to the side is more in height than a figure may be off. */
const STEEP = 8;

/**
 * False at a sharp corner of the stock where the cut steps from one height to another, and where it is so steep that its line
 * does not tell the height: `girth` once around, mm.
 */
const isSteady = (ordinate: (angle: number) => number, angle: number, girth: number): boolean => {
  const rise = (by: number): number => Math.abs(ordinate(angle + by) - ordinate(angle - by));
  const run = (2e-4 / TURN) * girth;
  return rise(1e-6) < 0.01 && rise(1e-4) < STEEP * run;
};

/** How far around the steel a line along the stock lies from station 0, the way the numbers rise. */
export const aroundTo = (paper: BandPaper, angle: number, line: Spot | undefined): Figure => {
  const turned = modulo(angle, TURN);
  const way = TURN - turned < 1e-9 ? 0 : turned;
  const isFalling = paper.xAt(1) < paper.xAt(0);
  // So near to station 0 the drawing cannot tell a whole turn from none.
  const isHome = way === 0 || ((TURN - way) / TURN) * paper.steel < 0.1;
  return shown(
    lengthOf((way / TURN) * paper.steel),
    isHome || line === undefined
      ? undefined
      : isFalling
        ? apart(line, ORIGIN, 'onward')
        : apart(ORIGIN, line, 'onward'),
  );
};

/** The height of the reference edge: at least `least` mm under `low`, on a round distance from the sheet's origin. */
export const roundBelow = (low: number, least: number, { units }: Pick<Setting, 'units'>): number => {
  const step = units === 'in' ? 6.35 : 5;
  return Math.floor((low - least) / step + 1e-9) * step;
};
