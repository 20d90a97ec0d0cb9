import { keepCompiled } from '../keep-compiled.ts';
import { numberAt } from '../lists.ts';
import type { Vec3 } from '../geometry/vector.ts';

/** A sharp or welded line of a form, along points of it. */
export interface FormEdge {
  /** Numbers of its points, in order. */
  readonly points: readonly number[];
  /** Normals of the face on its left, seen from outside, by number: two for each step from a point to the next, at its two ends. */
  readonly left: readonly number[];
  /** The same of the face on its right. */
  readonly right: readonly number[];
  /**
   * `edge` an ordinary sharp edge, `cut` the outside edge of a cut end, `weld` a line where the surface runs on smoothly, `bend` one
   * where the wall is bent, `inner` an edge that is only worth drawing where it is seen.
   */
  readonly kind: 'edge' | 'cut' | 'weld' | 'bend' | 'inner';
}

/**
 * A closed body by triangles, mm. Points are shared by all faces that meet in them, so that it is watertight by its numbers
 * alone; normals (of unit length, outward) belong to the true surface and differ on both sides of a sharp edge.
 */
export interface Form {
  /** x, y, z of each point. */
  readonly positions: readonly number[];
  /** x, y, z of each normal. */
  readonly normals: readonly number[];
  /** Six numbers a triangle: point and normal of each corner, counter-clockwise seen from outside. */
  readonly corners: readonly number[];
  readonly edges: readonly FormEdge[];
}

/** The point or direction number `i` of a flat list. */
export const vectorAt = (list: ArrayLike<number>, i: number): Vec3 => ({
  x: numberAt(list, 3 * i),
  y: numberAt(list, 3 * i + 1),
  z: numberAt(list, 3 * i + 2),
});

/**
 * A line of points across a face, by number, with the face's normals there: `before` toward the point before it, `after` toward
 * the next one. They differ where the face has a sharp edge that crosses the row.
 */
export interface Row {
  readonly points: readonly number[];
  readonly before: readonly number[];
  readonly after: readonly number[];
}

/** Builds a form point by point. */
export interface FormMaker {
  readonly point: (p: Vec3) => number;
  readonly normal: (n: Vec3) => number;
  /** A row whose normals are the same on both sides of every point. */
  readonly row: (points: readonly number[], normals: readonly Vec3[]) => Row;
  /**
   * The face between two rows. Seen from outside the rows run to the right and the second lies above the first. A closed
   * one runs on from the last point to the first. `behind` is the same face seen from its other side, by the same triangles.
   */
  readonly strip: (lower: Row, upper: Row, closed: boolean, behind?: boolean) => void;
  /**
   * One triangle by point and normal of each corner, counter-clockwise seen from outside. At the tip of a cone two of its corners
   * are one point, with a normal for each of the lines that meet there.
   */
  readonly triangle: (a: number, na: number, b: number, nb: number, c: number, nc: number) => void;
  readonly edge: (edge: FormEdge) => void;
  /** The edge along a row where two faces meet, the one above on its left. A closed one returns to its first point. */
  readonly edgeBetween: (below: Row, above: Row, kind: FormEdge['kind'], closed: boolean) => void;
  readonly done: () => Form;
}

const keepMaker = keepCompiled<FormMaker>();

/** Starts an empty form. */
export const makeForm = (): FormMaker => {
  const positions: number[] = [];
  const normals: number[] = [];
  const corners: number[] = [];
  const edges: FormEdge[] = [];
  const normal = ({ x, y, z }: Vec3): number => normals.push(x, y, z) / 3 - 1;
  const triangle = (a: number, na: number, b: number, nb: number, c: number, nc: number): void => {
    corners.push(a, na, b, nb, c, nc);
  };
  return keepMaker({
    point: ({ x, y, z }) => positions.push(x, y, z) / 3 - 1,
    normal,
    row: (points, list) => {
      const numbers = list.map(normal);
      return { points, before: numbers, after: numbers };
    },
    strip: (lower, upper, closed, behind = false) => {
      const count = lower.points.length;
      const p = numberAt;
      for (let j = 0; j < (closed ? count : count - 1); j++) {
        const k = (j + 1) % count;
        const [a, na] = [p(lower.points, j), p(lower.after, j)];
        const [b, nb] = [p(lower.points, k), p(lower.before, k)];
        const [c, nc] = [p(upper.points, k), p(upper.before, k)];
        const [d, nd] = [p(upper.points, j), p(upper.after, j)];
        if (behind) {
          triangle(a, na, c, nc, b, nb);
          triangle(a, na, d, nd, c, nc);
        } else {
          triangle(a, na, b, nb, c, nc);
          triangle(a, na, c, nc, d, nd);
        }
      }
    },
    triangle,
    edge: (edge) => edges.push(edge),
    edgeBetween: (below, above, kind, closed) => {
      const count = below.points.length;
      const steps = Array.from({ length: closed ? count : count - 1 }, (_, i) => i);
      const pairs = ({ before, after }: Row): readonly number[] =>
        steps.flatMap((i) => [numberAt(after, i), numberAt(before, (i + 1) % count)]);
      const points = [...steps, steps.length].map((i) => numberAt(below.points, i % count));
      edges.push({ points, left: pairs(above), right: pairs(below), kind });
    },
    done: () => ({ positions, normals, corners, edges }),
  });
};
