import { describe, expect, it } from 'vitest';
import { makeResults, makeWrittenSheets, readRequest, UserError, type Texts } from '../../../src/index.ts';
import { rollUp } from '../../support/fit-up.ts';
import { layerPoints, printAndRead, worst } from '../../support/print.ts';

const DEGREE = Math.PI / 180;
const READ: Texts = {
  pipe: 'OD 273.1mm wall 9mm',
  readings: '152mm,148.5mm,149mm,151.5mm',
  'reading-diameter': '280mm',
};

describe('an end out of square', () => {
  /** Worked by hand: top 152, bottom 148.5, left 149, right 151.5 on 280: .7162°, −.5116° (left to right), in all .8801°. */
  it('four readings', () => {
    const { tilt } = makeResults(readRequest('trim', READ)) as {
      tilt: { across0: number; across90: number; total: number; station: number };
    };
    expect(tilt.across0 / DEGREE).toBeCloseTo(0.7162, 4);
    expect(tilt.across90 / DEGREE).toBeCloseTo(-0.5116, 4);
    expect(tilt.total / DEGREE).toBeCloseTo(0.8801, 4);
    // Lowest toward the long readings: top and right, that is between station 0 and 270.
    expect(tilt.station / DEGREE).toBeCloseTo(324.46, 2);
  });

  it('the cut is square, and the end as measured stands over it by the readings, from the bytes of the print', async () => {
    const { file } = await printAndRead('trim', { ...READ, allowance: '1mm', paper: '36in-roll' });
    const roll = { od: 273.1, paper: 0.1 };
    const cut = layerPoints(file, 'trim', 'cut').map((p) => rollUp(p, roll));
    expect(worst(cut.map(({ z }) => z))).toBeLessThan(0.001);
    // Readings fall by 3.5 from top to bottom and by 2.5 from right to left, over 280: the end rises so much less.
    const end = layerPoints(file, 'trim', 'reference')
      .map((p) => rollUp(p, roll))
      .filter(({ z }) => z > 0.5);
    expect(end.length).toBeGreaterThan(100);
    const low = (Math.hypot(3.5, 2.5) / 280) * (273.1 / 2);
    const off = end.map(({ x, y, z }) => z - (1 + low - (3.5 / 280) * x + (2.5 / 280) * y));
    // Other lines of this layer stand upright at the seam; they are not of the end.
    expect(off.filter((value) => Math.abs(value) < 0.01).length).toBeGreaterThan(100);
    expect(Math.min(...end.filter((_, i) => Math.abs(off[i]!) < 0.01).map(({ z }) => z))).toBeCloseTo(1, 2);
  });

  it('a cut set below the lowest place takes that much off there too', () => {
    const saidOf = (more: Texts): string => {
      const [sheet] = makeWrittenSheets(readRequest('trim', { ...READ, ...more }));
      return [...sheet!.subject, ...sheet!.steps].join(' ');
    };
    // Worked by hand from the readings: 273.1 tan .8801° = 4.195 across the pipe.
    const through = saidOf({});
    expect(through).toContain('through its lowest place: the least that is lost');
    expect(through).toContain('nothing comes off at station 324.5°, 4.2 mm');
    const lower = saidOf({ allowance: '3mm' });
    expect(lower).toContain('The cut goes 3.0 mm (1/8″) below its lowest place ');
    expect(lower).not.toContain('the least that is lost');
    expect(lower).not.toContain('nothing comes off');
    expect(lower).toContain('3.0 mm (1/8″) comes off at station 324.5°, 7.2 mm');
  });

  it('readings that do not close are told', () => {
    const [sheet] = makeWrittenSheets(readRequest('trim', { ...READ, readings: '152mm,148mm,149mm,153mm' }));
    expect(sheet!.cautions[0]).toMatch(/do not agree: top and bottom add up to 2\.0 mm .* less/);
  });
});

describe('out-of-round', () => {
  it('both ovalities, named', () => {
    const [sheet] = makeWrittenSheets(
      readRequest('trim', { pipe: 'DN 150 sch 40', diameters: '0 104mm, 90 96mm' }),
    );
    expect(sheet!.name).toBe('out-of-round');
    const facts = new Map(sheet!.facts);
    // (104 − 96) / 200 and / 100.
    expect(facts.get('Ovality, (max − min) / (max + min)')).toBe('4.00 %');
    expect(facts.get('Ovality, (max − min) / mean')).toBe('8.00 %');
  });

  it('comes after the trim where both were measured', () => {
    const names = makeWrittenSheets(
      readRequest('trim', { ...READ, diameters: '10 274mm, 70 273mm, 130 272mm' }),
    ).map(({ name }) => name);
    expect(names).toEqual(['trim', 'out-of-round']);
  });

  it.each<[Texts, string, string]>([
    [{}, 'request', 'missing'],
    [{ readings: '1mm,2mm,3mm' }, 'request', 'wrong-count'],
    [{ diameters: '0 100mm, 45 101mm' }, 'joint', 'not-determined'],
    [{ diameters: '0' }, 'request', 'not-understood'],
    [{ diameters: '0 -5mm, 90 5mm' }, 'request', 'not-positive'],
  ])('%j is refused', (texts, failure, code) => {
    const caught = (() => {
      try {
        makeWrittenSheets(readRequest('trim', { pipe: 'DN 100 sch 40', ...texts }));
      } catch (error) {
        return error as UserError;
      }
      return undefined;
    })();
    expect([caught?.failure, caught?.issues[0]?.code]).toEqual([failure, code]);
  });
});
