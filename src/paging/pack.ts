import type { Box } from '../drawing/model.ts';
import { growBox } from '../drawing/shape.ts';
import type { Block, Fitted, TextHeight } from './block.ts';
import { boxAt, heightOf, widthOf } from './box.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';

/** A block set on free ground. */
export interface Placed {
  readonly shape: Fitted;
  readonly box: Box;
}

/** White space between blocks, mm. */
const between = 4;
/** Widths a block is set to beside that of the ground itself, mm. */
const widths = [42, 50, 58, 72, 90, 112, 140, 180, Infinity] as const;

/** How a place is chosen: highest and leftmost first, or where it leaves the least ground over. */
type Choice = 'top left' | 'snug';

const scoreOf = (free: Box, shape: Fitted, choice: Choice, top: number): number =>
  choice === 'top left'
    ? top - free.maxY + shape.height + 0.2 * free.minX + 0.002 * shape.width * shape.height
    : Math.min(widthOf(free) - shape.width, heightOf(free) - shape.height) +
      0.01 * shape.width * shape.height;

const placeOne = (
  space: FreeSpace,
  block: Block,
  text: TextHeight,
  choice: Choice,
  top: number,
): Placed | undefined => {
  let best: Placed | undefined;
  let least = Infinity;
  for (const free of space) {
    const room = widthOf(free);
    // Running text wider than this is hard to read; a table or a row of views may take all there is.
    const most = block.kind === 'table' || block.kind === 'picture' ? room : Math.min(room, 200);
    const last = widths.findIndex((width) => width >= most);
    for (let i = 0; i <= last; i += 1) {
      const width = Math.min(widths[i] ?? most, most);
      const shape = block.fit(width, text);
      if (!shape || shape.height > heightOf(free) + 1e-6) continue;
      const score = scoreOf(free, shape, choice, top);
      if (score >= least) continue;
      least = score;
      best = { shape, box: boxAt(free.minX, free.maxY - shape.height, shape.width, shape.height) };
    }
  }
  return best;
};

const areaOf = (block: Block): number => {
  const shape = block.fit(90, 2.5) ?? block.fit(180, 2.5);
  return shape ? shape.width * shape.height : 0;
};

/** What is worth most beside the drawing, where not all goes there. */
const worth: Readonly<Record<Block['kind'], number>> = {
  plan: 9,
  steps: 8,
  picture: 4,
  facts: 6,
  subject: 2,
  cautions: 3,
  'sign-off': 3,
  table: 2,
};

/** Blocks on a free ground of any shape: all of them where that is found, else those that are worth most. */
export const packFree = (
  space: FreeSpace,
  blocks: readonly Block[],
  text: TextHeight,
): { placed: readonly Placed[]; left: readonly Block[] } => {
  const large = [...blocks].sort((a, b) => areaOf(b) - areaOf(a));
  const top = Math.max(...space.map(({ maxY }) => maxY));
  let best: { placed: readonly Placed[]; left: readonly Block[]; lost: number } | undefined;
  for (const queue of [blocks, large])
    for (const choice of ['top left', 'snug'] as const) {
      let free = space;
      const placed: Placed[] = [];
      const left: Block[] = [];
      for (const block of queue) {
        const put = placeOne(free, block, text, choice, top);
        if (!put) {
          left.push(block);
          continue;
        }
        placed.push(put);
        free = takeSpace(free, growBox(put.box, between));
      }
      const lost = left.reduce((sum, { kind }) => sum + worth[kind], 0);
      if (best && lost >= best.lost) continue;
      best = { placed, left, lost };
      if (lost === 0) return best;
    }
  return best ?? { placed: [], left: blocks };
};
