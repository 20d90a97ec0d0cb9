import type { Box, Mark, Sheet } from '../drawing/model.ts';
import { growBox, letter } from '../drawing/shape.ts';
import { textWidth } from '../drawing/lettering.ts';
import { requestError } from '../issue.ts';
import type { Block } from './block.ts';
import { GAP, heightOf, widthOf } from './box.ts';
import { checkLane, drawSheetCheck } from './check-line.ts';
import { byReading, byStiffness } from './compose.ts';
import type { Draft } from './draft.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';
import { moveMarks } from './furniture.ts';
import { type PagingOptions, type PaperSize, usableArea } from './options.ts';
import { drawPlaced, placeBlock, type Placed } from './pack.ts';
import { planBlock } from './plan-block.ts';
import { drawTileEdges, findSeams } from './seam.ts';
import { countSpans, dropBlanks, type Grid, planGrid, type Tile } from './tile.ts';
import { subjectBlock } from './text-blocks.ts';
import { planTilePage, type TilePage } from './tile-page.ts';
import { shareMarks } from './tile-marks.ts';

/** White space between a tile's frame and the drawing's own edge, mm. */
export const around = 2;
/** More pages than this are not planned at all. */
const mostTiles = 20_000;
/** Overlap that leaves the alignment crosses large enough to be used, mm. */
const leastOverlap = 4;

/** The ground to be covered: the drawing, and a lane for a check line along each axis with several pages. */
const withLanes = (drawing: Box, window: Box, overlap: number): Box => {
  let bounds = growBox(drawing, around);
  for (;;) {
    const columns = countSpans(widthOf(bounds), widthOf(window), overlap);
    const rows = countSpans(heightOf(bounds), heightOf(window), overlap);
    const next = {
      ...growBox(drawing, around),
      minY: drawing.minY - (columns > 1 ? checkLane : around),
      minX: drawing.minX - (rows > 1 ? checkLane : around),
    };
    if (next.minX >= bounds.minX && next.minY >= bounds.minY) return bounds;
    bounds = next;
  }
};

const checkCount = (bounds: Box, window: Box, { overlap }: PagingOptions): void => {
  const columns = countSpans(widthOf(bounds), widthOf(window), overlap);
  const rows = countSpans(heightOf(bounds), heightOf(window), overlap);
  if (columns * rows > 1 && overlap < leastOverlap)
    throw requestError(
      'overlap',
      'overlap-too-small',
      `an overlap of ${overlap} mm has no room for alignment marks`,
      `give an overlap of at least ${leastOverlap} mm; 10 mm is usual`,
    );
  if (Math.min(widthOf(window), heightOf(window)) <= 2 * overlap)
    throw requestError(
      'overlap',
      'overlap-too-large',
      `an overlap of ${overlap} mm leaves nothing of a page's own`,
      `give an overlap under ${Math.floor(Math.min(widthOf(window), heightOf(window)) / 2)} mm on this paper`,
    );
  if (columns * rows > mostTiles)
    throw requestError(
      'paper',
      'too-many-pages',
      `the sheet would take ${columns * rows} pages`,
      'take larger paper, or check the sizes that were given',
    );
};

/** Stands for the check lines' lettering while the seams are chosen, so that none runs along a lane. */
const laneMarks = (drawing: Box, bounds: Box): Mark[] => {
  const along = { x: drawing.minX, y: drawing.minY - 6 };
  const up = { x: drawing.minX - 5, y: drawing.minY };
  const fill = (length: number): string => 'm'.repeat(Math.ceil(length / textWidth('m', 2.5, false)));
  return [
    ...(bounds.minY < drawing.minY - around ? [letter('scale', along, fill(widthOf(drawing)), 2.5)] : []),
    ...(bounds.minX < drawing.minX - around
      ? [letter('scale', up, fill(heightOf(drawing)), 2.5, { angle: Math.PI / 2 })]
      : []),
  ];
};

/** The part of a tile that no neighbour covers and the drawing leaves free, sheet mm. */
const freeOf = (tile: Tile, grid: Grid, drawn: Box): FreeSpace => {
  const { window, row, column } = tile;
  const inner: Box = {
    minX: window.minX + (column > 0 ? grid.overlap : 0) + GAP,
    maxX: window.maxX - (column < grid.columns - 1 ? grid.overlap : 0) - GAP,
    minY: window.minY + (row < grid.rows - 1 ? grid.overlap : 0) + GAP,
    maxY: window.maxY - (row > 0 ? grid.overlap : 0) - GAP,
  };
  return takeSpace([inner], growBox(drawn, GAP - around));
};

