import type { Box, Mark } from '../drawing/model.ts';
import { growBox } from '../drawing/shape.ts';
import type { Block, Corner, Shape } from './block.ts';
import { boxAt, GAP, heightOf, widthOf } from './box.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';
import { moveMarks } from './furniture.ts';

/** A block with the shape and place it got. */
export interface Placed {
  readonly shape: Shape;
  readonly box: Box;
  readonly cost: number;
}

/** Free ground of a field on which boxes already stand; everything keeps `GAP` from everything. */
export const clearSpace = (field: Box, taken: readonly Box[]): FreeSpace =>
  taken.reduce<FreeSpace>((space, box) => takeSpace(space, growBox(box, GAP)), [field]);

/** The cheapest place and shape for a block: a pleasant shape near the corner where it belongs. */
export const placeBlock = (
  space: FreeSpace,
  { kind, shapes }: Block,
  corner: Corner,
  field: Box,
): Placed | undefined => {
  const isRight = corner.endsWith('right');
  const isTop = corner.startsWith('top');
  // What is read first stands nearest its corner.
  const pull = kind === 'steps' ? 3 : kind === 'facts' ? 1.5 : 1;
  let best: Placed | undefined;
  for (const shape of shapes) {
    if (best && shape.cost >= best.cost) continue;
    for (const free of space) {
      if (shape.width > widthOf(free) || shape.height > heightOf(free)) continue;
      const x = isRight ? free.maxX - shape.width : free.minX;
      const y = isTop ? free.maxY - shape.height : free.minY;
      const dx = isRight ? field.maxX - x - shape.width : x - field.minX;
      const dy = isTop ? field.maxY - y - shape.height : y - field.minY;
      const cost = shape.cost + pull * (dx / widthOf(field) + dy / heightOf(field));
      if (!best || cost < best.cost) best = { shape, cost, box: boxAt(x, y, shape.width, shape.height) };
    }
  }
  return best;
};

/** Places blocks one after the other; undefined where one finds no room or they cost `most` or more. */
export const packBlocks = (
  space: FreeSpace,
  blocks: readonly Block[],
  field: Box,
  most: number,
): { placed: readonly Placed[]; space: FreeSpace; cost: number } | undefined => {
  const placed: Placed[] = [];
  let rest = space;
  let cost = 0;
  for (const block of blocks) {
    const next = placeBlock(rest, block, block.corner, field);
    if (!next || cost + next.cost >= most) return undefined;
    placed.push(next);
    cost += next.cost;
    rest = takeSpace(rest, growBox(next.box, GAP));
  }
  return { placed, space: rest, cost };
};

export const drawPlaced = (placed: readonly Placed[]): Mark[] =>
  placed.flatMap(({ shape, box }) => moveMarks(shape.draw(), box.minX, box.minY));
