import { moveMarks } from '../drawing/extent.ts';
import { textWidth } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { growBox, letter } from '../drawing/paths.ts';
import { requestError } from '../issue.ts';
import { say } from '../words/say.ts';
import type { Block } from './block.ts';
import { boxAt, GAP, heightOf, moveBox, shareBox, widthOf } from './box.ts';
import { type Boxed, checkLane, drawSheetCheck, findLevel, type Levels, roundCheck } from './check-line.ts';
import type { Draft } from './draft.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';

import { inkBands } from './ink.ts';
import { type PagingOptions, type PaperSize, usableArea } from './options.ts';
import { manyPagesError } from './page-limit.ts';
import { planBlock } from './plan-block.ts';
import { drawTileEdges, findSeams } from './seam.ts';
import { type Head, subjectBlock } from './text-blocks.ts';
import { shareMarks } from './tile-marks.ts';
import { planTilePage, type TilePage } from './tile-page.ts';
import { countSpans, dropBlanks, type Grid, planGrid, type Tile } from './tile.ts';
import { fillSpaces } from './zones.ts';

/** White space between a tile's frame and the drawing's own edge, mm. */
export const around = 1;
/** Over a strip that shares a page with others, for its name. */
const stripHead = 6;
/** More pages than this are not planned at all. */
const mostTiles = 20_000;
/** Overlap that leaves the alignment crosses large enough to be used, mm. */
const leastOverlap = 4;

/** A drawing to be divided: its marks with their bounds, sheet mm. */
export interface Drawing {
  readonly bounds: Box;
  readonly boxed: readonly Boxed[];
  /** The ground it takes. */
  readonly ink: readonly Box[];
}

const countOf = (bounds: Box, room: PaperSize, overlap: number) => ({
  columns: countSpans(widthOf(bounds), room.width, overlap),
  rows: countSpans(heightOf(bounds), room.height, overlap),
});

/** How many strips of a height go on a page, one over the other; one where the page has no room for its head. */
const countStrips = (height: number, room: PaperSize): number =>
  Math.max(1, Math.floor((room.height + 1e-6) / (height + stripHead)));

/** Pages that a ground takes: tiles, or strips stacked on pages. */
const countPages = (bounds: Box, room: PaperSize, overlap: number): number => {
  const { columns, rows } = countOf(bounds, room, overlap);
  return rows > 1 ? rows * columns : columns / countStrips(heightOf(bounds), room);
};

/** The ground to be covered, and where the check lines run. */
interface Coverage {
  readonly bounds: Box;
  readonly levels: Levels;
}

/**
 * Ways to cover a drawing: with the check lines beside it where that costs no page, and inside it where they meet no
 * lettering.
 */
const planGround = (
  { bounds, boxed }: Drawing,
  room: PaperSize,
  { overlap, units }: PagingOptions,
): readonly Coverage[] => {
  const plain = growBox(bounds, around);
  const outside = { across: bounds.minY - 5, up: bounds.minX - 4 };
  const { columns, rows } = countOf(plain, room, overlap);
  const lanes = {
    ...plain,
    minY: columns > 1 ? bounds.minY - checkLane : plain.minY,
    minX: rows > 1 ? bounds.minX - checkLane : plain.minX,
  };
  const isFree = Math.ceil(countPages(lanes, room, overlap)) === Math.ceil(countPages(plain, room, overlap));
  const beside = { bounds: lanes, levels: outside };
  // Only strips leave more ground for words by it.
  if (isFree && (rows > 1 || columns < 2)) return [beside];
  // As far as the line must reach, on the last page; there lettering at the very end does not matter.
  const reach = (count: number, whole: number, page: number): number =>
    roundCheck(whole, Math.min(whole, (count - 1) * (page - overlap) + 10), units);
  const across =
    columns > 1 ? findLevel(bounds, boxed, 'x', reach(columns, widthOf(bounds), room.width)) : undefined;
  const up = rows > 1 ? findLevel(bounds, boxed, 'y', reach(rows, heightOf(bounds), room.height)) : undefined;
  const inside = {
    bounds: {
      ...plain,
      minY: across === undefined ? lanes.minY : plain.minY,
      minX: up === undefined ? lanes.minX : plain.minX,
    },
    levels: { across: across ?? outside.across, up: up ?? outside.up },
  };
  return isFree ? (across === undefined ? [beside] : [beside, inside]) : [inside];
};

