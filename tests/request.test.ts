import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Sheet } from '../src/drawing/model.ts';
import { commonFields } from '../src/fields/common.ts';
import { describeInput, listInputs } from '../src/fields/describe.ts';
import { flagField, lengthField, markField, pipeField } from '../src/fields/fields.ts';
import { defineLayout } from '../src/fields/layout.ts';
import { identify } from '../src/identity.ts';
import { UserError } from '../src/issue.ts';
import { findNearMiss } from '../src/near-miss.ts';
import { makeSheets } from '../src/print.ts';
import { readRequest, type Texts } from '../src/request.ts';

/** A made-up kind of template with a field of every sort; it draws nothing. */
const collar = defineLayout({
  id: 'collar',
  summary: 'a collar',
  family: 'pipe ends',
  words: [],
  fields: {
    pipe: pipeField('pipe'),
    gap: lengthField('gap', { default: '0mm' }),
    longSide: lengthField('long side', { optional: true }),
    rings: lengthField('rings', { list: true, optional: true }),
    mark: markField('mark', { many: true }),
    split: flagField('in two halves'),
  },
  examples: ['collar --pipe "NPS 4 sch 40"'],
  draw: () => [],
});
const read = (texts: Texts) => readRequest('collar', texts, [collar]);
const pipe = 'NPS 4 sch 40';

