import { itemAt, numberAt } from '../../lists.ts';
import { add2, distance2, scale2, type Vec2 } from '../../geometry/vector.ts';

/** Sides shorter than this many times the deviation are not halved: a cut that steps would never end. */
const LEAST = 10;

/** Triangles over a section, three numbers each, and the points they lie between. */
export interface Refined {
  readonly points: readonly Vec2[];
  readonly triangles: readonly number[];
  /** The points along a side of the first triangles, from one of its ends to the other. */
  readonly along: (from: number, to: number) => readonly number[];
}

/**
 * Halves the sides of triangles until no height over them lies more than `deviation` off the straight way between their ends. A side
 * is halved for all triangles that share it.
 * @param heights over a point of the section, mm
 */
export const refineTriangles = (
  given: readonly Vec2[],
  first: readonly number[],
  heights: (p: Vec2) => readonly number[],
  deviation: number,
): Refined => {
  const points = [...given];
  const known = points.map(heights);
  const middles = new Map<string, number | undefined>();
  const middleOf = (a: number, b: number): number | undefined => {
    const key = a < b ? `${a} ${b}` : `${b} ${a}`;
    if (middles.has(key)) return middles.get(key);
    const [p, q] = [itemAt(points, a), itemAt(points, b)];
    const middle = scale2(add2(p, q), 0.5);
    const over = heights(middle);
    const [from, to] = [itemAt(known, a), itemAt(known, b)];
    const isStraight = over.every(
      (height, i) => Math.abs(height - (numberAt(from, i) + numberAt(to, i)) / 2) <= deviation,
    );
    const found = isStraight || distance2(p, q) < LEAST * deviation ? undefined : points.push(middle) - 1;
    if (found !== undefined) known.push(over);
    middles.set(key, found);
    return found;
  };
  const triangles: number[] = [];
  const lay = (a: number, b: number, c: number): void => {
    const [ab, bc, ca] = [middleOf(a, b), middleOf(b, c), middleOf(c, a)];
    if (ab === undefined && bc === undefined && ca === undefined) {
      triangles.push(a, b, c);
      return;
    }
    // Turned so that a side that is halved comes first.
    if (ab === undefined) {
      lay(b, c, a);
      return;
    }
    if (bc === undefined && ca === undefined) {
      lay(a, ab, c);
      lay(ab, b, c);
    } else if (bc !== undefined && ca !== undefined) {
      lay(a, ab, ca);
      lay(ab, b, bc);
      lay(ca, bc, c);
      lay(ab, bc, ca);
    } else if (bc !== undefined) {
      lay(ab, b, bc);
      lay(a, ab, bc);
      lay(a, bc, c);
    } else lay(c, a, b);
  };
  for (let i = 0; i < first.length; i += 3)
    lay(numberAt(first, i), numberAt(first, i + 1), numberAt(first, i + 2));
  const along = (from: number, to: number): readonly number[] => {
    const middle = middleOf(from, to);
    return middle === undefined ? [from, to] : [...along(from, middle).slice(0, -1), ...along(middle, to)];
  };
  return { points, triangles, along };
};
