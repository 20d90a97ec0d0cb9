import { describe, expect, it } from 'vitest';
import { type Texts } from '../../../src/index.ts';
import { WIDE_PAPER } from '../../support/cut-line.ts';
import { areaInside, largestMiss } from '../../support/coverage.ts';
import { readCircles, readCrosses, worstMatch } from '../../support/flat-figures.ts';
import { samplePath, sheetStrokes } from '../../support/pdf-reader.ts';
import { readPolygons } from '../../support/polygons.ts';
import { layerPoints, printAndRead, worst } from '../../support/print.ts';

const DEGREE = Math.PI / 180;
const printPlate = async (texts: Texts) =>
  (await printAndRead('plate', { units: 'mm', paper: WIDE_PAPER, ...texts })).file;

describe('a gusset, from the bytes of its print', () => {
  it('snipped, with blunt ends', async () => {
    const file = await printPlate({
      shape: 'gusset',
      width: '150mm',
      height: '120mm',
      snip: '20mm',
      nose: '12mm',
    });
    const [corners] = readPolygons(file, 'plate');
    expect(
      worstMatch(corners ?? [], [
        { x: 20, y: 0 },
        { x: 150, y: 0 },
        { x: 150, y: 12 },
        { x: 12, y: 120 },
        { x: 0, y: 120 },
        { x: 0, y: 20 },
      ]),
    ).toBeLessThan(0.01);
    // Run counter-clockwise: the long edge slopes down to the right, so a mirrored one would run the other way.
    expect(areaInside(corners ?? [])).toBeGreaterThan(0);
  });

  it('with legs at 60°', async () => {
    const file = await printPlate({ shape: 'gusset', width: '200mm', height: '100mm', angle: '60' });
    const [corners] = readPolygons(file, 'plate');
    expect(
      worstMatch(corners ?? [], [
        { x: 0, y: 0 },
        { x: 200, y: 0 },
        { x: 50, y: 50 * Math.sqrt(3) },
      ]),
    ).toBeLessThan(0.01);
  });

  it.each([
    [undefined, 0, 0],
    ['-20mm,70mm', -20, 70],
  ] as const)('coped for NPS 3 at %s', async (at, cx, cy) => {
    const file = await printPlate({
      shape: 'gusset',
      width: '180mm',
      height: '160mm',
      cope: 'NPS 3 sch 40',
      'cope-gap': '3mm',
      'hole-at': ['110mm,30mm,18mm'],
      ...(at ? { 'cope-at': at } : {}),
    });
    // NPS 3 is 3.5 in outside (ASME B36.10M).
    const radius = (3.5 * 25.4) / 2 + 3;
    const outline = sheetStrokes(file, 'plate', 'cut')
      .map(({ path }) => samplePath(path, 0.3))
      .sort((a, b) => Math.abs(areaInside(b)) - Math.abs(areaInside(a)))[0];
    const off = (outline ?? []).map(({ x, y }) =>
      Math.min(
        Math.abs(x),
        Math.abs(y),
        Math.abs(x / 180 + y / 160 - 1) * 119.6,
        Math.abs(Math.hypot(x - cx, y - cy) - radius),
      ),
    );
    expect(worst(off)).toBeLessThan(0.01);
    const reach = (outline ?? []).map(({ x, y }) => Math.hypot(x - cx, y - cy));
    expect(Math.min(...reach)).toBeGreaterThan(radius - 0.01);
    const middle = at ? 0 : 45 * DEGREE;
    expect(
      largestMiss([{ x: cx + radius * Math.cos(middle), y: cy + radius * Math.sin(middle) }], outline ?? []),
    ).toBeLessThan(0.2);
    expect(worstMatch(readCrosses(file, 'plate'), [{ x: 110, y: 30 }])).toBeLessThan(0.01);
  });
});

describe('an end cap, from the bytes of its print', () => {
  it.each([
    ['flush', 114.3],
    ['inside', 114.3 - 2 * 6.02 - 2 * 1.5],
    ['over', 114.3 + 2 * 8],
  ] as const)('%s, on a pipe', async (fit, diameter) => {
    const file = await printPlate({
      shape: 'cap',
      pipe: 'OD 114.3mm wall 6.02mm',
      fit,
      clearance: '1.5mm',
      overhang: '8mm',
    });
    const circles = readCircles(file, 'plate', 'cut');
    expect(circles).toHaveLength(1);
    expect(Math.abs((circles[0]?.radius ?? 0) * 2 - diameter)).toBeLessThan(0.01);
  });

  it.each([
    ['flush', 100, 12, 'en'],
    ['inside', 86, 5, 'en'],
    ['inside', 86, 5, 'es'],
  ] as const)('%s, on a tube: rounded as the tube is', async (fit, side, r, language) => {
    const file = await printPlate({ shape: 'cap', tube: 'tube 100x100x6mm corner 12mm', fit, language });
    const points = layerPoints(file, 'plate', 'cut');
    const off = points.map((p) => {
      const [x, y] = [Math.abs(p.x) - (side / 2 - r), Math.abs(p.y) - (side / 2 - r)];
      return Math.hypot(Math.max(x, 0), Math.max(y, 0)) + Math.min(Math.max(x, y), 0) - r;
    });
    expect(worst(off)).toBeLessThan(0.01);
  });
});