const checkCount = (bounds: Box, room: PaperSize, { overlap }: PagingOptions): void => {
  const { columns, rows } = countOf(bounds, room, overlap);
  if (columns * rows > 1 && overlap < leastOverlap)
    throw requestError(
      'overlap',
      'overlap-too-small',
      say`an overlap of ${overlap} mm has no room for alignment marks`,
      say`give an overlap of at least ${leastOverlap} mm; 10 mm is usual`,
    );
  if (Math.min(room.width, room.height) <= 2 * overlap)
    throw requestError(
      'overlap',
      'overlap-too-large',
      say`an overlap of ${overlap} mm leaves nothing of a page's own`,
      say`give an overlap under ${Math.floor(Math.min(room.width, room.height) / 2)} mm on this paper`,
    );
  if (columns * rows > mostTiles)
    throw requestError(
      'paper',
      'too-many-pages',
      say`the sheet would take ${columns * rows} pages`,
      say`take larger paper, or check the sizes that were given`,
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

/** A tile on its page: how far its sheet is moved there. */
interface OnPage {
  readonly tile: Tile;
  readonly dx: number;
  readonly dy: number;
}

/** Tiles that share a page. */
interface Group {
  readonly name: string;
  readonly tiles: readonly OnPage[];
}

const groupTiles = ({ tiles }: Grid, page: Box, strips: number): Group[] => {
  if (strips < 2)
    return tiles.map((tile) => ({
      name: tile.name,
      tiles: [{ tile, dx: page.minX - tile.window.minX, dy: page.maxY - tile.window.maxY }],
    }));
  return Array.from({ length: Math.ceil(tiles.length / strips) }, (_, g) => {
    const few = tiles.slice(g * strips, (g + 1) * strips);
    const [first, last] = [few[0], few[few.length - 1]];
    const name = first === last ? (first?.name ?? '') : say`${first?.name ?? ''} to ${last?.name ?? ''}`;
    return {
      name,
      tiles: few.map((tile, i) => ({
        tile,
        dx: page.minX - tile.window.minX,
        dy: page.maxY - stripHead - i * (heightOf(tile.window) + stripHead) - tile.window.maxY,
      })),
    };
  });
};

/** Longer than any page, mm. */
const LONG = 10_000;

/** A frame's lines as ground. */
const frameOf = ({ minX, maxX, minY, maxY }: Box): Box[] => [
  boxAt(minX, minY, 0.01, maxY - minY),
  boxAt(maxX, minY, 0.01, maxY - minY),
  boxAt(minX, minY, maxX - minX, 0.01),
  boxAt(minX, maxY, maxX - minX, 0.01),
];

/** The part of a page that no neighbour covers and the drawing leaves free, page mm. */
const freeOf = ({ tiles }: Group, page: Box, grid: Grid, ink: readonly Box[], isStrip: boolean): FreeSpace =>
  tiles.reduce<FreeSpace>(
    (space, { tile, dx, dy }) => {
      const { window, row, column } = tile;
      const has = (r: number, c: number): boolean =>
        grid.tiles.some((other) => other.row === r && other.column === c);
      const head = isStrip ? stripHead : 0;
      // Strips along the frame where the neighbours lap on, and the crosses astride it.
      const strips: Box[] = [
        ...(has(row, column - 1) ? [{ ...window, maxX: window.minX + 5 }] : []),
        ...(has(row - 1, column) ? [{ ...window, minY: window.maxY - 5 }] : []),
        // A neighbor at the right or below covers all that lies beyond its own frame.
        ...(has(row, column + 1)
          ? [boxAt(window.maxX - grid.overlap - 5, window.minY - LONG, LONG, heightOf(window) + 2 * LONG)]
          : []),
        ...(has(row + 1, column)
          ? [
              boxAt(
                window.minX - LONG,
                window.minY + grid.overlap + 5 - LONG,
                widthOf(window) + 2 * LONG,
                LONG,
              ),
            ]
          : []),
      ];
      const taken = isStrip
        ? [{ ...window, maxY: window.maxY + head }]
        : [...ink.flatMap((box) => shareBox(window, growBox(box, 1)) ?? []), ...strips, ...frameOf(window)];
      return taken.reduce<FreeSpace>(
        (rest, box) => takeSpace(rest, growBox(moveBox(box, dx, dy), GAP - 1)),
        space,
      );
    },
    [growBox(page, -1)],
  );

/** The pages of a sheet that is taped together, and the blocks that go on notes after them. */
export interface TiledSheet {
  readonly drafts: readonly Draft[];
  readonly left: readonly Block[];
  /** Joints that are taped. */
  readonly joints: number;
}

/** Over a strip: its name, and what laps on it. */
const drawStripHead = ({ window, name }: Tile, next: Tile | undefined): Mark[] => {
  const y = window.maxY + 1.4;
  const words = next === undefined ? '' : say`lay ${next.name} on at the dashed line`;
  return [
    letter('page', { x: window.minX, y }, name, 3.5, { bold: true }),
    ...(words === '' ? [] : [letter('page', { x: window.maxX, y }, words, 2.5, { align: 'right' })]),
  ];
};

interface Planned {
  readonly sheet: Head & {
    readonly name: string;
    readonly marks: readonly Mark[];
    /** False where nothing on it is drawn at full size. */
    readonly isFullSize: boolean;
  };
  readonly page: TilePage;
  readonly grid: Grid;
  readonly groups: readonly Group[];
  readonly marks: readonly Mark[];
  readonly isStrip: boolean;
  readonly size: PaperSize;
}

const draftPages = (
  { sheet, page, grid, groups, marks, isStrip, size }: Planned,
  words: readonly (() => readonly Mark[])[],
): Draft[] => {
  // Shared out only when a page is drawn: another way to hold the paper may take fewer pages.
  let bare: Map<Tile, Mark[]> | undefined;
  const drawTiles = (): Map<Tile, Mark[]> => {
    const shares = shareMarks(marks, grid);
    const seams = findSeams(grid, shares);
    const moves = new Map(groups.flatMap(({ tiles }) => tiles.map((on) => [on.tile, on] as const)));
    return new Map(
      grid.tiles.map((tile, i) => {
        const { dx = 0, dy = 0 } = moves.get(tile) ?? {};
        const share = shares[i] ?? [];
        const keep = isStrip ? boxAt(-1e6, -1e6, 2e6, 2e6) : moveBox(page.check, -dx, -dy);
        const next = grid.tiles.find(({ row, column }) => row === tile.row && column === tile.column + 1);
        return [
          tile,
          [
            ...share,
            ...drawTileEdges(tile, seams, share, keep),
            ...(isStrip ? drawStripHead(tile, next) : []),
          ],
        ];
      }),
    );
  };
  return groups.map((group, g) => ({
    name: group.name,
    size,
    views: group.tiles.map(({ tile, dx, dy }) => ({
      sheet: sheet.name,
      name: tile.name,
      origin: { x: dx, y: dy },
      viewport: moveBox(tile.window, dx, dy),
    })),
    draw: (rank) => [
      ...page.draw({ ...rank, name: group.name, document: sheet.isFullSize ? undefined : say`Figures` }),
      ...group.tiles.flatMap(({ tile, dx, dy }) => moveMarks((bare ??= drawTiles()).get(tile) ?? [], dx, dy)),
      ...(words[g]?.() ?? []),
    ],
  }));
};

/** Whether a way that takes so many pages at least, taped at so many joints, may be better than the best that is known. */
export type MayWin = (pages: number, joints: number) => boolean;

/** What a sheet is divided by: its size of page, and what is known before. */
interface Dividing {
  readonly size: PaperSize;
  readonly options: PagingOptions;
  /** Its rows are named from the one after so many. */
  readonly rowsBefore?: number;
  /** A way that cannot win is given up before its words are set. */
  readonly mayWin?: MayWin | undefined;
}

/** Divides a sheet over pages of a size, with as many blocks as their free ground takes. Undefined where no way may win. */
export const tileSheet = (
  sheet: Planned['sheet'],
  drawing: Drawing,
  blocks: readonly Block[],
  dividing: Dividing,
): TiledSheet | undefined => {
  const { size, options } = dividing;
  const page = planTilePage(usableArea(size, options), sheet, options);
  const room = { width: widthOf(page.window), height: heightOf(page.window) };
  const ways = planGround(drawing, room, options).flatMap(
    (ground) => tileGround(sheet, drawing, blocks, page, ground, dividing) ?? [],
  );
  const pagesOf = ({ drafts, left }: TiledSheet): number => drafts.length + (left.length > 0 ? 1 : 0);
  return ways.reduce<TiledSheet | undefined>(
    (best, way) => (best === undefined || pagesOf(way) < pagesOf(best) ? way : best),
    undefined,
  );
};

const tileGround = (
  sheet: Planned['sheet'],
  drawing: Drawing,
  blocks: readonly Block[],
  page: TilePage,
  { bounds, levels }: Coverage,
  { size, options, rowsBefore = 0, mayWin }: Dividing,
): TiledSheet | undefined => {
  const room = { width: widthOf(page.window), height: heightOf(page.window) };
  checkCount(bounds, room, options);
  const { rows, columns } = countOf(bounds, room, options.overlap);
  const strips = rows === 1 && columns > 1 ? Math.max(1, countStrips(heightOf(bounds), room)) : 1;
  const isStrip = strips > 1;
  const whole = planGrid(
    [...sheet.marks, ...laneMarks(drawing.bounds, bounds)],
    bounds,
    isStrip ? { ...room, height: heightOf(bounds) } : room,
    options.overlap,
    rowsBefore,
  );
  const grid = dropBlanks(whole, drawing.boxed);
  const { mostPages = Infinity } = options;
  const count = Math.ceil(grid.tiles.length / strips);
  if (count > mostPages) throw manyPagesError(mostPages);
  const joints = grid.tiles.length - 1;
  if (mayWin?.(count, joints) === false) return undefined;
  // Where all but one page were blank nothing is taped.
  const { marks: checks, check } =
    grid.tiles.length > 1
      ? drawSheetCheck(whole, drawing.bounds, levels, drawing.boxed, options)
      : { marks: [], check: { across: undefined, up: undefined } };
  const groups = groupTiles(grid, page.window, strips);
  const all = grid.tiles.length > 1 ? [planBlock(grid, check, isStrip), ...blocks] : blocks;
  const told = sheet.subject.length > 1 ? [subjectBlock(sheet), ...all] : all;
  const spaces = groups.map((group) =>
    freeOf(group, page.window, grid, [...drawing.ink, ...inkBands(checks)], isStrip),
  );
  const { draw: words, left } = fillSpaces(spaces, told);
  const planned = { sheet, page, grid, groups, marks: [...sheet.marks, ...checks], isStrip, size };
  return {
    drafts: draftPages(planned, words),
    left: left.filter(({ kind }) => kind !== 'subject'),
    joints,
  };
};
