import { describe, expect, it } from 'vitest';
import { findCircle, tracePieces } from '../../../src/render/path-pieces.ts';
import { makeWrittenSheets, readRequest, type Texts } from '../../../src/index.ts';
import { WIDE_PAPER } from '../../support/cut-line.ts';
import { areaInside, largestMiss } from '../../support/coverage.ts';
import { readCircles, readCrosses, worstMatch } from '../../support/flat-figures.ts';
import { samplePath, sheetStrokes } from '../../support/pdf-reader.ts';
import { layerPoints, printAndRead, worst } from '../../support/print.ts';

const DEGREE = Math.PI / 180;
const printPlate = async (texts: Texts) =>
  (await printAndRead('plate', { units: 'mm', paper: WIDE_PAPER, ...texts })).file;
const sheetOf = (texts: Texts) => {
  const [sheet] = makeWrittenSheets(readRequest('plate', { units: 'mm', ...texts }));
  if (!sheet) throw new Error('no sheet');
  return sheet;
};

describe('a rectangle, from the bytes of its print', () => {
  it.each([
    [300, 200, 20, 'a4'],
    [600, 600, 0, 'letter'],
    [90, 40, 20, 'letter'],
  ] as const)('%d × %d, corners %d, tiled on %s', async (w, h, r, paper) => {
    const file = await printPlate({
      width: `${w}mm`,
      height: `${h}mm`,
      ...(r > 0 ? { 'corner-radius': `${r}mm` } : {}),
      paper,
    });
    const points = layerPoints(file, 'plate', 'cut');
    const off = points.map((p) => {
      const [x, y] = [Math.abs(p.x) - (w / 2 - r), Math.abs(p.y) - (h / 2 - r)];
      return Math.hypot(Math.max(x, 0), Math.max(y, 0)) + Math.min(Math.max(x, y), 0) - r;
    });
    expect(worst(off)).toBeLessThan(0.01);
    const corner = 45 * DEGREE;
    const wanted = [-1, 1].flatMap((sx) =>
      [-1, 1].flatMap((sy) => [
        { x: sx * (w / 2 - r + r * Math.cos(corner)), y: sy * (h / 2 - r + r * Math.sin(corner)) },
        { x: 0, y: (sy * h) / 2 },
        { x: (sx * w) / 2, y: 0 },
      ]),
    );
    expect(largestMiss(wanted, points)).toBeLessThan(0.3);
  });

  it('is one closed line whose arcs are found again', async () => {
    const file = await printPlate({ width: '100mm', height: '60mm', 'corner-radius': '10mm' });
    const strokes = sheetStrokes(file, 'plate', 'cut');
    expect(strokes).toHaveLength(1);
    expect(strokes[0]?.path).toHaveLength(1);
    expect(strokes[0]?.path[0]?.closed).toBe(true);
    const [drawn] = sheetOf({ width: '100mm', height: '60mm', 'corner-radius': '10mm' }).marks.flatMap(
      (mark) => (mark.kind === 'stroke' && mark.role === 'cut' ? [mark.path] : []),
    );
    if (!drawn) throw new Error('no outline');
    const pieces = tracePieces(drawn);
    expect(pieces.filter(({ kind }) => kind === 'line')).toHaveLength(4);
    expect(pieces.flatMap((piece) => (piece.kind === 'arc' ? [piece.radius] : []))).toEqual(
      [10, 10, 10, 10].map((r) => expect.closeTo(r, 5) as number),
    );
  });
});

