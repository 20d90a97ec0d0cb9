import type { Box, Mark, Sheet } from '../drawing/model.ts';
import { growBox } from '../drawing/shape.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { type Block, type Corner, enlargeBlock, shrinkBlock } from './block.ts';
import { boxAt, GAP, heightOf, isOverlapping, widthOf } from './box.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';
import { type Furniture, moveMarks } from './furniture.ts';
import type { PaperSize } from './options.ts';
import { clearSpace, drawPlaced, packBlocks, placeBlock, type Placed } from './pack.ts';
import { drawHead } from './text-blocks.ts';

/** A page with a whole drawing on it and blocks round it. */
export interface Composition {
  /** Lower left corner of the drawing's bounds, page mm. */
  readonly corner: Vec2;
  readonly marks: readonly Mark[];
  readonly cost: number;
}

const orderBy =
  (kinds: readonly Block['kind'][]) =>
  (blocks: readonly Block[]): Block[] =>
    [...blocks].sort((a, b) => kinds.indexOf(a.kind) - kinds.indexOf(b.kind));

/** Stiff blocks first: what can be set in many shapes still finds room afterwards. */
const stiffness = orderBy(['picture', 'plan', 'table', 'subject', 'steps', 'facts', 'cautions', 'sign-off']);
/** Pictures fill a page from its right edge, so that the last one comes first. */
export const byStiffness = (blocks: readonly Block[]): Block[] => stiffness([...blocks].reverse());
/** The order of reading. */
export const byReading = orderBy([
  'subject',
  'plan',
  'steps',
  'facts',
  'picture',
  'sign-off',
  'table',
  'cautions',
]);

/** Places for the drawing: against the edges of free rectangles, or in the middle of one, keeping clear of others. */
const drawingPlaces = (space: FreeSpace, { width, height }: PaperSize): Box[] => {
  const places = space
    .filter((free) => widthOf(free) >= width && heightOf(free) >= height)
    .flatMap((free) => {
      const xs = [free.minX, free.minX + (widthOf(free) - width) / 2];
      const ys = [free.maxY - height, free.minY, free.minY + (heightOf(free) - height) / 2];
      return xs.flatMap((x) => ys.map((y) => boxAt(x, y, width, height)));
    });
  const key = ({ minX, minY }: Box): string => `${minX.toFixed(1)} ${minY.toFixed(1)}`;
  return [...new Map(places.map((place) => [key(place), place])).values()];
};

interface Start {
  readonly space: FreeSpace;
  readonly marks: readonly Mark[];
  readonly placed: readonly Placed[];
  readonly rest: readonly Block[];
  readonly cost: number;
}

/** The head at the top left of the field, or undefined where furniture stands there. */
const placeHead = (
  { field, taken, headWidth }: Furniture,
  sheet: Sheet,
): { marks: Mark[]; box: Box } | undefined => {
  const head = drawHead(sheet, headWidth);
  const box = boxAt(field.minX, field.maxY - head.height, head.width, head.height);
  if (taken.some((other) => isOverlapping(other, box))) return undefined;
  return { box, marks: moveMarks(head.marks, box.minX, box.minY) };
};

/** Ways to begin a page: the heading at the top left, the steps under it or left to find their own place. */
const startPage = (furniture: Furniture, sheet: Sheet, blocks: readonly Block[]): Start[] => {
  const { field, taken } = furniture;
  const head = placeHead(furniture, sheet);
  if (!head) return [];
  const { marks, box } = head;
  const rest = byStiffness(blocks);
  const space = clearSpace(field, [...taken, box]);
  const free: Start = { space, marks, placed: [], rest, cost: 0 };
  const steps = rest.find((block) => block.kind === 'steps');
  if (!steps) return [free];
  const below = field.maxY - box.minY + GAP;
  const under = space.filter(
    ({ minX, maxY }) => minX <= field.minX + 1e-6 && field.maxY - maxY >= below - 1e-6,
  );
  const first = placeBlock(under, steps, 'top-left', field);
  if (!first) return [free];
  const led: Start = {
    space: takeSpace(space, growBox(first.box, GAP)),
    marks,
    placed: [first],
    rest: rest.filter((block) => block !== steps),
    // Counted as no distance: right under the heading is where the steps belong.
    cost: first.shape.cost - 0.15,
  };
  return [led, free];
};

