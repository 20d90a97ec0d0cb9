import type { Fill, Lettering, LineType, Mark, Path, Stroke } from '../../src/drawing/model.ts';
import type { Role } from '../../src/drawing/role.ts';
import type { Vec2 } from '../../src/geometry/vector.ts';
import type { Book, Page, View } from '../../src/paging/book.ts';

/** Marks and books made by hand, so that what is written can be told from what was asked without the product's help. */

export const polyline = (points: readonly Vec2[], closed = false): Path => {
  const [start, ...rest] = closed ? [...points, points[0]!] : points;
  return { start: start!, segments: rest.map((to) => ({ kind: 'line', to })), closed };
};

export const stroke = (
  role: Role,
  points: readonly (readonly [number, number])[],
  line: LineType = 'continuous',
  width = 0.35,
): Stroke => ({ kind: 'stroke', role, line, width, path: polyline(points.map(([x, y]) => ({ x, y }))) });

export const square = (ink: 'black' | 'white', at: Vec2, side: number): Fill => ({
  kind: 'fill',
  role: 'text',
  ink,
  path: polyline(
    [at, { x: at.x + side, y: at.y }, { x: at.x + side, y: at.y + side }, { x: at.x, y: at.y + side }],
    true,
  ),
});

export const lettering = (text: string, at: Vec2, rest: Partial<Lettering> = {}): Lettering => ({
  kind: 'text',
  role: 'text',
  at,
  text,
  height: 3.5,
  align: 'left',
  valign: 'baseline',
  angle: 0,
  bold: false,
  ...rest,
});

/** A circle of `count` Béziers with handles 4/3 tan(θ/4) long (Riškus 2006, "Approximation of a cubic Bézier curve by circular arcs"). */
export const circle = (centre: Vec2, radius: number, count: number): Path => {
  const step = (2 * Math.PI) / count;
  const handle = (4 / 3) * Math.tan(step / 4) * radius;
  const at = (i: number): Vec2 => ({
    x: centre.x + radius * Math.cos(i * step),
    y: centre.y + radius * Math.sin(i * step),
  });
  const along = (i: number, side: number): Vec2 => ({
    x: at(i).x - side * handle * Math.sin(i * step),
    y: at(i).y + side * handle * Math.cos(i * step),
  });
  return {
    start: at(0),
    segments: Array.from({ length: count }, (_, i) => ({
      kind: 'curve',
      c1: along(i, 1),
      c2: along(i + 1, -1),
      to: at(i + 1),
    })),
    closed: true,
  };
};

/** The whole page shows the sheet `sample`, its origin where it is said. */
export const viewAt = (origin: View['origin'], sheet = 'sample'): View => ({
  sheet,
  name: '1.1',
  origin,
  viewport: { minX: 6.5, minY: 13, maxX: 203.5, maxY: 284 },
});

export const pageOf = (marks: readonly Mark[], rest: Partial<Page> = {}): Page => ({
  width: 210,
  height: 297,
  label: 'sample A1',
  views: [viewAt({ x: 0, y: 0 })],
  marks,
  ...rest,
});

/** A book of one sheet named `sample`. */
export const bookOf = (pages: readonly Page[], rest: Partial<Book> = {}): Book => ({
  title: 'Sample',
  author: 'Ann Fitter',
  subject: 'Test of the writer',
  sheets: [{ name: 'sample', heading: 'Sample', pages: pages.map((_, i) => i + 1) }],
  pages,
  spec: { layout: 'sample', pipe: 'NPS 6' },
  ...rest,
});
