import { describe, expect, it } from 'vitest';
import { tube } from '../support/drawn-sections.ts';
import { sectionPoints, type Body } from '../support/kernel.ts';
import { samplePath, sheetStrokes } from '../support/pdf-reader.ts';
import { printAndRead } from '../support/print.ts';
import { PAPER, patternOf } from '../support/fold.ts';
import { minus, norm, point, type Vec3 } from '../support/space.ts';

/**
 * Source: Open CASCADE's own section of the cone and the body it is cut to (replicad-opencascadejs). The curved edge of the
 * flat pattern is as long as that section, whatever way the pattern lies.
 */
const O = point(0, 0, 0);
const long = (curve: readonly Vec3[]): number =>
  curve.slice(1).reduce((sum, p, i) => sum + norm(minus(p, curve[i]!)), 0);

const half = Math.SQRT1_2;
const bodies: readonly (readonly [text: string, body: Body])[] = [
  [
    'plate angle 60',
    { kind: 'plane', through: O, normal: point(-Math.cos(Math.PI / 3), 0, Math.sin(Math.PI / 3)) },
  ],
  ['pipe OD 323.9mm wall 8mm', { kind: 'cylinder', through: O, along: point(1, 0, 0), radius: 161.95 }],
  ['sphere OD 600mm', { kind: 'sphere', centre: point(0, 0, -300), radius: 300 }],
  [
    'tube 300x300x8mm corner 24mm turned 45deg',
    {
      kind: 'prism',
      origin: O,
      axis: point(1, 0, 0),
      across: point(0, half, half),
      section: tube(300, 300, 24),
    },
  ],
];
const cones = [
  [220, 114.3, 400],
  [180, 90, 500],
] as const;

describe('the edge of a cone’s pattern is as long as the kernel’s section', () => {
  it.each(
    cones.flatMap(([large, small, height]) =>
      bodies.map(([text, body]) => ({ large, small, height, text, body })),
    ),
  )('⌀ $large to ⌀ $small on $text', async ({ large, small, height, text, body }) => {
    const { file } = await printAndRead('cone', {
      large: `${large}mm`,
      small: `${small}mm`,
      height: `${height}mm`,
      'large-end': text,
      paper: PAPER,
    });
    const { leftFoot, rightFoot } = patternOf(file, 'cone');
    const points = samplePath(sheetStrokes(file, 'cone', 'cut')[0]!.path, 0.05);
    let [edge, i] = [0, 1];
    expect(Math.hypot(points[0]!.x - leftFoot.x, points[0]!.y - leftFoot.y)).toBeLessThan(1e-6);
    for (; i < points.length; i++) {
      const [p, q] = [points[i - 1]!, points[i]!];
      edge += Math.hypot(q.x - p.x, q.y - p.y);
      if (Math.hypot(q.x - rightFoot.x, q.y - rightFoot.y) < 1e-3) break;
    }
    expect(i).toBeLessThan(points.length);
    // The sides run on below the large circle, to where the body falls away.
    const grow = (large - small) / 2 / height;
    const below = 150;
    const cone: Body = {
      kind: 'cone',
      from: point(0, 0, -below),
      radiusFrom: large / 2 + below * grow,
      to: point(0, 0, height),
      radiusTo: small / 2,
    };
    const curves = await sectionPoints(cone, body, 1e-4);
    const upper = curves.filter((curve) => curve.every(({ z }) => z > -below + 1));
    const length = upper.reduce((sum, curve) => sum + long(curve), 0);
    expect(Math.abs(edge - length)).toBeLessThan(0.01);
  });
});
