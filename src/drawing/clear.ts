import { letteringBox } from './lettering.ts';
import type { Box, Lettering } from './model.ts';
import { growBox } from './paths.ts';

/** True where two boxes have ground in common. */
export const boxesMeet = (a: Box, b: Box): boolean =>
  a.maxX > b.minX && a.minX < b.maxX && a.maxY > b.minY && a.minY < b.maxY;

/** Keeps the letterings, first come first served, that stand `gap` mm clear of those before them. */
export const keepClear = (candidates: readonly Lettering[], gap: number): Lettering[] => {
  const taken: Box[] = [];
  return candidates.filter((candidate) => {
    const box = growBox(letteringBox(candidate), gap / 2);
    const clear = taken.every((other) => !boxesMeet(box, other));
    if (clear) taken.push(box);
    return clear;
  });
};
