import { describe, expect, it } from 'vitest';
import type { Texts } from '../../src/index.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { readRequest } from '../../src/request.ts';
import { meshVolume, sceneMeshes, type PartMesh } from '../../src/scene/mesh.ts';

const meshes = (id: string, texts: Texts): readonly PartMesh[] => {
  const { values, setting } = readRequest(id, texts);
  const scene = layouts.find((layout) => layout.id === id)?.scene;
  return sceneMeshes(scene!(values, setting)!).filter(({ role }) => role === 'work');
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

/** Between two balls; with `sides`, between two bodies of that many flat sides about them: N tan(π/N) for π (elementary). */
const ballShell = (outer: number, inner: number, sides?: number): number =>
  (4 / 3) * (sides === undefined ? Math.PI : sides * Math.tan(Math.PI / sides)) * (outer ** 3 - inner ** 3);
/** Twice the area of one turn of a helicoid between two radii, over 2π (elementary integral of √(r² + c²)). */
const swept = (r: number, c: number): number => r * Math.hypot(r, c) + c * c * Math.asinh(r / c);

/**
 * Area of the middle of the sheet × its thickness: closed forms of frustum, cone, square to round (236 734.21 mm²), hopper,
 * helicoid and folded strip; and the room between two balls.
 */
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
  [
    'flight',
    { pipe: '60mm', outside: '200mm', pitch: '200mm', thickness: '4mm', hand: 'left' },
    Math.PI * (swept(100, 100 / Math.PI) - swept(30, 100 / Math.PI)) * 4,
    0.002,
  ],
  ['gores', { sphere: '600mm', count: '8', thickness: '6mm' }, ballShell(303, 297, 8), 0.001],
  [
    'gores',
    { sphere: '600mm', count: '12', form: 'dished', thickness: '6mm', from: '0' },
    ballShell(303, 297) / 2,
    0.001,
  ],
  [
    'blank',
    {
      legs: '60mm,90mm,40mm',
      angles: '90,-45',
      thickness: '5mm',
      radius: '5mm',
      width: '80mm',
      hole: ['2: 50mm,30mm: 14mm', '2: 70mm,60mm: 10mm'],
    },
    // Flats between the bends' set-backs of 10 mm and 10 tan 22.5°, arcs on the middle of the plate.
    (60 -
      10 +
      (90 - 10 - 10 * Math.tan(Math.PI / 8)) +
      (40 - 10 * Math.tan(Math.PI / 8)) +
      7.5 * 0.75 * Math.PI) *
      5 *
      80 -
      Math.PI * (7 ** 2 + 5 ** 2) * 5,
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
  expect(parts.map(({ id }) => id)).toEqual(['breech leg 1', 'breech leg 2', 'breech trunk']);
  for (const part of parts) expect(openSides(part)).toBe(0);
});

it('a dome is its tiers and its crown, each closed', () => {
  for (const form of ['rolled', 'dished']) {
    const parts = meshes('gores', {
      sphere: '1000mm',
      count: '16',
      from: '0',
      crown: '250mm',
      rings: '2',
      form,
      thickness: '5mm',
    });
    expect(parts.map(({ id }) => id)).toEqual(['gores of tier 1', 'gores of tier 2', 'crown']);
    for (const part of parts) expect(openSides(part)).toBe(0);
  }
});

it('a screw is a flight a turn, of no more turns than a picture shows', () => {
  const texts = { pipe: '60mm', outside: '200mm', pitch: '150mm', turns: '8' };
  const parts = meshes('flight', texts);
  expect(parts.map(({ id }) => id)).toEqual(['flight 1', 'flight 2', 'flight 3']);
  for (const part of parts) expect(openSides(part)).toBe(0);
});

it('a turn that reduces is its gores, each closed', () => {
  const parts = meshes('turn', { stock: 'NPS 8 sch 40', to: 'NPS 6 sch 40', pieces: '4', radius: '12in' });
  expect(parts.map(({ id }) => id)).toEqual(['gore 1', 'gore 2', 'gore 3', 'gore 4']);
  for (const part of parts) {
    expect(openSides(part)).toBe(0);
    expect(meshVolume(part.mesh)).toBeGreaterThan(0);
  }
});

/** Seen along its axis from its start, a right-hand screw turns clockwise as it goes away (ISO 5408). */
it.each([
  ['right', 1],
  ['left', -1],
])('a %s-hand flight winds that way', (hand, sense) => {
  const [part] = meshes('flight', { pipe: '60mm', outside: '200mm', pitch: '200mm', hand });
  const { positions } = part!.mesh;
  const turns: number[] = [];
  for (let i = 0; i < positions.length; i += 3) {
    const [x, y, z] = [positions[i]!, positions[i + 1]!, positions[i + 2]!];
    if (z > 20 && z < 80 && Math.hypot(x, y) > 99)
      turns.push((Math.atan2(y, x) / (2 * Math.PI)) * 200 - sense * z);
  }
  expect(turns.length).toBeGreaterThan(20);
  // The angle grows with z, to the left hand it falls: what is left is a whole number of turns.
  for (const off of turns) expect(Math.abs(off - 200 * Math.round(off / 200))).toBeLessThan(4);
});
