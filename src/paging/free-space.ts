import type { Box } from '../drawing/model.ts';
import { growBox } from '../drawing/paths.ts';
import { itemAt } from '../lists.ts';
import { isHolding, isOverlapping } from './box.ts';

/** The largest upright rectangles of a page on which nothing stands; they may share ground. */
export type FreeSpace = readonly Box[];

const cutRound = ({ minX, minY, maxX, maxY }: Box, taken: Box, parts: Box[]): void => {
  if (taken.minX > minX) parts.push({ minX, minY, maxX: taken.minX, maxY });
  if (taken.maxX < maxX) parts.push({ minX: taken.maxX, minY, maxX, maxY });
  if (taken.minY > minY) parts.push({ minX, minY, maxX, maxY: taken.minY });
  if (taken.maxY < maxY) parts.push({ minX, minY: taken.maxY, maxX, maxY });
};

/** True where a part lies in another one; of two that are the same the first stays. */
const isWithinOther = (part: Box, i: number, parts: readonly Box[]): boolean => {
  for (let j = 0; j < parts.length; j += 1) {
    const other = parts[j];
    if (j === i || other === undefined || !isHolding(other, part)) continue;
    if (j < i || !isHolding(part, other)) return true;
  }
  return false;
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
  const whole: Box[] = [];
  const cut: Box[] = [];
  for (const free of space) {
    if (isOverlapping(free, taken)) cutRound(free, taken, cut);
    else whole.push(free);
  }
  if (cut.length === 0 && whole.length === space.length) return space;
  const usable = cut.filter(isUsable);
  const untouched = whole.length;
  for (const [i, part] of usable.entries()) {
    let isHeld = isWithinOther(part, i, usable);
    for (let k = 0; k < untouched && !isHeld; k += 1) isHeld = isHolding(itemAt(whole, k), part);
    if (!isHeld) whole.push(part);
  }
  return whole;
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
