import type { Vec2 } from '../geometry/vector.ts';
import { ordinatesOf, turnsOf, valueAt } from './curve-split.ts';
import { letteringBox } from './lettering.ts';
import type { Box, Mark, Path } from './model.ts';
import { growBox, mapPath } from './paths.ts';

/** The exact upright rectangle round a path's centre line: curves are taken at their turns, not their handles. */
export const pathBounds = (path: Path): Box => {
  let { x: minX, y: minY } = path.start;
  let [maxX, maxY] = [minX, minY];
  const takeX = (x: number): void => {
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
  };
  const takeY = (y: number): void => {
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  };
  let from = path.start;
  for (const segment of path.segments) {
    takeX(segment.to.x);
    takeY(segment.to.y);
    if (segment.kind === 'curve') {
      const [xs, ys] = [ordinatesOf(from, segment, 'x'), ordinatesOf(from, segment, 'y')];
      for (const t of turnsOf(xs)) takeX(valueAt(xs, t));
      for (const t of turnsOf(ys)) takeY(valueAt(ys, t));
    }
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

/** A mark turned about the origin, counter-clockwise. */
export const turnMark = (mark: Mark, angle: number): Mark => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)].map((value) => (Math.abs(value) < 1e-15 ? 0 : value)) as [
    number,
    number,
  ];
  const turn = ({ x, y }: Vec2): Vec2 => ({ x: x * c - y * s, y: x * s + y * c });
  return mark.kind === 'text'
    ? { ...mark, at: turn(mark.at), angle: mark.angle + angle }
    : { ...mark, path: mapPath(mark.path, turn) };
};

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

/** Marks moved by (dx, dy). */
export const moveMarks = (marks: readonly Mark[], dx: number, dy: number): Mark[] => {
  const moved: Mark[] = [];
  for (const mark of marks) moved.push(translateMark(mark, dx, dy));
  return moved;
};
