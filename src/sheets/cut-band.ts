import type { Box, Mark, Table } from '../drawing/model.ts';
import type { CutEdge } from './band-edges.ts';
import { drawWrap, LEAST_KEEP, LEAST_SCRAP } from './band-marks.ts';
import { developEnd, type Development, type End } from '../geometry/development.ts';
import type { Cubic } from '../geometry/cubic.ts';
import { circleOutline, type Outline } from '../geometry/outline.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Pipe } from '../stock/pipe.ts';
import { countStations } from './band-fields.ts';
import { type WrapValues } from './band-fields.ts';
import type { Setting } from '../units/setting.ts';
import { ordinateTable, roundBelow, stationLines, wrapPaper, type Making, type Paper } from './band-paper.ts';
import { listStations } from '../stock/station.ts';

const TURN = 2 * Math.PI;

/** A wrapped sheet's inputs, and which way its numbers run. */
export type Wrapping = WrapValues & Making;

/** The full-size band of a part's cut lines. */
export interface Band {
  readonly paper: Paper;
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
  readonly outline: Outline;
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

/** A fitted line stretched along the girth from the steel to the paper. */
export const stretchCubics = (cubics: readonly Cubic[], factor: number): readonly Cubic[] => {
  const map = (p: Vec2): Vec2 => ({ x: p.x * factor, y: p.y });
  return cubics.map(({ start, c1, c2, end }) => ({
    start: map(start),
    c1: map(c1),
    c2: map(c2),
    end: map(end),
  }));
};

/** The outline of a pipe's outside, by its girth. */
export const pipeOutline = (pipe: Pipe): Outline => circleOutline(pipe.girth / TURN, pipe.wall);

/** Girth position on the pipe's outside where its band begins, mm. */
export const seamPosition = (pipe: Pipe, { seam, ...making }: Wrapping, setting: Setting): number => {
  const { from, girth } = wrapPaper(pipe, seam, setting, making);
  return (from / girth) * pipe.girth;
};

/** A development as a cut line on the paper. */
export const paperEdge = ({ line, ordinate }: Development, paper: Paper, girth: number): CutEdge => ({
  line: stretchCubics(line, paper.girth / girth),
  at: (x) => ordinate((x * girth) / paper.girth),
});

/** Sheet x of a station, or where that lies close to a seam, of a place well inside the paper. */
const insidePaper = ({ xAt, from, girth }: Paper, station: number): number => {
  const margin = Math.min(30, girth / 8);
  const inside = (x: number): boolean => x > from + margin && x < from + girth - margin;
  return [-1, 0, 1].map((turn) => xAt(station + turn * TURN)).find(inside) ?? from + girth / 4;
};

/**
 * Draws the band of a part's cut lines. Sheet frame: station 0 at x = 0, y along the pipe's axis.
 * @param words names of the quarter lines 0, 90, 180, 270
 */
export const drawBand = (
  pipe: Pipe,
  { upper, lower, beyond, pair, bend }: Lines,
  wrap: Wrapping,
  words: readonly [string, string, string, string],
  setting: Setting,
): Band => {
  const paper = wrapPaper(pipe, wrap.seam, setting, wrap);
  const angles = listStations(countStations(wrap), paper.seam);
  const reference = lower ? 0 : roundBelow(upper.low, LEAST_KEEP, setting);
  const over = (end: Development) => (angle: number) =>
    end.ordinate((paper.xAt(angle) / paper.girth) * pipe.girth);
  const ordinate = (angle: number): number => over(upper)(angle) - reference;
  const lowerOrdinate = lower && ((angle: number): number => reference - over(lower)(angle));
  const scrap = lower ? 24 : LEAST_SCRAP;
  const { marks, bounds } = drawWrap({
    from: paper.from,
    to: paper.from + paper.girth,
    reference,
    top: pair ? upper.high + upper.low - reference : upper.high + scrap,
    pair,
    bend,
    bottom: lower && lower.low - scrap,
    sides: paper.sides,
    upper: paperEdge(upper, paper, pipe.girth),
    lower: lower && paperEdge(lower, paper, pipe.girth),
    beyond: beyond && { ...beyond, x: insidePaper(paper, beyond.station) },
    stations: stationLines(paper, angles, setting, (quarter) => words[quarter], ordinate, lowerOrdinate),
  });
  return {
    paper,
    marks,
    bounds,
    reference,
    ordinate,
    table: ordinateTable(paper, angles, ordinate, setting, lowerOrdinate),
  };
};

/**
 * Develops a pipe's cut end and draws its band. Sheet frame: station 0 at x = 0, y along the pipe's axis with 0 at the
 * stock frame's origin.
 * @param words names of the quarter lines 0, 90, 180, 270
 * @throws MissError where the pipe misses its mate
 */
export const drawCutBand = (
  pipe: Pipe,
  end: End,
  wrap: Wrapping,
  words: readonly [string, string, string, string],
  setting: Setting,
): CutBand => {
  const outline = pipeOutline(pipe);
  const development = developEnd(outline, end, seamPosition(pipe, wrap, setting));
  return { outline, development, ...drawBand(pipe, { upper: development }, wrap, words, setting) };
};
