import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest, type Texts } from '../../../src/index.ts';
import { planeDistance, touchAtRadius, touchThroughWall } from '../../support/fit-up.ts';
import { layerPoints, printAndRead, range, worst } from '../../support/print.ts';

const DEGREE = Math.PI / 180;

describe('a miter, from the bytes of its print', () => {
  it.each([
    [168.3, 7.11, 22.5, 'od', 'a4', 0],
    [114.3, 6.02, 45, 'od', 'letter', 90],
    [610, 9.53, 11.25, 'od', 'a3', 0],
    [60.3, 3.91, 30, 'id', 'a4', 200],
    [60.3, 8.74, 60, 'wall', 'a4', 0],
  ] as const)('OD %d wall %d cut %d° %s on %s', async (od, wall, cut, contact, paper, seam) => {
    const { file } = await printAndRead('miter', {
      pipe: `OD ${od}mm wall ${wall}mm`,
      cut: String(cut),
      contact,
      paper,
      seam: String(seam),
      gap: '2mm',
    });
    const points = layerPoints(file, 'miter', 'cut');
    // The plane passes through the sheet's origin; station 0 is the long side.
    const normal = { x: Math.sin(cut * DEGREE), y: 0, z: -Math.cos(cut * DEGREE) };
    const plane = planeDistance({ x: 0, y: 0, z: 0 }, normal);
    const pipe = { od, wall, paper: 0.1 };
    // Half of the finished joint's gap, square to the faces, along the axis.
    const off = 1 / Math.cos(cut * DEGREE);
    const clearance =
      contact === 'wall'
        ? touchThroughWall(points, pipe, plane, off)
        : touchAtRadius(points, pipe, plane, off, contact === 'id' ? od / 2 - wall : od / 2);
    expect(worst(clearance)).toBeLessThan(0.01);
    const [left, right] = range(points.map((p) => p.x));
    expect(right - left).toBeCloseTo(Math.PI * (od + 0.1), 5);
  });
});

describe('cutback', () => {
  /** Cutback D tan θ: NAVEDTRA 14251 pp. 3-18, 3-19; the curve r tan θ sin(x/r): Apostol & Mnatsakanian 2007, p. 389. */
  it.each([
    [114.3, 45, 114.3],
    [168.3, 22.5, 69.712],
    [323.8, 15, 86.762],
    [219.1, 11.25, 43.582],
  ])('OD %d cut %d° is %d mm from heel to throat', async (od, cut, cutback) => {
    const { file } = await printAndRead('miter', { pipe: `OD ${od}mm wall 5mm`, cut: String(cut) });
    const [low, high] = range(layerPoints(file, 'miter', 'cut').map((p) => p.y));
    expect(high - low).toBeCloseTo(cutback, 3);
  });

  /** Longfield 1921 p. 63: a half circle on the cutback, divided, gives the ordinates; f_k = (1 - cos)/2 from the throat. */
  it('has the ordinates of the half circle at 16 stations', () => {
    const [sheet] = makeWrittenSheets(
      readRequest('miter', { pipe: 'OD 168.3mm wall 7mm', cut: '22.5', divisions: '16', units: 'mm' }),
    );
    const rows = sheet?.tables[0]?.rows ?? [];
    const ordinates = rows.map((row) => Number(row[3]));
    const throat = Math.min(...ordinates);
    [69.712, 67.059, 59.503, 48.195, 34.856, 21.517, 10.209, 2.653, 0].forEach((height, k) =>
      expect((ordinates[k] as number) - throat).toBeCloseTo(height, 0),
    );
    expect(rows).toHaveLength(16);
  });

  it('says the turn: 22.5° on both parts turns 45° (common practice, no source)', () => {
    const [sheet] = makeWrittenSheets(readRequest('miter', { pipe: 'NPS 6 sch 40', cut: '22.5' }));
    expect(sheet?.facts).toContainEqual(['Turn', '45°']);
  });
});

describe('heel and throat from the center', () => {
  const factsOf = (more: Texts) =>
    new Map(
      makeWrittenSheets(
        readRequest('miter', { pipe: 'OD 114.3mm wall 25mm', cut: '60', units: 'mm', ...more }),
      )[0]!.facts,
    );

  it('are alike on the outside line without a gap', () => {
    // R tan θ, closed form: 57.15 tan 60° = 98.99.
    expect(factsOf({}).get('Each side of the center')).toMatch(/^99\.0 mm/);
  });

  /** Closed form: the bore's line reaches 32.15 tan 60° = 55.69 either way; half of 3 mm square to the faces is 3 mm along the axis. */
  it('are each given where a gap moves the line', () => {
    const facts = factsOf({ contact: 'id', gap: '3mm' });
    expect(facts.has('Each side of the center')).toBe(false);
    expect(facts.get('Heel past the center')).toMatch(/^52\.7 mm/);
    expect(facts.get('Throat short of the center')).toMatch(/^58\.7 mm/);
  });

  /** Closed form: the bore touches at the heel, 32.15 tan 60°, the outside at the throat, 57.15 tan 60°. */
  it('are each given where heel and throat touch at other radii', () => {
    const facts = factsOf({ contact: 'wall' });
    expect(facts.get('Heel past the center')).toMatch(/^55\.7 mm/);
    expect(facts.get('Throat short of the center')).toMatch(/^99\.0 mm/);
  });

  it('a gap wider than a small cut leaves the heel short', () => {
    // 57.15 tan 1° = 1.00, less 2 mm / cos 1°.
    expect(factsOf({ cut: '1', gap: '4mm' }).get('Heel short of the center')).toMatch(/^1\.0 mm/);
  });
});
