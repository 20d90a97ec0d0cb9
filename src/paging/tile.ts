import { markBounds } from '../drawing/extent.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { clipFill, isStrokeIn } from '../drawing/path-clip.ts';
import { growBox } from '../drawing/paths.ts';
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
      return mark.edgesPaper !== true && isStrokeIn(mark.path, growBox(box, mark.width / 2));
    case 'fill':
      return mark.ink === 'black' && clipFill(mark.path, box) !== undefined;
    case 'text':
      return false;
  }
};

/** Adds the blank tiles without which some tile could not be taped to the rest, straight down to the next one kept. */
const bridge = (kept: ReadonlySet<Tile>, { tiles, columns }: Grid): Set<Tile> => {
  const result = new Set(kept);
  const joined = new Set<Tile>();
  const at = (row: number, column: number): Tile | undefined =>
    column < 0 || column >= columns ? undefined : tiles[row * columns + column];
  const grow = (tile: Tile): void => {
    const queue = [tile];
    for (let next = queue.pop(); next; next = queue.pop()) {
      if (joined.has(next)) continue;
      joined.add(next);
      const { row, column } = next;
      for (const other of [
        at(row - 1, column),
        at(row + 1, column),
        at(row, column - 1),
        at(row, column + 1),
      ])
        if (other && result.has(other)) queue.push(other);
    }
  };
  const upward = [...tiles].reverse();
  const first = upward.find((tile) => result.has(tile));
  if (first) grow(first);
  for (const tile of upward) {
    if (!result.has(tile) || joined.has(tile)) continue;
    for (let row = tile.row + 1, below = at(row, tile.column); below; below = at(++row, tile.column))
      result.add(below);
    grow(tile);
  }
  return result;
};

/** Lettering longer than this along an axis is looked through for every strip, mm; there is little of it. */
const longText = 200;

/**
 * What a strip costs: lettering that it would part most, or that the next tile laid on there would hide in part; less lettering
 * in it leaves room for the crosses. `texts` are the
 * lettering's spans along the axis.
 */
const stripCost = (texts: readonly Span[]): ((strip: Span) => number) => {
  const long = texts.filter(({ from, to }) => to - from > longText);
  const short = texts.filter(({ from, to }) => to - from <= longText).sort((a, b) => a.from - b.from);
  const firstFrom = (least: number): number => {
    let [low, high] = [0, short.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((short[middle]?.from ?? 0) < least) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return (strip) => {
    let parted = 0;
    let beside = 0;
    const count = ({ from, to }: Span): void => {
      if (to <= strip.from || from >= strip.to) return;
      if (from < strip.from) parted++;
      else beside++;
    };
    long.forEach(count);
    for (let i = firstFrom(strip.from - longText); i < short.length; i++) {
      const text = short[i];
      if (text === undefined || text.from >= strip.to) break;
      count(text);
    }
    return parted + 0.04 * beside;
  };
};

/**
 * Every tile of a sheet over pages whose frame is `room` wide and high; `bounds` is what must be covered. Rows are named from
 * the one after `rowsBefore`.
 */
export const planGrid = (
  marks: readonly Mark[],
  bounds: Box,
  room: { readonly width: number; readonly height: number },
  overlap: number,
  rowsBefore = 0,
): Grid => {
  const texts = marks.flatMap((mark) => (mark.kind === 'text' ? [markBounds(mark)] : []));
  const across = cutSpans(
    { from: bounds.minX, to: bounds.maxX },
    room.width,
    overlap,
    stripCost(texts.map(({ minX, maxX }) => ({ from: minX, to: maxX }))),
  );
  // Rows run downward from the top, so the axis is turned over.
  const down = cutSpans(
    { from: -bounds.maxY, to: -bounds.minY },
    room.height,
    overlap,
    stripCost(texts.map(({ minY, maxY }) => ({ from: -maxY, to: -minY }))),
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
      name: `${rowsBefore + row + 1}.${column + 1}`,
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

/** The tiles in whose own part some mark has ink. */
const findInked = ({ tiles, columns }: Grid, boxed: readonly Boxed[]): ReadonlySet<Tile> => {
  const inked = new Set<Tile>();
  // Tiles stand in rows, so a mark is tried only on those its box covers.
  const across = tiles.slice(0, columns).map(({ own }) => own);
  const down = tiles.filter(({ column }) => column === 0).map(({ own }) => own);
  for (const { mark, box } of boxed) {
    const firstColumn = across.findIndex(({ maxX }) => maxX > box.minX);
    const firstRow = down.findIndex(({ minY }) => minY < box.maxY);
    if (firstColumn < 0 || firstRow < 0) continue;
    for (let row = firstRow; row < down.length && (down[row]?.maxY ?? 0) > box.minY; row++)
      for (let column = firstColumn; column < columns && (across[column]?.minX ?? 0) < box.maxX; column++) {
        const tile = tiles[row * columns + column];
        if (tile === undefined || inked.has(tile)) continue;
        if (isOverlapping(box, tile.own) && hasInk(mark, tile.own)) inked.add(tile);
      }
  }
  return inked;
};

interface Boxed {
  readonly mark: Mark;
  readonly box: Box;
}

/** A whole grid without its blank tiles: those in whose own part no mark has ink, save where others hang on them. */
export const dropBlanks = (grid: Grid, boxed: readonly Boxed[]): Grid => {
  const kept = bridge(findInked(grid, boxed), grid);
  return { ...grid, tiles: grid.tiles.filter((tile) => kept.has(tile)) };
};
