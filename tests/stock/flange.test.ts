import { describe, expect, it } from 'vitest';
import { parseFlange } from '../../src/stock/flange.ts';
import { tableRows } from '../../src/stock/clauses.ts';
import { FLANGE_B16_5 } from '../../src/stock/tables/flange-b16-5.ts';
import { refusalOf } from '../units/refusal.ts';

describe('flanges that are read', () => {
  /** ASME B16.5 rows by two open data sets that agree; hole, bolt circle and outside diameter in inches. */
  it.each([
    ['NPS 1/2 class 150', 4, 5 / 8, 2 + 3 / 8, 3.5, '1/2″'],
    ['NPS 6 class 150', 8, 7 / 8, 9.5, 11, '3/4″'],
    ['NPS 24 class 150', 20, 1 + 3 / 8, 29.5, 32, '1 1/4″'],
    ['NPS 20 class 150', 20, 1.25, 25, 27.5, '1 1/8″'],
    ['NPS 2-1/2 class 300', 8, 7 / 8, 5 + 7 / 8, 7.5, '3/4″'],
    ['NPS 6 class 300', 12, 7 / 8, 10 + 5 / 8, 12.5, '3/4″'],
    // ASME B16.5 drilling of the higher classes, inches, from memory of the inch tables.
    ['NPS 4 class 400', 8, 1, 7 + 7 / 8, 10, '7/8″'],
    ['NPS 8 class 600', 12, 1.25, 13.75, 16.5, '1 1/8″'],
    ['NPS 6 class 900', 12, 1.25, 12.5, 15, '1 1/8″'],
    ['NPS 10 class 1500', 12, 2, 19, 23, '1 7/8″'],
    ['NPS 2 class 2500', 8, 1 + 1 / 8, 6.75, 9.25, '1″'],
  ])('%s', (text, holes, hole, circle, outside, bolt) => {
    const flange = parseFlange(text);
    const isHigh = !/class (?:150|300)$/.test(text);
    const source = `ASME B16.5 inch table${isHigh ? ', outside diameter from memory' : ''}`;
    expect(flange).toMatchObject({ holes, bolt, source });
    expect(flange.holeDiameter).toBeCloseTo(hole * 25.4, 12);
    expect(flange.boltCircle).toBeCloseTo(circle * 25.4, 12);
    expect(flange.outsideDiameter).toBeCloseTo(outside * 25.4, 12);
  });

  it('DN reads the metric table, whose rims are rounded', () => {
    expect(parseFlange('flange dn 150 class 150')).toEqual({
      designation: 'DN 150 class 150',
      holes: 8,
      holeDiameter: 22.225,
      boltCircle: 241.3,
      outsideDiameter: 280,
      bolt: '3/4″',
      source: 'ASME B16.5 metric table',
    });
  });

  /** Chord from hole to hole, BC·sin(180°/n): the figures for these circles computed with published factors (.3827, .1951, .1564). */
  it.each([
    ['NPS 6 class 150', 92.342],
    ['NPS 4 class 150', 72.901],
    ['NPS 12 class 150', 111.758],
    ['NPS 16 class 150', 105.31],
    ['NPS 24 class 150', 117.216],
  ])('%s: hole to hole %f mm', (text, chord) => {
    const { boltCircle, holes } = parseFlange(text);
    expect(Math.abs(boltCircle * Math.sin(Math.PI / holes) - chord)).toBeLessThan(0.02);
  });

  it('every row reads back from its own designation', () => {
    for (const [rating, nps, dn] of tableRows(FLANGE_B16_5)) {
      for (const size of [`NPS ${nps}`, `DN ${dn}`]) {
        const flange = parseFlange(`${size} class ${rating}`);
        expect(parseFlange(flange.designation)).toEqual(flange);
      }
    }
  });
});

describe('flanges that are refused', () => {
  it.each([
    ['NPS 6 class 700', 'unknown-class', /700/, /150, 300, 400, 600, 900, 1500, 2500/],
    ['NPS 2 class 900', 'unknown-size', /NPS 2 is not .* class 1500 is used/, /3, 4, 5/],
    ['NPS 6', 'unknown-class', /no class/, /150, 300/],
    ['NPS 7 class 150', 'unknown-size', /NPS 7/, /5, 6, 8/],
    ['class 150', 'not-understood', /one size/, /NPS 6 class 150/],
    ['NPS 6 DN 150 class 150', 'not-understood', /one size/, /NPS 6 class 150/],
    ['6in class 150', 'not-understood', /6in/, /NPS 6 class 150/],
    ['', 'empty', /nothing/, /NPS 6 class 150/],
  ])('%s: %s', (text, code, message, hint) => {
    const issue = refusalOf(() => parseFlange(text));
    expect(issue.code).toBe(code);
    expect(issue.message).toMatch(message);
    expect(issue.hint).toMatch(hint);
  });
});
