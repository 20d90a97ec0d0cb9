import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { makeSheets } from '../../../src/print.ts';
import { readCrosses } from '../../support/flat-figures.ts';
import { layerPoints, printAndRead } from '../../support/print.ts';
import { valuesOf } from '../../../src/drawing/worded.ts';
import { refused } from '../../support/refused.ts';

const paper = '1200x1300mm';
const sheetOf = (texts: Record<string, string>) => makeWrittenSheets(readRequest('chord', texts))[0]!;
const factOf = (texts: Record<string, string>, name: string) =>
  sheetOf(texts).facts.find(([label]) => label === name)?.[1];

describe('published figures', () => {
  /** Machinery's Handbook, 31st ed., p. 79. */
  it('chord 16, rise 6: radius 8 1/3', () =>
    expect(factOf({ chord: '16in', rise: '6in' }, 'Radius')).toBe('8.333 in (211.67 mm)'));
  it('radius 60, rise 8: chord 59.86', () => {
    expect(factOf({ diameter: '120mm', rise: '8mm' }, 'Chord')).toMatch(/^59\.9 mm/);
    expect(factOf({ diameter: '12000mm', rise: '800mm' }, 'Chord')).toMatch(/^5986\.7 mm/);
  });
  /** Common practice, no source. */
  it('half of a 14 chord is 7', () =>
    expect(factOf({ chord: '14in', rise: '2in' }, 'Half the chord')).toBe('7″ (177.8 mm)'));
});

describe('an arc, from the bytes of its print', () => {
  it.each([
    [406.4, 152.4],
    [300, 40],
    [200, 100],
    [200, 180],
  ])('chord %f, rise %f: every point on the circle or the chord', async (chord, rise) => {
    const { file } = await printAndRead('chord', { chord: `${chord}mm`, rise: `${rise}mm`, paper });
    // The circle through both ends of the chord and the top of the rise, by the power of the chord's middle.
    const radius = (chord / 2) ** 2 / rise / 2 + rise / 2;
    const points = layerPoints(file, 'chord', 'cut');
    for (const { x, y } of points) {
      const onArc = Math.abs(Math.hypot(x, y - (rise - radius)) - radius);
      expect(Math.min(onArc, Math.abs(y))).toBeLessThan(0.01);
    }
    expect(Math.max(...points.map((p) => p.y))).toBeCloseTo(rise, 3);
    const crosses = readCrosses(file, 'chord');
    const wanted = [
      { x: 0, y: 0 },
      { x: chord / 2, y: 0 },
      { x: -chord / 2, y: 0 },
      // A center further below the chord is told in figures only.
      ...(radius - rise > Math.max(60, chord / 4) ? [] : [{ x: 0, y: rise - radius }]),
    ];
    // Where the center is the chord's middle, both are marked there.
    const places = wanted.filter(
      (p, k) => wanted.findIndex((q) => Math.hypot(p.x - q.x, p.y - q.y) < 1e-9) === k,
    );
    for (const p of places)
      expect(Math.min(...crosses.map((q) => Math.hypot(p.x - q.x, p.y - q.y)))).toBeLessThan(0.001);
    expect(crosses).toHaveLength(wanted.length);
  });

  it('draws the middle of a wide arc as cards for inside and outside', async () => {
    const { file } = await printAndRead('chord', { diameter: '4m', chord: '2m', paper: 'a4' });
    const [radius, rise] = [2000, 2000 - Math.sqrt(3) * 1000];
    const points = layerPoints(file, 'chord', 'cut');
    const onArc = points.filter((p) => Math.abs(Math.hypot(p.x, p.y - (rise - radius)) - radius) < 0.01);
    expect(Math.min(...onArc.map((p) => p.x))).toBeCloseTo(-125, 3);
    expect(Math.max(...onArc.map((p) => p.x))).toBeCloseTo(125, 3);
    for (const p of points) {
      const straight = Math.min(
        Math.abs(Math.abs(p.x) - 125),
        Math.abs(p.y - (rise + 26)),
        Math.abs(p.y - (Math.sqrt(radius ** 2 - 125 ** 2) + rise - radius - 26)),
      );
      expect(Math.min(straight, Math.abs(Math.hypot(p.x, p.y - (rise - radius)) - radius))).toBeLessThan(
        0.01,
      );
    }
  });

  it('punches all three marks of a triangle on the circle', async () => {
    const { file } = await printAndRead('chord', { sides: '300mm,250mm,200mm', paper });
    const crosses = readCrosses(file, 'chord');
    const third = crosses.find((p) => p.y > 100 && Math.abs(p.x) > 1)!;
    const away = (x: number) => Math.hypot(third.x - x, third.y);
    expect([away(-150), away(150)].sort((a, b) => a - b)).toEqual([
      expect.closeTo(200, 3),
      expect.closeTo(250, 3),
    ]);
  });
});

