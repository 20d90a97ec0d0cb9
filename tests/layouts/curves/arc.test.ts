import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeSheets, makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { arcPoint, solveArc } from '../../../src/geometry/chord-arc.ts';
import { WIDE_PAPER } from '../../support/cut-line.ts';
import { largestMiss } from '../../support/coverage.ts';
import { readCrosses, worstMatch } from '../../support/flat-figures.ts';
import { layerPoints, printAndRead, range, worst } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';
import { strayStrokes } from '../../support/strokes.ts';

const DEGREE = Math.PI / 180;

describe('an arc, from the bytes of its print', () => {
  it.each([
    [{ chord: '16in', rise: '6in' }, (25 / 3) * 25.4, 16 * 25.4, 'letter'],
    [{ radius: '60in', rise: '8in' }, 60 * 25.4, 59.8665 * 25.4, 'letter'],
    [{ radius: '120mm', angle: '300' }, 120, 120, 'a3'],
    [{ chord: '3000mm', rise: '20mm' }, 56_260, 3000, 'a4'],
    [{ chord: '900mm', radius: '1000m' }, 1_000_000, 900, 'a4'],
  ] as const)('%o', async (texts, radius, chord, paper) => {
    const { file } = await printAndRead('arc', { ...texts, paper });
    const points = layerPoints(file, 'arc', 'cut', 1);
    const [left, right] = range(points.map(({ x }) => x));
    const big = 'angle' in texts;
    if (!big) {
      expect(Math.abs(right - chord / 2)).toBeLessThan(0.01);
      expect(Math.abs(left + chord / 2)).toBeLessThan(0.01);
    }
    // The chord's middle is the origin; the center lies under it, over it where the arc is more than a half circle.
    const under = (big ? 1 : -1) * Math.sqrt(radius * radius - (chord * chord) / 4);
    expect(worst(points.map(({ x, y }) => Math.hypot(x, y - under) - radius))).toBeLessThan(0.01);
    expect(Math.abs(range(points.map(({ y }) => y))[1] - (under + radius))).toBeLessThan(0.01);
    const crosses = readCrosses(await wide(texts), 'arc');
    const ends = [-1, 1].map((side) => ({ x: (side * chord) / 2, y: 0 }));
    expect(worstMatch(crosses, [...ends, { x: 0, y: under + radius }])).toBeLessThan(0.01);
  });

  const wide = async (texts: Record<string, string>) =>
    (await printAndRead('arc', { ...texts, paper: WIDE_PAPER })).file;

  it.each([
    ['in', 1400],
    ['out', 1600],
  ] as const)('a strip widened %s lies between two radii and ends on radial lines', async (widen, other) => {
    const { file } = await printAndRead('arc', {
      radius: '1500mm',
      angle: '90',
      segments: '6',
      width: '100mm',
      widen,
      paper: 'a4',
    });
    const points = layerPoints(file, 'arc', 'cut');
    const half = 7.5 * DEGREE;
    const under = -1500 * Math.cos(half);
    const off = points.map(({ x, y }) => {
      const [r, turn] = [Math.hypot(x, y - under), Math.atan2(x, y - under)];
      return Math.min(Math.abs(r - 1500), Math.abs(r - other), Math.abs(Math.abs(turn) - half) * r);
    });
    expect(worst(off)).toBeLessThan(0.01);
    for (const r of [1500, other]) {
      const arc = Array.from({ length: 21 }, (_, i) => {
        const turn = half * (i / 10 - 1);
        return { x: r * Math.sin(turn), y: r * Math.cos(turn) + under };
      });
      expect(largestMiss(arc, points)).toBeLessThan(0.26);
    }
  });
});

