import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest, type Texts } from '../../../src/index.ts';
import { prismDistance } from '../../../src/proof/contour.ts';
import { proveFile } from '../../../src/proof/prove.ts';
import { laySection } from '../../../src/proof/section-lay.ts';
import { edgesOf, oval, tidy, tube, type Drawn } from '../../support/drawn-sections.ts';
import { cylinderDistance } from '../../support/fit-up.ts';
import { layerPoints, printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';
import { inner, outer, placeIn, point, times, type Axes, type Vec3 } from '../../support/space.ts';

const DEGREE = Math.PI / 180;
const origin = point(0, 0, 0);

/** A sheet's points around a section written out by hand, in the stock's frame; without the paper's corners. */
const around = async (layout: string, texts: Texts, drawn: Drawn) => {
  const { file, bytes } = await printAndRead(layout, { paper: '1500x900mm', ...texts });
  const laid = laySection({ outside: edgesOf(tidy(drawn)), thickness: 1 }, 0.05);
  return {
    bytes,
    points: (sheet: string): readonly Vec3[] =>
      layerPoints(file, sheet, 'cut', 1)
        .filter((p) => !laid.isCorner(p.x))
        .map((p) => laid.place(p, 0)),
  };
};

describe('wyes of any closed stock, from the bytes of the print', () => {
  /** A leg on the plan: z into the crossing, x up, y = z × x. */
  const frame = (heading: number): Axes => {
    const z = point(-Math.cos(heading * DEGREE), -Math.sin(heading * DEGREE), 0);
    const x = point(0, 0, 1);
    return { origin, x, y: outer(z, x), z };
  };
  const toward = (heading: number): Vec3 => times(frame(heading).z, -1);

  it.each([
    ['tube 100x60x5mm', tube(100, 60, 10), [0, 120, 240]],
    ['tube 60x100x5mm', tube(60, 100, 10), [0, 75, 200]],
    ['oval 100x60mm wall 4mm', oval(100, 60), [0, 90, 180, 270]],
  ] as const)(
    '%s: each leg lies on its neighbor’s outside, midway between both',
    async (stock, drawn, headings) => {
      const { points } = await around('wye', { stock, leg: headings.map(String) }, drawn);
      const outsides = headings.map((heading) => {
        const { x, z } = frame(heading);
        return prismDistance(edgesOf(tidy(drawn)), origin, z, x);
      });
      for (const [i, heading] of headings.entries()) {
        const line = points(`leg ${i + 1}`).map((p) => placeIn(frame(heading), p));
        expect(line.length).toBeGreaterThan(100);
        for (const p of line) {
          const along = headings.map((other) => inner(p, toward(other)));
          const most = Math.max(...along.filter((_, j) => j !== i));
          expect(Math.abs(most - along[i]!)).toBeLessThan(0.01);
          const met = along.findIndex((value, j) => j !== i && value === most);
          expect(Math.abs(outsides[met]!(p))).toBeLessThan(0.01);
        }
      }
    },
  );

  it.each([
    ['tube legs on a pipe', { stock: 'tube 60x40x4mm', header: 'DN 150 sch 40', leg: ['60', '120'] }],
    ['tube legs on a tube', { stock: 'tube 60x60x4mm', header: 'tube 120x120x6mm', leg: ['60', '120'] }],
    [
      'one from above',
      { stock: 'tube 60x60x4mm', header: 'tube 120x100x6mm', leg: ['90 up 45', '90 up 90'] },
    ],
    ['a pipe between tubes', { stock: 'tube 100x100x5mm', leg: ['0', '140', '250 DN 50 sch 40'] }],
    [
      'an oval between ovals',
      { stock: 'oval 120x80mm wall 4mm', leg: ['0', '150', '260 oval 60x40mm wall 4mm'] },
    ],
  ] as const)('%s: ends and openings prove', async (_, texts) => {
    const { bytes } = await printAndRead('wye', { ...texts, paper: '1500x900mm' });
    const { findings } = proveFile(bytes);
    expect(findings.filter(({ check }) => check.includes('against what it meets')).length).toBeGreaterThan(1);
    expect(findings.filter(({ ok }) => !ok)).toEqual([]);
  });

  it.each([
    [{ stock: 'tube 100x60x5mm', leg: ['0', '120 up 30', '240'] }, /open/, /mirror image/],
    [{ stock: 'tube 100x60x5mm', leg: ['90'], header: 'tube 50x50x4mm' }, /one leg/, /2 to 8/],
    [{ stock: 'tube 100x60x5mm', leg: ['60', '120'], header: 'tube 50x50x4mm' }, /100 mm across/, /50 mm/],
    [{ stock: 'L 60x60x6', leg: ['0', '120'] }, /angle/, /pipe, tube/],
    [{ stock: 'tube 100x60x5mm', leg: ['0', '120 IPE 100'] }, /IPE 100 is a beam/, /pipe, tube/],
  ])('refuses %o', (texts, message, hint) => {
    const issue = refused('wye', texts);
    expect(issue.message).toMatch(message);
    expect(issue.hint).toMatch(hint);
  });
});

describe('pieces of shaped stock, from the bytes of the print', () => {
  it('a tube with a miter and a saddle a quarter turn around', async () => {
    const { points } = await around(
      'piece',
      {
        stock: 'tube 80x60x5mm',
        start: 'miter 35',
        finish: 'saddle OD 168.3mm wall 8mm angle 60',
        roll: '90',
        length: '700mm',
        contact: 'od',
      },
      tube(80, 60, 10),
    );
    const start = points('start end');
    expect(start.length).toBeGreaterThan(50);
    expect(Math.max(...start.map((p) => Math.abs(p.z - p.x * Math.tan(35 * DEGREE))))).toBeLessThan(0.01);
    // Facing the finish end the numbers run clockwise: station 90 lies on -y, and there the header's heel.
    const header = cylinderDistance(origin, point(0, -Math.sin(60 * DEGREE), Math.cos(60 * DEGREE)), 84.15);
    const finish = points('finish end');
    expect(finish.length).toBeGreaterThan(50);
    expect(Math.max(...finish.map((p) => Math.abs(header(p))))).toBeLessThan(0.01);
  });

  it('an angle has the small templates of its inside faces at both ends, and all proves', async () => {
    const texts = {
      stock: 'L 60x60x6',
      start: 'miter 45',
      finish: 'saddle DN 150 sch 40 angle 60 offset 30mm',
      length: '600mm',
    };
    const { bytes } = await printAndRead('piece', { ...texts, paper: '1500x900mm' });
    const { findings } = proveFile(bytes);
    expect(findings.filter(({ ok }) => !ok)).toEqual([]);
    expect(makeWrittenSheets(readRequest('piece', texts)).map(({ name }) => name)).toEqual([
      'start end',
      'start end, inside of leg 1',
      'start end, inside of leg 2',
      'finish end',
      'finish end, inside of leg 2',
      'finish end, inside of leg 1',
    ]);
  });
});

describe('turns of shaped stock', () => {
  it('each cut of a tube lies in its plane, from the bytes of the print', async () => {
    const { points } = await around(
      'turn',
      { stock: 'tube 100x60x5mm', angle: '90', pieces: '3', radius: '250mm' },
      tube(100, 60, 10),
    );
    // R tan a for each cut of an end piece, twice that between two.
    const [half, cut] = [250 * Math.tan(22.5 * DEGREE), Math.tan(22.5 * DEGREE)];
    for (const [sheet, low, high] of [
      ['gore 1', 0, 1],
      ['gore 2', 1, 1],
      ['gore 3', 1, 0],
    ] as const) {
      const middle = ((low + high) * half) / 2;
      const off = points(sheet).map((p) =>
        p.z > 0 ? p.z - middle + high * cut * p.x : p.z + middle - low * cut * p.x,
      );
      expect(off.length).toBeGreaterThan(100);
      expect(Math.max(...off.map(Math.abs))).toBeLessThan(0.01);
    }
  });

  it('heel and throat lie on the faces, and gores nest only where the section is alike turned half around', () => {
    const sheets = (stock: string, more?: Texts) =>
      makeWrittenSheets(readRequest('turn', { stock, pieces: '3', radius: '250mm', units: 'mm', ...more }));
    const facts = new Map(sheets('tube 100x60x5mm')[1]?.facts);
    const nest = { nest: 'yes' };
    const slope = 2 * Math.tan(22.5 * DEGREE);
    expect(Number.parseFloat(facts.get('Heel, cut to cut') ?? '')).toBeCloseTo(300 * slope, 1);
    expect(Number.parseFloat(facts.get('Throat, cut to cut') ?? '')).toBeCloseTo(200 * slope, 1);
    expect(sheets('tube 100x60x5mm', nest).at(-1)?.name).toBe('nested gores');
    expect(sheets('W 8x31', nest).at(-1)?.name).toBe('nested gores');
    expect(sheets('W 8x31')[0]?.subject.join()).toContain('option nest');
    for (const stock of ['L 60x60x6', 'C 8x11.5']) {
      expect(sheets(stock)[0]?.subject.join()).not.toContain('option nest');
      expect(() => sheets(stock, nest)).toThrow(/not the same rotated 180°/);
    }
    expect(
      sheets('tube 100x60x5mm')
        .flatMap(({ cautions }) => cautions)
        .join(),
    ).not.toMatch(/B31/);
  });

  it.each(['W 8x31', 'L 60x60x6', 'oval 100x60mm wall 5mm turned 90deg'])('%s proves', async (stock) => {
    const { bytes } = await printAndRead('turn', {
      stock,
      pieces: '3',
      radius: '300mm',
      paper: '1500x1500mm',
    });
    expect(proveFile(bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
  });
});
