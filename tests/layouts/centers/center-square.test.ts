import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { readCrosses, readLines } from '../../support/flat-figures.ts';
import { layerPoints, printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const paper = '1000x1100mm';

describe('the chord card, from the bytes of its print', () => {
  it.each([
    ['mm', '160mm', 1],
    ['in', '10in', 25.4 / 16],
  ] as const)('reads the same both ways from its middle in %s', async (units, chord, pitch) => {
    const { file } = await printAndRead('center-square', { chord, units, paper });
    const half = units === 'in' ? 127 : 80;
    const ticks = readLines(file, 'chord square', 'station').map(([a]) => a.x / pitch);
    for (const tick of ticks) expect(Math.abs(tick - Math.round(tick)) * pitch).toBeLessThan(0.001);
    const steps = new Set(ticks.map((tick) => Math.round(tick)));
    const most = Math.floor(half / pitch + 1e-9);
    expect(steps.size).toBe(2 * most + 1);
    const edge = layerPoints(file, 'chord square', 'cut').filter((p) => Math.abs(p.y) < 0.001);
    expect(Math.min(...edge.map((p) => p.x))).toBeCloseTo(-half, 3);
    expect(Math.max(...edge.map((p) => p.x))).toBeCloseTo(half, 3);
    for (const { x } of readCrosses(file, 'chord square')) expect(Math.abs(x)).toBeLessThan(0.0001);
  });

  it('marks the center where the chord of a known circle has it', async () => {
    const { file } = await printAndRead('center-square', { diameter: '200mm', chord: '160mm', paper });
    // 60-80-100: a 3-4-5 triangle.
    expect(readCrosses(file, 'chord square').some((p) => Math.abs(p.y - 60) < 0.001)).toBe(true);
  });

  it('tells the distance to the center: half chord and distance make the radius', () => {
    fc.assert(
      fc.property(fc.integer({ min: 170, max: 5000 }), (diameter) => {
        const [sheet] = makeWrittenSheets(readRequest('center-square', { diameter: `${diameter}mm` }));
        const read = (label: string) =>
          Number(sheet!.facts.find(([name]) => name.startsWith(label))![1].split(' ')[0]);
        const off = read('From the chord’s middle to the center');
        const half = read('Half of it');
        expect(Math.abs(Math.hypot(off, half) - diameter / 2)).toBeLessThan(0.08);
      }),
      { numRuns: 25 },
    );
  });
});

describe('the right angle, from the bytes of its print', () => {
  it('is square, and marks legs that span the diameter', async () => {
    const { file } = await printAndRead('center-square', { diameter: '500mm', paper });
    const equal = readLines(file, 'corner square', 'reference').flatMap(([a, b]) =>
      Math.abs(a.x - b.x) < 0.001
        ? [{ leg: a.x, along: 'x' }]
        : Math.abs(a.y - b.y) < 0.001
          ? [{ leg: a.y, along: 'y' }]
          : [],
    );
    expect(equal.map(({ along }) => along).sort()).toEqual(['x', 'y']);
    const [a, b] = equal.map(({ leg }) => leg) as [number, number];
    // Thales: the corner stands on the circle of diameter 500.
    expect(Math.abs(Math.hypot(a, b) - 500)).toBeLessThan(0.001);
    const edges = layerPoints(file, 'corner square', 'cut');
    expect(edges.some((p) => Math.hypot(p.x, p.y) < 0.001)).toBe(true);
    expect(edges.every((p) => p.x > -0.001 && p.y > -0.001)).toBe(true);
  });
});

it('refuses a chord longer than the diameter', () => {
  const said = refused('center-square', { diameter: '150mm', chord: '160mm' });
  expect(said.what).toBe('joint chord too-large');
  expect(said.hint).toMatch(/at most 150\.0 mm/);
});
