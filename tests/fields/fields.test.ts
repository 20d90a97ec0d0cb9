import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Values } from '../../src/fields/field.ts';
import {
  angleField,
  choiceField,
  countField,
  flagField,
  lengthField,
  markField,
  numberField,
  pipeField,
  textField,
} from '../../src/fields/fields.ts';
import { defineLayout } from '../../src/fields/layout.ts';
import { UserError } from '../../src/issue.ts';
import { countStations } from '../../src/sheets/band-fields.ts';

const bare = { units: undefined, path: 'x' };
const degrees = (value: number) => (value * Math.PI) / 180;

const failure = (run: () => unknown): UserError => {
  try {
    run();
  } catch (error) {
    if (error instanceof UserError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
};

describe('field types', () => {
  it('give the layout the values its fields read to', () => {
    const fields = {
      pipe: pipeField('pipe'),
      gap: lengthField('gap', { optional: true }),
      marks: markField('mark', { many: true }),
      rings: lengthField('rings', { list: true }),
      set: choiceField('set', ['on', 'in']),
    };
    const draw = (values: Values<typeof fields>): readonly (number | string | undefined)[] => {
      const od: number = values.pipe.od;
      const first: number | undefined = values.gap ?? values.marks[0]?.angle ?? values.rings[0];
      // @ts-expect-error a gap that may be left out is not always a number
      const gap: number = values.gap;
      const set: 'on' | 'in' = values.set;
      return [od, first, gap, set];
    };
    const layout = defineLayout({
      id: 'x',
      summary: '',
      family: 'pipe ends',
      words: [],
      examples: [],
      fields,
      draw: (values) => (draw(values), []),
    });
    expect(layout.fields).toBe(fields);
  });
});

describe('limits', () => {
  it.each([
    [
      'an angle at an open end',
      angleField('a', { above: 0, below: Math.PI / 2 }),
      '90',
      'more than 0° and less than 90°',
    ],
    ['a length in the units of the person: inches', lengthField('l', { max: 254 }), '11in', '0 in to 10 in'],
    ['a length in the units of the person: mm', lengthField('l', { max: 254 }), '300mm', '0 mm to 254 mm'],
    ['a negative length', lengthField('l'), '-1mm', '0 mm to 50000 mm'],
    ['a count', countField('n', { min: 4, max: 8 }), '9', '4 to 8'],
    ['a number', numberField('n', { above: 0 }), '0', 'more than 0'],
    ['a mark beyond a turn', markField('m'), '361:lug', '-360'],
  ])('name the range of %s', (_what, field, text, range) => {
    const error = failure(() => field.parse(text, bare));
    expect(error.failure).toBe('request');
    expect(error.issues[0]?.hint).toContain(range);
    expect(error.issues[0]?.path).toBe('x');
  });

  it('hold for every number', () => {
    const field = angleField('a', { min: degrees(10), max: degrees(80) });
    fc.assert(
      fc.property(fc.integer({ min: -360_00, max: 360_00 }), (hundredths) => {
        const read = () => field.parse(String(hundredths / 100), bare);
        if (hundredths >= 10_00 && hundredths <= 80_00)
          expect(read()).toBeCloseTo(degrees(hundredths / 100), 12);
        else expect(read).toThrow(UserError);
      }),
    );
  });
});

describe('refusals', () => {
  it.each([
    ['length', lengthField('l'), ['NaN', '1e9', 'Infinity', '5', '1,5mm', '']],
    ['angle', angleField('a'), ['NaN', '1e9', '22,5', 'x', '']],
    ['count', countField('n'), ['NaN', '1e9', '1.5', '0x10', ' ']],
    ['number', numberField('n'), ['NaN', '1e9', '1,5', '.', 'Infinity']],
    ['choice', choiceField('c', ['on', 'in']), ['off', 'o', '']],
    ['flag', flagField('f'), ['maybe', '1']],
    ['text', textField('t'), ['a\u0007b', 'a\nb', 'x'.repeat(81)]],
    ['list', lengthField('l', { list: true }), ['1mm,,2mm', '1mm;2mm', ',']],
  ] as const)('of a %s are errors with a hint', (_kind, field, texts) => {
    for (const text of texts) {
      const error = failure(() => field.parse(text, bare));
      expect(error.failure).toBe('request');
      expect(error.issues[0]?.hint).not.toBe('');
    }
  });
});

describe('readings', () => {
  it('of marks, lists, flags and texts', () => {
    expect(markField('m').parse('37.5:lug: upper', bare)).toEqual({
      angle: degrees(37.5),
      label: 'lug: upper',
    });
    expect(markField('m').parse('90', bare)).toEqual({ angle: degrees(90), label: '' });
    expect(lengthField('l', { list: true }).parse('25mm, 1in', bare)).toEqual([25, 25.4]);
    expect(flagField('f').parse('Yes', bare)).toBe(true);
    expect(textField('t').parse('  Pump house ', bare)).toBe('Pump house');
  });
});

describe('countStations', () => {
  it.each([
    [{ step: undefined, divisions: undefined }, 24],
    [{ step: degrees(15), divisions: undefined }, 24],
    [{ step: degrees(22.5), divisions: undefined }, 16],
    [{ step: undefined, divisions: 12 }, 12],
  ])('reads %j', (values, count) => {
    expect(countStations(values)).toBe(count);
  });

  it('takes every whole division as a step', () => {
    fc.assert(
      fc.property(fc.integer({ min: 4, max: 720 }), (count) => {
        expect(countStations({ step: (2 * Math.PI) / count, divisions: undefined })).toBe(count);
      }),
    );
  });

  it('refuses a step that leaves a remainder, and names the nearest that do not', () => {
    const { issues } = failure(() => countStations({ step: degrees(7), divisions: undefined }));
    expect(issues[0]?.hint).toContain('6.9231° or 7.0588°');
  });

  it('refuses a step and divisions together', () => {
    expect(failure(() => countStations({ step: degrees(15), divisions: 24 })).failure).toBe('request');
  });
});
