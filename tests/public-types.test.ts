import { describe, expect, it } from 'vitest';
import * as api from '../src/index.ts';

const { UserError } = api;

/** Everything that reads a text, and everything that takes a request. */
const readers = [
  'parsePipe',
  'parseStock',
  'parseLength',
  'parseAngle',
  'parsePaper',
  'parseCalibration',
] as const;
const makers = [
  'makeSheets',
  'makeWrittenSheets',
  'makeCutterSheets',
  'makeBook',
  'makeResults',
  'makeScene',
] as const;

const refusal = (run: () => unknown): readonly unknown[] => {
  try {
    run();
  } catch (error) {
    if (error instanceof UserError) return error.issues.map(({ code, hint }) => [error.failure, code, hint]);
    throw error;
  }
  throw new Error('a wrong type was taken');
};

describe.each([undefined, null, 5, {}, []])('%o from a program without types', (given) => {
  it.each(readers)('%s asks for a text', (name) => {
    const read = api[name] as (text: unknown) => unknown;
    expect(refusal(() => read(given))).toEqual([
      ['request', 'wrong-type', expect.stringMatching(/^give a text such as ".+"$/)],
    ]);
  });

  it('readBodies asks for a text', () => {
    const read = api.readBodies as (text: unknown, reading: api.Reading) => unknown;
    expect(refusal(() => read(given, { units: 'mm', path: 'on' }))).toEqual([
      ['request', 'wrong-type', expect.stringMatching(/^give a text such as ".+"$/)],
    ]);
  });

  it.each(makers)('%s asks for a request', (name) => {
    const make = api[name] as (request: unknown) => unknown;
    expect(refusal(() => make(given))).toEqual([['request', 'wrong-type', 'give what readRequest returns']]);
  });
});

it('the texts they name as examples read', () => {
  // ASME B36.10M: NPS 6 has an outside diameter of 6.625 in.
  expect(api.parsePipe('NPS 6 sch 40').od).toBeCloseTo(168.275, 6);
  expect(api.parseStock('NPS 6 sch 40').kind).toBe('pipe');
  expect(api.parseLength('168.3mm')).toBeCloseTo(168.3, 9);
  expect(api.parseAngle('22.5')).toBeCloseTo(Math.PI / 8, 12);
  expect(api.parsePaper('letter').width).toBeCloseTo(8.5 * 25.4, 9);
  expect(api.parseCalibration('99.3% across, 100.4% along, 2026-03-14').across).toBeCloseTo(0.993, 9);
  expect(api.readBodies('pipe NPS 6 sch 40', { units: 'in', path: 'on' })).toHaveLength(1);
});
