import { describe, expect, it } from 'vitest';
import {
  barDistance,
  coneThrough,
  cylinderDistance,
  ellipsoidalHeadDistance,
  headerAxis,
  planeDistance,
  sphereDistance,
  torisphericalHeadDistance,
  torusDistance,
  type Distance,
} from './fit-up.ts';
import { prismDistance, type ContourEdge } from '../../src/proof/contour.ts';
import { kernelMemory, sectionPoints, type Body, type Section } from './kernel.ts';
import { point, type Vec3 } from './space.ts';

const degrees = Math.PI / 180;
const origin = point(0, 0, 0);
const up = point(0, 0, 1);

/** The kernel's section as the proof takes it. */
const edgesOf = (section: Section): readonly ContourEdge[] => {
  if ('ellipse' in section)
    return [
      {
        kind: 'ellipse',
        centre: { x: 0, y: 0 },
        radii: section.ellipse,
        turn: 0,
        start: 0,
        sweep: 2 * Math.PI,
        inset: 0,
      },
    ];
  let from = section.start;
  return section.sides.map(({ to, centre, clockwise }): ContourEdge => {
    const [a, b] = [from, to].map(([x, y]) => ({ x, y }));
    from = to;
    if (!a || !b) throw new Error('no place');
    if (!centre) return { kind: 'line', from: a, to: b };
    const [x, y] = centre;
    const [start, end] = [Math.atan2(a.y - y, a.x - x), Math.atan2(b.y - y, b.x - x)];
    const turn = 2 * Math.PI;
    const sweep = clockwise
      ? -((((start - end) % turn) + turn) % turn)
      : (((end - start) % turn) + turn) % turn;
    return { kind: 'arc', centre: { x, y }, radius: Math.hypot(a.x - x, a.y - y), start, sweep };
  });
};

/** The checking side's own distance to a body of the kernel's, so that each is a witness to the other. */
const distanceTo = (body: Body): Distance => {
  switch (body.kind) {
    case 'plane':
      return planeDistance(body.through, body.normal);
    case 'cylinder':
      return cylinderDistance(body.through, body.along, body.radius);
    case 'cone':
      return coneThrough(body.from, body.radiusFrom, body.to, body.radiusTo);
    case 'sphere':
      return sphereDistance(body.centre, body.radius);
    case 'torus':
      return torusDistance(body.centre, body.axis, body.major, body.minor);
    case 'bar':
      return barDistance(body, body.width, body.depth, 0, body.length);
    case 'prism':
      return prismDistance(edgesOf(body.section), body.origin, body.axis, body.across);
    case 'ellipsoidal head':
      return ellipsoidalHeadDistance(body.tangent, body.axis, body.radius, body.depth);
    case 'torispherical head':
      return torisphericalHeadDistance(body.tangent, body.axis, body.radius, body.crown, body.knuckle);
  }
};
const pipe = (radius: number, through: Vec3 = origin, along: Vec3 = up): Body => ({
  kind: 'cylinder',
  through,
  along,
  radius,
});
const header = (radius: number, angle: number, offset: number): Body =>
  pipe(radius, ...(Object.values(headerAxis({ angle: angle * degrees, offset })) as [Vec3, Vec3]));

/** Largest gap between neighbouring stations round the branch's axis: the whole way round must be covered. */
const widestGap = (points: readonly Vec3[]): number => {
  const angles = points.map((p) => Math.atan2(p.y, p.x)).sort((a, b) => a - b);
  return Math.max(...angles.map((a, i) => (i ? a - angles[i - 1]! : a + 2 * Math.PI - angles.at(-1)!)));
};

const between = (a: Vec3, b: Vec3, u: number): Vec3 =>
  point(a.x + u * (b.x - a.x), a.y + u * (b.y - a.y), a.z + u * (b.z - a.z));

