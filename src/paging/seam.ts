import { markBounds } from '../drawing/extent.ts';
import { textWidth } from '../drawing/lettering.ts';
import type { Box, Mark, Stroke } from '../drawing/model.ts';
import { clipStroke, isStrokeIn } from '../drawing/path-clip.ts';
import {
  boxPath,
  circlePath,
  FINE,
  letter,
  growBox,
  linePath,
  NARROW,
  QUARTER,
  stroke,
} from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { boxAt, isOverlapping, shareBox } from './box.ts';
import type { Grid, Tile } from './tile.ts';
import { gutter, lane } from './tile-page.ts';
import { say } from '../words/say.ts';

/** Where two tiles are lined up, the second laid on the first: crosses at the same places of the sheet on both. */
export interface Seam {
  readonly tiles: readonly [Tile, Tile];
  readonly isUpright: boolean;
  readonly crosses: readonly Vec2[];
  readonly reach: number;
}

/** Crosses about this far apart along a seam, at least two. */
const spacing = 160;
const widestReach = 4;
const leastReach = 2;
const onLettering = 100;

interface Boxed {
  readonly mark: Mark;
  readonly box: Box;
}

/** How bad a place is for a cross: on lettering worst, on the lines to be cut next. */
const costAt = (at: Vec2, reach: number, boxed: readonly Boxed[]): number => {
  const box = boxAt(at.x - reach - 0.5, at.y - reach - 0.5, 2 * reach + 1, 2 * reach + 1);
  return boxed.reduce((sum, { mark, box: other }) => {
    if (!isOverlapping(box, other)) return sum;
    if (mark.kind === 'text') return sum + onLettering;
    if (mark.kind === 'fill') return sum;
    if (!isStrokeIn(mark.path, box)) return sum;
    return sum + (mark.role === 'cut' || mark.role === 'scale' ? 10 : 1);
  }, 0);
};

/** The line on which a seam's crosses stand, and how far along it they may. */
interface Line {
  readonly isUpright: boolean;
  readonly level: number;
  readonly from: number;
  readonly to: number;
}

const pointOn = ({ isUpright, level }: Line, along: number): Vec2 =>
  isUpright ? { x: level, y: along } : { x: along, y: level };

/** The best place for one cross, up to `roam` from its target and clear of those already placed. */
const placeCross = (
  line: Line,
  target: number,
  roam: number,
  reach: number,
  placed: readonly number[],
  boxed: readonly Boxed[],
): { along: number; cost: number } => {
  let best = { along: target, cost: Infinity };
  for (let off = 0; off <= roam && best.cost >= 1; off += 1.5) {
    for (const along of [target + off, target - off]) {
      if (along < line.from || along > line.to) continue;
      if (placed.some((other) => Math.abs(other - along) < 4 * reach)) continue;
      const cost = costAt(pointOn(line, along), reach, boxed) + (0.5 * off) / roam;
      if (cost < best.cost) best = { along, cost };
    }
  }
  return best;
};

const placeCrosses = (a: Tile, b: Tile, overlap: number, boxed: readonly Boxed[], isTight: boolean): Seam => {
  const isUpright = a.row === b.row;
  // On the edge of the tile that is laid on.
  const level = isUpright ? b.window.minX : b.window.maxY;
  const [low, high] = isUpright
    ? [Math.max(a.window.minY, b.window.minY), Math.min(a.window.maxY, b.window.maxY)]
    : [Math.max(a.window.minX, b.window.minX), Math.min(a.window.maxX, b.window.maxX)];
  const reach = Math.min(isTight ? leastReach : widestReach, overlap - 0.5);
  // Clear of the strips shared with the rows or columns before and after, unless that leaves no place.
  const inset = (isTight ? 0 : overlap) + reach + 1;
  const line: Line = { isUpright, level, from: low + inset, to: high - inset };
  const length = line.to - line.from;
  const count = Math.max(2, Math.round(length / spacing) + 1);
  const step = length / count;
  const placed: number[] = [];
  let worst = 0;
  for (let i = 0; i < count; i += 1) {
    const roam = isTight ? length : step / 2 - reach;
    const { along, cost } = placeCross(line, line.from + (i + 0.5) * step, roam, reach, placed, boxed);
    placed.push(along);
    worst = Math.max(worst, cost);
  }
  // Where there is no place clear of lettering, smaller crosses that may stand anywhere find one.
  if (worst >= onLettering && !isTight) return placeCrosses(a, b, overlap, boxed, true);
  return { tiles: [a, b], isUpright, crosses: placed.map((along) => pointOn(line, along)), reach };
};

/**
 * The seams between all neighbouring tiles of a sheet. `shares` are the marks on each tile, in sheet mm, which the
 * crosses keep clear of.
 */
