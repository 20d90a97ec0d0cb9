import { moveMarks } from '../drawing/extent.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { once } from '../drawing/once.ts';
import { growBox } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Block, Fitted, TextHeight } from './block.ts';
import { boxAt, heightOf, moveBox, widthOf } from './box.ts';
import { largestFree, takeSpace, type FreeSpace } from './free-space.ts';
import type { PaperSize } from './options.ts';
import { leastArea, packAll, packFree, type Packed } from './pack.ts';

/**
 * The fixed zones of a page: the drawing at the lower left, and what is said of it in one column beside it or in one band
 * over it, always in the same order.
 */

/** The order of reading: what it looks like, its figures, the work, who signs, what to mind, and the table last. */
const order: readonly Block['kind'][] = [
  'subject',
  'plan',
  'card',
  'picture',
  'facts',
  'steps',
  'sign-off',
  'cautions',
  'table',
];

export const inOrder = (blocks: readonly Block[]): Block[] =>
  [...blocks].sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));

/** White space between blocks in a column, and between columns, mm. */
const between = 4.5;
/** Narrower columns than this are hard to read, and wider ones too. */
const [narrowest, widest] = [40, 250];

interface Stood {
  readonly shape: Fitted;
  readonly at: Vec2;
  /** Which of the columns it stands in. */
  readonly column: number;
}

/** How blocks go from column to column: never back to one before, or back to any that has room. */
type Flow = 'onward' | 'first fit';

/**
 * Blocks set one under the other from column to column in their order, and those that found no room. `mostLeft` is how many
 * may be left over: with more the way is given up at once.
 */
const flow = (
  blocks: readonly Block[],
  columns: readonly Box[],
  text: TextHeight,
  way: Flow,
  mostLeft: number,
): { set: readonly Stood[]; left: readonly Block[] } => {
  const set: Stood[] = [];
  const left: Block[] = [];
  const tops = columns.map(({ maxY }) => maxY);
  let first = 0;
  for (const block of blocks) {
    let isSet = false;
    for (let c = first; c < columns.length && !isSet; c += 1) {
      const column = columns[c];
      const top = tops[c] ?? 0;
      const shape = column && block.fit(widthOf(column), text);
      if (!column || !shape || shape.height > top - column.minY + 1e-6) continue;
      set.push({ shape, at: { x: column.minX, y: top - shape.height }, column: c });
      tops[c] = top - shape.height - between;
      isSet = true;
      if (way === 'onward') first = c;
    }
    if (!isSet) left.push(block);
    if (left.length > mostLeft) break;
  }
  return { set, left };
};

/** A box in `count` columns side by side. */
const columnsOf = (box: Box, count: number): Box[] => {
  const width = (widthOf(box) - (count - 1) * between) / count;
  return Array.from({ length: count }, (_, i) =>
    boxAt(box.minX + i * (width + between), box.minY, width, heightOf(box)),
  );
};

const isUsable = (box: Box): boolean => widthOf(box) >= narrowest && heightOf(box) >= 10;

/** Ways to divide a width into columns, the most readable first. */
const countsFor = (width: number): number[] => {
  const most = Math.max(1, Math.floor((width + between) / (narrowest + between)));
  return Array.from({ length: Math.min(most, 12) }, (_, i) => i + 1)
    .filter((count) => width / count <= widest)
    .sort((a, b) => Math.abs(Math.log(width / a / 80)) - Math.abs(Math.log(width / b / 80)));
};

/** Columns round a drawing at the lower left of a field: beside it, over it, or both, the plainest first. */
const arrangements = (field: Box, { width, height }: PaperSize): readonly (readonly Box[])[] => {
  const drawing = boxAt(field.minX, field.minY, width, height);
  const right = { ...field, minX: drawing.maxX + between };
  const over = { ...field, minY: drawing.maxY + between };
  const overDrawing = { ...over, maxX: drawing.maxX };
  const beside = { ...right, maxY: drawing.maxY };
  const found: Box[][] = [];
  if (isUsable(right)) {
    const columns = columnsOf(right, Math.max(1, Math.floor(widthOf(right) / 75)));
    found.push(columns);
    if (isUsable(overDrawing))
      for (const count of countsFor(widthOf(overDrawing)))
        found.push([...columns, ...columnsOf(overDrawing, count)]);
  }
  if (isUsable(over))
    for (const count of countsFor(widthOf(over))) {
      found.push(columnsOf(over, count));
      if (isUsable(beside))
        found.push([
          ...columnsOf(over, count),
          ...columnsOf(beside, Math.max(1, Math.floor(widthOf(beside) / 75))),
        ]);
    }
  return found;
};

