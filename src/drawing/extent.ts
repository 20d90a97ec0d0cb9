import type { Vec2 } from '../geometry/vector.ts';
import { ordinatesOf, turnsOf, valueAt } from './curve-split.ts';
import { letteringBox } from './lettering.ts';
import type { Box, Mark, Path, Segment } from './model.ts';
import { growBox } from './shape.ts';

const segmentRange = (start: Vec2, segment: Segment, axis: 'x' | 'y'): number[] => {
  if (segment.kind === 'line') return [start[axis], segment.to[axis]];
  const ordinates = ordinatesOf(start, segment, axis);
  return [start[axis], segment.to[axis], ...turnsOf(ordinates).map((t) => valueAt(ordinates, t))];
};

/** The exact upright rectangle round a path's centre line: curves are taken at their turns, not their handles. */
export const pathBounds = (path: Path): Box => {
  let { x: minX, y: minY } = path.start;
  let [maxX, maxY] = [minX, minY];
  let from = path.start;
  for (const segment of path.segments) {
    for (const x of segmentRange(from, segment, 'x')) [minX, maxX] = [Math.min(minX, x), Math.max(maxX, x)];
    for (const y of segmentRange(from, segment, 'y')) [minY, maxY] = [Math.min(minY, y), Math.max(maxY, y)];
    from = segment.to;
  }
  return { minX, minY, maxX, maxY };
};

/** The upright rectangle a mark's ink takes: a stroke counts half its width on every side. */
export const markBounds = (mark: Mark): Box => {
  switch (mark.kind) {
    case 'stroke':
      return growBox(pathBounds(mark.path), mark.width / 2);
    case 'fill':
      return pathBounds(mark.path);
    case 'text':
      return letteringBox(mark);
  }
};

const moved = ({ x, y }: Vec2, dx: number, dy: number): Vec2 => ({ x: x + dx, y: y + dy });

/** A path moved by (dx, dy). */
export const translatePath = ({ start, closed, segments }: Path, dx: number, dy: number): Path => ({
  start: moved(start, dx, dy),
  closed,
  segments: segments.map((segment) =>
    segment.kind === 'line'
      ? { kind: 'line', to: moved(segment.to, dx, dy) }
      : {
          kind: 'curve',
          c1: moved(segment.c1, dx, dy),
          c2: moved(segment.c2, dx, dy),
          to: moved(segment.to, dx, dy),
        },
  ),
});

/** A mark moved by (dx, dy). */
export const translateMark = (mark: Mark, dx: number, dy: number): Mark =>
  mark.kind === 'text'
    ? { ...mark, at: { x: mark.at.x + dx, y: mark.at.y + dy } }
    : { ...mark, path: translatePath(mark.path, dx, dy) };