export const findSeams = ({ tiles, overlap }: Grid, shares: readonly (readonly Mark[])[]): Seam[] => {
  const boxed = shares.map((share) => share.map((mark): Boxed => ({ mark, box: markBounds(mark) })));
  const byPlace = new Map(tiles.map((tile, i) => [`${tile.row} ${tile.column}`, i]));
  return tiles.flatMap((a, i) =>
    [`${a.row} ${a.column + 1}`, `${a.row + 1} ${a.column}`].flatMap((place) => {
      const j = byPlace.get(place);
      const b = j === undefined ? undefined : tiles[j];
      if (j === undefined || !b) return [];
      const strip = shareBox(a.window, b.window) ?? a.window;
      const near = [...(boxed[i] ?? []), ...(boxed[j] ?? [])].filter(({ box }) =>
        isOverlapping(box, growBox(strip, widestReach + 1)),
      );
      return [placeCrosses(a, b, overlap, near, false)];
    }),
  );
};

/** A cross with its ring: bars square to the seam and along it. */
const crossPaths = ({ x, y }: Vec2, reach: number) => [
  linePath({ x: x - reach, y }, { x: x + reach, y }),
  linePath({ x, y: y - reach }, { x, y: y + reach }),
  circlePath({ x, y }, reach / 2),
];

/** A line cut where lettering stands on it. */
const linesRound = (from: Vec2, to: Vec2, texts: readonly Box[]): Stroke[] => {
  const axis = from.x === to.x ? 'y' : 'x';
  const across = axis === 'x' ? 'y' : 'x';
  const name = (side: 'min' | 'max', of: 'x' | 'y') => `${side}${of === 'x' ? 'X' : 'Y'}` as const;
  const cuts = texts
    .filter(
      (box) => box[name('min', across)] < from[across] + 0.5 && box[name('max', across)] > from[across] - 0.5,
    )
    .map((box) => [box[name('min', axis)] - 0.8, box[name('max', axis)] + 0.8] as const)
    .sort((a, b) => a[0] - b[0]);
  const strokes: Stroke[] = [];
  let at = from[axis];
  for (const [low, high] of [...cuts, [to[axis], to[axis]] as const]) {
    const end = Math.min(low, to[axis]);
    if (end - at > 0.5)
      strokes.push(
        stroke('page', linePath({ ...from, [axis]: at }, { ...from, [axis]: end }), FINE, 'dashed'),
      );
    at = Math.max(at, high);
  }
  return strokes;
};

/** The lap line: where the trimmed edge of the tile that is laid on must lie, drawn on the tile under it. */
const drawLapLine = (seam: Seam, texts: readonly Box[]): Stroke[] => {
  const [under, over] = seam.tiles;
  const { window } = over;
  return seam.isUpright
    ? linesRound(
        { x: window.minX, y: Math.max(window.minY, under.window.minY) },
        { x: window.minX, y: Math.min(window.maxY, under.window.maxY) },
        texts,
      )
    : linesRound(
        { x: Math.max(window.minX, under.window.minX), y: window.maxY },
        { x: Math.min(window.maxX, under.window.maxX), y: window.maxY },
        texts,
      );
};

/**
 * The name of the tile that is laid on, outside the frame of the one under it: in the lane at its right, clear of what
 * stands there, or in the gutter under it.
 */
const nameOver = ({ tiles: [under, over], isUpright }: Seam, keep: Box | undefined): Mark[] => {
  const { window } = under;
  const text = say`${over.name} laps here`;
  const style = { align: 'centre', valign: 'middle' } as const;
  const width = textWidth(text, 2.5, false);
  if (!isUpright) {
    const x = (Math.max(window.minX, over.window.minX) + Math.min(window.maxX, over.window.maxX)) / 2;
    return [letter('page', { x, y: window.minY - gutter / 2 }, text, 2.5, style)];
  }
  const low = keep === undefined ? window.minY : Math.max(window.minY, keep.maxY + 1);
  const [longer, room] = [
    [text, over.name].find((t) => textWidth(t, 2.5, false) <= window.maxY - low),
    window.maxY - low,
  ];
  if (longer === undefined) return [];
  const y = low + Math.min(room, Math.max(width + 8, room / 2)) / 2;
  return [letter('page', { x: window.maxX + lane / 2, y }, longer, 2.5, { ...style, angle: Math.PI / 2 })];
};

/**
 * A tile's frame, its crosses and the lap lines on it, in sheet mm. Crosses stand astride the edge of the upper tile: the
 * one under it shows them whole, the upper one its half, so that they are seen when the one covers the other. `keep` is
 * ground of the page at the right of the frame that is taken, `marks` the tile's own; names of neighbors stand outside the
 * frame where there is room for them.
 */
export const drawTileEdges = (
  tile: Tile,
  seams: readonly Seam[],
  marks: readonly Mark[],
  keep: Box | undefined,
  isNamed = true,
): Mark[] => {
  const texts = marks.flatMap((mark) => (mark.kind === 'text' ? [markBounds(mark)] : []));
  return [
    stroke('page', boxPath(tile.window), QUARTER),
    ...seams.flatMap((seam): Mark[] => {
      const [under, over] = seam.tiles;
      if (under !== tile && over !== tile) return [];
      const lap =
        under === tile ? [...drawLapLine(seam, texts), ...(isNamed ? nameOver(seam, keep) : [])] : [];
      const crosses = seam.crosses.flatMap((at) =>
        crossPaths(at, seam.reach)
          .flatMap((path) => clipStroke(path, tile.window))
          .map((path) => stroke('page', path, NARROW)),
      );
      return [...lap, ...crosses];
    }),
  ];
};
