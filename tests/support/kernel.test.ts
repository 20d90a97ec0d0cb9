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
import { kernelMemory, sectionPoints, type Body } from './kernel.ts';
import { point, type Vec3 } from './space.ts';

const degrees = Math.PI / 180;
const origin = point(0, 0, 0);
const up = point(0, 0, 1);

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

describe('sectionPoints', () => {
  it.each<[string, Body, Body]>([
    ['pipe on pipe, square', pipe(57.15), header(84.15, 90, 0)],
    ['lateral at 60°', pipe(57.15), header(84.15, 60, 0)],
    ['lateral at 45°, offset', pipe(57.15), header(109.55, 45, 30)],
    ['size on size, square', pipe(84.15), header(84.15, 90, 0)],
    ['size on size, 60°', pipe(84.15), header(84.15, 60, 0)],
    ['miter', pipe(84.15), { kind: 'plane', through: point(1, 2, 3), normal: point(0.4, 0.1, 1) }],
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
    expect(points.length).toBeGreaterThan(20);
    for (const body of [a, b]) {
      const distance = distanceTo(body);
      const off = points.map((p) => Math.abs(distance(p)));
      expect(Math.max(...off)).toBeLessThan(2e-4);
    }
    expect(widestGap(points)).toBeLessThan(0.2);
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
