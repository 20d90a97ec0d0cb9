import { numberAt } from '../lists.ts';
import type { Form } from './form.ts';
import { formOf } from './forms/form-of.ts';
import { girthRadius } from './girth-radius.ts';
import type { Part, Scene } from './scene.ts';
import type { Shape } from './shape.ts';

/** A closed, watertight triangle mesh, mm: corners in the order that is counter-clockwise seen from outside. */
export interface Mesh {
  /** x, y, z of each vertex. Where faces meet in a sharp edge its points stand here once for each face. */
  readonly positions: Float32Array;
  /** Unit normals of the true surface, outward, one for each vertex. */
  readonly normals: Float32Array;
  /** Three vertices a triangle. */
  readonly indices: Uint32Array;
}

/**
 * A form's triangles with one normal for each vertex. Those without an area are left out: at a tip, and where two points are one in
 * the numbers of a mesh.
 */
export const meshOf = ({ positions: exact, normals, corners }: Form): Mesh => {
  const positions = Float32Array.from(exact);
  const numbers = new Map<number, number>();
  const at: number[] = [];
  const out: number[] = [];
  const indices: number[] = [];
  const count = normals.length / 3;
  const vertexOf = (point: number, normal: number): number => {
    const key = point * count + normal;
    const known = numbers.get(key);
    if (known !== undefined) return known;
    for (let k = 0; k < 3; k++) {
      at.push(numberAt(positions, 3 * point + k));
      out.push(numberAt(normals, 3 * normal + k));
    }
    numbers.set(key, numbers.size);
    return numbers.size - 1;
  };
  const isOne = (a: number, b: number): boolean =>
    a === b || [0, 1, 2].every((k) => positions[3 * a + k] === positions[3 * b + k]);
  for (let i = 0; i < corners.length; i += 6) {
    const [a, b, c] = [numberAt(corners, i), numberAt(corners, i + 2), numberAt(corners, i + 4)];
    if (isOne(a, b) || isOne(b, c) || isOne(c, a)) continue;
    indices.push(
      vertexOf(a, numberAt(corners, i + 1)),
      vertexOf(b, numberAt(corners, i + 3)),
      vertexOf(c, numberAt(corners, i + 5)),
    );
  }
  return {
    positions: Float32Array.from(at),
    normals: Float32Array.from(out),
    indices: Uint32Array.from(indices),
  };
};

/**
 * A shape as a mesh.
 * @param deviation how far its triangles may lie off the true surface, mm
 */
export const shapeMesh = (shape: Shape, deviation: number): Mesh => meshOf(formOf(shape, deviation));

/** A part of a scene as a mesh. */
export interface PartMesh {
  readonly id: string;
  readonly name: string;
  readonly role: Part['role'];
  readonly mesh: Mesh;
}

/** How far a mesh may lie off the true surface unless said otherwise: this many mm, */
const DEVIATION = 0.02;
/** and on small parts this part of their radius, which keeps their volume within 0.07 %. */
const SHARE = 5e-4;

/**
 * The parts of a scene as meshes, in its frame.
 * @param deviation how far triangles may lie off the true surface, mm; left out, 0.02 mm and less on small parts
 */
export const sceneMeshes = ({ parts }: Scene, deviation?: number): readonly PartMesh[] =>
  parts.map(({ id, name, role, shape }) => ({
    id,
    name,
    role,
    mesh: shapeMesh(shape, deviation ?? Math.min(DEVIATION, SHARE * girthRadius(shape))),
  }));

/** Volume inside a closed mesh, mm³: the sum of the pyramids from the origin to each triangle. */
export const meshVolume = ({ positions, indices }: Mesh): number => {
  let volume = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => 3 * numberAt(indices, i + k)) as [number, number, number];
    const p = (v: number, k: number): number => numberAt(positions, v + k);
    volume +=
      p(a, 0) * (p(b, 1) * p(c, 2) - p(b, 2) * p(c, 1)) +
      p(a, 1) * (p(b, 2) * p(c, 0) - p(b, 0) * p(c, 2)) +
      p(a, 2) * (p(b, 0) * p(c, 1) - p(b, 1) * p(c, 0));
  }
  return volume / 6;
};
