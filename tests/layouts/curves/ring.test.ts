import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { WIDE_PAPER } from '../../support/cut-line.ts';
import { areaInside, largestMiss } from '../../support/coverage.ts';
import { readCircles, readCrosses, readLines, worstMatch } from '../../support/flat-figures.ts';
import { samplePath, sheetStrokes } from '../../support/pdf-reader.ts';
import { layerPoints, printAndRead, worst } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';
import { strayStrokes } from '../../support/strokes.ts';

const DEGREE = Math.PI / 180;

describe('a ring, from the bytes of its print', () => {
  it.each([
    [160, 125],
    [400, 325],
    [1200, 1],
  ])('outside %d, inside %d', async (outside, inside) => {
    const { file } = await printAndRead('ring', {
      outside: `${outside}mm`,
      inside: `${inside}mm`,
      paper: WIDE_PAPER,
    });
    const circles = readCircles(file, 'ring', 'cut');
    expect(circles.map(({ radius }) => radius).sort((a, b) => b - a)).toEqual([
      expect.closeTo(outside / 2, 3),
      expect.closeTo(inside / 2, 3),
    ]);
    for (const { at, miss } of circles) {
      expect(Math.hypot(at.x, at.y)).toBeLessThan(0.01);
      expect(miss).toBeLessThan(0.01);
    }
    const crosses = readCrosses(file, 'ring');
    expect(worstMatch(crosses, inside <= 300 ? [{ x: 0, y: 0 }] : [])).toBeLessThan(0.01);
  });

  it.each([
    [600, 450, 6, 3, 'letter'],
    [2000, 1700, 8, 0, 'a4'],
    [500, 200, 2, 2, 'a3'],
    [300, 200, 1, 4, 'a3'],
  ] as const)(
    'segment of %d/%d in %d, gap %d, tiled on %s',
    async (outside, inside, segments, gap, paper) => {
      const sheet = segments === 1 ? 'ring' : 'ring segment';
      const { file } = await printAndRead('ring', {
        outside: `${outside}mm`,
        inside: `${inside}mm`,
        segments: `${segments}`,
        gap: `${gap}mm`,
        paper,
      });
      const points = layerPoints(file, sheet, 'cut');
      const half = Math.PI / segments;
      // The joints run parallel to the radial lines at 90° ± half, half the gap from them, on the side of +y.
      const joints = [-1, 1].map((side) => {
        const [c, s] = [Math.cos(Math.PI / 2 + side * half), Math.sin(Math.PI / 2 + side * half)];
        return ({ x, y }: { x: number; y: number }) => side * (x * s - y * c) - gap / 2;
      });
      const off = points.map((p) =>
        Math.min(
          ...[outside, inside].map((d) => Math.abs(Math.hypot(p.x, p.y) - d / 2)),
          ...joints.map((joint) => Math.abs(joint(p))),
        ),
      );
      expect(worst(off)).toBeLessThan(0.01);
      // Nothing lies in the gaps, and all of both arcs is there.
      for (const p of points)
        for (const joint of joints) if (segments > 2) expect(joint(p)).toBeGreaterThan(-0.01);
      for (const d of [outside, inside]) {
        const end = half - Math.asin(gap / d);
        const arc = Array.from({ length: 33 }, (_, i) => {
          const turn = Math.PI / 2 + end * (i / 16 - 1);
          return { x: (d / 2) * Math.cos(turn), y: (d / 2) * Math.sin(turn) };
        });
        expect(largestMiss(arc, points)).toBeLessThan(0.26);
      }
    },
  );

  it('draws the joints of the whole ring on radial lines', async () => {
    const { file } = await printAndRead('ring', {
      outside: '300mm',
      inside: '200mm',
      segments: '5',
      whole: 'yes',
      paper: WIDE_PAPER,
    });
    const joints = readLines(file, 'ring', 'reference');
    expect(joints).toHaveLength(5);
    const turns = joints.map(([a, b]) => {
      expect(Math.abs(a.x * b.y - a.y * b.x)).toBeLessThan(0.1);
      expect([a, b].map((p) => Math.hypot(p.x, p.y)).sort((p, q) => p - q)).toEqual([
        expect.closeTo(100, 3),
        expect.closeTo(150, 3),
      ]);
      return (((Math.atan2(b.y, b.x) / DEGREE) % 360) + 360) % 360;
    });
    expect(turns.sort((a, b) => a - b)).toEqual(
      [54, 126, 198, 270, 342].map((t) => expect.closeTo(t, 3) as number),
    );
  });
});