const drawStood = (set: readonly Stood[]): Mark[] =>
  set.flatMap(({ shape, at }) => moveMarks(shape.draw(), at.x, at.y));

/** Blocks set on the free grounds of pages, as many as go there, and those that are left. */
export interface Filled {
  /** The marks of each page, made when they are asked for: most ways to fill pages are given up for a better one. */
  readonly draw: readonly (() => readonly Mark[])[];
  readonly left: readonly Block[];
  readonly text: TextHeight;
}

const heights: readonly TextHeight[] = [3.5, 2.5];

/**
 * Sets blocks on free grounds, one list of them a page, in order and in large lettering; in small where that leaves
 * fewer.
 */
const fillGrounds = (
  pages: readonly (readonly Box[])[],
  blocks: readonly Block[],
  texts: readonly TextHeight[] = heights,
): Filled => {
  const queue = inOrder(blocks);
  const usable = pages.flatMap((boxes, page) => boxes.filter(isUsable).map((box) => ({ box, page })));
  let best: { set: readonly Stood[]; left: readonly Block[]; pageOf: readonly number[] } | undefined;
  let bestText: TextHeight = 2.5;
  for (const text of texts)
    for (const nth of [0, 1, 2, 12]) {
      const most = best ? best.left.length - 1 : Infinity;
      if (most < 0) break;
      const grounds = usable.flatMap(({ box, page }) => {
        const counts = countsFor(widthOf(box));
        const count = counts[nth] ?? 1;
        return columnsOf(box, count).map((column) => ({ column, page }));
      });
      const columns = grounds.map(({ column }) => column);
      const { set, left } = flow(queue, columns, text, 'first fit', most);
      if (left.length > most) continue;
      [best, bestText] = [{ set, left, pageOf: grounds.map(({ page }) => page) }, text];
    }
  const { set = [], left = blocks, pageOf = [] } = best ?? {};
  return {
    left,
    text: bestText,
    draw: pages.map((_, page) => () => drawStood(set.filter(({ column }) => pageOf[column] === page))),
  };
};

const drawPacked = ({ placed }: Packed, page: number): Mark[] =>
  placed()
    .filter((one) => one.page === page)
    .flatMap(({ shape, box }) => moveMarks(shape.draw(), box.minX, box.minY));

/** Pages on which every order of the words is tried: of more, those with most ground. */
const mostPages = 8;

/** All blocks on the pages that have most ground, where they go there. */
const packSome = (spaces: readonly FreeSpace[], blocks: readonly Block[]): Packed | undefined => {
  const most = spaces
    .map((space, page) => ({
      space,
      page,
      ground: Math.max(0, ...space.map((box) => widthOf(box) * heightOf(box))),
    }))
    .sort((a, b) => b.ground - a.ground || a.page - b.page)
    .slice(0, mostPages)
    .sort((a, b) => a.page - b.page);
  const packed = packAll(
    most.map(({ space }) => space),
    blocks,
    2.5,
  );
  return (
    packed && {
      ...packed,
      placed: once(() => packed.placed().map((one) => ({ ...one, page: most[one.page]?.page ?? 0 }))),
    }
  );
};

/** Blocks on the free grounds of pages: in columns where all of them go in, else wherever there is room. */
export const fillSpaces = (spaces: readonly FreeSpace[], blocks: readonly Block[]): Filled => {
  const inColumns = fillGrounds(
    spaces.map((space) => largestFree(space, 3, between)),
    blocks,
  );
  if (inColumns.left.length === 0) return inColumns;
  const queue = inOrder(blocks);
  const packed = packSome(spaces, queue) ?? packFree(spaces, queue, 2.5);
  return packed.left.length < inColumns.left.length
    ? { draw: spaces.map((_, page) => () => drawPacked(packed, page)), left: packed.left, text: 2.5 }
    : inColumns;
};

