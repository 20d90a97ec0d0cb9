import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeResults, makeWrittenSheets, readRequest, UserError, type Texts } from '../../../src/index.ts';
import { runInside } from '../../support/command-line.ts';

const pipesOf = (texts: Texts): readonly number[] =>
  (makeResults(readRequest('makeup', texts)) as { pipes: readonly number[] }).pipes;

const IN = 25.4;

/**
 * Runs summed by hand from ASME B16.9 and B16.5 figures (elbow NPS 6 LR 9 in, DN 150 229 mm; 45° 3 3/4 in; tee NPS 6 5 5/8 in; reducer
 * NPS 6 5 1/2 in; cap NPS 6 3 1/2 in; weld-neck NPS 6 class 150 87 mm, class 300 97 mm): [run and parts, what each pipe must be].
 */
const runs: readonly (readonly [string, Texts, readonly number[]])[] = [
  ['two elbows', { run: '1000mm', start: 'elbow DN 150 LR', finish: 'elbow DN 150 LR' }, [1000 - 2 * 229]],
  [
    'two elbows, gaps',
    { run: '1000mm', start: 'elbow DN 150 LR', finish: 'elbow DN 150 LR', gap: '3mm' },
    [1000 - 458 - 6],
  ],
  [
    'in inches',
    { run: '48in', start: 'elbow NPS 6 LR', finish: 'elbow NPS 6 LR', gap: '1/8in' },
    [(48 - 18 - 0.25) * IN],
  ],
  [
    'a 45 and a 90',
    { run: '30in', start: 'elbow NPS 6 LR 45', finish: 'elbow NPS 6 LR' },
    [(30 - 3.75 - 9) * IN],
  ],
  ['short radius', { run: '30in', start: 'elbow NPS 6 SR', finish: 'elbow NPS 6 SR' }, [(30 - 12) * IN]],
  [
    'an elbow trimmed to 30°',
    { run: '30in', start: 'elbow NPS 6 LR turn 30', finish: 'cap NPS 6' },
    [(30 - 3.5 - 9 * Math.tan(Math.PI / 12)) * IN],
  ],
  [
    'elbow to flange',
    {
      run: '900mm',
      start: 'elbow DN 150 LR',
      finish: 'flange DN 150 class 150 weld-neck',
      gap: '3mm',
      gasket: '3mm',
    },
    [900 - 229 - 87 - 3 - 6],
  ],
  [
    'flange to flange',
    {
      run: '900mm',
      start: 'flange DN 150 class 300 weld-neck',
      finish: 'flange DN 150 class 300 weld-neck',
      gap: '3mm',
      gasket: '3mm',
    },
    [900 - 2 * 97 - 6 - 6],
  ],
  [
    'slip-on flanges',
    {
      run: '900mm',
      start: 'flange DN 150 class 150 slip-on back 8mm',
      finish: 'flange DN 150 class 150 slip-on back 8mm',
      gap: '3mm',
      gasket: '3mm',
    },
    [900 - 16 - 6],
  ],
  [
    'socket flanges, pull-back 1/16 in',
    {
      run: '900mm',
      start: 'flange DN 50 class 150 socket',
      finish: 'flange DN 50 class 150 socket',
      gap: '3mm',
    },
    [900 - 2 * 7 - (2 * 25.4) / 16],
  ],
  [
    'a class with its own length',
    {
      run: '900mm',
      start: 'flange DN 200 class 600 weld-neck length 133mm',
      finish: 'elbow DN 200 LR',
      gasket: '4mm',
    },
    [900 - 133 - 4 - 305],
  ],
  [
    'a tee between',
    { run: '2000mm', start: 'elbow DN 150 LR', between: 'tee DN 150', finish: 'elbow DN 150 LR', gap: '2mm' },
    [(2000 - 458 - 286 - 8) / 2, (2000 - 458 - 286 - 8) / 2],
  ],
  [
    'a tee at its place',
    {
      run: '2000mm',
      start: 'elbow DN 150 LR',
      between: 'tee DN 150 at 800mm',
      finish: 'elbow DN 150 LR',
      gap: '2mm',
    },
    [800 - 143 - 229 - 4, 1200 - 143 - 229 - 4],
  ],
  [
    'the issue’s own',
    {
      run: '2450mm',
      start: 'elbow NPS 6 LR',
      between: 'tee NPS 6, valve 267mm',
      finish: 'flange NPS 6 class 150 weld-neck',
      gap: '1/8in',
      gasket: '1/8in',
    },
    [1, 1, 1].map(() => (2450 - 228.6 - 285.75 - 267 - 87 - 7 * 3.175) / 3),
  ],
  [
    'a reducer joined straight to an elbow',
    { run: '40in', start: 'elbow NPS 6 LR', finish: 'reducer NPS 6 x 4 + elbow NPS 4 LR', gap: '1/8in' },
    [(40 - 9 - 5.5 - 6 - 3 / 8) * IN],
  ],
  [
    'a reducer between',
    { run: '40in', parts: 'elbow NPS 6 LR, reducer NPS 6 x 4, elbow NPS 4 LR' },
    [1, 1].map(() => ((40 - 9 - 5.5 - 6) / 2) * IN),
  ],
  [
    'a flanged valve',
    {
      run: '3000mm',
      parts:
        'elbow DN 150 LR, flange DN 150 class 150 weld-neck, valve 267mm flanged, flange DN 150 class 150 weld-neck, cap DN 150',
      gap: '3mm',
      gasket: '3mm',
    },
    [1, 1].map(() => (3000 - 229 - 2 * 87 - 267 - 89 - 2 * 3 - 4 * 3) / 2),
  ],
  [
    'two flanges bolted',
    {
      run: '1500mm',
      parts:
        'elbow DN 150 LR, flange DN 150 class 150 weld-neck, flange DN 150 class 150 weld-neck, elbow DN 150 LR',
      gasket: '3mm',
    },
    [1, 1].map(() => (1500 - 458 - 174 - 3) / 2),
  ],
  [
    'measured fittings',
    {
      run: '1000mm',
      start: 'elbow 231mm',
      between: 'tee 144mm at 500mm',
      finish: 'flange 90mm',
      gasket: '3mm',
    },
    [500 - 144 - 231, 500 - 144 - 90 - 3],
  ],
  [
    'a coupling with sockets',
    { run: '1000mm', parts: 'elbow 38mm, coupling 48mm socket 13mm, elbow 38mm', gap: '3mm' },
    [1, 1].map(() => (1000 - 76 - 22 - (2 * 25.4) / 16 - 6) / 2),
  ],
  [
    'two tees and a cap, in feet',
    { run: "12' 4in", parts: 'elbow NPS 6 LR, tee NPS 6 at 4ft, tee NPS 6 at 8ft, cap NPS 6', gap: '1/16in' },
    [(48 - 5.625 - 9 - 1 / 8) * IN, (48 - 11.25 - 1 / 8) * IN, (148 - 96 - 5.625 - 3.5 - 1 / 8) * IN],
  ],
];