describe('figures of a ring', () => {
  const factsOf = (texts: Record<string, string>) =>
    new Map(makeWrittenSheets(readRequest('ring', { units: 'mm', ...texts }))[0]?.facts);

  it('tells its mass and the density it was taken with', () => {
    const facts = factsOf({ outside: '400mm', inside: '325mm', thickness: '12mm' });
    // π/4 (0.4² - 0.325²) m² × 0.012 m × 7850 kg/m³ = 4.023 kg; the density is common practice, no source.
    expect(facts.get('Mass')).toMatch(
      /^4\.02 kg \(8\.87 lb\), 12 mm \(\.472″\) thick at 7850 kg\/m³ \(steel, common practice\)$/,
    );
    const aluminum = factsOf({ outside: '400mm', inside: '325mm', thickness: '12mm', density: '2700' });
    expect(aluminum.get('Mass')).toMatch(/^1\.38 kg .* 2700 kg\/m³$/);
    const inches = factsOf({ outside: '16in', inside: '12in', thickness: '1/2in', units: 'in' });
    expect(inches.get('Mass')).toMatch(/^12\.5 lb \(5\.66 kg\), \.500″ \(12\.7 mm\) thick/);
  });

  it('nested segments touch and do not cross', async () => {
    const texts = { outside: '600mm', inside: '450mm', segments: '6' };
    const pitch = Number(/^([\d.]+) mm/.exec(factsOf(texts).get('Each next one, nested') ?? '')?.[1]);
    const { file } = await printAndRead('ring', { ...texts, paper: WIDE_PAPER });
    const points = layerPoints(file, 'ring segment', 'cut', 0.02);
    // The thickest place along the middle line, column by column.
    const columns = new Map<number, [number, number]>();
    for (const { x, y } of points) {
      const key = Math.round(x / 0.05);
      const [low, high] = columns.get(key) ?? [y, y];
      columns.set(key, [Math.min(low, y), Math.max(high, y)]);
    }
    const thickest = Math.max(...[...columns.values()].map(([low, high]) => high - low));
    expect(Math.abs(pitch - thickest)).toBeLessThan(0.15);
  });

  it('segments and their gaps make up the ring', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 3000, noNaN: true }),
        fc.double({ min: 0.1, max: 0.95, noNaN: true }),
        fc.integer({ min: 2, max: 24 }),
        (outside, share, segments) => {
          const inside = outside * share;
          const [sheet] = makeWrittenSheets(
            readRequest('ring', { outside: `${outside}mm`, inside: `${inside}mm`, segments: `${segments}` }),
          );
          if (!sheet) throw new Error('no sheet');
          expect(strayStrokes(sheet)).toBe(0);
          const outline = sheet.marks.find((mark) => mark.kind === 'stroke' && mark.role === 'cut');
          if (outline?.kind !== 'stroke') throw new Error('no outline');
          const area = areaInside(samplePath([outline.path], outside / 4000));
          const due = (Math.PI / 4) * (outside ** 2 - inside ** 2);
          expect(Math.abs((area * segments) / due - 1)).toBeLessThan(1e-4);
        },
      ),
      { numRuns: 25 },
    );
  });

  it.each([
    [{ outside: '200mm', inside: '200mm' }, 'joint inside too-large', /less than 200\.0 mm/],
    [{ outside: '200mm', inside: '250mm' }, 'joint inside too-large', /less than 200\.0 mm/],
    [
      { outside: '200mm', inside: '60mm', segments: '12', gap: '20mm' },
      'joint gap too-large',
      /less than 15\.5 mm/,
    ],
    [{ outside: '200mm', inside: '0mm' }, 'request inside out-of-range', /more than 0 mm/],
    [{ outside: '200mm', inside: '100mm', segments: '0' }, 'request segments out-of-range', /1 to 360/],
  ] as const)('refuses %o', (texts, what, hint) => {
    const found = refused('ring', texts);
    expect(found.what).toBe(what);
    expect(found.hint).toMatch(hint);
  });
});

it('a segment is one closed outline for a cutter', async () => {
  const { file } = await printAndRead('ring', {
    outside: '300mm',
    inside: '200mm',
    segments: '4',
    paper: WIDE_PAPER,
  });
  const strokes = sheetStrokes(file, 'ring segment', 'cut');
  expect(strokes).toHaveLength(1);
  expect(strokes[0]?.path).toHaveLength(1);
  expect(strokes[0]?.path[0]?.closed).toBe(true);
});
