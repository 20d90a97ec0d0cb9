import type { Cubic } from '../geometry/cubic.ts';
import { add2, left2, length2, polar2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import type { Box, Fill, Lettering, LineType, Path, Segment, Stroke } from './model.ts';
import type { Role } from './role.ts';

/** Line widths, mm (ISO 128-2: steps of root two, wide to narrow 2:1). */
export const WIDE = 0.7;
export const MEDIUM = 0.5;
export const QUARTER = 0.35;
export const NARROW = 0.25;
export const FINE = 0.18;

const lineTo = (to: Vec2): Segment => ({ kind: 'line', to });

/** A straight line. */
export const linePath = (a: Vec2, b: Vec2): Path => ({ start: a, segments: [lineTo(b)], closed: false });

/** Straight lines through the points; a closed one returns to the first. */
export const polylinePath = (points: readonly Vec2[], closed = false): Path => {
  const [start, ...rest] = points as [Vec2, ...Vec2[]];
  return { start, segments: [...rest, ...(closed ? [start] : [])].map(lineTo), closed };
};

/** The outline of a box. */
export const boxPath = ({ minX, minY, maxX, maxY }: Box): Path =>
  polylinePath(
    [
      { x: minX, y: minY },
      { x: maxX, y: minY },
      { x: maxX, y: maxY },
      { x: minX, y: maxY },
    ],
    true,
  );

/** Cubics end to end as one path. */
export const cubicPath = (cubics: readonly Cubic[], closed = false): Path => {
  const first = cubics[0];
  if (!first) throw new Error('a path needs at least one cubic');
  const segments: Segment[] = cubics.map(({ c1, c2, end }) => ({ kind: 'curve', c1, c2, to: end }));
  const last = segments[segments.length - 1];
  if (closed && last) segments[segments.length - 1] = { ...last, to: first.start };
  return { start: first.start, segments, closed };
};

/**
 * An arc about `centre` from angle `from` to `to` (radians, counter-clockwise when to > from): Béziers of at most 15
 * degrees, within 3e-9 of the radius.
 */
export const arcPath = (centre: Vec2, radius: number, from: number, to: number, closed = false): Path => {
  const count = Math.max(1, Math.ceil(Math.abs(to - from) / (Math.PI / 12) - 1e-9));
  const step = (to - from) / count;
  const handle = (4 / 3) * Math.tan(step / 4) * radius;
  const at = (angle: number): Vec2 => add2(centre, polar2(radius, angle));
  const ahead = (angle: number): Vec2 => left2(polar2(handle, angle));
  const segments = Array.from({ length: count }, (_, i): Segment => {
    const [a, b] = [from + i * step, i + 1 === count ? to : from + (i + 1) * step];
    return { kind: 'curve', c1: add2(at(a), ahead(a)), c2: sub2(at(b), ahead(b)), to: at(b) };
  });
  const start = at(from);
  const last = segments[count - 1];
  if (closed && last) segments[count - 1] = { ...last, to: start };
  return { start, segments, closed };
};

/** A full circle, counter-clockwise from +x. */
export const circlePath = (centre: Vec2, radius: number): Path =>
  arcPath(centre, radius, 0, 2 * Math.PI, true);

/** A path with every point taken through `map`; true for Béziers only where `map` is affine. */
export const mapPath = (path: Path, map: (p: Vec2) => Vec2): Path => ({
  start: map(path.start),
  closed: path.closed,
  segments: path.segments.map((segment): Segment =>
    segment.kind === 'line'
      ? lineTo(map(segment.to))
      : { kind: 'curve', c1: map(segment.c1), c2: map(segment.c2), to: map(segment.to) },
  ),
});

/** A drawn line. */
export const stroke = (role: Role, path: Path, width: number, line: LineType = 'continuous'): Stroke => ({
  kind: 'stroke',
  role,
  path,
  line,
  width,
});

/** A straight drawn line. */
export const ruleLine = (
  role: Role,
  a: Vec2,
  b: Vec2,
  width: number,
  line: LineType = 'continuous',
): Stroke => stroke(role, linePath(a, b), width, line);

/** One line of lettering; left on the baseline unless said otherwise. */
export const letter = (
  role: Role,
  at: Vec2,
  text: string,
  height: number,
  style: Partial<Pick<Lettering, 'align' | 'valign' | 'angle' | 'bold'>> = {},
): Lettering => ({
  kind: 'text',
  role,
  at,
  text,
  height,
  align: style.align ?? 'left',
  valign: style.valign ?? 'baseline',
  angle: style.angle ?? 0,
  bold: style.bold ?? false,
});

/** A filled arrowhead, three times as long as it is wide (ASME Y14.2), whose tip lies on `tip`. */
export const arrowhead = (role: Role, tip: Vec2, direction: Vec2, length = 2.5): Fill => {
  const back = scale2(unit2(direction), -length);
  const side = scale2(left2(unit2(direction)), length / 6);
  return {
    kind: 'fill',
    role,
    ink: 'black',
    path: polylinePath([tip, add2(add2(tip, back), side), sub2(add2(tip, back), side)], true),
  };
};

/** White paper under a number, so that no line runs through it. */
export const knockout = (role: Role, box: Box): Fill => ({
  kind: 'fill',
  role,
  ink: 'white',
  path: boxPath(box),
});

/** The smallest box round points and boxes. */
export const unionBox = (boxes: readonly Box[]): Box => {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const box of boxes) {
    minX = Math.min(minX, box.minX);
    minY = Math.min(minY, box.minY);
    maxX = Math.max(maxX, box.maxX);
    maxY = Math.max(maxY, box.maxY);
  }
  return { minX, minY, maxX, maxY };
};

/** A box with its sides moved out by `by` mm. */
export const growBox = (box: Box, by: number): Box => ({
  minX: box.minX - by,
  minY: box.minY - by,
  maxX: box.maxX + by,
  maxY: box.maxY + by,
});

/** Distance between two points, mm. */
export const distance = (a: Vec2, b: Vec2): number => length2(sub2(a, b));
