import type { Sheet } from '../../src/drawing/model.ts';

/** How many of a sheet's strokes have a point that is not finite or lies outside the sheet's bounds. */
export const strayStrokes = ({ marks, bounds }: Sheet): number =>
  marks.filter((mark) => {
    if (mark.kind !== 'stroke') return false;
    const points = [mark.path.start, ...mark.path.segments.map(({ to }) => to)];
    return !points.every(
      ({ x, y }) =>
        x >= bounds.minX - 1e-6 &&
        x <= bounds.maxX + 1e-6 &&
        y >= bounds.minY - 1e-6 &&
        y <= bounds.maxY + 1e-6,
    );
  }).length;
