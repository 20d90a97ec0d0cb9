import { markBounds } from '../drawing/extent.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { clipStroke } from '../drawing/path-clip.ts';
import { boxPath, circlePath, letter, linePath, NARROW, QUARTER, stroke } from '../drawing/shape.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { boxAt, isOverlapping } from './box.ts';
import { type Grid, isNeighbour, type Tile } from './tile.ts';
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

/** How bad a place is for a cross: on lettering worst, on the lines to be cut next. */
const costAt = (at: Vec2, reach: number, boxed: readonly { mark: Mark; box: Box }[]): number => {
  const box = boxAt(at.x - reach - 0.5, at.y - reach - 0.5, 2 * reach + 1, 2 * reach + 1);
  return boxed.reduce((sum, { mark, box: other }) => {
    if (!isOverlapping(box, other)) return sum;
    if (mark.kind === 'text') return sum + onLettering;
    if (mark.kind === 'fill') return sum;
    if (clipStroke(mark.path, box).length === 0) return sum;
    return sum + (mark.role === 'cut' || mark.role === 'scale' ? 10 : 1);
  }, 0);
};

const placeCrosses = (
  a: Tile,
  b: Tile,
  overlap: number,
  reach: number,
  boxed: readonly { mark: Mark; box: Box }[],
): Seam => {
  const isUpright = a.row === b.row;
  const level = isUpright ? (b.own.minX + a.own.maxX) / 2 : (b.own.maxY + a.own.minY) / 2;
  const [low, high] = isUpright
    ? [Math.max(a.window.minY, b.window.minY), Math.min(a.window.maxY, b.window.maxY)]
    : [Math.max(a.window.minX, b.window.minX), Math.min(a.window.maxX, b.window.maxX)];
  // Clear of the strips shared with the rows or columns before and after, unless that leaves no place.
  const corner = reach > leastReach ? overlap : 0;
  const [from, to] = [low + corner + reach + 1, high - corner - reach - 1];
  const count = Math.max(2, Math.round((to - from) / spacing) + 1);
  const step = (to - from) / count;
  let worst = 0;
  const crosses = Array.from({ length: count }, (_, i) => {
    const target = from + (i + 0.5) * step;
    let best: { at: Vec2; cost: number } | undefined;
    for (let off = 0; off <= step / 2 - reach; off += 1.5) {
      for (const along of off === 0 ? [target] : [target + off, target - off]) {
        const at = isUpright ? { x: level, y: along } : { x: along, y: level };
        const cost = costAt(at, reach, boxed) + off / step;
        if (!best || cost < best.cost) best = { at, cost };
      }
      if (best && best.cost < 1) break;
    }
    worst = Math.max(worst, best?.cost ?? 0);
    return best?.at ?? (isUpright ? { x: level, y: target } : { x: target, y: level });
  });
  // Where there is no place clear of lettering, smaller crosses may find one.
  if (worst >= onLettering && reach > leastReach) return placeCrosses(a, b, overlap, leastReach, boxed);
  return { tiles: [a, b], isUpright, crosses, reach };
};

/** The seams between all neighbouring tiles of a sheet. `marks` are what the crosses keep clear of. */
export const findSeams = ({ tiles, overlap }: Grid, marks: readonly Mark[]): Seam[] => {
  const boxed = marks.map((mark) => ({ mark, box: markBounds(mark) }));
  return tiles.flatMap((a, i) =>
    tiles
      .slice(i + 1)
      .filter((b) => isNeighbour(a, b))
      .map((b) => placeCrosses(a, b, overlap, Math.min(widestReach, overlap / 2 - 0.5), boxed)),
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