describe('holes of a plate, from the bytes of its print', () => {
  it('a base plate by its edge distances, a tube in the middle', async () => {
    const file = await printPlate({
      shape: 'base',
      width: '250mm',
      height: '300mm',
      hole: '22mm',
      edge: '40mm,50mm',
      columns: '2',
      rows: '3',
      tube: 'tube 100x80x6mm',
      bore: '30mm',
    });
    const wanted = [-85, 85].flatMap((x) => [-100, 0, 100].map((y) => ({ x, y })));
    const circles = readCircles(file, 'plate', 'cut');
    const holes = circles.filter(({ radius }) => Math.abs(radius - 11) < 0.01);
    expect(
      worstMatch(
        holes.map(({ at }) => at),
        wanted,
      ),
    ).toBeLessThan(0.01);
    expect(circles.filter(({ radius }) => Math.abs(radius - 15) < 0.01)).toHaveLength(1);
    expect(circles).toHaveLength(7);
    expect(worstMatch(readCrosses(file, 'plate'), [...wanted, { x: 0, y: 0 }])).toBeLessThan(0.01);
    // The tube's outside corner radius is twice its wall where none is given (common practice).
    const stands = layerPoints(file, 'plate', 'reference').filter(({ x, y }) => Math.hypot(x, y) > 5);
    expect(Math.max(...stands.map(({ x }) => x))).toBeCloseTo(50, 2);
    expect(Math.max(...stands.map(({ y }) => y))).toBeCloseTo(40, 2);
  });

  it.each([
    ['straddle', 0, 6],
    ['on', 7.5, 5],
  ] as const)('a disc with holes on a circle: %s, turned %d°, %d holes', async (start, turn, n) => {
    const file = await printPlate({
      shape: 'disc',
      diameter: '250mm',
      hole: '14mm',
      holes: `${n}`,
      circle: '200mm',
      start,
      turn: `${turn}`,
    });
    const wanted = Array.from({ length: n }, (_, i) => {
      const angle = (turn + (start === 'straddle' ? 180 / n : 0) + (360 / n) * i) * DEGREE;
      return { x: 100 * Math.cos(angle), y: 100 * Math.sin(angle) };
    });
    const circles = readCircles(file, 'plate', 'cut');
    expect(
      worstMatch(
        circles.filter(({ radius }) => Math.abs(radius - 7) < 0.01).map(({ at }) => at),
        wanted,
      ),
    ).toBeLessThan(0.01);
    expect(circles.filter(({ radius }) => Math.abs(radius - 125) < 0.01)).toHaveLength(1);
    // The chord from hole to next, D sin(180°/n): 200 × .5 and 200 × .5878 (bolt-circle factors of shop tables).
    const apart = Number(
      sheetOf({ shape: 'disc', diameter: '250mm', hole: '14mm', holes: `${n}`, circle: '200mm' }).tables[0]
        ?.rows[0]?.[1],
    );
    expect(apart).toBeCloseTo(n === 6 ? 100 : 117.6, 1);
  });

  it('slots run across, and single holes are placed from the left and lower edge', async () => {
    const file = await printPlate({
      width: '300mm',
      height: '200mm',
      hole: '18mm',
      edge: '50mm',
      slot: '40mm',
      'hole-at': ['150mm,60mm,25mm'],
    });
    const [single] = readCircles(file, 'plate', 'cut');
    expect(single?.radius).toBeCloseTo(12.5, 3);
    expect(Math.hypot((single?.at.x ?? 9) - 0, (single?.at.y ?? 9) + 40)).toBeLessThan(0.01);
    const slots = sheetStrokes(file, 'plate', 'cut')
      .map(({ path }) => samplePath(path, 0.3))
      .filter((points) => Math.abs(Math.abs(areaInside(points)) - (22 * 18 + Math.PI * 81)) < 0.5);
    expect(slots).toHaveLength(4);
    for (const points of slots) {
      const xs = points.map(({ x }) => Math.abs(x));
      expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(40, 2);
    }
  });

  it('round holes are found again as circles', () => {
    const paths = sheetOf({ shape: 'ring', diameter: '200mm', bore: '120mm' }).marks.flatMap((mark) =>
      mark.kind === 'stroke' && mark.role === 'cut' ? [mark.path] : [],
    );
    expect(paths.map((path) => findCircle(path)?.radius)).toEqual([
      expect.closeTo(100, 5),
      expect.closeTo(60, 5),
    ]);
  });
});
