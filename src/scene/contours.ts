import { itemAt, numberAt, realAt } from '../lists.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { vectorAt, type Form } from './form.ts';

/** Faces within this of edge-on count as turned to the eye, so that a flat seen edge-on leaves one line, not a scatter. */
const EDGE_ON = 1e-7;

/** A line along which a smooth face turns away from the eye, with its normals. */
export interface Contour3 {
  readonly points: readonly Vec3[];
  readonly normals: readonly Vec3[];
}

const blend = (a: Vec3, b: Vec3, t: number): Vec3 => ({
  x: a.x + t * (b.x - a.x),
  y: a.y + t * (b.y - a.y),
  z: a.z + t * (b.z - a.z),
});

/**
 * The contours of a form: where the normals of its faces, taken straight from corner to corner of a triangle, are square to
 * `toward`. They lie as near the true contour as the form's triangles lie to its surface.
 */
export const contoursOf = ({ positions, normals, corners }: Form, toward: Vec3): readonly Contour3[] => {
  const facing = new Float64Array(normals.length / 3);
  for (let i = 0; i < facing.length; i++)
    facing[i] =
      numberAt(normals, 3 * i) * toward.x +
      numberAt(normals, 3 * i + 1) * toward.y +
      numberAt(normals, 3 * i + 2) * toward.z +
      EDGE_ON;
  const nodes: { readonly point: Vec3; readonly normal: Vec3 }[] = [];
  const numbers = new Map<number, number>();
  const ends: number[] = [];
  const [points, count] = [positions.length / 3, normals.length / 3];
  /** The place on the side between two corners, shared by the triangles on both sides of it. */
  const cross = (p: number, n: number, q: number, m: number): number => {
    // Where two faces meet in a sharp edge, their normals show which side is which.
    const side = p < q ? p * points + q : q * points + p;
    const key = side * count + Math.min(n, m);
    let node = numbers.get(key);
    if (node === undefined) {
      const [a, b] = [realAt(facing, n), realAt(facing, m)];
      const t = a / (a - b);
      node = nodes.length;
      numbers.set(key, node);
      nodes.push({
        point: blend(vectorAt(positions, p), vectorAt(positions, q), t),
        normal: blend(vectorAt(normals, n), vectorAt(normals, m), t),
      });
    }
    return node;
  };
  for (let i = 0; i < corners.length; i += 6) {
    const n = [numberAt(corners, i + 1), numberAt(corners, i + 3), numberAt(corners, i + 5)] as const;
    const seen = [realAt(facing, n[0]) > 0, realAt(facing, n[1]) > 0, realAt(facing, n[2]) > 0] as const;
    if (seen[0] === seen[1] && seen[1] === seen[2]) continue;
    for (let k = 0; k < 3; k++) {
      const next = (k + 1) % 3;
      if (seen[k as 0 | 1 | 2] === seen[next as 0 | 1 | 2]) continue;
      ends.push(
        cross(
          numberAt(corners, i + 2 * k),
          n[k as 0 | 1 | 2],
          numberAt(corners, i + 2 * next),
          n[next as 0 | 1 | 2],
        ),
      );
    }
  }
  return chain(ends).map((list) => ({
    points: list.map((node) => itemAt(nodes, node).point),
    normals: list.map((node) => itemAt(nodes, node).normal),
  }));
};

/** Strings pairs of numbers together into lists, each as long as it goes. */
const chain = (ends: readonly number[]): readonly (readonly number[])[] => {
  const pairs = new Map<number, number[]>();
  const note = (node: number, pair: number): void => {
    const known = pairs.get(node);
    if (known) known.push(pair);
    else pairs.set(node, [pair]);
  };
  for (let i = 0; i < ends.length; i += 2) {
    note(numberAt(ends, i), i);
    note(numberAt(ends, i + 1), i);
  }
  const used = new Set<number>();
  const follow = (from: number): number[] => {
    const found: number[] = [];
    for (let node = from; ;) {
      const pair = pairs.get(node)?.find((p) => !used.has(p));
      if (pair === undefined) return found;
      used.add(pair);
      node = numberAt(ends, pair) === node ? numberAt(ends, pair + 1) : numberAt(ends, pair);
      found.push(node);
    }
  };
  const lists: number[][] = [];
  for (let i = 0; i < ends.length; i += 2) {
    if (used.has(i)) continue;
    used.add(i);
    const [a, b] = [numberAt(ends, i), numberAt(ends, i + 1)];
    if (a === b) continue;
    const ahead = follow(b);
    lists.push([...follow(a).reverse(), a, b, ...ahead]);
  }
  return lists;
};
