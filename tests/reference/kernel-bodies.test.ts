import { describe, expect, it } from 'vitest';
import { rollUp } from '../support/fit-up.ts';
import { distanceToCurves, sectionPoints, type Body } from '../support/kernel.ts';
import { layerPoints, printAndRead } from '../support/print.ts';
import { plus, point, times, type Vec3 } from '../support/space.ts';

/**
 * Source: Open CASCADE's own section of the branch with each body (replicad-opencascadejs), the bodies placed by hand in the
 * branch's frame: it runs along z toward them, stations 0 and 90 on +x and +y.
 */
const deviation = 1e-3;
const origin = point(0, 0, 0);
const z = point(0, 0, 1);
const pipe = (radius: number, through = origin, along = z): Body => ({
  kind: 'cylinder',
  through,
  along,
  radius,
});
const DEGREE = Math.PI / 180;
const axisAt = (angle: number): Vec3 => point(Math.sin(angle * DEGREE), 0, Math.cos(angle * DEGREE));

// ASME B16.9 NPS 8 LR: outside 8.625 in, center line radius 12 in. Radii in mm.
const [elbow, bend] = [(8.625 * 25.4) / 2, 12 * 25.4];

interface Case {
  readonly name: string;
  readonly on: string;
  readonly branch: readonly [od: number, wall: number];
  readonly bodies: readonly Body[];
}
const cases: readonly Case[] = [
  {
    name: 'trunnion on the extrados of an elbow',
    on: 'elbow NPS 8 LR extrados',
    branch: [114.3, 6],
    bodies: [{ kind: 'torus', centre: point(0, 0, bend), axis: point(0, 1, 0), major: bend, minor: elbow }],
  },
  {
    name: 'trunnion on the side of an elbow, off its middle',
    on: 'elbow NPS 8 LR side at 45deg offset 20mm',
    branch: [114.3, 6],
    // The extrados looks to -y, so the bend's center lies at +y.
    bodies: [{ kind: 'torus', centre: point(0, bend + 20, 0), axis: z, major: bend, minor: elbow }],
  },
  {
    name: 'branch on a concentric reducer',
    on: 'reducer NPS 8 x 6 angle 75 offset 15mm at 80mm',
    branch: [60.3, 4],
    bodies: [
      {
        kind: 'cone',
        from: plus(point(0, 15, 0), times(axisAt(75), -80)),
        radiusFrom: elbow,
        to: plus(point(0, 15, 0), times(axisAt(75), 152.4 - 80)),
        radiusTo: (6.625 * 25.4) / 2,
      },
    ],
  },
  {
    name: 'nozzle off center on a 2:1 head',
    on: 'head ellipsoidal OD 1000mm offset 300mm',
    branch: [168.3, 7],
    bodies: [
      {
        kind: 'ellipsoidal head',
        // At 0.6 of the radius the dish stands 0.8 of its depth over the tangent line.
        tangent: point(-300, 0, 0.8 * 250),
        axis: point(0, 0, -1),
        radius: 500,
        depth: 250,
      },
    ],
  },
  {
    name: 'nozzle over crown and knuckle',
    on: 'head torispherical OD 1000mm crown 1000mm knuckle 100mm offset 380mm',
    branch: [168.3, 7],
    bodies: [
      {
        kind: 'torispherical head',
        tangent: point(-380, 0, Math.sqrt(1000 ** 2 - 380 ** 2) - Math.sqrt(900 ** 2 - 400 ** 2)),
        axis: point(0, 0, -1),
        radius: 500,
        crown: 1000,
        knuckle: 100,
      },
    ],
  },
  {
    name: 'brace on chord and brace',
    on: 'pipe OD 168.3mm wall 8mm angle 45 + pipe OD 88.9mm wall 5mm angle 90 ahead -60mm',
    branch: [88.9, 5],
    bodies: [pipe(168.3 / 2, origin, axisAt(45)), pipe(88.9 / 2, point(0, 0, -60), point(1, 0, 0))],
  },
];

describe('the printed end lies on the kernel’s section', () => {
  it.each(cases)('$name', async ({ on, branch: [od, wall], bodies }) => {
    for (const contact of ['od', 'id'] as const) {
      const radius = contact === 'od' ? od / 2 : od / 2 - wall;
      const sections = await Promise.all(bodies.map((body) => sectionPoints(pipe(radius), body, deviation)));
      const { file } = await printAndRead('branch', {
        branch: `OD ${od}mm wall ${wall}mm`,
        on,
        contact,
        paper: 'a3',
      });
      const line = layerPoints(file, 'branch end', 'cut', 2).map((p) =>
        rollUp(p, { od, paper: 0.1 }, radius),
      );
      expect(line.length).toBeGreaterThan(50);
      const off = line.map((p) => sections.map((curves) => distanceToCurves(p, curves)));
      expect(Math.max(...off.map((to) => Math.min(...to)))).toBeLessThan(0.01);
      // Each body is met by some of the line.
      bodies.forEach((_, i) =>
        expect(off.filter((to) => (to[i] as number) < 0.01).length).toBeGreaterThan(10),
      );
    }
  });
});
