import { describe, expect, it } from 'vitest';
import { headerAxis, rollHeader, rollUp, type HeaderPlace } from '../support/fit-up.ts';
import { distanceToCurves, sectionPoints, type Body } from '../support/kernel.ts';
import { layerPoints, printAndRead } from '../support/print.ts';
import { point, type Vec3 } from '../support/space.ts';

/**
 * Source: Open CASCADE's own section of the two pipes (replicad-opencascadejs). Its curves lie within 2e-4 mm of both surfaces
 * and are taken here as chords that bulge no more than 1e-3 mm.
 */
const deviation = 1e-3;
const origin = point(0, 0, 0);
const up = point(0, 0, 1);
const pipe = (radius: number, through = origin, along = up): Body => ({
  kind: 'cylinder',
  through,
  along,
  radius,
});

interface Case {
  readonly name: string;
  readonly branch: readonly [od: number, wall: number];
  readonly header: readonly [od: number, wall: number];
  readonly angle: number;
  readonly offset: number;
}
const cases: readonly Case[] = [
  { name: 'square tee', branch: [60.3, 3.91], header: [114.3, 6.02], angle: 90, offset: 0 },
  { name: 'lateral', branch: [114.3, 6.02], header: [168.3, 7.11], angle: 45, offset: 0 },
  { name: 'offset lateral', branch: [114.3, 6.02], header: [219.1, 8.18], angle: 60, offset: 30 },
  {
    name: 'offset the other way, leaning back',
    branch: [114.3, 6.02],
    header: [219.1, 8.18],
    angle: 120,
    offset: -30,
  },
  { name: 'size on size', branch: [168.3, 7.11], header: [168.3, 7.11], angle: 90, offset: 0 },
  { name: 'size on size lateral', branch: [168.3, 7.11], header: [168.3, 7.11], angle: 60, offset: 0 },
];

const furthest = (points: readonly Vec3[], curves: readonly (readonly Vec3[])[]): number =>
  points.reduce((most, p) => Math.max(most, distanceToCurves(p, curves)), 0);

describe('the printed lines lie on the kernel’s section', () => {
  it.each(cases)('$name', async ({ branch, header, angle, offset }) => {
    const place: HeaderPlace = { angle: (angle * Math.PI) / 180, offset };
    const { through, along } = headerAxis(place);
    const outside = pipe(header[0] / 2, through, along);
    const wrapOf = ([od]: readonly [number, number]) => ({ od, paper: 0.1 });
    for (const contact of ['od', 'id'] as const) {
      const radius = contact === 'od' ? branch[0] / 2 : branch[0] / 2 - branch[1];
      const section = await sectionPoints(pipe(radius), outside, deviation);
      const { file } = await printAndRead('branch', {
        branch: `OD ${branch[0]}mm wall ${branch[1]}mm`,
        header: `OD ${header[0]}mm wall ${header[1]}mm`,
        angle: String(angle),
        offset: `${offset}mm`,
        contact,
        paper: 'a4',
      });
      const end = layerPoints(file, 'branch end', 'cut', 2);
      expect(end.length).toBeGreaterThan(50);
      expect(
        furthest(
          end.map((p) => rollUp(p, wrapOf(branch), radius)),
          section,
        ),
      ).toBeLessThan(0.01);
      if (contact === 'id') {
        const opening = layerPoints(file, 'header opening', 'cut', 2);
        expect(opening.length).toBeGreaterThan(50);
        expect(
          furthest(
            opening.map((p) => rollHeader(p, wrapOf(header), place)),
            section,
          ),
        ).toBeLessThan(0.01);
      }
    }
  });

  it('miter', async () => {
    const [od, wall, cut] = [168.3, 7.11, 22.5];
    const { file } = await printAndRead('miter', {
      pipe: `OD ${od}mm wall ${wall}mm`,
      cut: String(cut),
      contact: 'od',
    });
    const end = layerPoints(file, 'miter', 'cut', 2).map((p) => rollUp(p, { od, paper: 0.1 }));
    // The plane passes through the sheet's origin; station 0 is the long side.
    const normal = point(-Math.tan((cut * Math.PI) / 180), 0, 1);
    const plane: Body = { kind: 'plane', through: origin, normal };
    expect(end.length).toBeGreaterThan(50);
    expect(furthest(end, await sectionPoints(pipe(od / 2), plane, deviation))).toBeLessThan(0.01);
  });
});
