/** A triangle's corners as read from an STL file, or from a mesh. */
export type Triangle = readonly [Corner, Corner, Corner];
export type Corner = readonly [x: number, y: number, z: number];

/** Triangles of a binary STL file: 80 bytes of comment, their number, and fifty bytes each (the format's own description). */
export const readStl = (bytes: Uint8Array): { comment: string; triangles: Triangle[]; normals: Corner[] } => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(80, true);
  if (bytes.byteLength !== 84 + 50 * count)
    throw new Error(`${count} triangles do not fill ${bytes.byteLength} bytes`);
  const triangles: Triangle[] = [];
  const normals: Corner[] = [];
  for (let i = 0; i < count; i++) {
    const at = (k: number): Corner => {
      const o = 84 + 50 * i + 12 * k;
      return [view.getFloat32(o, true), view.getFloat32(o + 4, true), view.getFloat32(o + 8, true)];
    };
    normals.push(at(0));
    triangles.push([at(1), at(2), at(3)]);
  }
  return { comment: new TextDecoder().decode(bytes.subarray(0, 80)), triangles, normals };
};

/** A mesh's triangles. */
export const trianglesOf = (mesh: { positions: ArrayLike<number>; indices: ArrayLike<number> }): Triangle[] =>
  Array.from({ length: mesh.indices.length / 3 }, (_, i) => {
    const at = (k: number): Corner => {
      const o = 3 * mesh.indices[3 * i + k]!;
      return [mesh.positions[o]!, mesh.positions[o + 1]!, mesh.positions[o + 2]!];
    };
    return [at(0), at(1), at(2)];
  });

/** Sides that are not shared by exactly two triangles run in opposite ways: none on a watertight surface. */
export const openSides = (triangles: readonly Triangle[]): string[] => {
  const sides = new Map<string, number>();
  for (const triangle of triangles)
    triangle.forEach((p, k) => {
      const name = `${p.join(',')}>${triangle[(k + 1) % 3]!.join(',')}`;
      sides.set(name, (sides.get(name) ?? 0) + 1);
    });
  return [...sides].flatMap(([name, count]) => {
    const back = name.split('>').reverse().join('>');
    return count === 1 && sides.get(back) === 1 ? [] : [name];
  });
};

/** Volume inside closed triangles, mm³: the pyramids from the origin to each (divergence theorem). */
export const volumeOf = (triangles: readonly Triangle[]): number =>
  triangles.reduce(
    (sum, [a, b, c]) =>
      sum +
      (a[0] * (b[1] * c[2] - b[2] * c[1]) +
        a[1] * (b[2] * c[0] - b[0] * c[2]) +
        a[2] * (b[0] * c[1] - b[1] * c[0])) /
        6,
    0,
  );
