import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  offsetFromAngles,
  offsetFromRun,
  offsetFromTravel,
  offsetFromTurn,
  type RollingOffset,
} from '../../../src/geometry/rolling-offset.ts';
import {
  makeWrittenSheets,
  parsePipe,
  readRequest,
  UserError,
  type WrittenSheet,
  type Texts,
} from '../../../src/index.ts';
import {
  chooseFitting,
  cutLength,
} from '../../../src/layouts/pipe-ends/rolling-offset/rolling-offset-solve.ts';
import { planeDistance, rollUp } from '../../support/fit-up.ts';
import { layerPoints, printAndRead, range, worst } from '../../support/print.ts';
import { minus, norm, outer, plus, point, times, type Vec3 } from '../../support/space.ts';

const degrees = Math.PI / 180;
/** Along the first run; set is up (+x), roll to the side (+y). */
const ahead = point(0, 0, 1);

/** A direction turned by `angle` about a unit axis (Rodrigues' formula). */
const turned = (v: Vec3, axis: Vec3, angle: number): Vec3 => {
  const dot = v.x * axis.x + v.y * axis.y + v.z * axis.z;
  return plus(
    plus(times(v, Math.cos(angle)), times(outer(axis, v), Math.sin(angle))),
    times(axis, dot * (1 - Math.cos(angle))),
  );
};

/** The axis that turns the run toward the offset, which leans `rollAngle` from plumb. */
const turnAxis = (rollAngle: number): Vec3 =>
  outer(ahead, point(Math.cos(rollAngle), Math.sin(rollAngle), 0));

/** Walks the center line from crossing to crossing: out along the travel, then the turn is undone. */
const walkCenters = ({ travel, turn, rollAngle }: RollingOffset) => {
  const axis = turnAxis(rollAngle);
  const way = turned(ahead, axis, turn);
  return { end: times(way, travel), heading: turned(way, axis, -turn) };
};

const length = fc.double({ min: 1, max: 5000, noNaN: true });
const angle = fc.double({ min: 1, max: 90, noNaN: true }).map((a) => a * degrees);

const closes = (solved: RollingOffset): void => {
  const { end, heading } = walkCenters(solved);
  const size = Math.max(1, solved.travel);
  expect(norm(minus(end, point(solved.set, solved.roll, solved.run)))).toBeLessThan(
    1e-9 * Math.max(1, size / 1000),
  );
  expect(norm(minus(heading, ahead))).toBeLessThan(1e-12);
};

describe('a rolling offset closes in space to 1e-9', () => {
  it('from set, roll and run', () => {
    fc.assert(
      fc.property(length, length, length, (set, roll, run) => {
        const solved = offsetFromRun(set, roll, run);
        expect([solved.set, solved.roll, solved.run]).toEqual([set, roll, run]);
        closes(solved);
      }),
    );
  });
  it('from set, roll and turn', () => {
    fc.assert(
      fc.property(length, length, angle, (set, roll, turn) => closes(offsetFromTurn(set, roll, turn))),
    );
  });
  it('from set, roll and travel', () => {
    fc.assert(
      fc.property(length, length, fc.double({ min: 1.0001, max: 20, noNaN: true }), (set, roll, k) => {
        const solved = offsetFromTravel(set, roll, Math.hypot(set, roll) * k);
        const { end } = walkCenters(solved);
        expect(norm(minus(end, point(set, roll, solved.run)))).toBeLessThan(
          1e-9 * Math.max(1, solved.travel / 1000),
        );
      }),
    );
  });
  it('from travel and angles', () => {
    fc.assert(
      fc.property(length, angle, fc.double({ min: 0, max: 90, noNaN: true }), (travel, turn, lean) =>
        closes(offsetFromAngles(travel, turn, lean * degrees)),
      ),
    );
  });

  /** Face to face through real parts: run, trimmed elbow, gap, pipe, gap, trimmed elbow, run. */
  it('through trimmed elbows, gaps and the cut pipe', () => {
    const pipe = parsePipe('NPS 6 sch 40');
    fc.assert(
      fc.property(
        fc.double({ min: 500, max: 2000, noNaN: true }),
        fc.double({ min: 0, max: 2000, noNaN: true }),
        fc.double({ min: 20, max: 89, noNaN: true }),
        fc.constantFrom('long-radius', 'short-radius'),
        (set, roll, turnDegrees, turns) => {
          fc.pre(Math.abs(turnDegrees - 45) > 1e-3);
          const solved = offsetFromTurn(set, roll, turnDegrees * degrees);
          const fitting = chooseFitting(pipe, turns, solved.turn);
          const radius = fitting.elbow?.bendRadius ?? NaN;
          const axis = turnAxis(solved.rollAngle);
          let at = times(ahead, -fitting.takeOff);
          let way = ahead;
          const bend = (by: number): void => {
            const centre = plus(at, times(outer(axis, way), Math.sign(by) * radius));
            at = plus(centre, turned(minus(at, centre), axis, by));
            way = turned(way, axis, by);
          };
          bend(solved.turn);
          at = plus(at, times(way, 2 * 2.5 + cutLength(solved, fitting, 2.5)));
          bend(-solved.turn);
          const end = plus(point(solved.set, solved.roll, solved.run), times(ahead, fitting.takeOff));
          expect(norm(minus(at, end))).toBeLessThan(1e-8);
        },
      ),
    );
  });
});

