import { describe, expect, it } from 'vitest';
import { makeScene, makeSheets, readRequest, renderStl, type Texts } from '../../src/index.ts';
import { finishedParts } from '../../src/render/formats.ts';
import { branchVolume, type Fit } from '../support/kernel-volumes.ts';
import { openSides, readStl, volumeOf, type Triangle } from '../support/mesh-checks.ts';

const partsOf = (layout: string, texts: Texts): readonly (readonly [string, readonly Triangle[]])[] =>
  finishedParts(makeScene(readRequest(layout, texts))).map(({ id, mesh }) => [
    id,
    readStl(renderStl([mesh])).triangles,
  ]);
const DEGREE = Math.PI / 180;
/** Tube 100x60x5 with corners of 10, and angle 60x60x6 without roundings, in closed form. */
const tubeArea = 100 * 60 - (4 - Math.PI) * 100 - (90 * 50 - (4 - Math.PI) * 25);
const angleArea = 6 * (60 + 54);
/** From an angle's heel to the middle of its area, the same along both legs. */
const angleMiddle = (60 * 6 * 30 + 54 * 6 * 3) / angleArea;

/** Volumes of straight stock between planes: area times the length through the middle of the area. */
const between: readonly (readonly [string, Texts, readonly number[]])[] = [
  [
    'piece',
    { stock: 'tube 100x60x5mm', start: 'miter 35', finish: 'miter 20', roll: '90', length: '700mm' },
    [tubeArea * 700],
  ],
  [
    'turn',
    { stock: 'tube 100x60x5mm', angle: '90', pieces: '3', radius: '250mm' },
    [1, 2, 1].map((halves) => tubeArea * halves * 250 * Math.tan(22.5 * DEGREE)),
  ],
  [
    'turn',
    { stock: 'angle 60x60x6mm', angle: '90', pieces: '3', radius: '300mm' },
    // Its long leg runs toward the center of the turn.
    [1, 2, 1].map((halves) => angleArea * halves * (300 - angleMiddle) * Math.tan(22.5 * DEGREE)),
  ],
];

describe('the STL of shaped stock', () => {
  it.each(between)('%s %o: closed, and of its volume', (layout, texts, volumes) => {
    const parts = partsOf(layout, texts);
    expect(parts).toHaveLength(volumes.length);
    parts.forEach(([id, triangles], i) => {
      expect(openSides(triangles), id).toEqual([]);
      expect(Math.abs(volumeOf(triangles) / volumes[i]! - 1), id).toBeLessThan(1e-3);
    });
  });

  /** Source: Open CASCADE's sections of the first leg with what its sheet says that it meets. */
  it.each<readonly [Texts, readonly number[]]>([
    [{ stock: 'tube 100x60x5mm' }, [0, 120, 240]],
    [{ stock: 'tube 60x40x4mm', header: 'DN 150 sch 40' }, [60, 120]],
  ])('wye %o toward %o: closed, and of the kernel’s volume', async (asked, headings) => {
    const texts = { ...asked, leg: headings.map(String) };
    const legs = partsOf('wye', texts).filter(([part]) => part.startsWith('leg'));
    expect(legs).toHaveLength(headings.length);
    for (const [id, triangles] of legs) expect(openSides(triangles), id).toEqual([]);
    const sheet = makeSheets(readRequest('wye', texts)).find(({ name }) => name === 'leg 1');
    const heading = headings[0]! * DEGREE;
    const [, first] = legs[0]!;
    const long = Math.max(...first.flat().map(([x, y]) => x * Math.cos(heading) + y * Math.sin(heading)));
    const volume = await branchVolume(sheet!.fit as Fit, -long);
    expect(Math.abs(volumeOf(first) / volume - 1)).toBeLessThan(1e-3);
    // Legs of one size are alike.
    for (const [id, triangles] of legs)
      expect(Math.abs(volumeOf(triangles) / volume - 1), id).toBeLessThan(1e-3);
  });

  /** A pipe's outside over a place, in closed form: the axis lies along station 0 or leans from it by 90 − `angle`. */
  it.each([
    ['angle 60x60x6mm', 168.3, 60, 30],
    ['angle 60x60x6mm', 168.3, 90, 0],
    ['flat 60x8mm', 114.3, 75, -10],
    ['beam 80x46x4x5mm root 0mm', 168.3, 70, 12],
  ])('%s on a pipe of %d mm at %d°, %d mm off', (branch, od, angle, offset) => {
    const parts = partsOf('branch', {
      branch,
      on: `pipe OD ${od}mm wall 8mm angle ${angle} offset ${offset}mm`,
    });
    const [id, triangles] = parts[0]!;
    expect(id).toBe('branch');
    expect(openSides(triangles)).toEqual([]);
    const tail = Math.min(...triangles.flat().map(([, , z]) => z));
    const [s, c] = [Math.sin(angle * DEGREE), Math.cos(angle * DEGREE)];
    const over = (x: number, y: number): number => (x * c - Math.sqrt((od / 2) ** 2 - (y - offset) ** 2)) / s;
    const volume = rectanglesOf(branch).reduce((sum, [x0, x1, y0, y1]) => {
      const count = 60;
      let part = 0;
      for (let i = 0; i < count; i++)
        for (let j = 0; j < count; j++)
          part += over(x0 + ((i + 0.5) * (x1 - x0)) / count, y0 + ((j + 0.5) * (y1 - y0)) / count) - tail;
      return sum + (part * (x1 - x0) * (y1 - y0)) / count ** 2;
    }, 0);
    expect(Math.abs(volumeOf(triangles) / volume - 1)).toBeLessThan(1e-3);
  });
});

/** Sharp sections as rectangles, each from x to x and from y to y. */
function rectanglesOf(stock: string): readonly (readonly [number, number, number, number])[] {
  if (stock.startsWith('angle'))
    return [
      [0, 60, 0, 6],
      [0, 6, 6, 60],
    ];
  if (stock.startsWith('flat')) return [[-30, 30, -4, 4]];
  return [
    [35, 40, -23, 23],
    [-40, -35, -23, 23],
    [-35, 35, -2, 2],
  ];
}
