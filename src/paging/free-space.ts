import type { Box } from '../drawing/model.ts';
import { isHolding, isOverlapping } from './box.ts';

/** The largest upright rectangles of a page on which nothing stands; they may share ground. */
export type FreeSpace = readonly Box[];

const cutRound = (free: Box, taken: Box): Box[] => {
  if (!isOverlapping(free, taken)) return [free];
  const parts: Box[] = [];
  if (taken.minX > free.minX) parts.push({ ...free, maxX: taken.minX });
  if (taken.maxX < free.maxX) parts.push({ ...free, minX: taken.maxX });
  if (taken.minY > free.minY) parts.push({ ...free, maxY: taken.minY });
  if (taken.maxY < free.maxY) parts.push({ ...free, minY: taken.maxY });
  return parts;
};

/** Takes a box out of the free space: every rectangle it touches is cut into the largest ones left round it. */
export const takeSpace = (space: FreeSpace, taken: Box): FreeSpace => {
  const parts = space.flatMap((free) => cutRound(free, taken));
  return parts.filter(
    (part, i) =>
      !parts.some((other, j) => i !== j && isHolding(other, part) && (!isHolding(part, other) || j < i)),
  );
};
