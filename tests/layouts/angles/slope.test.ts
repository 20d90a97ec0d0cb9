import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WrittenSheet } from '../../../src/drawing/model.ts';
import { makeWrittenSheets, readRequest, UserError, type Texts } from '../../../src/index.ts';
import { readCrosses, readLines } from '../../support/flat-figures.ts';
import { angleAt, readPolygons } from '../../support/polygons.ts';
import { printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';
import type { Vec2 } from '../../support/space.ts';

const DEGREE = Math.PI / 180;
const sheetOf = (texts: Texts): WrittenSheet => makeWrittenSheets(readRequest('slope', texts))[0]!;
const factOf = (sheet: WrittenSheet, label: string): string =>
  sheet.facts.find(([name]) => name === label)?.[1] ?? `no fact ${label}`;
const radiusOf = ({ x, y }: Vec2): number => Math.hypot(x, y);
/** How far a point hangs from straight under the pin, degrees, to the right positive. */
const hang = ({ x, y }: Vec2): number => Math.atan2(x, -y) / DEGREE;

/** Readings at a hang angle, by the scale's place from the string's end inward. */
const readings: readonly {
  readonly name: string;
  readonly step: number;
  readonly most: number;
  readonly of: (d: number) => number;
}[] = [
  { name: 'degrees', step: 0.1, most: 60, of: (d) => d },
  { name: 'in/ft', step: 1 / 16, most: 12, of: (d) => 12 * Math.tan(d * DEGREE) },
  { name: 'mm/m', step: 1, most: 1000, of: (d) => 1000 * Math.tan(d * DEGREE) },
  { name: 'percent', step: 0.1, most: 100, of: (d) => 100 * Math.tan(d * DEGREE) },
];

describe('a slope card, from the bytes of its print', () => {
  it.each([100, 95.25, 250, 700])('string %d', async (string) => {
    const { file } = await printAndRead('slope', { string: `${string}mm`, paper: '1600x1600mm' });
    expect(readCrosses(file, 'slope').map(radiusOf)).toEqual([expect.closeTo(0, 4)]);
    const ticks = readLines(file, 'slope', 'station');
    const radii = [...new Set(ticks.map(([a]) => radiusOf(a).toFixed(3)))].map(Number).sort((a, b) => b - a);
    expect(radii).toHaveLength(4);
    expect(radii[0]).toBeCloseTo(string, 3);
    readings.forEach(({ step, most, of }, i) => {
      const own = ticks.filter(([a]) => Math.abs(radiusOf(a) - radii[i]!) < 0.01);
      const values = own.map(([a, b]) => {
        // Radial, and on a whole step of the scale.
        expect(Math.abs(hang(a) - hang(b))).toBeLessThan(0.001);
        const value = of(hang(a));
        const whole = Math.round(value / step) * step;
        // 0.001° of hang, wherever on the scale.
        const slack = Math.abs(of(hang(a) + 0.001) - value);
        expect(Math.abs(value - whole)).toBeLessThan(slack);
        return whole;
      });
      expect(Math.max(...values)).toBeCloseTo(most, 6);
      expect(Math.min(...values)).toBeCloseTo(-most, 6);
      expect(values.some((value) => Math.abs(value) < 1e-9)).toBe(true);
      // The same both ways, no tick twice, none nearer than the eye can part.
      const sorted = [...values].sort((a, b) => a - b);
      sorted.forEach((value, k) => expect(value).toBeCloseTo(-sorted[sorted.length - 1 - k]!, 6));
      const places = own.map(([a]) => hang(a) * DEGREE * radii[i]!).sort((a, b) => a - b);
      places.slice(1).forEach((place, k) => expect(place - places[k]!).toBeGreaterThan(0.8));
    });
  });

  it('stands level on its foot and at 45° on the edges beside it, head level', async () => {
    const { file } = await printAndRead('slope', { string: '120mm', paper: '600x600mm' });
    const [outline] = readPolygons(file, 'slope');
    const [a, b, c, d, e, f] = outline as [Vec2, Vec2, Vec2, Vec2, Vec2, Vec2];
    expect(outline).toHaveLength(6);
    expect(a.y).toBeCloseTo(b.y, 4);
    expect(d.y).toBeCloseTo(e.y, 4);
    expect(angleAt(b, a, c)).toBeCloseTo(135, 3);
    expect(angleAt(a, b, f)).toBeCloseTo(135, 3);
    // All three edges to stand on are equally far from the pin, so the string is clear of them alike.
    const away = (p: Vec2, q: Vec2): number =>
      Math.abs(p.x * q.y - p.y * q.x) / Math.hypot(q.x - p.x, q.y - p.y);
    expect(away(b, c)).toBeCloseTo(-a.y, 3);
    expect(away(a, f)).toBeCloseTo(-a.y, 3);

    // Stood on its 45° edge, the line hangs square to that edge. Level it reads 45; work that slopes 5° reads 40 or 50,
    // so a 45° reading of 40° is a 5° slope (common practice, no source).
    const down = (edge: readonly [Vec2, Vec2], slope: number): Vec2 => {
      const angle = Math.atan2(edge[1].y - edge[0].y, edge[1].x - edge[0].x) - Math.PI / 2 - slope * DEGREE;
      return { x: Math.cos(angle), y: Math.sin(angle) };
    };
    expect(hang(down([b, c], 0))).toBeCloseTo(45, 3);
    expect(hang(down([b, c], 5))).toBeCloseTo(40, 3);
    expect(hang(down([b, c], -5))).toBeCloseTo(50, 3);
    expect(hang(down([f, a], 0))).toBeCloseTo(-45, 3);
  });

  it('marks the slope asked for on both sides', async () => {
    const { file } = await printAndRead('slope', { slope: '1:8', paper: '600x600mm', units: 'mm' });
    const marks = readLines(file, 'slope', 'reference')
      .map(([a]) => hang(a))
      .sort((a, b) => a - b);
    const wanted = Math.atan(1 / 8) / DEGREE;
    expect(marks).toEqual([expect.closeTo(-wanted, 4), expect.closeTo(wanted, 4)]);
  });
});

describe('numbers of a slope card', () => {
  it('stand at their own reading', () => {
    const string = 200;
    const numbers = sheetOf({ string: `${string}mm` }).marks.flatMap((mark) =>
      mark.kind === 'text' && /^\d+°?$/.test(mark.text)
        ? [{ value: parseFloat(mark.text), at: mark.at }]
        : [],
    );
    const rings = [...new Set(numbers.map(({ at }) => radiusOf(at).toFixed(2)))]
      .map(Number)
      .sort((a, b) => b - a);
    expect(rings).toHaveLength(4);
    for (const { value, at } of numbers) {
      const scale = readings[rings.findIndex((ring) => Math.abs(ring - radiusOf(at)) < 0.02)]!;
      expect(scale.of(Math.abs(hang(at)))).toBeCloseTo(value, 6);
    }
  });
});

describe('conversions', () => {
  const sheet = sheetOf({ run: '10m', units: 'mm' });

  it('are one slope in every column', () => {
    for (const [degrees, inFt, mmM, percent, oneIn, drop] of sheet.tables[0]!.rows.map((row) =>
      row.map(Number),
    )) {
      const rise = mmM! / 1000;
      expect(Math.abs(Math.tan(degrees! * DEGREE) - rise)).toBeLessThan(
        0.0002 / Math.cos(degrees! * DEGREE) ** 2,
      );
      expect(Math.abs(inFt! - 12 * rise)).toBeLessThan(0.0012);
      expect(Math.abs(percent! - 100 * rise)).toBeLessThan(0.0101);
      expect(Math.abs(1 / oneIn! - rise)).toBeLessThan(0.006 / oneIn! ** 2 + 0.0001);
      expect(Math.abs(drop! - 10_000 * rise)).toBeLessThan(0.6);
    }
  });

  // 1/4 in per foot is 1 in 48, 2.083 %, 1.19°; 1:12 is 4.76° (common practice, no source).
  it.each([
    ['1.19', '0.25', '20.8', '2.08', '48'],
    ['4.76', '1', '83.3', '8.33', '12'],
    ['45', '12', '1000', '100', '1'],
    ['1.15', '0.24', '20', '2', '50'],
  ])('%s° is %s in/ft, %s mm/m, %s %%, 1 in %s', (...cells) => {
    expect(sheet.tables[0]!.rows.map((row) => row.slice(0, 5))).toContainEqual(cells);
  });

  it('drops over a run, and back', () => {
    expect(factOf(sheetOf({ slope: '1:50', run: '6m' }), 'Drop over the run')).toMatch(
      /^120\.0 mm .* over 6000\.0 mm/,
    );
    const back = sheetOf({ drop: '60mm', run: '4m' });
    expect(back.subject.join(' ')).toContain('15 mm/m');
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2000 }), fc.integer({ min: 1000, max: 30_000 }), (drop, run) => {
        const told = sheetOf({ drop: `${drop}mm`, run: `${run}mm` });
        expect(factOf(told, 'Drop over the run')).toMatch(new RegExp(`^${drop}\\.0 mm`));
        expect(parseFloat(factOf(told, 'Length along the slope'))).toBeCloseTo(Math.hypot(drop, run), 0);
      }),
      { numRuns: 25 },
    );
  });

  it('tells what the string is worth: half a millimeter on 100 is 0.286°, 5 mm/m', () => {
    const rows = sheetOf({ units: 'mm' }).tables[1]!.rows;
    expect(rows).toContainEqual(['100.0 mm', '0.286°', '5', '0.06']);
    expect(rows).toContainEqual(['1000.0 mm', '0.029°', '0.5', '0.006']);
  });
});

