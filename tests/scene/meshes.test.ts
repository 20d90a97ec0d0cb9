import { describe, expect, it } from 'vitest';
import { contourOutline } from '../../src/geometry/contour-outline.ts';
import { polygonContour } from '../../src/geometry/contour.ts';
import { cylinderMate } from '../../src/geometry/mates/cylinder.ts';
import { developOpening } from '../../src/geometry/opening.ts';
import { circleOutline } from '../../src/geometry/outline.ts';
import { sectionArea } from '../../src/geometry/section.ts';
import { angleSection, channelSection, ellipseSection, tubeSection } from '../../src/geometry/shapes.ts';
import { vec3 } from '../../src/geometry/vector.ts';
import { renderStl } from '../../src/render/stl.ts';
import { meshVolume, shapeMesh } from '../../src/scene/mesh.ts';
import { poseAlong, posePoint, type Hole, type Shape, type TurnedShape } from '../../src/scene/shape.ts';
import { openSides, readStl, trianglesOf, volumeOf, type Corner } from '../support/mesh-checks.ts';

const tilted = poseAlong(vec3(10, -20, 30), vec3(1, 2, 3));
const pipe = circleOutline(84.15, 7.11);
const tube = contourOutline(tubeSection(100, 60, 12, 5));
const opening = developOpening(
  pipe,
  cylinderMate(vec3(0, 0, 0), vec3(Math.cos(0.3), 0, Math.sin(0.3)), 50),
  false,
  0,
)!;
/** The opening's edges on the pipe, square to its surface. */
const holeAround: Hole['at'] = (t) => {
  const { from, to, lower, upper } = opening;
  const s = (from + to) / 2 + ((to - from) / 2) * Math.sin(2 * Math.PI * t);
  const z = Math.cos(2 * Math.PI * t) >= 0 ? upper(s) : lower(s);
  const [outer, inner] = [0, pipe.wall].map((depth) => posePoint(tilted, { ...pipe.at(s, depth), z }));
  return { outer: outer!, inner: inner! };
};
const head = (radius: number, depth: number, wall: number, flange: number): TurnedShape => ({
  kind: 'turned',
  pose: tilted,
  profile: [
    { kind: 'line', from: [-flange, radius], to: [0, radius] },
    { kind: 'ellipse', center: [0, 0], half: [depth, radius], from: 0, to: Math.PI / 2 },
    { kind: 'line', from: [depth, 0], to: [depth - wall, 0] },
    { kind: 'ellipse', center: [0, 0], half: [depth - wall, radius - wall], from: Math.PI / 2, to: 0 },
    { kind: 'line', from: [0, radius - wall], to: [-flange, radius - wall] },
    { kind: 'line', from: [-flange, radius - wall], to: [-flange, radius] },
  ],
});
const cone = (radii: [number, number], bores?: [number, number], to = vec3(0, 0, 120)): Shape => ({
  kind: 'cone',
  pose: tilted,
  circles: [vec3(0, 0, 0), to].map((at, i) => ({ at, radius: radii[i]!, ...(bores && { bore: bores[i]! }) })),
});
const ball: Shape = {
  kind: 'turned',
  pose: tilted,
  profile: [{ kind: 'ellipse', center: [0, 0], half: [80, 80], from: -Math.PI / 2, to: Math.PI / 2 }],
};
const bend = (bendRadius: number): Shape => ({
  kind: 'bend',
  corner: vec3(5, 6, 7),
  legs: [vec3(0, 0, -1), vec3(Math.sin(1.2), 0, Math.cos(1.2))],
  bendRadius,
  radius: 84.15,
  bore: 77.04,
  lengths: [320, 300],
});
const gusset = polygonContour([
  { x: 0, y: 0 },
  { x: 100, y: 0 },
  { x: 100, y: 20 },
  { x: 20, y: 100 },
  { x: 0, y: 100 },
]);
const ringArea = Math.PI * (84.15 ** 2 - 77.04 ** 2);

