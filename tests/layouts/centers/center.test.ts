import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { readCircles, readCrosses, readLines, widestGap, worstMatch } from '../../support/flat-figures.ts';
import { sheetPages } from '../../support/pdf-reader.ts';
import { layerPoints, printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const DEGREE = Math.PI / 180;
const paper = '1000x1100mm';
const polar = (diameter: number, degrees: number) => ({
  x: (diameter / 2) * Math.cos(degrees * DEGREE),
  y: (diameter / 2) * Math.sin(degrees * DEGREE),
});

describe('a center overlay, from the bytes of its print', () => {
  it.each([
    [168.3, [50, 100], [0, 22.5, 90, 217.25]],
    [21.336, [], []],
    [60.325, [], [45, 300]],
    [600, [450], [11.25, 359.5]],
    [323.8, [323.8, 100], [37.5]],
  ] as const)('⌀ %f mm, rings %j, punched at %j', async (diameter, rings, degrees) => {
    const { file } = await printAndRead('center', {
      diameter: `${diameter}mm`,
      ...(rings.length > 0 ? { rings: rings.map((ring) => `${ring}mm`).join(',') } : {}),
      ...(degrees.length > 0 ? { punch: degrees.join(',') } : {}),
      paper,
    });
    const circles = readCircles(file, 'center', 'cut');
    const wanted = [...new Set([...rings, diameter])].sort((a, b) => a - b);
    expect(circles).toHaveLength(wanted.length);
    circles
      .sort((a, b) => a.radius - b.radius)
      .forEach(({ at, radius, miss }, i) => {
        expect(Math.hypot(at.x, at.y)).toBeLessThan(0.001);
        expect(Math.abs(radius - wanted[i]! / 2)).toBeLessThan(0.001);
        expect(miss).toBeLessThan(0.001);
      });
    const punched = rings.length > 0 ? rings : [diameter];
    const marks = punched.flatMap((ring) => degrees.map((degree) => polar(ring, degree)));
    expect(worstMatch(readCrosses(file, 'center'), [{ x: 0, y: 0 }, ...marks])).toBeLessThan(0.0001);
  });

  it('has a tick at every degree of its ring, each on its own ray', async () => {
    for (const diameter of [100, 600]) {
      const { file } = await printAndRead('center', { diameter: `${diameter}mm`, paper });
      const ticks = readLines(file, 'center', 'station');
      expect(ticks).toHaveLength(360);
      const degrees = ticks.map(([a, b]) => {
        const [one, other] = [Math.atan2(a.y, a.x), Math.atan2(b.y, b.x)];
        expect(Math.abs(one - other) / DEGREE).toBeLessThan(0.001);
        return one / DEGREE;
      });
      for (const degree of degrees) expect(Math.abs(degree - Math.round(degree))).toBeLessThan(0.001);
      expect(new Set(degrees.map((degree) => (Math.round(degree) + 360) % 360)).size).toBe(360);
      const feet = ticks.map(([a]) => Math.hypot(a.x, a.y));
      expect(Math.max(...feet) - Math.min(...feet)).toBeLessThan(0.001);
    }
  });

  it('opens windows that straddle the edge evenly, and leaves the quarter lines whole', async () => {
    for (const [diameter, count] of [
      [21.336, 4],
      [168.3, 4],
      [600, 8],
    ] as const) {
      const { file } = await printAndRead('center', { diameter: `${diameter}mm`, paper });
      const off = layerPoints(file, 'center', 'cut', 0.05).flatMap((p) => {
        const r = Math.hypot(p.x, p.y) - diameter / 2;
        return Math.abs(r) < 0.01 ? [] : [{ r, angle: Math.atan2(p.y, p.x) / DEGREE }];
      });
      const reach = Math.max(...off.map(({ r }) => r));
      expect(reach).toBeGreaterThanOrEqual(1.06);
      expect(Math.min(...off.map(({ r }) => r))).toBeCloseTo(-reach, 2);
      // Halfway between quarter lines there is a window; 5° beside each quarter line there is paper.
      for (let i = 0; i < count; i += 1) {
        const middle = ((i + 0.5) * 360) / count;
        const near = off.filter(({ angle }) => Math.abs(((angle - middle + 540) % 360) - 180) < 1);
        expect(near.some(({ r }) => Math.abs(r - reach) < 0.01)).toBe(true);
        expect(near.some(({ r }) => Math.abs(r + reach) < 0.01)).toBe(true);
      }
      expect(off.filter(({ angle }) => Math.abs(angle - Math.round(angle / 90) * 90) < 5)).toEqual([]);
    }
  });

  it.each([
    ['600mm', [22.5, 67.5]],
    ['6in', [0, 45, 90, 135, 180, 225, 270, 315]],
    ['168.3mm', [40, 50, 222]],
  ] as const)('⌀ %s: no window cuts away the marks on the edge at %j', async (diameter, degrees) => {
    const { file } = await printAndRead('center', { diameter, punch: degrees.join(','), paper });
    const size = 2 * Math.max(...readCircles(file, 'center', 'cut').map(({ radius }) => radius));
    const inWindows = layerPoints(file, 'center', 'cut', 0.05).filter(
      (p) => Math.abs(Math.hypot(p.x, p.y) - size / 2) > 0.01,
    );
    expect(inWindows.length).toBeGreaterThan(100);
    for (const degree of degrees) {
      const mark = polar(size, degree);
      const nearest = Math.min(...inWindows.map((p) => Math.hypot(p.x - mark.x, p.y - mark.y)));
      expect(nearest).toBeGreaterThan(3);
    }
  });

  it('tiles a 600 mm disc over letter pages: every circle whole, every mark in its place', async () => {
    const { file } = await printAndRead('center', {
      diameter: '600mm',
      rings: '500mm',
      punch: '30,135',
      paper: 'letter',
    });
    expect(sheetPages(file, 'center').length).toBeLessThanOrEqual(14);
    expect(widestGap(file, 'center', 'cut', 300)).toBeLessThan(0.005);
    expect(widestGap(file, 'center', 'cut', 250)).toBeLessThan(0.005);
    const wanted = [polar(0, 0), polar(500, 30), polar(500, 135)];
    for (const p of layerPoints(file, 'center', 'punch')) {
      const arms = wanted.map(
        (at) =>
          Math.min(Math.abs(p.x - at.x), Math.abs(p.y - at.y)) +
          (Math.hypot(p.x - at.x, p.y - at.y) > 4.01 ? 9 : 0),
      );
      expect(Math.min(...arms)).toBeLessThan(0.01);
    }
  });

  it('puts a 1/2 NPS pipe end on one letter page', async () => {
    const { file } = await printAndRead('center', { diameter: '0.84in', paper: 'letter' });
    expect(sheetPages(file, 'center')).toHaveLength(1);
    expect(file.pages).toHaveLength(1);
  });

  it('draws thin circles at every step of diameter', async () => {
    const { file } = await printAndRead('center', { diameter: '100mm', 'ring-step': '30mm', paper });
    const radii = readCircles(file, 'center', 'reference').map(({ radius }) => radius);
    for (const diameter of [30, 60, 90])
      expect(radii.some((r) => Math.abs(2 * r - diameter) < 0.002)).toBe(true);
  });
});

describe('what a center overlay says', () => {
  const sheetOf = (texts: Record<string, string>) => makeWrittenSheets(readRequest('center', texts))[0]!;

  it('the chord from 0° to each mark is 2r sin(a/2), the way round r·a', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 2000 }),
        fc.integer({ min: 1, max: 359 }),
        (diameter, degree) => {
          const [row] = sheetOf({ diameter: `${diameter}mm`, punch: `${degree}` }).tables[0]!.rows;
          const a = degree * DEGREE;
          expect(Math.abs(Number(row![3]) - diameter * Math.sin(a / 2))).toBeLessThan(0.0501);
          expect(Math.abs(Number(row![5]) - (diameter * a) / 2)).toBeLessThan(0.0501);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('writes a diameter in inches as it was given', () =>
    expect(sheetOf({ diameter: '0.84in' }).facts[0]).toEqual(['Diameter', '0.84″ (21.34 mm)']));
});

describe('center overlays that are refused', () => {
  it.each([
    [
      { diameter: '100mm', rings: '50mm,101mm' },
      'joint rings too-large',
      /101 mm|101\.0 mm/,
      /at most 100\.0 mm/,
    ],
    [{ diameter: '100mm', rings: '50mm,50mm' }, 'request rings same-ring', /twice/, /once/],
    [{ diameter: '100mm', punch: '361' }, 'request punch too-large', /full turn/, /360/],
    [{ diameter: '100mm', punch: '30,30' }, 'request punch same-degree', /30°/, /once/],
    [{ diameter: '100mm', punch: '-90,270' }, 'request punch same-degree', /270°/, /once/],
    [{ diameter: '0mm' }, 'request diameter out-of-range', /./, /more than 0/],
    [{ diameter: '4m', 'ring-step': '3mm' }, 'request ring-step too-many', /1333/, /200/],
  ])('%j', (texts, what, message, hint) => {
    const said = refused('center', texts);
    expect(said.what).toBe(what);
    expect(said.message).toMatch(message);
    expect(said.hint).toMatch(hint);
  });
});

it('the degrees to punch are said as they are drawn, however many are given', () => {
  const punch = '11.25,33.75,101.25,202.5';
  const [sheet] = makeWrittenSheets(readRequest('center', { diameter: '24in', punch }));
  expect(sheet!.subject.join()).toContain('punch at 11.25°, 33.75°, 101.25°, 202.5°');
});
