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

/** All that takes what another function has made, and where that comes from. */
const pipe = api.circleOutline(84.15, 7.11);
const wall = api.solidMate({ kind: 'plane', through: api.vec3(0, 0, 0), normal: api.vec3(0, 0, 1) });
const request = api.readRequest('band', { pipe: 'NPS 6 sch 40' });
const takers: Readonly<Record<string, readonly [(given: never) => unknown, hint: string]>> = {
  'makeBook, for its sheets': [(sheets) => api.makeBook(request, sheets), 'makeSheets'],
  renderSvg: [(sheets) => api.renderSvg(sheets, 'Bracket'), 'makeSheets'],
  renderDxf: [api.renderDxf, 'makeSheets'],
  renderCsv: [api.renderCsv, 'makeSheets'],
  identify: [(sheets) => api.identify('band', sheets), 'makeSheets'],
  paginate: [(sheets) => api.paginate(sheets, { ...request.paging, identity: '' }), 'makeSheets'],
  'paginate, for its options': [(options) => api.paginate([], options), 'readRequest'],
  renderStl: [api.renderStl, 'sceneMeshes'],
  readSpec: [api.readSpec, 'as a print carries them'],
  developEnd: [(outline) => api.developEnd(outline, { mate: wall, contact: 'od', gap: 0 }), 'circleOutline'],
  'developEnd, for its end': [(end) => api.developEnd(pipe, end), 'give a mate'],
  'developEnd, for its mate': [(mate) => api.developEnd(pipe, { mate, contact: 'od', gap: 0 }), 'solidMate'],
  developOpening: [(outline) => api.developOpening(outline, wall, false, 0), 'circleOutline'],
  'developOpening, for its body': [(body) => api.developOpening(pipe, body, false, 0), 'solidMate'],
  solidMate: [api.solidMate, 'sphere'],
  'solidMate, for its kind': [(kind) => api.solidMate({ kind } as never), 'sphere'],
};

describe.each([null, 5, 'NPS 6', {}, [{}]])('%o in place of what another function makes', (given) => {
  it.each(Object.entries(takers))('%s says what it takes', (_, [take, hint]) => {
    expect(refusal(() => take(given as never))).toEqual([
      ['request', 'wrong-type', expect.stringContaining(hint)],
    ]);
  });

  it('renderPdf says what it takes', async () => {
    const written = api.renderPdf(given as never);
    await expect(written).rejects.toBeInstanceOf(UserError);
    await expect(written).rejects.toMatchObject({
      issues: [{ code: 'wrong-type', path: 'book', hint: 'give what makeBook returns' }],
    });
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
