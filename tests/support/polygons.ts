import { sheetStrokes, type PdfFile } from './pdf-reader.ts';
import type { Vec2 } from './space.ts';

/** The corners of every closed straight-sided outline of a layer, mm, the first not repeated. Print on paper that holds the sheet. */
export const readPolygons = (file: PdfFile, sheet: string, layer = 'cut'): Vec2[][] =>
  sheetStrokes(file, sheet, layer).flatMap(({ path }) =>
    path.flatMap(({ start, segments }) => {
      const corners = [start, ...segments.map(({ to }) => to)];
      const last = corners[corners.length - 1]!;
      const closes = Math.hypot(last.x - start.x, last.y - start.y) < 1e-4;
      const straight = segments.every(({ kind }) => kind === 'line');
      return closes && straight && segments.length > 2 ? [corners.slice(0, -1)] : [];
    }),
  );

/** The angle at `at` between the directions to `a` and to `b`, degrees. */
export const angleAt = (at: Vec2, a: Vec2, b: Vec2): number => {
  const [p, q] = [
    { x: a.x - at.x, y: a.y - at.y },
    { x: b.x - at.x, y: b.y - at.y },
  ];
  return (Math.abs(Math.atan2(p.x * q.y - p.y * q.x, p.x * q.x + p.y * q.y)) * 180) / Math.PI;
};

/** Distance between two points. */
export const apart = (a: Vec2, b: Vec2): number => Math.hypot(a.x - b.x, a.y - b.y);
