import { describe, expect, it } from 'vitest';
import { layouts } from '../../src/layouts/registry.ts';
import { readRequest } from '../../src/request.ts';
import { meshVolume, sceneMeshes, type PartMesh } from '../../src/scene/mesh.ts';

const meshes = (id: string, texts: Record<string, string>): readonly PartMesh[] => {
  const { values, setting } = readRequest(id, texts);
  const scene = layouts.find((layout) => layout.id === id)?.scene;
  return sceneMeshes(scene!(values, setting)!);
};

/** Sides of triangles that no other triangle runs the other way along; places are told apart to 1e-4 mm. */
const openSides = ({ mesh: { positions, indices } }: PartMesh): number => {
  const place = (i: number): string => [0, 1, 2].map((k) => positions[3 * i + k]!.toFixed(4)).join();
  const sides = new Map<string, number>();
  for (let i = 0; i < indices.length; i += 3)
    for (let k = 0; k < 3; k++) {
      const [a, b] = [place(indices[i + k]!), place(indices[i + ((k + 1) % 3)]!)];
      if (a !== b) sides.set(`${a} ${b}`, (sides.get(`${a} ${b}`) ?? 0) + 1);
    }
  return [...sides].filter(([side, count]) => {
    const [a, b] = side.split(' ');
    return sides.get(`${b} ${a}`) !== count;
  }).length;
};

/** Area of the middle of the sheet × its thickness: closed forms of frustum, cone, square to round (236 734.21 mm²) and hopper. */
describe.each([
  [
    'cone',
    { large: '400mm', small: '200mm', height: '300mm', thickness: '3mm' },
    Math.PI * 300 * Math.hypot(100, 300) * 3,
    0.001,
  ],
  [
    'cone',
    { large: '400mm', small: '0mm', height: '300mm', thickness: '3mm' },
    Math.PI * 200 * Math.hypot(200, 300) * 3,
    0.003,
  ],
  [
    'transition',
    { from: 'rect 302x302mm', to: 'round 200mm', height: '250mm', thickness: '2mm' },
    2 * 236734.21,
    0.01,
  ],
  [
    'hopper',
    { top: '300x300mm', bottom: '120x120mm', height: '200mm', thickness: '3mm' },
    4 * 210 * 219.317 * 3,
    0.001,
  ],
] as const)('the mesh of a %s %o', (id, texts, volume, share) => {
  it('is closed and holds the plate’s volume', () => {
    const [part, ...more] = meshes(id, texts);
    expect(more).toEqual([]);
    expect(openSides(part!)).toBe(0);
    expect(Math.abs(meshVolume(part!.mesh) / volume - 1)).toBeLessThan(share);
  });
});

it('a breech is three closed parts', () => {
  const texts = {
    trunk: '250mm',
    legs: '180mm',
    angle: '45',
    length: '380mm',
    'trunk-length': '250mm',
    thickness: '3mm',
  };
  const parts = meshes('breech', texts);
  expect(parts.map(({ id }) => id)).toEqual(['breech 1', 'breech 2', 'breech trunk']);
  for (const part of parts) expect(openSides(part)).toBe(0);
});
