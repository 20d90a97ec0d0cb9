import type { Box, Mark, Table } from '../drawing/model.ts';
import { drawWrap, LEAST_KEEP, LEAST_SCRAP, TAB } from '../drawing/wrap.ts';
import { developEnd, type Development, type End } from '../geometry/development.ts';
import type { Cubic } from '../geometry/fit.ts';
import { circleOutline, type Outline } from '../geometry/outline.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Pipe } from '../stock/pipe.ts';
import type { Setting } from './layout.ts';
import {
  listStations,
  ordinateTable,
  roundBelow,
  stationLines,
  wrapPaper,
  type Paper,
} from './wrap-parts.ts';

/** The full-size band of one cut end. */
export interface CutBand {
  readonly outline: Outline;
  readonly development: Development;
  readonly paper: Paper;
  readonly marks: readonly Mark[];
  readonly bounds: Box;
  /** Sheet height of the reference edge, mm. */
  readonly reference: number;
  readonly table: Table;
  /** Height of the cut above the reference edge at a station, mm. */
  readonly ordinate: (angle: number) => number;
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

/**
 * Develops a pipe's cut end and draws its band. Sheet frame: station 0 at x = 0, y along the pipe's axis with 0 at the
 * stock frame's origin.
 * @param words names of the quarter lines 0, 90, 180, 270
 * @throws MissError where the pipe misses its mate
 */
export const drawCutBand = (
  pipe: Pipe,
  end: End,
  count: number,
  seam: number,
  words: readonly [string, string, string, string],
  setting: Setting,
): CutBand => {
  const outline = circleOutline(pipe.girth / (2 * Math.PI), pipe.wall);
  const paper = wrapPaper(pipe, seam, setting);
  const angles = listStations(count, paper.seam);
  const toSteel = outline.girth / paper.girth;
  const development = developEnd(outline, end, paper.from * toSteel);
  const reference = roundBelow(development.low, LEAST_KEEP, setting);
  const ordinate = (angle: number): number =>
    development.ordinate((angle / (2 * Math.PI)) * outline.girth) - reference;
  const { marks, bounds } = drawWrap({
    from: paper.from,
    to: paper.from + paper.girth,
    reference,
    top: development.high + LEAST_SCRAP,
    tab: TAB,
    cut: stretchCubics(development.line, 1 / toSteel),
    cutAt: (x) => development.ordinate(x * toSteel),
    stations: stationLines(paper, angles, setting, (quarter) => words[quarter], ordinate),
  });
  return {
    outline,
    development,
    paper,
    marks,
    bounds,
    reference,
    ordinate,
    table: ordinateTable(pipe, angles, ordinate, setting),
  };
};