/** Volumes in closed form: prisms by area and length, frustums, half ellipsoids (2π/3 a²b), Pappus’s rule for the arc of a bend. */
const cases: readonly [name: string, shape: Shape, volume: number | undefined][] = [
  ['cylinder', cone([60, 60]), Math.PI * 3600 * 120],
  ['cone', cone([84, 0]), Math.PI * 84 * 84 * 40],
  [
    'leaning hollow cone',
    cone([84, 57], [77, 50], vec3(20, 5, 120)),
    Math.PI * 40 * (84 * 84 + 84 * 57 + 57 * 57 - 77 * 77 - 77 * 50 - 50 * 50),
  ],
  ['ball', ball, (4 / 3) * Math.PI * 80 ** 3],
  [
    'head',
    head(80, 40, 7, 30),
    (2 / 3) * Math.PI * (80 * 80 * 40 - 73 * 73 * 33) + Math.PI * (80 * 80 - 73 * 73) * 30,
  ],
  ['elbow', bend(228.6), ringArea * (228.6 * 1.2 + 620 - 2 * 228.6 * Math.tan(0.6))],
  ['mitered pipes', bend(0), ringArea * 620],
  [
    'gusset',
    {
      kind: 'prism',
      pose: tilted,
      section: {
        outside: gusset.flatMap((e) => (e.kind === 'line' ? [{ ...e, face: 'side' }] : [])),
        thickness: 12,
      },
      start: 0,
      end: 12,
    },
    6800 * 12,
  ],
  ...(
    [
      ['tube', tubeSection(100, 60, 12, 5)],
      ['oval pipe', ellipseSection(88, 80, 7, 0.4)],
      ['angle', angleSection({ long: 100, short: 75, thickness: 10, root: 12, toe: 5 })],
      [
        'channel',
        channelSection({
          depth: 200,
          width: 75,
          web: 8.5,
          flange: 11.5,
          root: 11.5,
          toe: 6,
          taper: 0,
          meanAt: 0,
        }),
      ],
    ] as const
  ).map(([name, section]): [string, Shape, number] => [
    `a length of ${name}`,
    { kind: 'prism', pose: tilted, section, start: -20, end: 150 },
    sectionArea(section) * 170,
  ]),
  [
    'pipe with a mitered end',
    {
      kind: 'stock',
      pose: tilted,
      outline: pipe,
      start: -100,
      end: (s) => 84.15 * 0.4 * Math.cos(s / 84.15),
    },
    ringArea * 100,
  ],
  [
    'tube with a wavy end',
    {
      kind: 'stock',
      pose: tilted,
      outline: tube,
      start: 0,
      end: (s) => 150 + 20 * Math.sin((2 * Math.PI * s) / tube.girth),
    },
    undefined,
  ],
  [
    'pipe with an opening',
    {
      kind: 'opened',
      body: { kind: 'stock', pose: tilted, outline: pipe, start: -200, end: 200 },
      holes: [{ at: holeAround, joints: [0.25, 0.75] }],
    },
    undefined,
  ],
];

describe('meshes', () => {
  it.each(cases)('%s: closed, and of its volume', (_, shape, volume) => {
    const mesh = shapeMesh(shape, 0.02);
    const triangles = trianglesOf(mesh);
    expect(openSides(triangles)).toEqual([]);
    expect(meshVolume(mesh)).toBeCloseTo(volumeOf(triangles), 3);
    expect(meshVolume(mesh)).toBeGreaterThan(0);
    if (volume !== undefined) expect(Math.abs(meshVolume(mesh) / volume - 1)).toBeLessThan(1e-3);
  });

  it.each(cases)('%s: normals are of unit length and point outward', (_, shape) => {
    const { positions, normals, indices } = shapeMesh(shape, 0.1);
    let [least, offUnit] = [1, 0];
    for (let i = 0; i < indices.length; i += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => 3 * indices[i + k]!) as [number, number, number];
      const side = (p: number, q: number) => [0, 1, 2].map((k) => positions[q + k]! - positions[p + k]!);
      const [u, w] = [side(a, b), side(a, c)] as [number[], number[]];
      const flat = [
        u[1]! * w[2]! - u[2]! * w[1]!,
        u[2]! * w[0]! - u[0]! * w[2]!,
        u[0]! * w[1]! - u[1]! * w[0]!,
      ];
      const area = Math.hypot(...flat);
      for (const v of [a, b, c]) {
        const n = [normals[v]!, normals[v + 1]!, normals[v + 2]!];
        offUnit = Math.max(offUnit, Math.abs(Math.hypot(...n) - 1));
        // Slivers have no direction of their own to speak of.
        if (area > 1e-3)
          least = Math.min(least, (n[0]! * flat[0]! + n[1]! * flat[1]! + n[2]! * flat[2]!) / area);
      }
    }
    expect(offUnit).toBeLessThan(1e-5);
    expect(least).toBeGreaterThan(0.8);
  });

  it.each([0.2, 0.02])('triangles of a ball lie within %s mm of it', (deviation) => {
    let [inside, outside] = [0, -1];
    for (const triangle of trianglesOf(shapeMesh(ball, deviation))) {
      const middle = [0, 1, 2].map(
        (k) => (triangle[0][k]! + triangle[1][k]! + triangle[2][k]!) / 3,
      ) as unknown as Corner;
      for (const [x, y, z] of [...triangle, middle]) {
        const off = Math.hypot(x - 10, y + 20, z - 30) - 80;
        [inside, outside] = [Math.min(inside, off), Math.max(outside, off)];
      }
    }
    expect(outside).toBeLessThan(1e-3);
    // A quadrilateral patch may sag by both its directions' bulges.
    expect(inside).toBeGreaterThan(-2 * deviation);
    expect(inside).toBeLessThan(-deviation / 20);
  });
});

describe('STL', () => {
  it('reads back as it was written', () => {
    const shape = cases[2]![1];
    const mesh = shapeMesh(shape, 0.02);
    const { comment, triangles, normals } = readStl(renderStl([mesh], 'solid cone'));
    expect(comment.startsWith('part cone, mm')).toBe(true);
    expect(triangles).toEqual(trianglesOf(mesh));
    expect(openSides(triangles)).toEqual([]);
    const worst = triangles.map(([a, b, c], i) => {
      const n = normals[i]!;
      const along = (q: Corner) =>
        Math.abs((q[0] - a[0]) * n[0] + (q[1] - a[1]) * n[1] + (q[2] - a[2]) * n[2]);
      return Math.max(Math.abs(Math.hypot(...n) - 1), along(b), along(c));
    });
    expect(Math.max(...worst)).toBeLessThan(1e-3);
  });
});
