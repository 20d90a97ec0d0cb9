import { cubicAt, mapCubic, type Cubic } from './cubic.ts';
import { halve } from './halving.ts';
import { add2, scale2, type Vec2 } from './vector.ts';

const between = (a: Vec2, b: Vec2, u: number): Vec2 => add2(scale2(a, 1 - u), scale2(b, u));

/** The two parts of a cubic cut at parameter u (de Casteljau). */
const splitCubic = ({ start, c1, c2, end }: Cubic, u: number): readonly [Cubic, Cubic] => {
  const [a, b, c] = [between(start, c1, u), between(c1, c2, u), between(c2, end, u)];
  const [ab, bc] = [between(a, b, u), between(b, c, u)];
  const middle = between(ab, bc, u);
  return [
    { start, c1: a, c2: ab, end: middle },
    { start: middle, c1: bc, c2: c, end },
  ];
};

/** The parameter at which a cubic that never runs back in x reaches `x`, by halving. */
const reachX = (cubic: Cubic, x: number): number => halve((u) => cubicAt(cubic, u).x < x, 0, 1).middle;

const clipCubic = (cubic: Cubic, from: number, to: number): readonly Cubic[] => {
  if (cubic.end.x <= from || cubic.start.x >= to) return [];
  let part = cubic;
  if (part.start.x < from) {
    const [, after] = splitCubic(part, reachX(part, from));
    part = { ...after, start: { ...after.start, x: from } };
  }
  if (part.end.x > to) {
    const [before] = splitCubic(part, reachX(part, to));
    part = { ...before, end: { ...before.end, x: to } };
  }
  return [part];
};

/** The stretch between two xs of a line that runs from left to right without turning back. */
export const clipLine = (line: readonly Cubic[], from: number, to: number): readonly Cubic[] =>
  line.flatMap((cubic) => clipCubic(cubic, from, to));

/** A line moved by (dx, dy). */
export const moveLine = (line: readonly Cubic[], dx: number, dy: number): readonly Cubic[] => {
  const move = (p: Vec2): Vec2 => ({ x: p.x + dx, y: p.y + dy });
  return line.map((cubic) => mapCubic(cubic, move));
};

/**
 * A line that repeats every `period` in x, given over one period from left to right, taken from `from` to `to`.
 * Vertical stretches that lie on either limit are left out.
 */
export const repeatLine = (
  line: readonly Cubic[],
  period: number,
  from: number,
  to: number,
): readonly Cubic[] => {
  const start = line[0]?.start.x ?? 0;
  const first = Math.floor((from - start) / period);
  const count = Math.ceil((to - start) / period) - first;
  return Array.from({ length: Math.max(0, count) }, (_, i) =>
    clipLine(moveLine(line, (first + i) * period, 0), from, to),
  ).flat();
};