describe('figures of an arc', () => {
  const factsOf = (texts: Record<string, string>) =>
    new Map(makeWrittenSheets(readRequest('arc', texts))[0]?.facts);

  it('chord 16, rise 6: radius 8 1/3 (Machinery’s Handbook, 31st ed., p. 79)', () => {
    expect(solveArc({ chord: 16, rise: 6 })?.radius).toBeCloseTo(25 / 3, 12);
    expect(factsOf({ chord: '16mm', rise: '6mm' }).get('Radius')).toMatch(/^8\.3 mm/);
  });

  it('radius 60, rise 8: chord 59.86 (Machinery’s Handbook, 31st ed., p. 79)', () => {
    expect(solveArc({ radius: 60, rise: 8 })?.chord).toBeCloseTo(59.8665, 4);
    expect(factsOf({ radius: '600mm', rise: '80mm' }).get('Chord, end to end')).toMatch(/^598\.7 mm/);
  });

  it('plate for the arc is its mean radius times its angle (common practice, no source)', () => {
    const texts = { radius: '1000mm', angle: '90', thickness: '20mm' };
    // π/2 × 990 and π/2 × 1010
    expect(factsOf(texts).get('Plate for this arc, on the mean radius')).toMatch(/^1555\.1 mm/);
    expect(factsOf({ ...texts, face: 'inside' }).get('Plate for this arc, on the mean radius')).toMatch(
      /^1586\.5 mm/,
    );
  });

  it('the joints of the segments lie on the whole arc', () => {
    const [sheet] = makeWrittenSheets(readRequest('arc', { chord: '2000mm', rise: '300mm', segments: '8' }));
    const rows = sheet?.tables[0]?.rows ?? [];
    expect(rows).toHaveLength(5);
    const radius = (2000 ** 2 + 4 * 300 ** 2) / (8 * 300);
    const whole = 2 * Math.asin(1000 / radius);
    rows.forEach((row, i) => {
      const turn = (whole * i) / 8;
      expect(Number(row[0])).toBeCloseTo(radius * Math.sin(turn), 0.9);
      expect(Number(row[2])).toBeCloseTo(radius * Math.cos(turn) - radius + 300, 0.9);
    });
  });

  it('any two figures give the other two', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 1e5, noNaN: true }),
        fc.double({ min: 0.02, max: 6.2, noNaN: true }),
        (radius, angle) => {
          const chord = 2 * radius * Math.sin(angle / 2);
          const rise = radius * (1 - Math.cos(angle / 2));
          const pairs = [
            { chord, rise },
            { radius, rise },
            { radius, angle },
            { chord, angle },
            { rise, angle },
          ];
          const found = [...pairs, ...(angle < 3.1 ? [{ radius, chord }] : [])].map(solveArc);
          for (const arc of found) {
            expect((arc?.radius ?? NaN) / radius).toBeCloseTo(1, 6);
            expect(arc?.angle).toBeCloseTo(angle, 6);
            expect((arc?.chord ?? NaN) / radius).toBeCloseTo(chord / radius, 6);
            expect((arc?.rise ?? NaN) / radius).toBeCloseTo(rise / radius, 6);
            if (!arc) throw new Error('no arc');
            const end = arcPoint(arc, angle / 2);
            expect(Math.abs(end.x + chord / 2) / radius).toBeLessThan(1e-6);
            expect(Math.abs(end.y) / radius).toBeLessThan(1e-6);
          }
        },
      ),
    );
  });

  it('draws any arc within its bounds', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 4000, noNaN: true }),
        fc.double({ min: 5, max: 4000, noNaN: true }),
        fc.integer({ min: 1, max: 9 }),
        (chord, rise, segments) => {
          const [sheet] = makeSheets(
            readRequest('arc', { chord: `${chord}mm`, rise: `${rise}mm`, segments: `${segments}` }),
          );
          if (!sheet) throw new Error('no sheet');
          expect(strayStrokes(sheet)).toBe(0);
        },
      ),
      { numRuns: 40 },
    );
  });

  it.each([
    [{ radius: '100mm', chord: '201mm' }, 'joint chord too-large', /at most 200\.0 mm/],
    [{ radius: '100mm', rise: '200mm' }, 'joint rise too-large', /less than 200\.0 mm/],
    [{ chord: '100mm' }, 'request chord not-two-figures', /two of chord, rise, radius and angle/],
    [{ chord: '100mm', rise: '10mm', radius: '1m' }, 'request chord not-two-figures', /two of/],
    [{ chord: '10m', rise: '0.001mm' }, 'joint chord arc-too-flat', /at most 10000000\.0 mm/],
    [{ radius: '50mm', angle: '90', width: '50mm' }, 'joint width too-large', /less than 50\.0 mm/],
    [{ radius: '50mm', angle: '360' }, 'request angle out-of-range', /less than 360°/],
  ] as const)('refuses %o', (texts, what, hint) => {
    const found = refused('arc', texts);
    expect(found.what).toBe(what);
    expect(found.hint).toMatch(hint);
  });
});
