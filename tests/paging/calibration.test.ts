import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Issue, UserError } from '../../src/issue.ts';
import { formatCalibration, parseCalibration, readDay, stretchOf } from '../../src/paging/calibration.ts';
import { calibrationBars, paperKey } from '../../src/paging/calibration-bars.ts';
import { readCalibration } from '../../src/paging/calibration-reading.ts';
import { makeCalibrationSheet } from '../../src/paging/calibration-sheet.ts';
import { paperNames, parsePaper } from '../../src/paging/paper.ts';
import { findCollisions, findInkInMargins } from './page-checks.ts';

/** What a request is refused for. */
const refusedIssue = (run: () => unknown): Issue => {
  try {
    run();
  } catch (error) {
    if (error instanceof UserError && error.failure === 'request' && error.issues[0]) return error.issues[0];
    throw error;
  }
  throw new Error('nothing was refused');
};

const a4 = parsePaper('a4');
const percent = fc.integer({ min: -2000, max: 2000 }).map((n) => 1 + n / 1e5);
const day = fc.date({ min: new Date('2020-01-01'), max: new Date('2099-12-31'), noInvalidDate: true });

describe('a calibration', () => {
  it('reads back as it was written', () => {
    fc.assert(
      fc.property(percent, percent, day, (across, along, on) => {
        const date = on.toISOString().slice(0, 10);
        const read = parseCalibration(formatCalibration({ across, along, date }));
        expect(read.across).toBeCloseTo(across, 12);
        expect(read.along).toBeCloseTo(along, 12);
        expect(read.date).toBe(date);
      }),
    );
  });

  it.each([
    '97.9% across, 100% along, 2026-03-14',
    '100% across, 102.1% along, 2026-03-14',
    '100% across, 100% along, 2026-13-14',
    '100% across, 100% along',
    '1e2% across, 100% along, 2026-03-14',
    '-100% across, 100% along, 2026-03-14',
    '',
  ])('is refused as %j', (text) => {
    expect(refusedIssue(() => parseCalibration(text)).path).toBe('calibration');
  });

  it.each(['2026-02-29', '2026-00-10', '26-01-01', '2026-1-1', 'today'])('has no day %s', (text) => {
    expect(refusedIssue(() => readDay(text, 'date')).code).toBe('bad-date');
  });

  it('is undone by the stretch, whichever way the page is held', () => {
    fc.assert(
      fc.property(percent, percent, fc.boolean(), (across, along, isTurned) => {
        const size = isTurned ? { width: 297, height: 210 } : { width: 210, height: 297 };
        const { x, y } = stretchOf(a4, size, { across, along, date: '2026-03-14' });
        expect(x * (isTurned ? along : across)).toBeCloseTo(1, 12);
        expect(y * (isTurned ? across : along)).toBeCloseTo(1, 12);
      }),
    );
  });

  it('knows the width of a roll whichever way it lies', () => {
    const roll = parsePaper('24in-roll');
    const made = { across: 0.99, along: 1.01, date: '2026-03-14' };
    expect(stretchOf(roll, { width: 609.6, height: 400 }, made).x).toBeCloseTo(1 / 0.99, 12);
    expect(stretchOf(roll, { width: 1200, height: 609.6 }, made).y).toBeCloseTo(1 / 0.99, 12);
  });
});

describe('readings', () => {
  it('give the share of the bar that was printed', () => {
    const { across, along } = calibrationBars(a4);
    fc.assert(
      fc.property(percent, percent, fc.double({ min: 0, max: 0.29, noNaN: true }), (x, y, apart) => {
        const both = [across * x - apart, across * x + apart];
        const read = readCalibration(a4, both, [along * y], '2026-03-14');
        expect(read.across).toBeCloseTo(x, 9);
        expect(read.along).toBeCloseTo(y, 9);
      }),
    );
  });
});

describe('a calibration sheet', () => {
  const large = paperNames.filter((name) => !['a6', 'b6'].includes(name));

  it.each(large)('keeps out of the margins of %s, nothing on anything, bars of round length', (name) => {
    const paper = parsePaper(name);
    const bars = calibrationBars(paper);
    const step = bars.units === 'in' ? 12.7 : 10;
    for (const bar of [bars.across, bars.along]) {
      expect(bar / step).toBeCloseTo(Math.round(bar / step), 9);
      expect(bar).toBeLessThanOrEqual(1000);
    }
    const [page] = makeCalibrationSheet('shop laser', paper, 'soapstone calibrate …').pages;
    expect(findCollisions(page!)).toEqual([]);
    expect(findInkInMargins(page!, { margin: { sides: 6.5, ends: 13 } })).toEqual([]);
  });

  it.each(['a6', '100x400mm', '400x120mm'])('has no room on %s', (name) => {
    const issue = refusedIssue(() => makeCalibrationSheet('shop laser', parsePaper(name), 'soapstone'));
    expect(issue.code).toBe('small-paper');
  });

  it('is one for papers of one size, and measured in the units of the paper', () => {
    expect(paperKey(parsePaper('letter'))).toBe(paperKey(parsePaper('ansi-a')));
    expect(paperKey(parsePaper('24in-roll'))).toBe('roll 609.6 mm');
    expect(calibrationBars(parsePaper('letter'))).toMatchObject({ units: 'in', across: 190.5 });
    expect(calibrationBars(a4)).toMatchObject({ units: 'mm', across: 190, along: 240 });
    expect(calibrationBars(parsePaper('610mm-roll')).units).toBe('mm');
  });
});
