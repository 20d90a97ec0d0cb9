import { describe, expect, it } from 'vitest';
import { makeSheets, makeWrittenSheets, readRequest, type Texts } from '../../src/index.ts';

const weldRows = (layout: string, texts: Texts, sheet = 0) =>
  makeWrittenSheets(readRequest(layout, texts))[sheet]!.tables.find(({ title }) =>
    title.startsWith('For the weld'),
  )!.rows;

const factOf = (layout: string, texts: Texts, sheet: number, label: string) => {
  const value = makeSheets(readRequest(layout, texts))[sheet]!.facts.find(([name]) => name === label)![1];
  if (typeof value === 'string') throw new Error(`${label} is no quantity`);
  return value;
};

const TEE: Texts = { branch: 'OD 114.3mm wall 6mm', header: 'OD 168.3mm wall 7mm', divisions: '12' };

describe('weld data on branches', () => {
  /** cos ψ = −[cos φ cos θ √(1 − (w/R)²) + (w/R) sin φ], worked at 0, 30, … 180°. */
  it.each([
    ['90', [90, 99.78, 120.62, 132.78, 120.62, 99.78, 90]],
    ['45', [135, 138.23, 142.68, 132.78, 102.91, 66.03, 45]],
  ])('angles between the surfaces at %s°', (angle, printed) => {
    const rows = weldRows('branch', { ...TEE, angle });
    printed.forEach((psi, i) => expect(parseFloat(rows[i]![1]!)).toBeCloseTo(psi, 1));
  });

  /** Bevel from square 90° − ψ + g: at 45° 45° groove on the T's crown leaves 45°, nothing where ψ passes 135°. */
  it('bevels that leave a groove', () => {
    const rows = weldRows('branch', { ...TEE, angle: '45', groove: '45deg' });
    expect(rows[0]![2]).toBe('none');
    // The whole edge would go: no bevel leaves 45° between surfaces that stand 45° apart.
    expect(rows[6]![2]).toBe('no room');
    expect(parseFloat(rows[4]![2]!)).toBeCloseTo(90 - 102.91 + 45, 1);
  });

  /** No bevel from square is over 90°: where the surfaces stand closer than the groove there is none, and the sheet says so. */
  it.each([
    ['38', '55deg', true],
    ['90', '55deg', false],
  ])('at %s° with a groove of %s', (angle, groove, tight) => {
    const texts = { ...TEE, angle, groove };
    const cells = weldRows('branch', texts).map((row) => row[2]!);
    expect(cells.includes('no room')).toBe(tight);
    for (const cell of cells.filter((text) => /\d/.test(text))) expect(parseFloat(cell)).toBeLessThan(90);
    const [sheet] = makeWrittenSheets(readRequest('branch', texts));
    expect(sheet!.cautions.some((text) => text.startsWith('No room'))).toBe(tight);
  });

  /** Weld line 452.139 mm at 45° (integrated elsewhere). */
  it('length of the weld line', () => {
    const value = factOf('branch', { ...TEE, angle: '45' }, 0, 'Weld line, on the outside');
    expect(value).toMatchObject({ kind: 'length' });
    expect((value as { mm: number }).mm).toBeCloseTo(452.139, 3);
  });

  /** The bore's disc seen square on the header: ∫ 2√(r² − y²) R / √(R² − y²) dy over −r to r, by Simpson's rule here. */
  it('area of the opening and mass of the drop', () => {
    const [R, r, wall] = [84.15, 51.15, 7];
    const f = (t: number): number => {
      const y = r * Math.sin(t);
      return 2 * r * Math.cos(t) * (R / Math.sqrt(R * R - y * y)) * r * Math.cos(t);
    };
    const n = 400;
    const step = Math.PI / n;
    const area =
      Array.from(
        { length: n + 1 },
        (_, i) => f(-Math.PI / 2 + i * step) * (i === 0 || i === n ? 1 : i % 2 ? 4 : 2),
      ).reduce((a, b) => a + b, 0) *
      (step / 3);
    const found = factOf('branch', TEE, 1, 'Area of the opening') as { mm2: number };
    expect(found.mm2 / area).toBeCloseTo(1, 5);
    const mass = factOf('branch', TEE, 1, 'Mass of the drop, in steel') as { kg: number };
    // Cut square to the surface the drop is a piece of pipe wall: its middle lies half a wall in.
    expect(mass.kg).toBeCloseTo(area * wall * (1 - wall / (2 * R)) * 7.85e-6, 4);
  });
});

describe('weld data where two like ends meet in a plane', () => {
  /** A miter of 22.5°: 180° + 45° on the heel, 180° − 45° on the throat, 180° on both sides. */
  it('miter', () => {
    const rows = weldRows('miter', { stock: 'NPS 6 sch 40', cut: '22.5', divisions: '4', groove: '60' });
    expect(rows.map((row) => parseFloat(row[1]!))).toEqual([225, 180, 135, 180]);
    // Each edge is beveled for half of the groove: 90 − 112.5 + 30 and 90 − 67.5 + 30, 30 at the sides.
    expect(rows.map((row) => parseFloat(row[2]!))).toEqual([7.5, 30, 52.5, 30]);
  });

  it('wye of three legs: 120° between neighbors at the sides, flat on top', () => {
    const rows = weldRows('wye', { stock: 'NPS 4 sch 40', leg: ['0', '120', '240'], divisions: '4' });
    expect(rows.map((row) => parseFloat(row[1]!))).toEqual([180, 120, 180, 120]);
  });
});

describe('weld data on both ends of a piece', () => {
  const saddle = 'saddle OD 219.1mm wall 8mm angle 60 offset -30mm';
  const texts = { stock: 'OD 114.3mm wall 6mm', length: '800mm', divisions: '12', groove: '45' };

  /** The same joint on a branch; the piece's own numbers name the same lines at its finish, where they run the other way. */
  it('a saddle has the branch’s angles at either end, by the piece’s own stations', () => {
    const wanted = weldRows('branch', {
      branch: 'OD 114.3mm wall 6mm',
      header: 'OD 219.1mm wall 8mm',
      angle: '60',
      offset: '-30mm',
      divisions: '12',
      groove: '45',
    });
    expect(parseFloat(wanted[2]![1]!)).toBeCloseTo(143.17, 1);
    const own = (rows: readonly (readonly string[])[]) =>
      new Map(rows.map(([station = '', ...cells]) => [parseFloat(station) % 360, cells.join()]));
    expect(own(weldRows('piece', { ...texts, start: saddle, finish: 'square' }))).toEqual(own(wanted));
    const finish = weldRows('piece', { ...texts, start: 'square', finish: saddle }, 1);
    expect(own(finish)).toEqual(own(wanted));
  });

  it('a miter has them, a square end and a strut of shapes have none', () => {
    const rows = weldRows('piece', { ...texts, divisions: '4', start: 'miter 22.5', finish: 'square' });
    expect(rows.map((row) => parseFloat(row[1]!))).toEqual([225, 180, 135, 180]);
    const finish = makeWrittenSheets(
      readRequest('piece', { ...texts, start: 'miter 22.5', finish: 'square' }),
    )[1]!;
    expect(finish.tables.some(({ title }) => title.startsWith('For the weld'))).toBe(false);
  });
});
