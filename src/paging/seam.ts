import { markBounds } from '../drawing/extent.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { clipStroke } from '../drawing/path-clip.ts';
import { boxPath, circlePath, letter, linePath, NARROW, QUARTER, stroke } from '../drawing/shape.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { boxAt, isOverlapping, shareBox } from './box.ts';
import type { Grid, Tile } from './tile.ts';
import { gutter } from './tile-page.ts';

/** Where two tiles are lined up: crosses at the same places of the sheet on both. */
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
    if (clipStroke(mark.path, box).length === 0) return sum;
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
  const level = isUpright ? (b.own.minX + a.own.maxX) / 2 : (b.own.maxY + a.own.minY) / 2;
  const [low, high] = isUpright
    ? [Math.max(a.window.minY, b.window.minY), Math.min(a.window.maxY, b.window.maxY)]
    : [Math.max(a.window.minX, b.window.minX), Math.min(a.window.maxX, b.window.maxX)];
  const reach = Math.min(isTight ? leastReach : widestReach, overlap / 2 - 0.5);
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
      const near = [...(boxed[i] ?? []), ...(boxed[j] ?? [])].filter(({ box }) => isOverlapping(box, strip));
      return [placeCrosses(a, b, overlap, near, false)];
    }),
  );
};

const drawCross = ({ x, y }: Vec2, reach: number): Mark[] => [
  stroke('page', linePath({ x: x - reach, y }, { x: x + reach, y }), NARROW),
  stroke('page', linePath({ x, y: y - reach }, { x, y: y + reach }), NARROW),
  stroke('page', circlePath({ x, y }, reach / 2), NARROW),
];

/** The neighbour's name beside a cross, in the gutter outside this tile's frame. */
const nameNeighbour = (tile: Tile, other: Tile, { x, y }: Vec2): Mark => {
  const { window } = tile;
  const style = { align: 'centre', valign: 'middle', bold: true } as const;
  const out = gutter / 2;
  if (other.row === tile.row) {
    const side = other.column > tile.column ? window.maxX + out : window.minX - out;
    return letter('page', { x: side, y }, other.name, 2.5, { ...style, angle: Math.PI / 2 });
  }
  return letter(
    'page',
    { x, y: other.row > tile.row ? window.minY - out : window.maxY + out },
    other.name,
    2.5,
    style,
  );
};

/** A tile's frame, its crosses and its neighbours' names, in sheet mm. */
export const drawTileEdges = (tile: Tile, seams: readonly Seam[]): Mark[] => [
  stroke('page', boxPath(tile.window), QUARTER),
  ...seams.flatMap(({ tiles: [a, b], crosses, reach }) => {
    if (a !== tile && b !== tile) return [];
    const other = a === tile ? b : a;
    return crosses.flatMap((at) => [...drawCross(at, reach), nameNeighbour(tile, other, at)]);
  }),
];
