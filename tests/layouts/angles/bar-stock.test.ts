import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest, type Texts } from '../../../src/index.ts';
import { refused } from '../../support/refused.ts';

/** Closed forms of plane geometry, worked by hand beside each check; steel 7850 kg/m³ (EN 1991-1-1, table A.4). */
const DEGREE = Math.PI / 180;
const sheetOf = (layout: string, texts: Texts) =>
  makeWrittenSheets(readRequest(layout, { units: 'mm', ...texts }))[0]!;
const factOf = (layout: string, texts: Texts) => {
  const facts = new Map(sheetOf(layout, texts).facts);
  return (label: string): string => facts.get(label) ?? 'none';
};
const mm = (text: string): number => Number.parseFloat(text);

describe('frames of stock', () => {
  it('angle, heel outside: long and short points, what fits inside, saw, mass', () => {
    const texts = { length: '1200mm', width: '800mm', stock: 'L 50x50x5' };
    const fact = factOf('frame', texts);
    expect(mm(fact('Between the standing legs'))).toBe(1190);
    expect(fact('Opening')).toMatch(/^1100\.0 mm.* by 700\.0 mm/);
    expect(fact('Saw: lay it on leg 1, set')).toBe('miter 45°, bevel 0°');
    // EN 10056-1: 3.77 kg/m; middle lengths 2 (1150 + 750) mm.
    expect(mm(fact('Mass, in steel')) / (3.77 * 3.8)).toBeCloseTo(1, 2);
    expect(mm(fact('Bar for all, every piece at its long length'))).toBe(4000);
    const rows = sheetOf('frame', texts).tables[0]!.rows;
    expect(rows.map(([name, count, long, , short]) => [name, count, long, short])).toEqual([
      ['long side', '2', '1200.0', '1100.0'],
      ['short side', '2', '800.0', '700.0'],
    ]);
  });

  it('tube: the first size lies in the frame, and pieces are turned over on one length', () => {
    const fact = factOf('frame', { sides: '6', side: '400mm', stock: 'tube 60x40x3mm' });
    // 60 tan 30 shorter at each end inside.
    expect(mm(fact('Long to short point, each end'))).toBeCloseTo(60 * Math.tan(30 * DEGREE), 1);
    expect(fact('Saw: lay it on face 2, set')).toBe('miter 30°, bevel 0°');
    expect(fact('Bar for all, turned end for end')).not.toBe('none');
    const turned = factOf('frame', { sides: '6', side: '400mm', stock: 'tube 60x40x3mm turned 90deg' });
    expect(mm(turned('Long to short point, each end'))).toBeCloseTo(40 * Math.tan(30 * DEGREE), 1);
  });

  it.each([
    [{ length: '900mm', width: '600mm' }, 'bar', /not given/],
    [{ length: '900mm', width: '600mm', bar: '50mm', stock: 'L 50x50x5' }, 'bar', /stock and bar are both/],
    [{ length: '900mm', width: '90mm', stock: 'L 50x50x5' }, 'bar', /50\.0 mm/],
  ])('refuses %o', (texts, path, message) => {
    const issue = refused('frame', texts);
    expect(issue.what).toContain(path);
    expect(issue.message).toMatch(message);
  });
});

describe('a miter of stock', () => {
  it('lengths outside and inside, less half the gap', () => {
    const fact = factOf('angle', {
      angle: '90',
      stock: 'tube 60x40x3mm',
      length: '800mm',
      'other-length': '600mm',
      gap: '2mm',
    });
    const off = 1 / Math.sin(45 * DEGREE);
    expect(mm(fact('Cut part 1, long point to end'))).toBeCloseTo(800 - off, 1);
    expect(mm(fact('Cut part 1, short point to end'))).toBeCloseTo(740 - off, 1);
    expect(mm(fact('Cut part 2, long point to end'))).toBeCloseTo(600 - off, 1);
    expect(fact('Saw: lay it on face 2, set')).toBe('miter 45°, bevel 0°');
    const inside = factOf('angle', { angle: '60', stock: 'flat 50x8mm', length: '400mm', taken: 'inside' });
    expect(mm(inside('Cut part 1, long point to end'))).toBeCloseTo(400 + 50 / Math.tan(30 * DEGREE), 1);
  });

  it('two stocks: each has its own cut', () => {
    const fact = factOf('angle', { angle: '100', stock: 'tube 60x40x3mm', 'other-stock': 'tube 40x40x3mm' });
    // tan a = sin θ / (w₂/w₁ + cos θ), from the edge.
    const edge = Math.atan2(Math.sin(100 * DEGREE), 40 / 60 + Math.cos(100 * DEGREE)) / DEGREE;
    expect(fact('Saw, part 1: lay it on face 2, set')).toBe(
      `miter ${Number((90 - edge).toFixed(2))}°, bevel 0°`,
    );
  });

  it.each([
    [{ angle: '90' }, 'width'],
    [{ angle: '90', stock: 'tube 60x40x3mm', width: '60mm' }, 'width'],
    [{ angle: '90', width: '60mm', 'other-width': '50mm', 'other-stock': 'flat 50x8mm' }, 'other-width'],
  ])('refuses %o', (texts, path) => {
    expect(refused('angle', texts).what).toContain(path);
  });
});

