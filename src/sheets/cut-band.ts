import type { Box, Mark, Table } from '../drawing/model.ts';
import { TURN } from '../geometry/angle-units.ts';
import { developEnd, type Development, type End } from '../geometry/development.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Stock } from '../stock/stock.ts';
import type { Setting } from '../units/setting.ts';
import type { CutEdge } from './band-edges.ts';
import { countStations, type BandValues } from './band-fields.ts';
import { drawBandMarks, LEAST_KEEP, LEAST_SCRAP } from './band-marks.ts';
import {
  bandLines,
  bandPaper,
  openingsOf,
  ordinateTable,
  roundBelow,
  stationLines,
  type BandPaper,
  type Making,
} from './band-paper.ts';

/** A wrapped sheet's inputs, and which way its numbers run. */
export type Wrapping = BandValues & Making;

/** The full-size band of a part's cut lines. */
export interface Band {
  readonly paper: BandPaper;
  readonly marks: readonly Mark[];
  readonly bounds: Box;
  /** Sheet height of the reference line, mm. */
  readonly reference: number;
  readonly table: Table;
  /** Height of the upper cut above the reference line at a station, mm. */
  readonly ordinate: (angle: number) => number;
}

/** The full-size band of one cut end. */
export interface CutBand extends Band {
  readonly development: Development;
}

/** The cut lines of a part, laid flat on the girth of its outside with station 0 at x = 0, from the seam on. */
export interface Lines {
  readonly upper: Development;
  /** With a lower cut the straight reference line runs through the kept part, at y = 0. */
  readonly lower?: Development;
  /** What joins above and below, named at this station, radians. */
  readonly beyond?: { readonly station: number; readonly above: string; readonly below: string };
  /** Names of the two pieces that the upper cut parts, where both are kept. */
  readonly pair?: readonly [lower: string, upper: string];
  /** Height of a bend line right round the part. */
  readonly bend?: number;
}

/** Girth position on the stock's outside where its band begins, mm. */
export const seamPosition = (stock: Stock, { seam, ...making }: Wrapping, setting: Setting): number => {
  const { from, positionAt } = bandPaper(stock, seam, setting, making);
  return positionAt(from);
};

/** A development as a cut line on the paper. */
export const paperEdge = ({ line, ordinate }: Development, { lay, positionAt }: BandPaper): CutEdge => ({
  line: lay(line),
  at: (x) => ordinate(positionAt(x)),
});

/** Points of a cut line on the paper by its ordinates, `count` of them evenly around, without those in the root gap. */
export const edgePoints = (
  { ordinate }: Development,
  { from, girth, sides, positionAt }: BandPaper,
  count: number,
): readonly Vec2[] => {
  const to = from + girth + (sides.kind === 'cut' ? Math.min(0, sides.allowance) : 0);
  return Array.from({ length: count }, (_, i) => from + ((i + 0.5) * girth) / count)
    .filter((x) => x < to)
    .map((x) => ({ x, y: ordinate(positionAt(x)) }));
};

/** Sheet x of a station, or where that lies close to a seam, of a place well inside the paper. */
const insidePaper = ({ xAt, from, girth }: BandPaper, station: number): number => {
  const margin = Math.min(30, girth / 8);
  const inside = (x: number): boolean => x > from + margin && x < from + girth - margin;
  return [-1, 0, 1].map((turn) => xAt(station + turn * TURN)).find(inside) ?? from + girth / 4;
};

/** The bridged stretches of a stock's girth as they lie on its paper. */
const paperOpenings = (stock: Stock, { xAt }: BandPaper): readonly (readonly [number, number])[] =>
  openingsOf(stock).flatMap(({ from, to }) =>
    [-1, 0, 1].map((round) => {
      const ends = [from, to].map((s) => xAt((s / stock.girth + round) * TURN));
      return [Math.min(...ends), Math.max(...ends)] as const;
    }),
  );

/** The height of a band's reference edge under the lowest point of its cut line, mm. */
export const referenceUnder = (low: number, setting: Setting): number => roundBelow(low, LEAST_KEEP, setting);

/**
 * Draws the band of a part's cut lines. Sheet frame: station 0 at x = 0, y along the stock's axis.
 * @param words names of the quarter lines 0, 90, 180, 270
 */
export const drawBand = (
  stock: Stock,
  { upper, lower, beyond, pair, bend }: Lines,
  wrap: Wrapping,
  words: readonly string[],
  setting: Setting,
): Band => {
  const paper = bandPaper(stock, wrap.seam, setting, wrap);
  const lines = bandLines(stock, countStations(wrap), paper, wrap.numbersFall);
  const reference = lower ? 0 : referenceUnder(upper.low, setting);
  const over = (end: Development) => (angle: number) =>
    end.ordinate(((wrap.numbersFall ? -angle : angle) / TURN) * stock.girth);
  const ordinate = (angle: number): number => over(upper)(angle) - reference;
  const lowerOrdinate = lower && ((angle: number): number => reference - over(lower)(angle));
  const scrap = lower ? 24 : LEAST_SCRAP;
  const { marks, bounds } = drawBandMarks({
    from: paper.from,
    to: paper.from + paper.girth,
    reference,
    top: pair ? upper.high + upper.low - reference : upper.high + scrap,
    pair,
    bend,
    bottom: lower && lower.low - scrap,
    sides: paper.sides,
    upper: paperEdge(upper, paper),
    lower: lower && paperEdge(lower, paper),
    beyond: beyond && { ...beyond, x: insidePaper(paper, beyond.station) },
    openings: paperOpenings(stock, paper),
    stations: stationLines(paper, lines, setting, (quarter) => words[quarter] ?? '', ordinate, lowerOrdinate),
  });
  return {
    paper,
    marks,
    bounds,
    reference,
    ordinate,
    table: ordinateTable(paper, lines, reference, ordinate, lowerOrdinate),
  };
};

/**
 * Develops a stock's cut end and draws its band. Sheet frame: station 0 at x = 0, y along the stock's axis with 0 at the
 * stock frame's origin.
 * @param words names of the quarter lines 0, 90, 180, 270
 * @throws MissError where the stock misses its mate
 */
export const drawCutBand = (
  stock: Stock,
  end: End,
  wrap: Wrapping,
  words: readonly string[],
  setting: Setting,
): CutBand => {
  const development = developEnd(stock.outline, end, seamPosition(stock, wrap, setting));
  return { development, ...drawBand(stock, { upper: development }, wrap, words, setting) };
};
