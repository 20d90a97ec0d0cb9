import type { Box } from '../drawing/model.ts';

/** White space between things that stand beside each other, mm. */
export const GAP = 4;

/** A box by its lower left corner and size. */
export const boxAt = (minX: number, minY: number, width: number, height: number): Box => ({
  minX,
  minY,
  maxX: minX + width,
  maxY: minY + height,
});

export const widthOf = (box: Box): number => box.maxX - box.minX;
export const heightOf = (box: Box): number => box.maxY - box.minY;

export const moveBox = (box: Box, dx: number, dy: number): Box => ({
  minX: box.minX + dx,
  minY: box.minY + dy,
  maxX: box.maxX + dx,
  maxY: box.maxY + dy,
});

/** True where two boxes share ground; edges may touch. */
export const isOverlapping = (a: Box, b: Box): boolean =>
  a.minX < b.maxX - 1e-9 && b.minX < a.maxX - 1e-9 && a.minY < b.maxY - 1e-9 && b.minY < a.maxY - 1e-9;

/** True where `inner` lies in `outer`; edges may touch. */
export const isHolding = (outer: Box, inner: Box): boolean =>
  inner.minX >= outer.minX - 1e-9 &&
  inner.maxX <= outer.maxX + 1e-9 &&
  inner.minY >= outer.minY - 1e-9 &&
  inner.maxY <= outer.maxY + 1e-9;

/** The ground two boxes share, or undefined. */
export const shareBox = (a: Box, b: Box): Box | undefined => {
  const shared = {
    minX: Math.max(a.minX, b.minX),
    minY: Math.max(a.minY, b.minY),
    maxX: Math.min(a.maxX, b.maxX),
    maxY: Math.min(a.maxY, b.maxY),
  };
  return shared.minX < shared.maxX && shared.minY < shared.maxY ? shared : undefined;
};
