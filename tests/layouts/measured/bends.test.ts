import { describe, expect, it } from 'vitest';
import { makeResults, makeWrittenSheets, readRequest, UserError, type Texts } from '../../../src/index.ts';
import { layerPoints, printAndRead } from '../../support/print.ts';
import { seeded } from '../../support/random-poses.ts';
import { minus, norm, outer, plus, point, times, type Vec3 } from '../../support/space.ts';

const DEGREE = Math.PI / 180;
interface Found {
  readonly cutLength: number;
  readonly bends: readonly {
    from: number;
    to: number;
    bendTo: number;
    throat: number;
    turn: number;
    roll: number;
  }[];
}
const find = (texts: Texts): Found => makeResults(readRequest('bends', texts)) as unknown as Found;

/** Bends a straight stock at its marks, throats at their stations counter-clockwise facing the start; nothing of the product. */
const bendUp = (
  marks: readonly { from: number; to: number; turn: number; throat: number }[],
  length: number,
) => {
  let [p, way, zero, run] = [point(0, 0, 0), point(0, 0, 1), point(1, 0, 0), 0];
  for (const { from, to, turn, throat } of marks) {
    p = plus(p, times(way, from - run));
    const side = outer(zero, way);
    const toward = plus(times(zero, Math.cos(throat)), times(side, Math.sin(throat)));
    const radius = (to - from) / turn;
    p = plus(p, plus(times(way, radius * Math.sin(turn)), times(toward, radius * (1 - Math.cos(turn)))));
    const axis = outer(way, toward);
    const turned = (v: Vec3): Vec3 => {
      const along = v.x * axis.x + v.y * axis.y + v.z * axis.z;
      return plus(
        plus(times(v, Math.cos(turn)), times(outer(axis, v), Math.sin(turn))),
        times(axis, along * (1 - Math.cos(turn))),
      );
    };
    [way, zero, run] = [turned(way), turned(zero), to];
  }
  return plus(p, times(way, length - run));
};