describe('known figures', () => {
  /** Offsets of 12 in and 16 in with 45° turns: true offset 20 in, travel 28.284 in (Pythagoras; every pipe fitter's example). */
  it('12 in by 16 in at 45°', () => {
    const solved = offsetFromTurn(12 * 25.4, 16 * 25.4, 45 * degrees);
    expect(Math.hypot(solved.set, solved.roll) / 25.4).toBeCloseTo(20, 12);
    expect(solved.travel / 25.4).toBeCloseTo(28.284, 3);
    expect(solved.run / 25.4).toBeCloseTo(20, 9);
    const [sheet] = makeWrittenSheets(
      readRequest('rolling-offset', { stock: 'NPS 6 sch 40', set: '12in', roll: '16in', turn: '45' }),
    );
    const travel = sheet!.tables[0]?.rows.find(([name]) => name === 'Travel');
    expect(travel?.slice(2)).toEqual(['2′-4 5/16″', '718.4']);
  });

  /** Travel is offset times cosecant: the constants every pipe fitter's table gives (common practice, no source). */
  it.each([
    [45, 1.414],
    [60, 1.155],
    [30, 2],
    [22.5, 2.613],
    [11.25, 5.126],
  ])('at %d° the travel is %d times the offset', (turn, factor) => {
    expect(offsetFromTurn(1, 0, turn * degrees).travel).toBeCloseTo(factor, 3);
  });

  /** ASME B16.9 center to end, inch table: NPS 6 LR 45° 3 3/4 in, 90° 9 in; NPS 4 SR 90° 4 in (ASME B16.9 tables, second-hand). */
  it.each([
    ['NPS 6 sch 40', 'long-radius', 45, 95.25],
    ['NPS 6 sch 40', 'long-radius', 90, 228.6],
    ['NPS 4 sch 40', 'short-radius', 90, 101.6],
    ['DN 150 sch 40', 'long-radius', 45, 95],
    ['DN 150 sch 40', 'long-radius', 90, 229],
  ] as const)('%s %s %d° takes off %d mm', (pipe, turns, turn, takeOff) => {
    const fitting = chooseFitting(parsePipe(pipe), turns, turn * degrees);
    expect(fitting.takeOff).toBeCloseTo(takeOff, 9);
    expect(fitting.trimmed).toBe(false);
  });

  it('a trimmed elbow takes off radius times the tangent of half the turn: 9 in × tan 30° at 60°', () => {
    const fitting = chooseFitting(parsePipe('NPS 6 sch 40'), 'long-radius', 60 * degrees);
    expect(fitting.trimmed).toBe(true);
    expect(fitting.takeOff).toBeCloseTo(228.6 * 0.5773502691896, 6);
  });
});

const draw = (texts: Texts): readonly WrittenSheet[] =>
  makeWrittenSheets(readRequest('rolling-offset', texts));
const fact = (sheet: WrittenSheet | undefined, label: string): string =>
  sheet?.facts.find(([name]) => name === label)?.[1] ?? '';

