import type { Box, Mark } from '../drawing/model.ts';
import { mapPath } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Page } from './book.ts';

/** Lettering keeps its proportions; it grows no more than the ground it stands on. */
const stretchMark = (mark: Mark, { x, y }: Vec2): Mark => {
  const map = (p: Vec2): Vec2 => ({ x: p.x * x, y: p.y * y });
  return mark.kind === 'text'
    ? { ...mark, at: map(mark.at), height: mark.height * Math.min(x, y) }
    : { ...mark, path: mapPath(mark.path, map) };
};

const stretchBox = (box: Box, { x, y }: Vec2): Box => ({
  minX: box.minX * x,
  minY: box.minY * y,
  maxX: box.maxX * x,
  maxY: box.maxY * y,
});

/** A page with all that is on it stretched about the paper's lower left corner; the paper stays as it is. */
export const stretchPage = (page: Page, by: Vec2): Page => ({
  ...page,
  marks: page.marks.map((mark) => stretchMark(mark, by)),
  views: page.views.map((view) => ({
    ...view,
    origin: { x: view.origin.x * by.x, y: view.origin.y * by.y },
    viewport: stretchBox(view.viewport, by),
  })),
  stretch: by,
});
