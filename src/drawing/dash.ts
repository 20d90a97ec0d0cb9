import type { Vec2 } from '../geometry/vector.ts';
import type { LineType, Path } from './model.ts';

/** Line elements in line widths, drawn and left out by turns (ISO 128-2, annex on line elements). */
const elements: Readonly<Record<Exclude<LineType, 'continuous'>, readonly number[]>> = {
  dashed: [12, 3],
  'long-dash-dot': [24, 3, 0.5, 3],
  'long-dash-double-dot': [24, 3, 0.5, 3, 0.5, 3],
};

/** Lines narrower than this get the dashes of a line this wide, mm: shorter dots do not survive a laser printer. */
const narrowest = 0.35;

/** The dashes and gaps of a line of a width, drawn and left out by turns, mm; none for a continuous line. */
export const dashPattern = (line: LineType, width: number): readonly number[] =>
  line === 'continuous' ? [] : elements[line].map((element) => element * Math.max(width, narrowest));

/** Shorter paths are drawn whole, mm. */
const shortest = 0.5;

/**
 * The dashes and gaps of a line along `path`, mm, drawn and left out by turns; none for a continuous line.
 * They are stretched or shrunk a little so that an open line begins and ends with a dash and a closed one meets itself
 * (ISO 128-2 asks that dashes meet at ends and corners).
 */
export const fitDashes = (line: LineType, width: number, path: Path): readonly number[] => {
  if (line === 'continuous') return [];
  const pattern = dashPattern(line, width);
  const period = pattern.reduce((sum, element) => sum + element, 0);
  const length = measurePath(path);
  if (length < shortest) return [];
  const last = path.closed ? 0 : (pattern[0] ?? 0);
  const periods = Math.max(1, Math.round((length - last) / period));
  const stretch = length / (periods * period + last);
  return pattern.map((element) => element * stretch);
};

/** Half-width positions and weights of five-point Gauss-Legendre quadrature (Abramowitz & Stegun, table 25.4). */
const gauss = [
  [0, 0.5688888888888889],
  [-0.5384693101056831, 0.4786286704993665],
  [0.5384693101056831, 0.4786286704993665],
  [-0.906179845938664, 0.23692688505618908],
  [0.906179845938664, 0.23692688505618908],
] as const;

/** The length of a path, mm; good to 0.1 % on any curve a sheet has, which is all that dashes need. */
const measurePath = (path: Path): number => {
  let from = path.start;
  let length = 0;
  for (const segment of path.segments) {
    length +=
      segment.kind === 'line'
        ? Math.hypot(segment.to.x - from.x, segment.to.y - from.y)
        : measureCurve(from, segment.c1, segment.c2, segment.to);
    from = segment.to;
  }
  return length;
};

const measureCurve = (p0: Vec2, p1: Vec2, p2: Vec2, p3: Vec2): number => {
  const speed = (t: number): number => {
    const [a, b, c] = [(1 - t) ** 2, 2 * t * (1 - t), t ** 2];
    const dx = a * (p1.x - p0.x) + b * (p2.x - p1.x) + c * (p3.x - p2.x);
    const dy = a * (p1.y - p0.y) + b * (p2.y - p1.y) + c * (p3.y - p2.y);
    return 3 * Math.hypot(dx, dy);
  };
  return gauss.reduce((sum, [at, weight]) => sum + 0.5 * weight * speed(0.5 + 0.5 * at), 0);
};
