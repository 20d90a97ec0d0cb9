import { describe, expect, it } from 'vitest';
import { makeResults, makeWrittenSheets, readRequest, UserError, type Texts } from '../../../src/index.ts';

const circleOf = (points: string, units = 'mm') =>
  (
    makeResults(readRequest('chord', { points, units })) as {
      circle: { center: [number, number]; radius: number; residuals: readonly number[]; spanned: number };
    }
  ).circle;

describe('chord by points', () => {
  /** SciPy cookbook, "Least squares circle", geometric fit of its first example: five decimals. */
  it('fits by least squares of the distances', () => {
    const { center, radius } = circleOf('9,34; 35,10; -13,6; 10,-14; 23,27; 0,-10');
    expect(center[0]).toBeCloseTo(10.50009, 5);
    expect(center[1]).toBeCloseTo(9.65995, 5);
    expect(radius).toBeCloseTo(23.33353, 5);
  });

  it('reads inches and feet, and three points exactly', () => {
    const { center, radius, residuals } = circleOf('0in,0in; 6in,0in; 0in,8in');
    // A right triangle of 6, 8, 10 stands on its diameter (Thales).
    expect(radius).toBeCloseTo(5 * 25.4, 9);
    expect(center).toEqual([expect.closeTo(3 * 25.4, 9), expect.closeTo(4 * 25.4, 9)]);
    for (const off of residuals) expect(Math.abs(off)).toBeLessThan(1e-9);
  });

  it('says how short the arc is, and what lies off', () => {
    const points = '0mm,0mm; 120mm,41mm; 250mm,60mm; 380mm,42mm; 500mm,0mm';
    const [sheet] = makeWrittenSheets(readRequest('chord', { points }));
    expect(sheet!.name).toBe('chord');
    expect(sheet!.cautions[0]).toMatch(/go around only 5\d° of the circle/);
    expect(sheet!.tables[0]!.rows).toHaveLength(5);
  });

  it.each<[Texts, string]>([
    [{ points: '0mm,0mm; 1mm,1mm' }, 'too-few-points'],
    [{ points: '0mm,0mm; 1mm,1mm; 2mm' }, 'not-a-point'],
    [{ points: '0mm,0mm; 1mm,1mm; 2mm,2mm' }, 'on-a-line'],
    [{ points: '0mm,0mm; 1mm,1mm; 2mm,5mm', rise: '3mm' }, 'given-twice'],
    [{ points: '0,0; 1,1; 2,5' }, 'bare-number'],
  ])('%j is refused', (texts, code) => {
    const caught = (() => {
      try {
        makeWrittenSheets(readRequest('chord', texts));
      } catch (error) {
        return error as UserError;
      }
      return undefined;
    })();
    expect(caught?.issues[0]?.code).toBe(code);
  });
});
