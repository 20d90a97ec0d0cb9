import type { Vec2, Vec3 } from '../geometry/vector.ts';
import { markBounds } from './extent.ts';
import { textWidth } from './lettering.ts';
import type { LineType, Mark, Path, Picture } from './model.ts';
import {
  arcPath,
  arrowhead,
  FINE,
  knockout,
  letter,
  linePath,
  polylinePath,
  QUARTER,
  ruleLine,
  stroke,
  unionBox,
} from './paths.ts';

/** A projection of the model to a picture's paper: model mm in, paper mm out. */
export type Projection = (p: Vec3) => Vec2;

/** A direction of sight: which model directions run right and up on the picture. */
export interface Sight {
  readonly right: Vec3;
  readonly up: Vec3;
}

/**
 * A projection along a sight that brings the points into `width` x `height` mm of paper, centred on the paper's
 * origin, and the scale it took.
 */
export const fitView = (
  { right, up }: Sight,
  points: readonly Vec3[],
  width: number,
  height: number,
): { readonly project: Projection; readonly scale: number } => {
  const flat = (p: Vec3): Vec2 => ({
    x: p.x * right.x + p.y * right.y + p.z * right.z,
    y: p.x * up.x + p.y * up.y + p.z * up.z,
  });
  const all = points.map(flat);
  const [minX, maxX] = [Math.min(...all.map((p) => p.x)), Math.max(...all.map((p) => p.x))];
  const [minY, maxY] = [Math.min(...all.map((p) => p.y)), Math.max(...all.map((p) => p.y))];
  const scale = Math.min(width / Math.max(maxX - minX, 1e-6), height / Math.max(maxY - minY, 1e-6));
  const [midX, midY] = [(minX + maxX) / 2, (minY + maxY) / 2];
  return {
    scale,
    project: (p) => {
      const q = flat(p);
      return { x: (q.x - midX) * scale, y: (q.y - midY) * scale };
    },
  };
};

/** A line of a picture along a path. */
export const viewPath = (path: Path, width = QUARTER, line?: LineType): Mark =>
  stroke('dimension', path, width, line);

/** A straight line of a picture. */
export const viewRule = (a: Vec2, b: Vec2, width = QUARTER, line?: LineType): Mark =>
  viewPath(linePath(a, b), width, line);

/** Lines of a picture. */
export const viewLine = (
  project: Projection,
  points: readonly Vec3[],
  line: LineType = 'continuous',
  width = line === 'continuous' ? QUARTER : FINE,
): Mark => stroke('dimension', polylinePath(points.map(project)), width, line);

/** Text of a picture at a paper point, on white paper. */
export const viewText = (
  at: Vec2,
  text: string,
  align: 'left' | 'centre' | 'right' = 'centre',
  bold = false,
): Mark[] => {
  const width = textWidth(text, 2.5, bold);
  const left = align === 'left' ? at.x : align === 'right' ? at.x - width : at.x - width / 2;
  return [
    knockout('dimension', { minX: left - 0.6, maxX: left + width + 0.6, minY: at.y - 1.9, maxY: at.y + 1.9 }),
    letter('dimension', at, text, 2.5, { align, valign: 'middle', bold }),
  ];
};

/** An angle's arc with arrowheads and its value, paper mm and radians, counter-clockwise from `from` to `to`. */
export const viewAngle = (centre: Vec2, radius: number, from: number, to: number, text: string): Mark[] => {
  const at = (angle: number, r: number): Vec2 => ({
    x: centre.x + r * Math.cos(angle),
    y: centre.y + r * Math.sin(angle),
  });
  const tangent = (angle: number, sign: number): Vec2 => ({
    x: -Math.sin(angle) * sign,
    y: Math.cos(angle) * sign,
  });
  const lean = Math.min(1.2 / radius, (to - from) / 4);
  const size = Math.min(2, ((to - from) * radius) / 3);
  return [
    stroke('dimension', arcPath(centre, radius, from, to), FINE),
    arrowhead('dimension', at(from, radius), tangent(from + lean, -1), size),
    arrowhead('dimension', at(to, radius), tangent(to - lean, 1), size),
    ...viewText(at((from + to) / 2, radius + 5), text),
  ];
};

/** A dimension between two paper points, its line moved `offset` mm to the left of their direction. */
export const viewDimension = (a: Vec2, b: Vec2, offset: number, text: string): Mark[] => {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  if (length < 1e-6) return [];
  const u = { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
  const n = { x: -u.y, y: u.x };
  const off = (p: Vec2, k: number): Vec2 => ({ x: p.x + n.x * k, y: p.y + n.y * k });
  const sign = Math.sign(offset);
  const [p, q] = [off(a, offset), off(b, offset)];
  const fits = length > 7;
  const middle = { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 };
  const size = Math.min(2, length / 3);
  const horizontal = Math.abs(u.x) > 0.7;
  const beside: Vec2 = horizontal
    ? off(middle, sign * 2.8)
    : { x: middle.x + Math.sign(n.x * offset) * 1.4, y: middle.y };
  const align = horizontal ? 'centre' : n.x * offset > 0 ? 'left' : 'right';
  return [
    ruleLine('dimension', off(a, sign * 0.8), off(p, sign * 1.2), FINE),
    ruleLine('dimension', off(b, sign * 0.8), off(q, sign * 1.2), FINE),
    ruleLine('dimension', p, q, FINE),
    ...(fits
      ? [arrowhead('dimension', p, { x: -u.x, y: -u.y }, size), arrowhead('dimension', q, u, size)]
      : [arrowhead('dimension', p, u, size), arrowhead('dimension', q, { x: -u.x, y: -u.y }, size)]),
    ...viewText(beside, text, align),
  ];
};

/** A picture from its marks. */
export const makePicture = (title: string, marks: readonly Mark[]): Picture => ({
  title,
  marks,
  bounds: unionBox(marks.map(markBounds)),
});
