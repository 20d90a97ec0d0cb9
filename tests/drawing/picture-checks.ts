import { letteringBox } from '../../src/drawing/lettering.ts';
import type { Box, Mark, Path, Picture } from '../../src/drawing/model.ts';

const at = (a: number, b: number, c: number, d: number, t: number): number =>
  (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t ** 2 * c + t ** 3 * d;

/** Points along a path, close together. */
const pointsOf = (path: Path): { x: number; y: number }[] => {
  const points = [path.start];
  for (const segment of path.segments) {
    const from = points.at(-1)!;
    const [c1, c2] = segment.kind === 'line' ? [from, segment.to] : [segment.c1, segment.c2];
    const steps = Math.max(2, Math.ceil(Math.hypot(segment.to.x - from.x, segment.to.y - from.y) / 0.1));
    for (let i = 1; i <= steps; i++) {
      const t = i / steps;
      points.push(
        segment.kind === 'line'
          ? { x: from.x + (segment.to.x - from.x) * t, y: from.y + (segment.to.y - from.y) * t }
          : { x: at(from.x, c1.x, c2.x, segment.to.x, t), y: at(from.y, c1.y, c2.y, segment.to.y, t) },
      );
    }
  }
  return points;
};

const inside = (box: Box, { x, y }: { x: number; y: number }): boolean =>
  x > box.minX && x < box.maxX && y > box.minY && y < box.maxY;

/** Words of a picture that a line, an arrowhead or other words run through. */
export const crossed = ({ marks }: Picture): string[] => {
  const words = marks.filter((mark): mark is Extract<Mark, { kind: 'text' }> => mark.kind === 'text');
  const boxes = words.map(letteringBox);
  const lines = marks.flatMap((mark) =>
    mark.kind === 'text' || (mark.kind === 'fill' && mark.ink === 'white') ? [] : [pointsOf(mark.path)],
  );
  return words.flatMap((word, i) => {
    const box = boxes[i]!;
    const cut = lines.some((points) => points.some((p) => inside(box, p)));
    const meets = boxes.some(
      (other, j) =>
        j !== i &&
        other.maxX > box.minX &&
        other.minX < box.maxX &&
        other.maxY > box.minY &&
        other.minY < box.maxY,
    );
    return cut || meets ? [word.text] : [];
  });
};