describe('three marks on an edge', () => {
  it('a 3-4-5 triangle spans a diameter of 5 (Thales)', () =>
    expect(factOf({ sides: '30mm,40mm,50mm' }, 'Diameter')).toBe('50.00 mm (1.969 in)'));

  it('any three marks of a circle give it back, and the center off each side', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 50, max: 3000 }),
        fc.uniqueArray(fc.integer({ min: 0, max: 35 }), { minLength: 3, maxLength: 3 }),
        (radius, turns) => {
          const points = turns.map((turn) => ({
            x: radius * Math.cos((turn * Math.PI) / 18),
            y: radius * Math.sin((turn * Math.PI) / 18),
          }));
          const sides = points.map((p, i) => {
            const q = points[(i + 1) % 3]!;
            return Math.hypot(p.x - q.x, p.y - q.y);
          });
          const sheet = sheetOf({
            sides: sides.map((side) => `${side.toFixed(9)}mm`).join(','),
            units: 'mm',
          });
          const diameter = Number(sheet.facts[0]![1].split(' ')[0]);
          expect(Math.abs(diameter - 2 * radius)).toBeLessThan(0.0051);
          sheet.tables[0]!.rows.forEach((row, i) => {
            const [p, q, r] = [points[i]!, points[(i + 1) % 3]!, points[(i + 2) % 3]!];
            const middle = { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 };
            const off = Math.hypot(middle.x, middle.y);
            expect(Math.abs(Number(row[4]) - off)).toBeLessThan(0.0501);
            // The center lies toward the third mark where both are on the same side of the side.
            const side = (s: { x: number; y: number }) =>
              (q.x - p.x) * (s.y - p.y) - (q.y - p.y) * (s.x - p.x);
            if (off > 0.1)
              expect(row[6]).toBe(
                side(r) * side({ x: 0, y: 0 }) > 0 ? 'toward the third mark' : 'away from the third mark',
              );
          });
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('arcs that are refused', () => {
  it.each([
    [{ chord: '101mm', diameter: '100mm' }, 'joint chord too-large', /does not fit/, /at most 100\.0 mm/],
    [{ rise: '100mm', diameter: '100mm' }, 'joint rise too-large', /does not fit/, /less than 100\.0 mm/],
    [{ chord: '50mm' }, 'request rise missing', /rise is not given/, /chord and rise/],
    [{ rise: '50mm' }, 'request chord missing', /chord is not given/, /chord and rise/],
    [{ chord: '50mm', rise: '5mm', diameter: '80mm' }, 'request diameter given-twice', /both given/, /./],
    [{ sides: '100mm,50mm,50mm' }, 'joint sides not-a-triangle', /not less than/, /further around/],
    [{ sides: '100mm,50mm' }, 'request sides wrong-count', /2 values/, /give 3/],
    [{ sides: '3mm,4mm,5mm', chord: '3mm' }, 'request chord given-twice', /sides and chord/, /./],
    [{ chord: '0mm', rise: '5mm' }, 'request chord out-of-range', /./, /more than 0/],
  ])('%j', (texts, what, message, hint) => {
    const said = refused('chord', texts);
    expect(said.what).toBe(what);
    expect(said.message).toMatch(message);
    expect(said.hint).toMatch(hint);
  });
});

it.each<Record<string, string>>([
  { chord: '16in', rise: '6in' },
  { diameter: '500mm', rise: '380mm' },
  { sides: '300mm,250mm,200mm' },
])('%j: what a whole arc shows is measured on it', (texts) => {
  const [sheet] = makeSheets(readRequest('chord', texts));
  const measured = sheet!.facts.filter(([, said]) => valuesOf(said).some((value) => value.measured));
  expect(measured.map(([label]) => label)).toEqual([
    'Diameter',
    'Radius',
    'Chord',
    'Half the chord',
    'Rise',
    'Angle at the center',
    'Along the arc',
  ]);
});