const failure = (run: () => unknown): UserError => {
  try {
    run();
  } catch (error) {
    if (error instanceof UserError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
};

describe('readRequest', () => {
  it('reads values in mm and radians, and keeps the texts that were used', () => {
    const { values, spec } = read({
      pipe,
      'long-side': '1in',
      rings: '25mm,50mm',
      mark: ['90:lug', '180'],
      split: 'yes',
    });
    // ASME B36.10M: NPS 4 is 4.500 in outside, schedule 40 is 0.237 in.
    expect(values).toMatchObject({ gap: 0, longSide: 25.4, rings: [25, 50], split: true });
    expect(values.pipe).toMatchObject({ od: 114.3 });
    expect(values.mark).toEqual([
      { angle: Math.PI / 2, label: 'lug' },
      { angle: Math.PI, label: '' },
    ]);
    expect(spec).toMatchObject({
      layout: 'collar',
      pipe,
      gap: '0mm',
      'long-side': '1in',
      mark: ['90:lug', '180'],
      overlap: '10mm',
    });
  });

  it('makes the same request again from its spec', () => {
    const first = read({ pipe, mark: '45:a', title: 'Riser', units: 'mm', gap: '2' });
    const { layout, ...texts } = first.spec;
    const again = readRequest(layout, texts, [collar]);
    expect(again.spec).toEqual(first.spec);
    expect(JSON.stringify(again)).toBe(JSON.stringify(first));
  });

  it('tells everything wrong at once', () => {
    const { failure: kind, issues } = failure(() =>
      read({ gap: '5', lenght: '4mm', 'long-side': ['1in', '2in'], overlap: '', paper: 'a44' }),
    );
    expect(kind).toBe('request');
    expect(issues.map(({ path, code }) => [path, code])).toEqual([
      ['lenght', 'unknown-input'],
      ['pipe', 'missing'],
      ['gap', 'bare-number'],
      ['long-side', 'given-twice'],
      ['overlap', 'no-value'],
      ['paper', 'unknown-paper'],
    ]);
  });

  it.each([
    [{ pipe: 'NPS 4 sch 40' }, 'in'],
    [{ pipe: 'DN 100 sch 40' }, 'mm'],
    [{ pipe: 'OD 4.5in wall 1/4in' }, 'in'],
    [{ pipe: 'OD 114.3mm wall 6mm' }, 'mm'],
    [{ pipe: 'NPS 4 sch 40', gap: '3mm' }, 'in'],
    [{ pipe: 'NPS 4 sch 40', units: 'mm' }, 'mm'],
    [{ pipe: 'girth 1\'-2 1/8" wall 1/4"' }, 'in'],
  ])('writes first the units that %j tells: %s', (texts, units) => {
    expect(read(texts).setting.units).toBe(units);
  });

  it.each([
    [{}, 'letter', { sides: 6.5, ends: 13 }],
    [{ units: 'mm' }, 'a4', { sides: 6.5, ends: 13 }],
    [{ paper: 'A3', margin: '5mm' }, 'a3', { sides: 5, ends: 5 }],
    [{ margin: '1/4in,1/2in' }, 'letter', { sides: 6.35, ends: 12.7 }],
  ])('lays %j on %s', (texts, name, margin) => {
    expect(read({ pipe, ...texts }).paging).toMatchObject({ paper: { name }, margin });
  });

  it('refuses more than two margins', () => {
    expect(failure(() => read({ pipe, margin: '1mm,2mm,3mm' })).issues[0]?.message).toBe(
      '3 values are given',
    );
  });

  it('reads bare numbers only in the units that were set', () => {
    expect(read({ pipe, gap: '2', units: 'in' }).values.gap).toBeCloseTo(50.8, 12);
    expect(read({ pipe, gap: '2', units: 'mm' }).values.gap).toBe(2);
    expect(failure(() => read({ pipe, gap: '2' })).issues[0]?.code).toBe('bare-number');
  });

  it('never fails on any text but with a request error', () => {
    fc.assert(
      fc.property(fc.constantFrom(...listInputs(collar).keys()), fc.string(), (name, text) => {
        try {
          read({ pipe, [name]: text });
        } catch (error) {
          expect(error).toBeInstanceOf(UserError);
          expect((error as UserError).failure).toBe('request');
        }
      }),
    );
  });

  it('names the layout that was probably meant', () => {
    expect(failure(() => readRequest('colar', { pipe }, [collar])).issues[0]?.hint).toBe(
      'did you mean collar?',
    );
  });
});

describe('the common inputs', () => {
  it('all have help and examples that read', () => {
    for (const [name, field] of Object.entries(commonFields)) {
      expect(describeInput(field).length).toBeGreaterThan(10);
      for (const text of [field.example, field.default].filter((text) => text !== undefined))
        expect(() => field.parse(text, { units: undefined, path: name })).not.toThrow();
    }
  });
});

describe('findNearMiss', () => {
  it.each([
    ['heder', 'header'],
    ['haeder', 'header'],
    ['paper-thicknes', 'paper-thickness'],
    ['orient', 'orientation'],
    ['xyzzy', undefined],
    ['q', undefined],
  ])('of %s is %s', (word, near) => {
    expect(findNearMiss(word, ['header', 'paper', 'paper-thickness', 'orientation', 'gap'])).toBe(near);
  });
});

describe('identify', () => {
  const sheet = (x: number, role: 'cut' | 'text', text = 'a'): Sheet => ({
    name: 'collar',
    heading: text,
    subject: [],
    marks: [
      {
        kind: 'stroke',
        role,
        path: { start: { x: 0, y: 0 }, segments: [{ kind: 'line', to: { x, y: 1 } }], closed: false },
        line: 'continuous',
        width: 0.5,
      },
    ],
    bounds: { minX: 0, minY: 0, maxX: 1, maxY: 1 },
    steps: [],
    facts: [],
    tables: [],
    pictures: [],
    cautions: [],
  });

  it('is eight letters and digits that cannot be mistaken', () => {
    expect(identify({ layout: 'collar' }, [sheet(1, 'cut')])).toMatch(
      /^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$/,
    );
  });

  it('changes with the request and with any line that reaches the steel, not with lettering', () => {
    const base = identify({ gap: '1mm' }, [sheet(100, 'cut')]);
    expect(identify({ gap: '1mm' }, [sheet(100, 'cut', 'b')])).toBe(base);
    expect(identify({ gap: '1mm' }, [sheet(100 + 1e-9, 'cut')])).toBe(base);
    expect(identify({ gap: '2mm' }, [sheet(100, 'cut')])).not.toBe(base);
    expect(identify({ gap: '1mm' }, [sheet(100.01, 'cut')])).not.toBe(base);
    expect(identify({ gap: '1mm' }, [sheet(1, 'text')])).toBe(identify({ gap: '1mm' }, [sheet(2, 'text')]));
  });

  const of = (layout: string, texts: Texts): string => {
    const request = readRequest(layout, texts);
    return identify(request.understood, makeSheets(request));
  };

  it('is one for every way to write the same', () => {
    const pipes = [
      'NPS 6 sch 40',
      '6 sch40',
      '6in sch 40',
      '6" sch 40',
      'NPS6 SCH40',
      'sch40 6',
      ' nps 6  Sch. 40 ',
    ];
    expect(new Set(pipes.map((stock) => of('band', { stock }))).size).toBe(1);
    const lengths = ['3-1/2in', '3.5in', '3 1/2"', '0′-3 1/2″'];
    expect(new Set(lengths.map((height) => of('band', { stock: pipes[0] ?? '', height }))).size).toBe(1);
    const asked = { branch: 'NPS 2 sch 40', units: 'in', paper: 'letter', gap: '0mm' };
    const short = { branch: '2 sch40' };
    expect(of('branch', { ...short, header: '6 sch 40' })).toBe(
      of('branch', { ...asked, header: 'NPS 6 sch 40', angle: '90deg' }),
    );
    expect(of('branch', { ...short, on: 'elbow NPS 8 LR  Heel' })).toBe(
      of('branch', { ...short, on: 'elbow NPS 8 LR heel' }),
    );
  });

  it('is another for another piece, though its lines are the same', () => {
    const branch = 'NPS 2 sch 40';
    const bodies = [
      'elbow NPS 8 LR heel',
      'elbow NPS 8 LR heel at 45.001deg',
      'elbow NPS 8 LR throat',
      'pipe NPS 8 sch 40',
    ];
    expect(new Set(bodies.map((on) => of('branch', { branch, on }))).size).toBe(bodies.length);
    const stocks = ['NPS 6 sch 40', 'NPS 6 STD', 'DN 150 sch 40', 'OD 6.625in wall 0.28in'];
    expect(new Set(stocks.map((stock) => of('band', { stock, units: 'in', paper: 'letter' }))).size).toBe(4);
    const band = { stock: 'NPS 6 sch 40' };
    const marks: readonly Texts[] = [
      {},
      { piece: 'S12' },
      { piece: 'S13' },
      { revision: 'B' },
      { paper: 'a4' },
      { fraction: '32' },
    ];
    expect(new Set(marks.map((more) => of('band', { ...band, ...more }))).size).toBe(marks.length);
  });
});
