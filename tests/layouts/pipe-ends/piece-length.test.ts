import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  makeWrittenSheets,
  readRequest,
  UserError,
  type WrittenSheet,
  type Texts,
} from '../../../src/index.ts';

const degrees = Math.PI / 180;

const factOf = (sheet: WrittenSheet | undefined, label: string): number =>
  Number(/(-?[\d.]+) mm/.exec(sheet?.facts.find(([name]) => name === label)?.[1] ?? '')?.[1]);

describe('lengths', () => {
  const solve = (texts: Texts) =>
    makeWrittenSheets(readRequest('piece', { pipe: 'OD 168.3mm wall 7.11mm', ...texts }));

  /** Cutback D tan θ, half on each side of the center: NAVEDTRA 14251 pp. 3-18, 3-19. */
  it('two miters heel up are longer and shorter than their centers by one cutback', () => {
    const [sheet] = solve({ start: 'miter 22.5', finish: 'miter 22.5', length: '1000mm' });
    expect(factOf(sheet, 'Long point to long point')).toBeCloseTo(1069.7, 1);
    expect(factOf(sheet, 'Short point to short point')).toBeCloseTo(930.3, 1);
  });

  it('parallel miters leave every line as long as the centers', () => {
    const [, finish] = solve({ start: 'miter 22.5', finish: 'miter 22.5', roll: '180', length: '1000mm' });
    const rows = finish?.tables[1]?.rows ?? [];
    expect(rows).toHaveLength(8);
    for (const row of rows) expect(row[1]).toBe('1000.0');
  });

  /** Branch lengths from the axis crossing, equal tee R = r = 84.15 mm: 84.150 at 0°, 32.203 at 67.5°, 0 at 90° (Apostol & Mnatsakanian 2007, example 8). */
  it('two saddles on their own size take a radius off each end at the short point', () => {
    const [sheet] = solve({
      start: 'saddle OD 168.3mm wall 7.11mm',
      finish: 'saddle OD 168.3mm wall 7.11mm',
      length: '1000mm',
      contact: 'od',
    });
    expect(factOf(sheet, 'Short point to short point')).toBeCloseTo(1000 - 2 * 84.15, 1);
    expect(factOf(sheet, 'Long point to long point')).toBeCloseTo(1000, 1);
  });

  it('the reference edges are as far apart as the centers less both edges’ own distances', () => {
    const [start, finish] = solve({ start: 'miter 30', finish: 'miter 10', length: '800mm', units: 'mm' });
    const edges = factOf(start, 'Reference edge to center') + factOf(finish, 'Reference edge to center');
    expect(factOf(start, 'Between reference edges')).toBeCloseTo(800 - edges, 6);
  });

  it('is the same piece whichever points the length runs between', () => {
    const base = { start: 'miter 30', finish: 'saddle OD 219.1mm wall 8mm angle 70 offset 9mm', roll: '41' };
    const [first] = solve({ ...base, length: '700mm', between: 'centers' });
    for (const [between, label] of [
      ['overall', 'Long point to long point'],
      ['long-points', 'Long point to long point'],
      ['short-points', 'Short point to short point'],
    ] as const) {
      const [again] = solve({ ...base, length: `${factOf(first, label)}mm`, between });
      expect(Math.abs(factOf(again, 'Center to center') - 700)).toBeLessThanOrEqual(0.11);
    }
  });
});

const refusal = (texts: Texts): UserError => {
  try {
    makeWrittenSheets(readRequest('piece', texts));
  } catch (error) {
    if (error instanceof UserError) return error;
    throw error;
  }
  throw new Error('it was not refused');
};

describe('what cannot be made', () => {
  it('a length shorter than its two cutbacks, with the limit', () => {
    const texts = { pipe: 'NPS 4 sch 40', start: 'miter 22.5', finish: 'miter 60' };
    const error = refusal({ ...texts, length: '76.2mm', units: 'mm' });
    expect(error.failure).toBe('joint');
    expect(error.issues[0]?.path).toBe('length');
    // Both throats lie at station 180: half of D tan 22.5° and of D tan 60°.
    const limit = 57.15 * (Math.tan(22.5 * degrees) + Math.tan(60 * degrees));
    expect(Number(/([\d.]+) mm/.exec(error.issues[0]?.hint ?? '')?.[1])).toBeCloseTo(limit, 1);
    expect(makeWrittenSheets(readRequest('piece', { ...texts, length: `${limit + 0.05}mm` }))).toHaveLength(
      2,
    );
    expect(refusal({ ...texts, length: `${limit - 0.05}mm` }).failure).toBe('joint');
  });

  it('a saddle that hangs over, told by its end', () => {
    const error = refusal({
      pipe: 'NPS 6 sch 40',
      start: 'square',
      finish: 'saddle NPS 4 sch 40',
      length: '1m',
    });
    expect([error.failure, error.issues[0]?.path]).toEqual(['joint', 'finish']);
  });

  it.each([
    'bevel 30',
    'miter 95',
    'miter',
    'square 3',
    'saddle',
    'saddle NPS 6 sch 40 angle 0',
    'miter 20 gap 80mm',
    'saddle NPS 6 sch 40 lean 3',
  ])('an end that is not understood: %s', (start) => {
    const error = refusal({ pipe: 'NPS 4 sch 40', start, finish: 'square', length: '1m' });
    expect([error.failure, error.issues[0]?.path]).toEqual(['request', 'start']);
    expect(error.issues[0]?.hint).not.toBe('');
  });
});

describe('any piece', () => {
  it('is refused in words or has two closed finite cut lines', () => {
    const end = fc.oneof(
      fc.constant('square'),
      fc.double({ min: 1, max: 75, noNaN: true }).map((a) => `miter ${a.toFixed(3)}`),
      fc
        .tuple(
          fc.double({ min: 25, max: 155, noNaN: true }),
          fc.double({ min: -80, max: 80, noNaN: true }),
          fc.integer({ min: 90, max: 600 }),
        )
        .map(([a, e, od]) => `saddle OD ${od}mm wall 6mm angle ${a.toFixed(3)} offset ${e.toFixed(3)}mm`),
    );
    fc.assert(
      fc.property(
        end,
        end,
        fc.integer({ min: -360, max: 360 }),
        fc.integer({ min: 50, max: 3000 }),
        (start, finish, roll, length) => {
          let sheets: readonly WrittenSheet[];
          try {
            sheets = makeWrittenSheets(
              readRequest('piece', {
                pipe: 'OD 114.3mm wall 6.02mm',
                start,
                finish,
                roll: String(roll),
                length: `${length}mm`,
              }),
            );
          } catch (error) {
            expect(error).toBeInstanceOf(UserError);
            return;
          }
          for (const sheet of sheets) {
            const cut = sheet.marks.find((mark) => mark.role === 'cut');
            if (cut?.kind !== 'stroke') throw new Error('no cut line');
            const last = cut.path.segments.at(-1)?.to;
            expect(last?.y).toBeCloseTo(cut.path.start.y, 6);
            expect((last?.x ?? 0) - cut.path.start.x).toBeCloseTo(Math.PI * 114.4, 6);
            expect(cut.path.segments.every(({ to }) => Number.isFinite(to.x) && Number.isFinite(to.y))).toBe(
              true,
            );
          }
        },
      ),
      { numRuns: 40 },
    );
  });
});
