import { describe, expect, it } from 'vitest';
import { findPoses, oddReading, poseCovariance } from '../../src/geometry/pose-by-tape.ts';
import { countOf } from '../support/counts.ts';
import { mirrored, normal, poseMiss, randomEnds, seeded } from '../support/random-poses.ts';

const [exact, off, wrongs] = [countOf(10_000, 900), countOf(1000, 200), countOf(400, 40)];

const kinds = ['any', 'coaxial', 'askew'] as const;

describe('a pose from tapes, at length', () => {
  it(`${exact} random pairs of ends, exact tapes: within 1e-6 mm and 1e-9 rad`, () => {
    const random = seeded(101);
    let [mm, radians] = [0, 0];
    for (let i = 0; i < exact; i++) {
      const ends = randomEnds(random, kinds[i % 3]!, i % 2 === 0 ? 3 : 4);
      const miss = poseMiss(i % 5 === 0 ? mirrored(ends) : ends);
      [mm, radians] = [Math.max(mm, miss.mm), Math.max(radians, miss.radians)];
    }
    expect(mm).toBeLessThan(1e-6);
    expect(radians).toBeLessThan(1e-9);
  }, 1_800_000);

  it(`${off} pairs with tapes off by 1 mm: the truth within the stated uncertainty as often as stated`, () => {
    const random = seeded(103);
    let [within, all] = [0, 0];
    for (let i = 0; i < off; i++) {
      const ends = randomEnds(random, 'askew', i % 2 === 0 ? 3 : 4);
      const readings = ends.readings.map((one) => ({ ...one, distance: one.distance + normal(random) }));
      const { pose } = findPoses(readings, ends.marks)[0]!;
      const covariance = poseCovariance(readings, ends.marks, pose)!;
      (['x', 'y', 'z'] as const).forEach((axis, k) => {
        all += 1;
        if (Math.abs(pose.at[axis] - ends.pose.at[axis]) < 1.96 * Math.sqrt(covariance[k]![k]!)) within += 1;
      });
    }
    expect(within / all).toBeGreaterThan(0.93);
    expect(within / all).toBeLessThan(0.97);
  }, 1_800_000);

  it(`names one reading wrong by 25 mm among tapes off by 1 mm in 95 % of ${wrongs} pairs`, () => {
    const random = seeded(107);
    let named = 0;
    for (let i = 0; i < wrongs; i++) {
      const ends = randomEnds(random, 'askew', i % 2 === 0 ? 3 : 4);
      const wrong = Math.floor(ends.readings.length * random());
      const readings = ends.readings.map((one, k) => ({
        ...one,
        distance: one.distance + normal(random) + (k === wrong ? 25 * (random() < 0.5 ? 1 : -1) : 0),
      }));
      if (oddReading(readings, ends.marks).index === wrong) named += 1;
    }
    expect(named / wrongs).toBeGreaterThanOrEqual(0.95);
  }, 1_800_000);
});
