import type { Box, Mark, Sheet } from '../drawing/model.ts';
import { growBox } from '../drawing/shape.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Block } from './block.ts';
import { boxAt, GAP, heightOf, isOverlapping, widthOf } from './box.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';
import type { Furniture } from './furniture.ts';
import { moveMarks } from './furniture.ts';
import { clearSpace, drawPlaced, packBlocks, placeBlock, type Placed } from './pack.ts';
import { drawHead } from './text-blocks.ts';

/** A page with a whole drawing on it and blocks round it. */
export interface Composition {
  /** Lower left corner of the drawing's bounds, page mm. */
  readonly corner: Vec2;
  readonly marks: readonly Mark[];
  readonly cost: number;
}

/** Stiff blocks first: what can be set in many shapes still finds room afterwards. */
const stiffness: readonly Block['kind'][] = ['picture', 'plan', 'table', 'steps', 'facts', 'cautions'];
export const byStiffness = (blocks: readonly Block[]): Block[] =>
  [...blocks].sort((a, b) => stiffness.indexOf(a.kind) - stiffness.indexOf(b.kind));

/** Places for the drawing: against the edges of free rectangles, or in the middle of one, keeping clear of others. */
const drawingPlaces = (space: FreeSpace, width: number, height: number): Box[] => {
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

/** Ways to begin a page: the heading at the top left, the steps under it or left to find their own place. */
const starts = (furniture: Furniture, sheet: Sheet, blocks: readonly Block[]): Start[] => {
  const { field, taken } = furniture;
  const ordered = byStiffness(blocks);
  return [3.5, 2.5].flatMap((height, small) => {
    const head = drawHead(sheet, widthOf(field), height);
    const box = boxAt(field.minX, field.maxY - head.height, head.width, head.height);
    if (taken.some((other) => isOverlapping(other, box))) return [];
    const marks = moveMarks(head.marks, box.minX, box.minY);
    const space = clearSpace(field, [...taken, box]);
    const free: Start = { space, marks, placed: [], rest: ordered, cost: small };
    const steps = ordered.find((block) => block.kind === 'steps');
    if (!steps) return [free];
    const under = space.filter(
      ({ minX, maxY }) => minX <= field.minX + 1e-6 && maxY <= box.minY - GAP + 1e-6,
    );
    const first = placeBlock(under, steps, 'top-left', field);
    if (!first) return [free];
    const led: Start = {
      space: takeSpace(space, growBox(first.box, GAP)),
      marks,
      placed: [first],
      rest: ordered.filter((block) => block !== steps),
      // Counted as no distance: right under the heading is where the steps belong.
      cost: small + first.shape.cost - 0.15,
    };
    return [led, free];
  });
};

/** The best page with the whole drawing and every block, or undefined where they do not go on one page. */
export const composePage = (
  furniture: Furniture,
  sheet: Sheet,
  blocks: readonly Block[],
  size: { readonly width: number; readonly height: number },
): Composition | undefined => {
  const { field } = furniture;
  let best: Composition | undefined;
  for (const start of starts(furniture, sheet, blocks)) {
    for (const place of drawingPlaces(start.space, size.width, size.height)) {
      const offLeft = (place.minX - field.minX) / widthOf(field);
      const cost = start.cost + offLeft * 0.5;
      const packed = packBlocks(takeSpace(start.space, growBox(place, GAP)), start.rest, field);
      if (!packed || (best && cost + packed.cost >= best.cost)) continue;
      best = {
        corner: { x: place.minX, y: place.minY },
        cost: cost + packed.cost,
        marks: [...start.marks, ...drawPlaced([...start.placed, ...packed.placed])],
      };
    }
  }
  return best;
};

/** A page of blocks without a drawing, as many as it holds, and the blocks that are left over. */
export const composeNotes = (
  furniture: Furniture,
  sheet: Sheet,
  blocks: readonly Block[],
): { marks: readonly Mark[]; rest: readonly Block[] } => {
  const { field, taken } = furniture;
  const head = drawHead(sheet, widthOf(field), 3.5);
  const box = boxAt(field.minX, field.maxY - head.height, head.width, head.height);
  const isClear = !taken.some((other) => isOverlapping(other, box));
  let space = clearSpace(field, isClear ? [...taken, box] : taken);
  const placed: Placed[] = [];
  const rest: Block[] = [];
  for (const block of blocks) {
    const next = placeBlock(space, block, block.corner, field);
    if (!next) {
      rest.push(block);
      continue;
    }
    placed.push(next);
    space = takeSpace(space, growBox(next.box, GAP));
  }
  return {
    marks: [...(isClear ? moveMarks(head.marks, box.minX, box.minY) : []), ...drawPlaced(placed)],
    rest,
  };
};
