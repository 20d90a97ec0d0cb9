import { describe, expect, it } from 'vitest';
import { rollUp } from '../support/fit-up.ts';
import { distanceToCurves, sectionPoints, type Body } from '../support/kernel.ts';
import { layerPoints, printAndRead } from '../support/print.ts';
import { outer, placeIn, point, times, type Axes, type Vec3 } from '../support/space.ts';

/**
 * Source: Open CASCADE's own section of each two legs' outsides (replicad-opencascadejs), chords within 1e-3 mm. A leg's
 * printed line must run on the sections with its neighbors.
 */
const deviation = 1e-3;
const degrees = Math.PI / 180;
const origin = point(0, 0, 0);

const out = (heading: number, rise: number): Vec3 =>
  point(
    Math.cos(heading * degrees) * Math.cos(rise * degrees),
    Math.sin(heading * degrees) * Math.cos(rise * degrees),
    Math.sin(rise * degrees),
  );
const frame = (heading: number, rise: number): Axes => {
  const z = times(out(heading, rise), -1);
  const [c, s] = [Math.cos(rise * degrees), Math.sin(rise * degrees)];
  const x = point(-Math.cos(heading * degrees) * s, -Math.sin(heading * degrees) * s, c);
  return { origin, x, y: outer(z, x), z };
};

describe('a three-leg wye lies on the kernel’s sections', () => {
  it.each([
    ['true wye', [0, 120, 240], [0, 0, 0]],
    ['uneven and out of plane', [0, 95, 230], [10, 30, -5]],
  ] as const)('%s', async (_, headings, rises) => {
    const od = 168.3;
    const { file } = await printAndRead('wye', {
      pipe: `OD ${od}mm wall 7.11mm`,
      leg: headings.map((heading, i) => `${heading} up ${rises[i]}`),
      paper: '36in-roll',
    });
    const bodies = headings.map((heading, i): Body => ({
      kind: 'cylinder',
      through: origin,
      along: out(heading, rises[i] as number),
      radius: od / 2,
    }));
    for (const [i, heading] of headings.entries()) {
      const curves: (readonly Vec3[])[] = [];
      for (const [j, body] of bodies.entries())
        if (j !== i) curves.push(...(await sectionPoints(bodies[i] as Body, body, deviation, 700)));
      const axes = frame(heading, rises[i] as number);
      const points = layerPoints(file, `leg ${i + 1}`, 'cut', 2).map((p) =>
        placeIn(axes, rollUp(p, { od, paper: 0.1 })),
      );
      expect(points.length).toBeGreaterThan(80);
      for (const p of points) expect(distanceToCurves(p, curves)).toBeLessThan(0.01);
    }
  });
});