/** Puts blocks on the tiles' free ground, the plan on the first; tells which found none. */
const placeOnTiles = (
  grid: Grid,
  drawn: Box,
  blocks: readonly Block[],
): { placed: ReadonlyMap<Tile, readonly Placed[]>; left: readonly Block[] } => {
  const left: Block[] = [];
  const free = new Map(grid.tiles.map((tile) => [tile, freeOf(tile, grid, drawn)]));
  const placed = new Map<Tile, Placed[]>();
  for (const block of blocks) {
    const tiles = block.kind === 'plan' || block.kind === 'subject' ? grid.tiles.slice(0, 1) : grid.tiles;
    let best: { tile: Tile; put: Placed; cost: number } | undefined;
    tiles.forEach((tile, i) => {
      const put = placeBlock(free.get(tile) ?? [], block, 'top-left', tile.window);
      if (put && (!best || put.shape.cost + i < best.cost)) best = { tile, put, cost: put.shape.cost + i };
    });
    if (!best) {
      left.push(block);
      continue;
    }
    const { tile, put } = best;
    placed.set(tile, [...(placed.get(tile) ?? []), put]);
    free.set(tile, takeSpace(free.get(tile) ?? [], growBox(put.box, GAP)));
  }
  return { placed, left };
};

const draftTile = (
  page: TilePage,
  size: PaperSize,
  { name, window }: Tile,
  marks: () => readonly Mark[],
): Draft => {
  const [dx, dy] = [page.window.minX - window.minX, page.window.maxY - window.maxY];
  return {
    name,
    size,
    origin: { x: dx, y: dy },
    viewport: {
      minX: page.window.minX,
      maxX: window.maxX + dx,
      minY: window.minY + dy,
      maxY: page.window.maxY,
    },
    draw: (rank) => [...page.draw(rank), ...moveMarks(marks(), dx, dy)],
  };
};

/** The pages of a sheet that is taped together, and the blocks that go on notes before them. */
export interface TiledSheet {
  readonly drafts: readonly Draft[];
  readonly left: readonly Block[];
}

/** What is read before the first page is cut, and so stays together. */
const isReadFirst = ({ kind }: Block): boolean => kind === 'plan' || kind === 'steps' || kind === 'cautions';

/**
 * Divides a sheet over pages of a size. `drawing` is the ground its marks take, sheet mm. First the way with every
 * block on the pages' free ground or, where one does not fit, all of them on notes; then the way with as many as fit
 * on the pages and the rest on notes.
 */
export const tileSheet = (
  sheet: Sheet,
  drawing: Box,
  blocks: readonly Block[],
  size: PaperSize,
  options: PagingOptions,
): readonly [TiledSheet, TiledSheet] => {
  const page = planTilePage(usableArea(size, options), sheet, options);
  const bounds = withLanes(drawing, page.window, options.overlap);
  checkCount(bounds, page.window, options);
  const room = { width: widthOf(page.window), height: heightOf(page.window) };
  const whole = planGrid([...sheet.marks, ...laneMarks(drawing, bounds)], bounds, room, options.overlap);
  const { marks: checks, check } = drawSheetCheck(whole, drawing, options);
  const marks = [...sheet.marks, ...checks];
  const grid = dropBlanks(whole, marks);
  const all = grid.tiles.length > 1 ? [planBlock(grid, check), ...blocks] : blocks;
  const told = sheet.subject.length > 1 ? [subjectBlock(sheet), ...all] : all;
  const read = placeOnTiles(grid, bounds, byReading(told));
  const every = read.left.length === 0 ? read : placeOnTiles(grid, bounds, byStiffness(told));
  const some = placeOnTiles(grid, bounds, byStiffness(all.filter((block) => !isReadFirst(block))));
  // Shared out only when a page is drawn: another way to hold the paper may take fewer pages.
  let bare: Mark[][] | undefined;
  const drawPages = (): Mark[][] => {
    const shares = shareMarks(marks, grid);
    const seams = findSeams(grid, shares);
    return grid.tiles.map((tile, i) => [...(shares[i] ?? []), ...drawTileEdges(tile, seams)]);
  };
  const draft = (placed: ReadonlyMap<Tile, readonly Placed[]>): Draft[] =>
    grid.tiles.map((tile, i) =>
      draftTile(page, size, tile, () => [
        ...((bare ??= drawPages())[i] ?? []),
        ...drawPlaced(placed.get(tile) ?? []),
      ]),
    );
  return [
    every.left.length === 0
      ? { drafts: draft(every.placed), left: [] }
      : { drafts: draft(new Map()), left: all },
    { drafts: draft(some.placed), left: [...all.filter(isReadFirst), ...some.left] },
  ];
};
