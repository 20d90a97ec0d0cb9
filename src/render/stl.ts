import type { Mesh } from '../scene/mesh.ts';
import { say } from '../words/say.ts';
import { checkAreKind } from '../words/wrong-type.ts';

/** Bytes before the triangles: eighty for a comment, four for their number. */
const HEADER = 84;
/** Twelve numbers of four bytes, and two bytes that are left zero. */
const TRIANGLE = 50;

/**
 * Meshes as one binary STL file, in mm: for each triangle its flat normal and three corners, counter-clockwise seen from outside.
 * The format is the 1989 one of the Stereolithography Interface Specification (from memory); it says nothing of units.
 */
export const renderStl = (meshes: readonly Mesh[], comment = ''): Uint8Array => {
  checkAreKind(
    meshes,
    ['positions', 'indices'],
    'meshes',
    say`give the meshes of what ${'sceneMeshes'} returns`,
  );
  const count = meshes.reduce((sum, { indices }) => sum + indices.length / 3, 0);
  const bytes = new Uint8Array(HEADER + TRIANGLE * count);
  // Readers take a file that begins with "solid" for the text form.
  const words = `${comment.replace(/[^\x20-\x7e]/g, ' ').replace(/^solid/i, 'part')}, mm`.slice(0, 80);
  bytes.set(new TextEncoder().encode(words));
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  let at = HEADER;
  const write = (value: number): void => {
    view.setFloat32(at, value, true);
    at += 4;
  };
  for (const { positions, indices } of meshes)
    for (let i = 0; i < indices.length; i += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => {
        const o = 3 * (indices[i + k] ?? 0);
        return [positions[o] ?? 0, positions[o + 1] ?? 0, positions[o + 2] ?? 0] as const;
      }) as [Corner, Corner, Corner];
      for (const value of [...flatNormal(a, b, c), ...a, ...b, ...c]) write(value);
      at += 2;
    }
  return bytes;
};

type Corner = readonly [number, number, number];

const flatNormal = (a: Corner, b: Corner, c: Corner): Corner => {
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const [wx, wy, wz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
  const [x, y, z] = [uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx];
  const size = Math.hypot(x, y, z) || 1;
  return [x / size, y / size, z / size];
};