describe('runs summed by hand', () => {
  it('are twenty and cover every kind of part', () => expect(runs.length).toBeGreaterThanOrEqual(20));
  it.each(runs)('%s', (_, texts, wanted) => {
    const pipes = pipesOf(texts);
    expect(pipes).toHaveLength(wanted.length);
    pipes.forEach((length, i) => expect(length).toBeCloseTo(wanted[i]!, 9));
  });

  it.each(runs)('%s: parts, pipes and gaps follow one another without holes and fill the run', (_, texts) => {
    const request = readRequest('makeup', texts);
    const { items } = makeResults(request) as { items: readonly { from: number; to: number }[] };
    items.slice(1).forEach(({ from }, i) => expect(from).toBeCloseTo(items[i]!.to, 9));
    expect(items[0]!.from).toBe(0);
    const { run } = request.values as unknown as { run: number };
    expect(items[items.length - 1]!.to).toBeCloseTo(run, 9);
  });
});

describe('runs that are refused', () => {
  it.each<[Texts, string, string]>([
    [{ run: '400mm', start: 'elbow DN 150 LR', finish: 'elbow DN 150 LR' }, 'joint', 'no-room'],
    [{ run: '400mm', parts: 'elbow DN 150 LR + elbow DN 150 LR' }, 'joint', 'no-pipe-to-fill'],
    [{ run: '2000mm', parts: 'elbow DN 150 LR, elbow DN 150 LR, cap DN 150' }, 'request', 'turns-the-run'],
    [
      { run: '2000mm', parts: 'elbow DN 150 LR, flange DN 150 class 150 weld-neck, cap DN 150' },
      'request',
      'flange-alone',
    ],
    [{ run: '2000mm', parts: 'elbow DN 150 LR, valve 267mm flanged, cap DN 150' }, 'request', 'face-to-pipe'],
    [{ run: '2000mm', start: 'elbow DN 150 LR' }, 'request', 'missing'],
    [{ run: '2000mm', parts: 'elbow DN 150 LR' }, 'request', 'not-a-run'],
    [{ run: '2000mm', parts: 'elbow DN 150 LR,, cap DN 150' }, 'request', 'empty'],
    [{ run: '2000mm', start: 'elbow DN 150 LR', parts: 'cap DN 150' }, 'request', 'given-twice'],
  ])('%j', (texts, failure, code) => {
    const caught = (() => {
      try {
        makeWrittenSheets(readRequest('makeup', texts));
      } catch (error) {
        return error;
      }
      return undefined;
    })();
    expect(caught).toBeInstanceOf(UserError);
    const { failure: kind, issues } = caught as UserError;
    expect([kind, issues[0]!.code]).toEqual([failure, code]);
  });
});