describe('sectionPoints', () => {
  it.each<[string, Body, Body]>([
    ['pipe on pipe, square', pipe(57.15), header(84.15, 90, 0)],
    ['lateral at 60°', pipe(57.15), header(84.15, 60, 0)],
    ['lateral at 45°, offset', pipe(57.15), header(109.55, 45, 30)],
    ['size on size, square', pipe(84.15), header(84.15, 90, 0)],
    ['size on size, 60°', pipe(84.15), header(84.15, 60, 0)],
    ['miter', pipe(84.15), { kind: 'plane', through: point(1, 2, 3), normal: point(0.4, 0.1, 1) }],
    [
      'rounded tube on a pipe',
      {
        kind: 'prism',
        origin,
        axis: up,
        across: point(1, 0, 0),
        section: {
          start: [50, -18],
          sides: [
            { to: [50, 18] },
            { to: [38, 30], centre: [38, 18] },
            { to: [-38, 30] },
            { to: [-50, 18], centre: [-38, 18] },
            { to: [-50, -18] },
            { to: [-38, -30], centre: [-38, -18] },
            { to: [38, -30] },
            { to: [50, -18], centre: [38, -18] },
          ],
        },
      },
      header(84.15, 70, 10),
    ],
    [
      'ellipse on a plane',
      { kind: 'prism', origin, axis: up, across: point(1, 0, 0), section: { ellipse: [40, 70] } },
      { kind: 'plane', through: point(1, 2, 3), normal: point(0.4, 0.1, 1) },
    ],
    [
      'angle with its fillet on a plane',
      {
        kind: 'prism',
        origin,
        axis: up,
        across: point(0, 1, 0),
        section: {
          start: [-3, -3],
          sides: [
            { to: [57, -3] },
            { to: [57, 4] },
            { to: [12, 4] },
            { to: [4, 12], centre: [12, 12], clockwise: true },
            { to: [4, 57] },
            { to: [-3, 57] },
            { to: [-3, -3] },
          ],
        },
      },
      { kind: 'plane', through: point(1, 2, 3), normal: point(0.4, 0.1, 1) },
    ],
    ['pipe on sphere, off centre', pipe(57.15), { kind: 'sphere', centre: point(40, 25, 0), radius: 300 }],
    [
      'trunnion on elbow',
      pipe(57.15),
      { kind: 'torus', centre: point(-305, 0, 0), axis: point(0, 1, 0), major: 305, minor: 109.55 },
    ],
    [
      'pipe on reducer',
      pipe(30),
      { kind: 'cone', from: point(-200, 0, 0), radiusFrom: 109.55, to: point(200, 5, 0), radiusTo: 57.15 },
    ],
    [
      'pipe on a tube’s corner',
      pipe(30),
      {
        kind: 'bar',
        centre: point(0, 10, 100),
        axis: point(1, 0, 0.2),
        across: point(0, 1, 1),
        width: 100,
        depth: 150,
        length: 2000,
      },
    ],
    [
      'nozzle off centre on an ellipsoidal head',
      pipe(57.15),
      {
        kind: 'ellipsoidal head',
        tangent: point(150, 60, 0),
        axis: point(0, 0, -1),
        radius: 500,
        depth: 250,
      },
    ],
    [
      'nozzle over crown and knuckle',
      pipe(84.15),
      {
        kind: 'torispherical head',
        tangent: point(330, 0, 0),
        axis: point(0, 0, -1),
        radius: 500,
        crown: 1000,
        knuckle: 100,
      },
    ],
  ])('%s: lies on both and goes all the way round', async (_, a, b) => {
    const curves = await sectionPoints(a, b, 0.01);
    const points = curves.flat();
    expect(points.length).toBeGreaterThan(10);
    for (const body of [a, b]) {
      const distance = distanceTo(body);
      const off = points.map((p) => Math.abs(distance(p)));
      expect(Math.max(...off)).toBeLessThan(2e-4);
    }
    // Straight pieces have points only at their ends: walk along them too.
    const walked = curves.flatMap((curve) =>
      curve.slice(1).flatMap((p, i) => Array.from({ length: 65 }, (_, k) => between(curve[i]!, p, k / 64))),
    );
    expect(widestGap(walked)).toBeLessThan(0.35);
  });

  it('finds nothing where bodies do not meet', async () => {
    expect(await sectionPoints(pipe(50), header(80, 90, 200), 0.01)).toEqual([]);
  });

  it('frees what it takes', async () => {
    const cut = () => sectionPoints(pipe(57.15), header(84.15, 60, 0), 0.05);
    const first = await cut();
    for (let i = 0; i < 5; i++) expect(await cut()).toEqual(first);
    const held = await kernelMemory();
    for (let i = 0; i < 40; i++) await cut();
    expect(await kernelMemory()).toBe(held);
  });
});