/** False where the blocks have more ground than the page has left, however they are set. */
const mayFit = ({ field, taken }: Furniture, blocks: readonly Block[], size: PaperSize): boolean => {
  const area = ({ width, height }: PaperSize): number => width * height;
  const areaOf = (box: Box): number => widthOf(box) * heightOf(box);
  if (size.width > widthOf(field) || size.height > heightOf(field)) return false;
  const used = taken.reduce((sum, box) => sum + areaOf(box), area(size));
  const needed = blocks.reduce((sum, { shapes }) => sum + Math.min(...shapes.map(area)), used);
  return needed <= areaOf(field);
};

const composeBlocks = (
  furniture: Furniture,
  sheet: Sheet,
  blocks: readonly Block[],
  drawing: PaperSize,
): Composition | undefined => {
  const { field } = furniture;
  if (!mayFit(furniture, blocks, drawing)) return undefined;
  let best: Composition | undefined;
  for (const start of startPage(furniture, sheet, blocks)) {
    for (const place of drawingPlaces(start.space, drawing)) {
      const offLeft = (place.minX - field.minX) / widthOf(field);
      const cost = start.cost + offLeft * 0.5;
      const space = takeSpace(start.space, growBox(place, GAP));
      const packed = packBlocks(space, start.rest, field, (best?.cost ?? Infinity) - cost);
      if (!packed) continue;
      best = {
        corner: { x: place.minX, y: place.minY },
        cost: cost + packed.cost,
        marks: [...start.marks, ...drawPlaced([...start.placed, ...packed.placed])],
      };
    }
  }
  return best;
};

/**
 * The best page with the whole drawing and every block, or undefined where they do not go on one page. With `any`
 * lettering it is small where it must be.
 */
export const composePage = (
  furniture: Furniture,
  sheet: Sheet,
  blocks: readonly Block[],
  drawing: PaperSize,
  lettering: 'large' | 'any',
): Composition | undefined => {
  const large = composeBlocks(furniture, sheet, blocks.map(enlargeBlock), drawing);
  if (large || lettering === 'large') return large;
  const small = composeBlocks(furniture, sheet, blocks.map(shrinkBlock), drawing);
  return small && { ...small, cost: small.cost + 1 };
};

interface Notes {
  readonly marks: readonly Mark[];
  /** Which of the blocks are left over. */
  readonly left: readonly number[];
}

/** On notes everything is read from the top; what is said last and what is filled in stand at the foot. */
const cornerOf = ({ kind, corner }: Block): Corner =>
  kind === 'cautions' || kind === 'sign-off' ? corner : 'top-left';

const fillPage = (furniture: Furniture, sheet: Sheet, blocks: readonly Block[]): Notes => {
  const { field, taken } = furniture;
  const head = placeHead(furniture, sheet);
  let space = clearSpace(field, head ? [...taken, head.box] : taken);
  const placed: Placed[] = [];
  const left: number[] = [];
  blocks.forEach((block, i) => {
    const next = placeBlock(space, block, cornerOf(block), field);
    if (!next) {
      left.push(i);
      return;
    }
    placed.push(next);
    space = takeSpace(space, growBox(next.box, GAP));
  });
  return { marks: [...(head?.marks ?? []), ...drawPlaced(placed)], left };
};

/** A page of blocks without a drawing, as many as it holds, and the blocks that are left over. */
export const composeNotes = (
  furniture: Furniture,
  sheet: Sheet,
  blocks: readonly Block[],
): { marks: readonly Mark[]; rest: readonly Block[] } => {
  const large = fillPage(furniture, sheet, blocks);
  const small = large.left.length === 0 ? large : fillPage(furniture, sheet, blocks.map(shrinkBlock));
  const { marks, left } = small.left.length < large.left.length ? small : large;
  return { marks, rest: blocks.filter((_, i) => left.includes(i)) };
};
