import { ordinatesOf, valueAt } from '../drawing/curve-split.ts';
import { markBounds } from '../drawing/extent.ts';
import type { Box, Mark, Path } from '../drawing/model.ts';
import { unionBox } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';

import { heightOf } from './box.ts';

/** Least height of the bands a drawing is divided into to find where its ink is, mm. */
const leastBand = 4;
/** How many bands a tall drawing is divided into: the ground around it is made of rectangles between all of them. */
const mostBands = 60;

/** Points along a path close enough together that no band between two is missed. */
const pointsOf = (path: Path, bandHeight: number): Vec2[] => {
  const points: Vec2[] = [path.start];
  let from = path.start;
  for (const segment of path.segments) {
    const count = Math.min(64, Math.max(1, Math.ceil(Math.abs(segment.to.y - from.y) / (bandHeight / 2))));
    const start = from;
    if (segment.kind === 'line') {
      const { to } = segment;
      for (let i = 1; i <= count; i += 1)
        points.push({
          x: start.x + ((to.x - start.x) * i) / count,
          y: start.y + ((to.y - start.y) * i) / count,
        });
    } else {
      const [xs, ys] = [ordinatesOf(start, segment, 'x'), ordinatesOf(start, segment, 'y')];
      const steps = Math.max(8, count);
      for (let i = 1; i <= steps; i += 1)
        points.push({ x: valueAt(xs, i / steps), y: valueAt(ys, i / steps) });
    }
    from = segment.to;
  }
  return points;
};

/**
 * The ground a drawing takes, as boxes one over the other: in each band from its leftmost to its rightmost ink. What lies
 * between is the drawing's own, also where it is white.
 */
export const inkBands = (marks: readonly Mark[]): Box[] => {
  const boxes = marks.map(markBounds);
  const tall = boxes.length === 0 ? 0 : heightOf(unionBox(boxes));
  const bandHeight = Math.max(leastBand, tall / mostBands);
  const bands = new Map<number, [low: number, high: number]>();
  const take = (minX: number, maxX: number, y: number): void => {
    const band = Math.floor(y / bandHeight);
    const known = bands.get(band);
    if (!known) bands.set(band, [minX, maxX]);
    else [known[0], known[1]] = [Math.min(known[0], minX), Math.max(known[1], maxX)];
  };
  for (const mark of marks) {
    if (mark.kind === 'stroke') {
      for (const { x, y } of pointsOf(mark.path, bandHeight)) take(x, x, y);
      continue;
    }
    const box = markBounds(mark);
    for (let y = box.minY; y < box.maxY + bandHeight; y += bandHeight)
      take(box.minX, box.maxX, Math.min(y, box.maxY));
  }
  // A band takes what its neighbors take, so that nothing stands in a notch no taller than a line of lettering.
  return [...bands].map(([band]): Box => {
    const near = [band - 1, band, band + 1].flatMap((b) => bands.get(b) ?? []);
    return {
      minX: Math.min(...near),
      maxX: Math.max(...near),
      minY: band * bandHeight,
      maxY: (band + 1) * bandHeight,
    };
  });
};