describe('a slope card that cannot be', () => {
  it.each([
    [{ string: '40mm' }, 'request string out-of-range', '80 mm to 1500 mm'],
    [{ slope: '85' }, 'request slope out-of-range', '80°'],
    [{ slope: '0' }, 'request slope out-of-range', 'more than 0°'],
    [{ drop: '60mm' }, 'request run missing', '--run'],
    [{ drop: '60mm', run: '4m', slope: '5' }, 'request drop given-twice', 'give one'],
    [{ drop: '45m', run: '3m' }, 'joint drop too-large', '17013.8 mm'],
    [{ reading: '0mm' }, 'request reading out-of-range', 'more than 0 mm'],
  ])('%o', (texts, what, hint) => {
    const refusal = refused('slope', { units: 'mm', ...texts });
    expect(refusal.what).toBe(what);
    expect(refusal.hint).toContain(hint);
  });
});

describe('shims under a level', () => {
  const draw = (texts: Texts) => makeWrittenSheets(readRequest('slope', texts))[0]!;

  /** 1/4 in a foot: 1/2 in under 2 ft, 1 in under 4 ft (rise over run). */
  it('from the slope', () => {
    const facts = new Map(draw({ slope: '1/4in/ft', units: 'in' }).facts);
    expect(facts.get('Shim under 2 ft of level')).toMatch(/^1\/2″/);
    expect(facts.get('Shim under 4 ft of level')).toMatch(/^1″/);
  });

  it('and back: the slope from a shim', () => {
    const sheet = draw({ level: '4ft', shim: '1/2in' });
    expect(sheet.subject.join(' ')).toMatch(/0\.125 in\/ft, 10\.4 mm\/m/);
    expect(new Map(draw({ level: '1000mm', shim: '20mm' }).facts).get('Shim under 1000 mm of level')).toMatch(
      /^20\.0 mm/,
    );
  });

  it.each<[Texts, string]>([
    [{ shim: '1/2in' }, 'missing'],
    [{ level: '4ft', shim: '1/2in', slope: '1:50' }, 'given-twice'],
    [{ level: '1in', shim: '10in' }, 'too-large'],
  ])('%j is refused', (texts, code) => {
    const caught = (() => {
      try {
        draw(texts);
      } catch (error) {
        return error as UserError;
      }
      return undefined;
    })();
    expect(caught?.issues[0]?.code).toBe(code);
  });
});