describe('bends', () => {
  /** Two square bends of 6 in: tangents one radius back from each corner, arcs 3π in (closed form). */
  it('an S of two square bends out of plane, in inches', () => {
    const points = '0in,0in,0in; 0in,0in,24in; 16in,0in,24in; 16in,12in,24in';
    const { cutLength, bends } = find({ stock: 'NPS 2 sch 40', points, radius: '6in' });
    expect(cutLength / 25.4).toBeCloseTo(18 + 4 + 6 + 6 * Math.PI, 9);
    expect(bends[0]!.from / 25.4).toBeCloseTo(18, 9);
    expect(bends[0]!.to / 25.4).toBeCloseTo(18 + 3 * Math.PI, 9);
    expect(Math.abs(bends[1]!.roll) / DEGREE).toBeCloseTo(90, 9);
    // First toward +x, then toward +y: looking along +x out of the first bend, +y lies clockwise of that bend's plane.
    expect(bends[1]!.roll / DEGREE).toBeCloseTo(90, 9);
    expect(bends[1]!.throat / DEGREE).toBeCloseTo(270, 9);
  });

  it('legs, turns and rolls are the same as their points', () => {
    const { cutLength } = find({
      stock: 'DN 50 sch 40',
      legs: '600mm,400mm,300mm',
      turns: '90,90',
      rolls: '0',
      radius: '100mm',
    });
    expect(cutLength).toBeCloseTo(1300 - 400 + 100 * Math.PI, 9);
  });

  it('bent up again from the marks on the printed strip and the rotations, it ends where it should, within 0.01 mm', async () => {
    const random = seeded(91);
    for (let i = 0; i < 3; i++) {
      const radius = 60 + 60 * random();
      const turns = [1, 2, 3].map(() => 20 + 90 * random());
      const rolls = [1, 2].map(() => 360 * random() - 180);
      const legs = [1, 2, 3, 4].map(() => 330 + 200 * random());
      const texts: Texts = {
        stock: 'DN 25 sch 40',
        legs: legs.map((leg) => `${leg}mm`).join(','),
        turns: turns.join(','),
        rolls: rolls.join(','),
        radius: `${radius}mm`,
      };
      const { cutLength, bends } = find(texts);
      const { file } = await printAndRead('bends', { ...texts, paper: '36in-roll' });
      const xs = [
        ...new Set(layerPoints(file, 'bend strip', 'bend').map(({ x }) => Number(x.toFixed(3)))),
      ].sort((a, b) => a - b);
      expect(xs).toHaveLength(2 * bends.length);
      const marks = bends.map((bend, k) => ({ ...bend, from: xs[2 * k]!, to: xs[2 * k + 1]! }));
      const wanted = legs.reduce(
        ({ p, way, side }, leg, k) => {
          const next = plus(p, times(way, leg));
          const turn = (turns[k] ?? 0) * DEGREE;
          const roll = (k === 0 ? 0 : (rolls[k - 1] ?? 0)) * DEGREE;
          const toward = plus(times(side, Math.cos(roll)), times(outer(way, side), Math.sin(roll)));
          return {
            p: next,
            way: plus(times(way, Math.cos(turn)), times(toward, Math.sin(turn))),
            side: minus(times(toward, Math.cos(turn)), times(way, Math.sin(turn))),
          };
        },
        { p: point(0, 0, 0), way: point(0, 0, 1), side: point(1, 0, 0) },
      );
      expect(norm(minus(bendUp(marks, cutLength), wanted.p))).toBeLessThan(0.01);
    }
  });

  it('tells straights that are too short for the machine', () => {
    const [strip] = makeWrittenSheets(
      readRequest('bends', {
        stock: 'DN 50 sch 40',
        legs: '600mm,400mm,300mm',
        turns: '90,90',
        radius: '152mm',
        least: '100mm',
      }),
    );
    expect(strip!.cautions[0]).toMatch(/between B1 and B2 is 96\.0 mm/);
  });

  it('a tube has its strip alone', () => {
    const texts = { stock: 'tube 40x40x3mm', legs: '500mm,500mm', turns: '60', radius: '120mm' };
    const [strip, ...others] = makeWrittenSheets(readRequest('bends', texts));
    expect([strip?.name, ...others]).toEqual(['bend strip']);
    // One bend is not turned to another, and no band shows how.
    expect(strip?.steps.filter((step) => /rotations|roll/.test(step))).toEqual([]);
    const twice = { ...texts, legs: '500mm,300mm,500mm', turns: '60,60', rolls: '90' };
    const [two] = makeWrittenSheets(readRequest('bends', twice));
    expect(two?.steps.filter((step) => step.includes('rotations'))).toEqual([]);
    expect(two?.steps.filter((step) => step.includes('by the table: roll'))).toHaveLength(1);
  });

  it.each<[Texts, string, string]>([
    [{}, 'request', 'missing'],
    [{ legs: '500mm,500mm' }, 'request', 'missing'],
    [{ legs: '500mm,500mm', turns: '60,60' }, 'request', 'wrong-count'],
    [{ legs: '500mm,500mm,500mm', turns: '60,60', rolls: '1,2' }, 'request', 'wrong-count'],
    [{ points: '0mm,0mm,0mm; 0mm,0mm,9mm; 0mm,0mm,20mm' }, 'joint', 'bend-straight'],
    [{ points: '0mm,0mm,0mm; 0mm,0mm,9mm; 0mm,0mm,2mm' }, 'joint', 'bend-back'],
    [{ points: '0mm,0mm,0mm; 0mm,0mm,9mm; 0mm,9mm,9mm' }, 'joint', 'bends-overlap'],
    [{ points: '0mm,0mm,0mm; 0mm,0mm,9mm; 0mm,9mm,9mm', turns: '9' }, 'request', 'given-twice'],
    [{ legs: '5000mm,5000mm', turns: '170', springback: '20' }, 'joint', 'bent-past-half'],
  ])('%j is refused', (texts, failure, code) => {
    const caught = (() => {
      try {
        makeWrittenSheets(readRequest('bends', { stock: 'DN 50 sch 40', radius: '100mm', ...texts }));
      } catch (error) {
        return error as UserError;
      }
      return undefined;
    })();
    expect([caught?.failure, caught?.issues[0]?.code]).toEqual([failure, code]);
  });
});
