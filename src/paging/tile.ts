import { markBounds } from '../drawing/extent.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { clipFill, clipStroke } from '../drawing/path-clip.ts';
import { growBox } from '../drawing/shape.ts';
import { isOverlapping } from './box.ts';

/** A sheet's share of a page, in sheet mm. */
export interface Tile {
  /** From 0, from the top. */
  readonly row: number;
  readonly column: number;
  /** Row and column from 1: `2.1`. */
  readonly name: string;
  /** What the page shows: it shares strips as wide as the overlap with its neighbours. */
  readonly window: Box;
  /** The part that is this tile's alone; all tiles' own parts cover the sheet without sharing any of it. */
  readonly own: Box;
}

/** The tiles of a sheet, in reading order; blank ones are left out. */
export interface Grid {
  readonly tiles: readonly Tile[];
  readonly rows: number;
  readonly columns: number;
  readonly overlap: number;
}

interface Span {
  readonly from: number;
  readonly to: number;
}

/** The number of windows of `room` that cover `length`, neighbours sharing `overlap`. */
export const countSpans = (length: number, room: number, overlap: number): number =>
  length <= room + 1e-9 ? 1 : Math.ceil((length - overlap) / (room - overlap) - 1e-9);

/** A window shorter than this is no piece of paper to tape, mm. */
const shortest = 45;

/**
 * Cuts a length into as few windows as cover it, full ones first. Where there is length to spare a window may end
 * early, so that the shared strip falls where `cost` is least. Neighbours share exactly `overlap`; the last window ends
 * with what it has to show.
 */
export const cutSpans = (
  { from, to }: Span,
  room: number,
  overlap: number,
  cost: (strip: Span) => number,
): readonly Span[] => {
  const count = countSpans(to - from, room, overlap);
  const starts = [from];
  for (let i = 1; i < count; i += 1) {
    const latest = (starts[i - 1] ?? from) + room - overlap;
    const after = count - i;
    const earliest = to - (after * room - (after - 1) * overlap);
    let [best, least] = [latest, cost({ from: latest, to: latest + overlap })];
    for (let start = latest - 1; start >= Math.max(earliest, latest - 80) && least > 0; start -= 1) {
      const now = cost({ from: start, to: start + overlap }) + (latest - start) * 0.02;
      if (now < least) [best, least] = [start, now];
    }
    starts.push(best);
  }
  return starts.map((start, i) => {
    const next = starts[i + 1];
    const last = Math.min(start + room, Math.max(to, start + shortest));
    return { from: start, to: next === undefined ? last : next + overlap };
  });
};

/** True where a mark puts a line in a box: lettering alone makes no tile. */
const hasInk = (mark: Mark, box: Box): boolean => {
  switch (mark.kind) {
    case 'stroke':
      return clipStroke(mark.path, growBox(box, mark.width / 2)).length > 0;
    case 'fill':
      return mark.ink === 'black' && clipFill(mark.path, box) !== undefined;
    case 'text':
      return false;
  }
};

/** Tiles that share an edge. */
const isNeighbour = (a: Tile, b: Tile): boolean =>
  Math.abs(a.row - b.row) + Math.abs(a.column - b.column) === 1;

/** Adds the blank tiles without which some tile could not be taped to the rest, straight down to the next one kept. */
const bridge = (kept: ReadonlySet<Tile>, all: readonly Tile[]): Set<Tile> => {
  const result = new Set(kept);
  const joined = new Set<Tile>();
  const grow = (tile: Tile): void => {
    const queue = [tile];
    for (let next = queue.pop(); next; next = queue.pop()) {
      if (joined.has(next)) continue;
      joined.add(next);
      for (const other of result) if (isNeighbour(next, other)) queue.push(other);
    }
  };
  const first = [...all].reverse().find((tile) => result.has(tile));
  if (first) grow(first);
  for (const tile of [...all].reverse()) {
    if (!result.has(tile) || joined.has(tile)) continue;
    for (const below of all) if (below.column === tile.column && below.row > tile.row) result.add(below);
    grow(tile);
  }
  return result;
};

/** Every tile of a sheet over pages whose frame is `room` wide and high; `bounds` is what must be covered. */
export const planGrid = (
  marks: readonly Mark[],
  bounds: Box,
  room: { readonly width: number; readonly height: number },
  overlap: number,
): Grid => {
  const texts = marks.flatMap((mark) => (mark.kind === 'text' ? [markBounds(mark)] : []));
  // Lettering that a strip would part costs most; less lettering in the strip leaves room for the crosses.
  const costOf =
    (low: (box: Box) => number, high: (box: Box) => number) =>
    (strip: Span): number =>
      texts.reduce((sum, box) => {
        if (high(box) <= strip.from || low(box) >= strip.to) return sum;
        return sum + (low(box) < strip.from && high(box) > strip.to ? 1 : 0.04);
      }, 0);
  const across = cutSpans(
    { from: bounds.minX, to: bounds.maxX },
    room.width,
    overlap,
    costOf(
      (box) => box.minX,
      (box) => box.maxX,
    ),
  );
  // Rows run downward from the top, so the axis is turned over.
  const down = cutSpans(
    { from: -bounds.maxY, to: -bounds.minY },
    room.height,
    overlap,
    costOf(
      (box) => -box.maxY,
      (box) => -box.minY,
    ),
  );
  const edge = (spans: readonly Span[], i: number): number =>
    i === 0
      ? (spans[0]?.from ?? 0)
      : i === spans.length
        ? (spans[i - 1]?.to ?? 0)
        : (spans[i]?.from ?? 0) + overlap / 2;
  const tiles = down.flatMap((v, row) =>
    across.map((u, column): Tile => ({
      row,
      column,
      name: `${row + 1}.${column + 1}`,
      window: { minX: u.from, maxX: u.to, minY: -v.to, maxY: -v.from },
      own: {
        minX: edge(across, column),
        maxX: edge(across, column + 1),
        minY: -edge(down, row + 1),
        maxY: -edge(down, row),
      },
    })),
  );
  return { tiles, rows: down.length, columns: across.length, overlap };
};

/** A grid without its blank tiles: those in whose own part no mark has ink, save where others hang on them. */
export const dropBlanks = (
  grid: Grid,
  boxed: readonly { readonly mark: Mark; readonly box: Box }[],
): Grid => {
  const inked = grid.tiles.filter(({ own }) =>
    boxed.some(({ mark, box }) => isOverlapping(box, own) && hasInk(mark, own)),
  );
  const kept = bridge(new Set(inked), grid.tiles);
  return { ...grid, tiles: grid.tiles.filter((tile) => kept.has(tile)) };
};