describe('the sheet and its cut list', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('says that lengths from memory and of flanges are to be measured', () => {
    const [sheet] = makeWrittenSheets(readRequest('makeup', runs[13]![1]));
    expect(sheet!.name).toBe('makeup');
    expect(sheet!.cautions.join(' ')).toMatch(/raised face/);
    // The tee alone stands in no open table: it is named, with the way to give what is measured on it.
    expect(sheet!.cautions.join(' ')).toMatch(/From memory[^.]*: tee NPS 6\. .*tee NPS 6 length 143mm/);
    expect(sheet!.cautions.join(' ')).toMatch(/qualified people/);
  });

  it('says nothing of memory where the length is given', () => {
    const texts = { ...runs[13]![1], between: 'tee NPS 6 length 143mm, valve 267mm' };
    const [sheet] = makeWrittenSheets(readRequest('makeup', texts));
    expect(JSON.stringify([sheet!.cautions, sheet!.tables])).not.toMatch(/memory/);
    expect(pipesOf(texts)[0]).toBeCloseTo((2450 - 228.6 - 286 - 267 - 87 - 7 * 3.175) / 3, 9);
  });

  it('asks for a place only where pipes are cut alike for want of one', () => {
    const cautionsOf = (texts: Texts): string =>
      makeWrittenSheets(readRequest('makeup', texts))[0]!.cautions.join(' ');
    const open = 'elbow NPS 4 LR, tee NPS 4, reducer NPS 4 x 3 + elbow NPS 3 LR';
    expect(cautionsOf({ run: '12ft', parts: open })).toMatch(/cut alike/);
    // The tee has its place, and the reducer is welded to the elbow that ends the run: nothing is left open.
    const placed = { run: '12ft', parts: open.replace('tee NPS 4', 'tee NPS 4 at 6ft') };
    const [first, second] = pipesOf(placed);
    expect(Math.abs(first! - second!)).toBeGreaterThan(1);
    expect(cautionsOf(placed)).not.toMatch(/cut alike/);
  });

  it('job makes the pieces of the cut list', async () => {
    const texts = [
      '--run',
      '1200mm',
      '--parts',
      'elbow DN 50 LR, tee DN 50 at 500mm, cap DN 50',
      '--pipe',
      'DN 50 sch 40',
      '--gap',
      '2mm',
    ];
    const made = await runInside(folder, ['makeup', ...texts, '-o', 'cuts.csv']);
    expect([made.code, made.stderr]).toEqual([0, '']);
    const job = await runInside(folder, ['job', 'cuts.csv', '-o', 'out', '--formats', 'csv']);
    expect([job.code, job.stderr]).toEqual([0, '']);
    expect(
      readdirSync(join(folder, 'out'))
        .filter((name) => name.endsWith('.csv'))
        .sort(),
    ).toEqual(['P1.csv', 'P2.csv']);
  });
});
