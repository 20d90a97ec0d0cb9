import { describe, expect, it } from 'vitest';
import { parseElbow } from '../../src/stock/elbow.ts';
import { parseReducer } from '../../src/stock/reducer.ts';
import { tableRows } from '../../src/stock/clauses.ts';
import { FITTING_B16_9 } from '../../src/stock/tables/fitting-b16-9.ts';
import { refusalOf } from '../units/refusal.ts';

describe('elbows', () => {
  /** ASME B16.9 A and B in mm, by an open data set checked in part against makers' pages (second-hand). */
  it.each([
    [50, 76, 35],
    [80, 114, 51],
    [100, 152, 64],
    [150, 229, 95],
    [200, 305, 127],
    [300, 457, 190],
    [350, 533, 222],
    [600, 914, 381],
  ])('DN %i LR: A %i, B %i mm', (dn, a, b) => {
    expect(parseElbow(`DN ${dn} LR`)).toMatchObject({
      takeOff90: a,
      takeOff45: b,
      source: 'ASME B16.9 metric table',
    });
  });

  it('NPS reads inches; the bend radius is nominal in both systems', () => {
    expect(parseElbow('NPS 6 LR')).toEqual({
      designation: 'elbow NPS 6 LR',
      od: 168.275,
      wall: undefined,
      bendRadius: 228.6,
      takeOff90: 228.6,
      takeOff45: 95.25,
      source: 'ASME B16.9 inch table',
    });
    expect(parseElbow('elbow DN 150 SR sch 40S')).toEqual({
      designation: 'elbow DN 150 SR sch 40S',
      od: 168.3,
      wall: 7.11,
      bendRadius: 152.4,
      takeOff90: 152,
      takeOff45: undefined,
      source: 'ASME B16.9 metric table',
    });
    expect(parseElbow('nps 3/4 lr').bendRadius).toBe(38.1);
    expect(parseElbow('NPS 6LR wall 1/4in').wall).toBe(6.35);
    // As it is spoken: a size alone or with inch marks is NPS.
    for (const [text, plain] of [
      ['6" LR', 'NPS 6 LR'],
      ['elbow 6in LR', 'NPS 6 LR'],
      ['elbow 8 SR sch 40', 'NPS 8 SR sch 40'],
      ['1-1/2" LR', 'NPS 1 1/2 LR'],
    ] as const)
      expect(parseElbow(text)).toEqual(parseElbow(plain));
  });

  it('every elbow reads back from its own designation', () => {
    for (const [nps, dn, ...lengths] of tableRows(FITTING_B16_9)) {
      for (const text of [`NPS ${nps} LR`, `DN ${dn} LR STD`, ...(lengths[2] ? [`NPS ${nps} SR`] : [])]) {
        const elbow = parseElbow(text);
        expect(parseElbow(elbow.designation)).toEqual(elbow);
        expect(elbow.bendRadius).toBeGreaterThan(elbow.od / 2);
      }
    }
  });

  it.each([
    ['NPS 6', 'not-understood', /LR or SR/],
    ['NPS 6 LR SR', 'not-understood', /LR or SR/],
    ['NPS 6 LR 90', 'not-understood', /LR or SR/],
    ['NPS 6 DN 150 LR', 'not-understood', /LR or SR/],
    ['NPS 1/2 SR', 'no-short-radius', /NPS 1\/2/],
    ['NPS 26 LR', 'unknown-size', /NPS 26/],
    ['NPS 6 LR sch 30', 'unknown-schedule', /no schedule 30/],
  ])('refuses %s: %s', (text, code, message) => {
    const issue = refusalOf(() => parseElbow(text, { path: 'on' }));
    expect(issue).toMatchObject({ code, path: 'on' });
    expect(issue.message).toMatch(message);
  });
});

describe('reducers', () => {
  /** ASME B16.9 H by the large end, mm, from the same data set. */
  it.each([
    ['DN 50 x 25', 76],
    ['DN 150 x 100', 140],
    ['reducer DN 300x250', 203],
    ['DN 600 x 500', 508],
  ])('%s is %i mm long', (text, length) => {
    const reducer = parseReducer(text);
    expect(reducer.length).toBe(length);
    expect(parseReducer(reducer.designation)).toEqual(reducer);
  });

  it('NPS reads inches', () => {
    expect(parseReducer('NPS 6 × 4')).toEqual({
      designation: 'reducer NPS 6 x 4',
      largeOd: 168.275,
      smallOd: 114.3,
      length: 139.7,
      source: 'ASME B16.9 inch table',
    });
    expect(parseReducer('NPS 1-1/2 x 3/4').designation).toBe('reducer NPS 1 1/2 x 3/4');
  });

  it.each([
    ['NPS 6 x 6', 'not-smaller'],
    ['NPS 4 x 6', 'not-smaller'],
    ['NPS 6', 'not-understood'],
    ['NPS 6 x 4 x 2', 'not-understood'],
    ['NPS 6 x 7', 'unknown-size'],
    ['NPS 1/2 x 3/8', 'no-reducer'],
    ['NPS 30 x 24', 'unknown-size'],
  ])('refuses %s: %s', (text, code) => {
    expect(refusalOf(() => parseReducer(text)).code).toBe(code);
  });
});
