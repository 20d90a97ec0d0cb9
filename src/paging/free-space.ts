import type { Box } from '../drawing/model.ts';
import { growBox } from '../drawing/shape.ts';
import { isHolding, isOverlapping } from './box.ts';

/** The largest upright rectangles of a page on which nothing stands; they may share ground. */
export type FreeSpace = readonly Box[];

const cutRound = (free: Box, taken: Box, parts: Box[]): void => {
  if (taken.minX > free.minX) parts.push({ ...free, maxX: taken.minX });
  if (taken.maxX < free.maxX) parts.push({ ...free, minX: taken.maxX });
  if (taken.minY > free.minY) parts.push({ ...free, maxY: taken.minY });
  if (taken.maxY < free.maxY) parts.push({ ...free, minY: taken.maxY });
};

/**
 * Takes a box out of the free space: every rectangle it touches is cut into the largest ones left round it. `isUsable` says
 * which of those are worth keeping; whatever holds a usable one must be usable too.
 */
export const takeSpace = (
  space: FreeSpace,
  taken: Box,
  isUsable: (free: Box) => boolean = () => true,
): FreeSpace => {
  // What the box does not touch lies in no other rectangle, as before; only what was cut may.
  const [whole, cut]: [Box[], Box[]] = [[], []];
  for (const free of space) {
    if (isOverlapping(free, taken)) cutRound(free, taken, cut);
    else whole.push(free);
  }
  if (cut.length === 0 && whole.length === space.length) return space;
  const usable = cut.filter(isUsable);
  const left = usable.filter(
    (part, i) =>
      !whole.some((other) => isHolding(other, part)) &&
      !usable.some((other, j) => i !== j && isHolding(other, part) && (!isHolding(part, other) || j < i)),
  );
  return [...whole, ...left];
};

/** The largest rectangles of free ground that do not share any, at most `count` of them and each over a least area, mm². */
export const largestFree = (space: FreeSpace, count: number, gap: number, least = 900): Box[] => {
  const found: Box[] = [];
  let rest = space;
  while (found.length < count) {
    let best: Box | undefined;
    let most = least;
    for (const box of rest) {
      const area = (box.maxX - box.minX) * (box.maxY - box.minY);
      if (area > most) [best, most] = [box, area];
    }
    if (!best) break;
    found.push(best);
    rest = takeSpace(rest, growBox(best, gap));
  }
  return found.sort((a, b) => b.maxY - a.maxY || a.minX - b.minX);
};