describe('the sheets', () => {
  it('the 3-4-5 offset: set 12, roll 9, turn 45: true offset and run 15 in, travel 21.213 in', () => {
    const sheets = draw({ pipe: 'NPS 6 sch 40', set: '12in', roll: '9in', turn: '45' });
    expect(sheets.map(({ name }) => name)).toEqual(['rolling offset']);
    const rows = new Map(sheets[0]?.tables[0]?.rows.map((row) => [row[0], row[3]]));
    expect(rows.get('True offset')).toBe('381.0');
    expect(rows.get('Run, ahead')).toBe('381.0');
    expect(rows.get('Travel')).toBe('538.8');
    // 15 √2 in − 2 × 3 3/4 in.
    expect(rows.get('Pipe to cut')).toBe((25.4 * (15 * Math.SQRT2 - 7.5)).toFixed(1));
    expect(fact(sheets[0], 'Roll angle from plumb')).toBe('36.87°');
  });

  it('a mitered one says nothing of fittings that it has none of', () => {
    const said = (texts: Texts): string => {
      const [sheet] = draw({
        pipe: 'NPS 4 sch 40',
        travel: '30in',
        turn: '45',
        'roll-angle': '20',
        ...texts,
      });
      return [...(sheet?.cautions ?? []), ...(sheet?.facts.flat() ?? [])].join();
    };
    expect(said({})).toMatch(/Measure the fittings.*Take-off of each turn/);
    expect(said({ turns: 'miter' })).not.toMatch(/fittings|Take-off/);
  });

  it('an odd turn brings the elbow’s trim: arcs turn × (R ± r) on heel and throat', () => {
    const sheets = draw({ pipe: 'NPS 6 sch 40', set: '12in', roll: '9in', turn: '60', units: 'mm' });
    expect(sheets.map(({ name }) => name)).toEqual(['rolling offset', 'elbow trim']);
    const third = Math.PI / 3;
    const mm = (label: string): number => parseFloat(fact(sheets[1], label));
    expect(mm('Heel, along the elbow')).toBeCloseTo(third * (228.6 + 84.1375), 1);
    expect(mm('Throat, along the elbow')).toBeCloseTo(third * (228.6 - 84.1375), 1);
    expect(mm('Sides, along the elbow')).toBeCloseTo(third * 228.6, 1);
  });

  it('mitered turns fit both miter planes of the travel, from the bytes of the print', async () => {
    const { file } = await printAndRead('rolling-offset', {
      pipe: 'OD 114.3mm wall 6.02mm',
      travel: '760mm',
      turn: '60',
      'roll-angle': '20',
      turns: 'miter',
      paper: '36in-roll',
    });
    // Both cuts are parallel planes 30° from square through centers 760 mm apart; heel up at the start, down at the finish.
    const normal = point(Math.sin(30 * degrees), 0, Math.cos(30 * degrees));
    const planes = {
      start: planeDistance(point(0, 0, 0), normal),
      finish: planeDistance(point(0, 0, 760), normal),
    };
    for (const side of ['start', 'finish'] as const) {
      const points = layerPoints(file, `${side} end`, 'cut').map((p) => {
        const q = rollUp(p, { od: 114.3, paper: 0.1 });
        return side === 'start' ? point(q.x, -q.y, -q.z) : point(q.x, q.y, 760 + q.z);
      });
      expect(points.length).toBeGreaterThan(100);
      expect(worst(points.map(planes[side]))).toBeLessThan(0.01);
    }
  });

  it('the trim’s cut line is straight and one girth long', async () => {
    const { file } = await printAndRead('rolling-offset', {
      pipe: 'NPS 4 sch 40',
      set: '12in',
      turn: '35',
      paper: 'a3',
    });
    const points = layerPoints(file, 'elbow trim', 'cut');
    expect(worst(points.map(({ y }) => y))).toBeLessThan(1e-3);
    const [low, high] = range(points.map(({ x }) => x));
    expect(high - low).toBeCloseTo(Math.PI * (114.3 + 0.1), 3);
  });
});

const refusal = (texts: Texts): UserError => {
  try {
    draw({ pipe: 'NPS 6 sch 40', ...texts });
  } catch (error) {
    if (error instanceof UserError) return error;
    throw error;
  }
  throw new Error('it was not refused');
};

describe('what cannot be made', () => {
  it.each<[Texts, string]>([
    [{}, 'set'],
    [{ travel: '20in' }, 'set'],
    [{ set: '12in' }, 'run'],
    [{ set: '12in', run: '12in', turn: '45' }, 'run'],
    [{ set: '12in', turn: '45', 'roll-angle': '10' }, 'roll-angle'],
    [{ set: '0mm', roll: '0mm', turn: '45' }, 'set'],
    [{ pipe: 'OD 168.3mm wall 7mm', set: '12in', turn: '45' }, 'stock'],
  ])('%j', (texts, path) => {
    const error = refusal(texts);
    expect([error.failure, error.issues[0]?.path]).toEqual(['request', path]);
  });

  it('a travel shorter than the offset, with the limit', () => {
    const error = refusal({ set: '300mm', roll: '400mm', travel: '450mm', units: 'mm' });
    expect([error.failure, error.issues[0]?.path]).toEqual(['joint', 'travel']);
    expect(error.issues[0]?.hint).toContain('500 mm');
  });

  it('no pipe left between two take-offs, with the travel it takes', () => {
    const error = refusal({ set: '100mm', turn: '45', gap: '2mm', units: 'mm' });
    expect([error.failure, error.issues[0]?.path]).toEqual(['joint', 'travel']);
    expect(error.issues[0]?.hint).toContain(`${2 * (95.25 + 2)} mm`);
  });
});