describe('compound cuts of stock', () => {
  /**
   * Four sides of flat 150 x 6 at 60°, outside 600 at the long edge: the short edge lies 150 cos 60 further in at each end, the
   * inside face 6 sin 60. Published miter atan(cos s / tan(C/2)) and tilt asin(sin s cos(C/2)).
   */
  it('hopper sides: lengths of all four edges, saw settings', () => {
    const fact = factOf('compound', { slope: '60', sides: '4', stock: 'flat 150x6mm', length: '600mm' });
    expect(mm(fact('Every side, long edge outside'))).toBe(600);
    expect(mm(fact('Every side, short edge outside'))).toBeCloseTo(600 - 150, 1);
    expect(mm(fact('Every side, long edge inside'))).toBeCloseTo(600 - 12 * Math.sin(60 * DEGREE), 1);
    expect(fact('Saw: lay it on face 2, set')).toBe('miter 26.57°, bevel 37.76°');
  });

  it('sides of two slopes have a length each', () => {
    const fact = factOf('compound', {
      slope: '60',
      'other-slope': '70',
      stock: 'flat 150x6mm',
      length: '600mm,500mm',
    });
    // Along a side the joint runs in by height / tan of the other side's slope.
    const runIn = (own: number, other: number): number =>
      (2 * 150 * Math.sin(own * DEGREE)) / Math.tan(other * DEGREE);
    expect(mm(fact('Side 1, short edge outside'))).toBeCloseTo(600 - runIn(60, 70), 1);
    expect(mm(fact('Side 2, short edge outside'))).toBeCloseTo(500 - runIn(70, 60), 1);
  });

  /** The bar's axis is (cos r cos s, sin s, sin r cos s) off the face; a line on it lies back by what it stands off along the normal. */
  it('a brace between parallel faces: every edge as long, the cut’s own length more', () => {
    const fact = factOf('compound', {
      for: 'brace',
      swing: '30',
      rise: '35',
      stock: 'tube 50x50x4mm corner 0mm',
      length: '900mm',
    });
    const [c, s] = [Math.cos(35 * DEGREE), Math.sin(35 * DEGREE)];
    const [cs, ss] = [Math.cos(30 * DEGREE), Math.sin(30 * DEGREE)];
    // Of the bar's level and upright directions along the face's normal, over that of its axis.
    const back = (50 * (ss + s * cs)) / (c * cs);
    expect(mm(fact('Long to short point of one end'))).toBeCloseTo(back, 1);
    expect(mm(fact('Stock it takes, long point to long point'))).toBeCloseTo(900 + back, 1);
    const rows = sheetOf('compound', {
      for: 'brace',
      swing: '30',
      rise: '35',
      stock: 'tube 50x50x4mm',
    }).tables.find(({ title }) => title.startsWith('Saw'))!.rows;
    expect(rows[0]!.slice(-2)).toEqual([
      `${(Math.atan2(ss, c * cs) / DEGREE).toFixed(3)}°`,
      `${(Math.asin(s * cs) / DEGREE).toFixed(3)}°`,
    ]);
  });

  it.each([
    [{ slope: '60', sides: '4', length: '600mm' }, 'stock', /not given/],
    [{ slope: '60', sides: '4', stock: 'flat 150x6mm', length: '600mm,500mm' }, 'length', /more lengths/],
    [
      { for: 'brace', swing: '30', rise: '35', stock: 'tube 50x50x4mm', width: '50mm', depth: '50mm' },
      'stock',
      /both/,
    ],
  ])('refuses %o', (texts, path, message) => {
    const issue = refused('compound', texts);
    expect(issue.what).toContain(path);
    expect(issue.message).toMatch(message);
  });
});

it('saw settings name each face by its size over the corners, as the stock is ordered', () => {
  const widthsOf = (stock: string): readonly string[] => {
    const texts = { for: 'brace', swing: '20', rise: '30', stock };
    const [sheet] = makeWrittenSheets(readRequest('compound', texts));
    const table = sheet!.tables.find(({ title }) => title.startsWith('Saw settings'))!;
    const column = table.header.indexOf('width mm');
    return table.rows.map((row) => row[column]!);
  };
  expect(widthsOf('tube 50x30x3mm').toSorted()).toEqual(['30', '30', '50', '50']);
  expect(widthsOf('angle 80x60x7mm').toSorted()).toEqual(['60', '80']);
});
