import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BendError, bendLine, cornersOf, layOutBends } from '../../src/geometry/bend-line.ts';
import { seeded } from '../support/random-poses.ts';

const DEGREE = Math.PI / 180;
const at = (x: number, y: number, z: number) => ({ x, y, z });
type P = ReturnType<typeof at>;
const plus = (a: P, b: P, k = 1) => at(a.x + k * b.x, a.y + k * b.y, a.z + k * b.z);
const cross = (a: P, b: P) => at(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x);
const size = (a: P) => Math.hypot(a.x, a.y, a.z);
const unit = (a: P) => plus(at(0, 0, 0), a, 1 / size(a));

/** The end of a stock bent by its marks: each bend about its own center, throat at its station, nothing of the product used. */
const bendUp = (
  marks: readonly { from: number; to: number; bendTo: number; throat: number }[],
  length: number,
  start: P,
  way0: P,
  throat0: P,
) => {
  let [p, way, zero, run] = [start, way0, throat0, 0];
  for (const mark of marks) {
    p = plus(p, way, mark.from - run);
    // Stations run counter-clockwise seen facing the start end, that is clockwise about the way the stock runs.
    const side = cross(zero, way);
    const throat = plus(plus(at(0, 0, 0), zero, Math.cos(mark.throat)), side, Math.sin(mark.throat));
    const radius = (mark.to - mark.from) / mark.bendTo;
    const [c, s] = [Math.cos(mark.bendTo), Math.sin(mark.bendTo)];
    p = plus(plus(p, way, radius * s), throat, radius * (1 - c));
    const axis = cross(way, throat);
    const turn = (v: P) =>
      plus(
        plus(plus(at(0, 0, 0), v, c), cross(axis, v), s),
        axis,
        (axis.x * v.x + axis.y * v.y + axis.z * v.z) * (1 - c),
      );
    [way, zero, run] = [turn(way), turn(zero), mark.to];
  }
  return plus(p, way, length - run);
};

describe('bends against closed forms', () => {
  /** A right-angle bend: tangent points one radius from the corner, arc πr/2. */
  it('one square bend', () => {
    const line = bendLine([at(0, 0, 0), at(0, 0, 1000), at(500, 0, 1000)], () => 100);
    expect(line.bends).toHaveLength(1);
    expect(line.bends[0]!.turn).toBeCloseTo(Math.PI / 2, 12);
    expect(line.straights).toEqual([900, 400]);
    expect(line.length).toBeCloseTo(1300 + 50 * Math.PI, 9);
  });

  /** A rolling offset of 12 and 16 with 45° turns: true offset 20, travel 28.284 (pipe fitter's square-root rule). */
  it('a rolling offset', () => {
    const line = bendLine([at(0, 0, 0), at(0, 0, 40), at(12, 16, 60), at(12, 16, 100)], () => 5);
    expect(line.bends.map(({ turn }) => turn / DEGREE)).toEqual([
      expect.closeTo(45, 9),
      expect.closeTo(45, 9),
    ]);
    expect(line.straights[1]! + 2 * line.bends[0]!.takeOff).toBeCloseTo(28.284, 3);
    expect(Math.abs(line.bends[1]!.roll)).toBeCloseTo(Math.PI, 9);
  });

  it('the roll is clockwise looking along the pipe from the start', () => {
    // Along +z, first bend toward +x; then along +x, bending toward −y: looking along +x with the first bend's center
    // side (+x before the bend, −z after it) at the left-over side, −y is a quarter turn on.
    const line = bendLine([at(0, 0, 0), at(0, 0, 100), at(100, 0, 100), at(100, -100, 100)], () => 10);
    const [, second] = line.bends;
    expect(Math.abs(second!.roll)).toBeCloseTo(Math.PI / 2, 12);
    const back = cornersOf([100, 100, 100], [Math.PI / 2, Math.PI / 2], [second!.roll]);
    expect(back[3]!.y).toBeCloseTo(-100, 9);
  });

  it('stretch and springback', () => {
    const line = bendLine([at(0, 0, 0), at(0, 0, 1000), at(500, 0, 1000)], () => 100);
    const { marks, cutLength } = layOutBends(line, 0.02, 0.04);
    expect(cutLength).toBeCloseTo(1300 + 50 * Math.PI * 0.98, 9);
    expect(marks[0]!.bendTo / DEGREE).toBeCloseTo(90 / 0.96, 9);
  });

  it('refuses corners that are no bends', () => {
    const radius = () => 10;
    expect(() => bendLine([at(0, 0, 0), at(0, 0, 0), at(1, 0, 0)], radius)).toThrow(BendError);
    expect(() => bendLine([at(0, 0, 0), at(0, 0, 1), at(0, 0, 2)], radius)).toThrow(/straight/);
    expect(() => bendLine([at(0, 0, 0), at(0, 0, 5), at(0, 0, 2)], radius)).toThrow(/back/);
  });
});

describe('bends, whatever the line', () => {
  it('1,000 center lines built up again from the marks end where they should, within 0.01 mm', () => {
    const random = seeded(7);
    for (let n = 0; n < 1000; n++) {
      const radius = 20 + 200 * random();
      const count = 1 + Math.floor(6 * random());
      const turns = Array.from({ length: count }, () => (5 + 150 * random()) * DEGREE);
      const rolls = Array.from({ length: count - 1 }, () => (2 * random() - 1) * Math.PI);
      const legs = Array.from({ length: count + 1 }, (_, i) => {
        const off = (k: number) => (turns[k] === undefined ? 0 : radius * Math.tan(turns[k] / 2));
        return off(i - 1) + off(i) + 500 * random() + 1;
      });
      const points = cornersOf(legs, turns, rolls);
      const line = bendLine(points, () => radius);
      line.bends.forEach(({ turn }, i) => expect(turn).toBeCloseTo(turns[i]!, 8));
      const { marks, cutLength } = layOutBends(line);
      const way = unit(plus(points[1]!, points[0]!, -1));
      const next = unit(plus(points[2]!, points[1]!, -1));
      const throat = unit(plus(next, way, -(next.x * way.x + next.y * way.y + next.z * way.z)));
      const end = bendUp(marks, cutLength, points[0]!, way, throat);
      expect(size(plus(end, points[points.length - 1]!, -1))).toBeLessThan(0.01);
    }
  });

  it('corners come back from legs, turns and rolls', () => {
    const angle = fc.double({ min: 0.1, max: 3, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(angle, { minLength: 2, maxLength: 6 }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (turns, roll) => {
          const legs = turns.map(() => 1000).concat(1000);
          const rolls = turns.slice(1).map(() => roll);
          const { bends } = bendLine(cornersOf(legs, turns, rolls), () => 1);
          bends.slice(1).forEach((bend) => expect(bend.roll).toBeCloseTo(roll, 7));
        },
      ),
    );
  });
});