/** A drawing with blocks round it. */
export interface Zoned {
  /** Lower left corner of the drawing's bounds, page mm. */
  readonly corner: Vec2;
  /** The marks of the blocks, made when they are asked for. */
  readonly draw: () => readonly Mark[];
  readonly left: readonly Block[];
  readonly cost: number;
}

/** The ground of a drawing on its page: its size, and boxes that hold all its ink, from its lower left corner. */
export interface Ground extends PaperSize {
  readonly ink: readonly Box[];
}

/** White space between a drawing's ink and what is said beside it, mm. */
const clear = 3;
/** Corners for a drawing in which every order of the words is tried. */
const mostSearched = 4;

const fits = (field: Box, { width, height }: PaperSize): boolean =>
  width <= widthOf(field) + 1e-6 && height <= heightOf(field) + 1e-6;

/**
 * A drawing at the lower left of a field and the blocks in their zones, in the largest lettering with which all of them go
 * in. Undefined where they do not.
 */
export const composeZones = (field: Box, drawing: Ground, blocks: readonly Block[]): Zoned | undefined => {
  if (!fits(field, drawing)) return undefined;
  const queue = inOrder(blocks);
  const ways = arrangements(field, drawing);
  for (const [small, text] of heights.entries()) {
    const least = leastArea(queue, text);
    if (least + drawing.width * drawing.height > widthOf(field) * heightOf(field)) continue;
    for (const way of ['onward', 'first fit'] as const)
      for (const [i, columns] of ways.entries()) {
        const { set, left } = flow(queue, columns, text, way, 0);
        if (left.length > 0) continue;
        const cost = small + i * 0.02 + (way === 'onward' ? 0 : 0.3);
        return { corner: { x: field.minX, y: field.minY }, draw: () => drawStood(set), left, cost };
      }
  }
  return undefined;
};

/**
 * A drawing in a corner of a field and the blocks on whatever ground its ink and what is `taken` leave, as many as go
 * there. Undefined where the drawing finds no room.
 */
export const composeFreely = (
  field: Box,
  taken: readonly Box[],
  drawing: Ground,
  blocks: readonly Block[],
  isTight: boolean,
): Zoned | undefined => {
  const queue = inOrder(blocks);
  const open = taken.reduce<FreeSpace>((rest, box) => takeSpace(rest, growBox(box, clear)), [field]);
  const grounds = cornersOf(open, drawing).map((corner) => ({
    corner,
    space: drawing.ink.reduce<FreeSpace>(
      (rest, box) => takeSpace(rest, growBox(moveBox(box, corner.x, corner.y), clear)),
      open,
    ),
  }));
  let best: Zoned | undefined;
  for (const [small, text] of heights.entries())
    for (const [i, { corner, space }] of grounds.entries()) {
      const greedy = packFree([space], queue, text);
      const isSearched = isTight && greedy.left.length > 0 && i < mostSearched;
      const packed = (isSearched ? packAll([space], queue, text) : undefined) ?? greedy;
      const cost = 2 + small + 2 * packed.left.length;
      if (best && cost >= best.cost) continue;
      best = { corner, draw: () => drawPacked(packed, 0), left: packed.left, cost };
      if (packed.left.length === 0) return best;
    }
  return best;
};

/** Corners of free ground that a drawing goes in, at the left first: its lower left corner there, page mm. */
const cornersOf = (open: FreeSpace, drawing: Ground): readonly Vec2[] => {
  const grounds = open.filter((free) => fits(free, drawing));
  const corners = [
    ...grounds.flatMap(({ minX, minY, maxY }) => [
      { x: minX, y: minY },
      { x: minX, y: maxY - drawing.height },
    ]),
    ...grounds.flatMap(({ maxX, minY, maxY }) => [
      { x: maxX - drawing.width, y: minY },
      { x: maxX - drawing.width, y: maxY - drawing.height },
    ]),
  ];
  return corners.filter(
    (one, i) => corners.findIndex(({ x, y }) => Math.hypot(x - one.x, y - one.y) < 1) === i,
  );
};
