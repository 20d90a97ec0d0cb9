import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest, UserError, type Texts } from '../../../src/index.ts';
import { WIDE_PAPER } from '../../support/cut-line.ts';
import { readLines } from '../../support/flat-figures.ts';
import { printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';
import { strayStrokes } from '../../support/strokes.ts';

const printPlate = async (texts: Texts) =>
  (await printAndRead('plate', { units: 'mm', paper: WIDE_PAPER, ...texts })).file;
const sheetOf = (texts: Texts) => {
  const [sheet] = makeWrittenSheets(readRequest('plate', { units: 'mm', ...texts }));
  if (!sheet) throw new Error('no sheet');
  return sheet;
};

describe('figures of a plate', () => {
  it('mass: 300 × 200 × 10 with corners of 20 is 4.683 kg at 7850 kg/m³ (density: common practice)', () => {
    // (300 × 200 - (4 - π) 20²) mm² × 10 mm × 7850 kg/m³
    const facts = new Map(
      sheetOf({ width: '300mm', height: '200mm', 'corner-radius': '20mm', thickness: '10mm' }).facts,
    );
    expect(facts.get('Mass')).toMatch(/^4\.68 kg \(10\.3 lb\).*7850 kg\/m³ \(steel, common practice\)/);
  });

  it('mass leaves out holes, slots and bore', () => {
    const texts = {
      width: '200mm',
      height: '200mm',
      bore: '100mm',
      hole: '20mm',
      edge: '30mm',
      thickness: '10mm',
    };
    const area = 200 * 200 - Math.PI * 2500 - 4 * Math.PI * 100;
    const kg = /^([\d.]+) kg/.exec(new Map(sheetOf(texts).facts).get('Mass') ?? '')?.[1];
    expect(Number(kg)).toBeCloseTo(area * 10 * 7.85e-6, 2);
    const slotted = /^([\d.]+) kg/.exec(
      new Map(sheetOf({ ...texts, slot: '30mm' }).facts).get('Mass') ?? '',
    )?.[1];
    expect(Number(slotted)).toBeCloseTo((area - 4 * 10 * 20) * 10 * 7.85e-6, 2);
  });

  it('holes either lie apart and inside the plate, or are refused', () => {
    const place = fc.integer({ min: -2000, max: 22_000 }).map((hundredths) => hundredths / 100);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(place, place, fc.integer({ min: 2, max: 60 })), {
          minLength: 1,
          maxLength: 4,
        }),
        (holes) => {
          const inside = Math.min(
            ...holes.flatMap(([x, y, d]) => [x - d / 2, 200 - x - d / 2, y - d / 2, 200 - y - d / 2]),
          );
          const apart = Math.min(
            Infinity,
            ...holes.flatMap(([x, y, d], i) =>
              holes.slice(i + 1).map(([p, q, e]) => Math.hypot(x - p, y - q) - (d + e) / 2),
            ),
          );
          fc.pre(Math.abs(inside) > 1e-5 && Math.abs(apart) > 1e-5);
          const texts = {
            width: '200mm',
            height: '200mm',
            'hole-at': holes.map((hole) => hole.map((v) => `${v.toFixed(9)}mm`).join(',')),
          };
          if (inside > 0 && apart > 0) expect(strayStrokes(sheetOf(texts))).toBe(0);
          else expect(() => sheetOf(texts)).toThrow(UserError);
        },
      ),
      { numRuns: 60 },
    );
  });

  it.each([
    [{ width: '100mm' }, 'request height missing', /200mm/],
    [{ diameter: '100mm' }, 'request diameter not-for-this-shape', /disc, ring/],
    [{ width: '100mm', height: '80mm', nose: '9mm' }, 'request nose not-for-this-shape', /gusset/],
    [{ shape: 'disc' }, 'request diameter missing', /outside diameter/],
    [{ shape: 'ring', diameter: '100mm' }, 'request bore missing', /inside diameter/],
    [{ shape: 'ring', diameter: '100mm', bore: '100mm' }, 'joint bore too-large', /less than 100\.0 mm/],
    [{ shape: 'disc', diameter: '100mm', bore: '120mm' }, 'joint bore too-large', /less than 100\.0 mm/],
    [
      { width: '100mm', height: '80mm', 'corner-radius': '41mm' },
      'joint corner-radius corners-too-large',
      /at most 40\.0 mm/,
    ],
    [
      { width: '100mm', height: '80mm', hole: '30mm', edge: '10mm' },
      'joint hole hole-leaves-plate',
      /less than 20\.0 mm/,
    ],
    [
      { width: '100mm', height: '80mm', hole: '30mm', edge: '40mm' },
      'joint hole holes-overlap',
      /smaller or fewer/,
    ],
    [{ width: '100mm', height: '80mm', hole: '10mm', edge: '60mm' }, 'joint edge edge-too-wide', /50\.0 mm/],
    [
      { width: '100mm', height: '80mm', hole: '120mm', 'hole-at': '50mm,40mm' },
      'joint hole hole-leaves-plate',
      /less than 80\.0 mm/,
    ],
    [{ width: '100mm', height: '80mm', hole: '12mm' }, 'request hole no-place', /hole-at/],
    [{ width: '100mm', height: '80mm', edge: '20mm' }, 'request hole missing', /18mm/],
    [
      { shape: 'disc', diameter: '100mm', bore: '60mm', hole: '10mm', holes: '4', circle: '65mm' },
      'joint bore bore-meets-holes',
      /less than 55\.0 mm/,
    ],
    [
      {
        shape: 'base',
        width: '200mm',
        height: '200mm',
        hole: '20mm',
        edge: '60mm',
        pipe: 'OD 114.3mm wall 6mm',
      },
      'joint hole hole-under-stock',
      /further out/,
    ],
    [
      { shape: 'gusset', width: '100mm', height: '80mm', snip: '80mm' },
      'joint snip too-large',
      /less than 80\.0 mm/,
    ],
    [
      { shape: 'gusset', width: '100mm', height: '80mm', nose: '90mm' },
      'joint nose nose-too-large',
      /smaller/,
    ],
    [
      { shape: 'gusset', width: '100mm', height: '80mm', cope: 'OD 60mm wall 4mm', 'cope-at': '300mm,0mm' },
      'joint cope cope-misses',
      /cope-at/,
    ],
    [
      { shape: 'gusset', width: '100mm', height: '80mm', hole: '8mm', edge: '10mm' },
      'request holes no-pattern-here',
      /hole-at/,
    ],
    [{ shape: 'cap' }, 'request pipe missing', /NPS 4/],
    [
      { shape: 'cap', pipe: 'OD 21.3mm wall 2.8mm', fit: 'inside', clearance: '9mm' },
      'joint clearance no-cap-left',
      /less than 7\.9 mm/,
    ],
  ] as const)('refuses %o', (texts, what, hint) => {
    const found = refused('plate', { units: 'mm', ...texts });
    expect(found.what).toBe(what);
    expect(found.hint).toMatch(hint);
  });

  it('center lines run through the middle', async () => {
    const file = await printPlate({ width: '120mm', height: '80mm' });
    const lines = readLines(file, 'plate', 'punch');
    expect(lines).toHaveLength(2);
  });
});
