import { describe, expect, it } from 'vitest';
import {
  findPoses,
  mirrorPose,
  oddReading,
  pointOfPose,
  poseCovariance,
  ringMarks,
} from '../../src/geometry/pose-by-tape.ts';
import { mirrored, normal, poseMiss, randomEnds, seeded } from '../support/random-poses.ts';

/** A share of the runs in pose-by-tape.slow.test.ts. */
const CASES = 120;
const kinds = ['any', 'coaxial', 'askew'] as const;

describe('a pose from tapes', () => {
  it.each(kinds)('exact tapes, ends %s: within 1e-6 mm and 1e-9 rad, either side of the face', (kind) => {
    const random = seeded(11);
    for (let i = 0; i < CASES / 3; i++) {
      const ends = randomEnds(random, kind, i % 2 === 0 ? 3 : 4);
      for (const way of [ends, mirrored(ends)]) {
        const { mm, radians } = poseMiss(way);
        expect(mm).toBeLessThan(1e-6);
        expect(radians).toBeLessThan(1e-9);
      }
    }
  });

  /** The mirror answer has the same distances, computed here from its points. */
  it('the mirror answer fits the same tapes', () => {
    const { marks, readings } = randomEnds(seeded(3), 'any', 3);
    const pose = mirrorPose(findPoses(readings, marks)[0]!.pose);
    for (const { a, b, distance } of readings) {
      const { x, y, z } = pointOfPose(pose, marks.b[b]!);
      expect(Math.hypot(x - marks.a[a]!.x, y - marks.a[a]!.y, z)).toBeCloseTo(distance, 8);
    }
  });

  /**
   * Trilateration from three stations (0,0) (400,0) (150,300) to (120, 80, 250), whose distances are 288.6174, 383.7968 and
   * 334.3651 (the closed form of surveying texts; digits computed). B's marks here all stand close round that point.
   */
  it('three tapes to one point', () => {
    const a = [
      { x: 0, y: 0 },
      { x: 400, y: 0 },
      { x: 150, y: 300 },
    ];
    const b = ringMarks(3, 1e-3);
    const readings = a.flatMap((_, i) =>
      b.map((_, j) => ({ a: i, b: j, distance: [288.6174, 383.7968, 334.3651][i]! })),
    );
    const { at } = findPoses(readings, { a, b })[0]!.pose;
    expect(at.x).toBeCloseTo(120, 3);
    expect(at.y).toBeCloseTo(80, 3);
    expect(at.z).toBeCloseTo(250, 3);
  });

  it('finds the truth with one or two readings missing', () => {
    const random = seeded(5);
    for (let i = 0; i < 20; i++) {
      const ends = randomEnds(random, 'askew', 3);
      const readings = ends.readings.filter((_, k) => k !== i % 9 && k !== (i * 5 + 1) % 9);
      const fits = findPoses(readings, ends.marks);
      const near = fits.map(({ pose }) =>
        Math.hypot(pose.at.x - ends.pose.at.x, pose.at.y - ends.pose.at.y, pose.at.z - ends.pose.at.z),
      );
      expect(Math.min(...near)).toBeLessThan(1e-6);
    }
  });

  it('with tapes off by 1 mm the truth lies within 1.96 standard deviations 19 times in 20', () => {
    const random = seeded(17);
    let [within, all] = [0, 0];
    for (let i = 0; i < CASES; i++) {
      const ends = randomEnds(random, 'askew', 4);
      const readings = ends.readings.map((one) => ({ ...one, distance: one.distance + normal(random) }));
      const { pose } = findPoses(readings, ends.marks)[0]!;
      const covariance = poseCovariance(readings, ends.marks, pose)!;
      (['x', 'y', 'z'] as const).forEach((axis, k) => {
        all += 1;
        if (Math.abs(pose.at[axis] - ends.pose.at[axis]) < 1.96 * Math.sqrt(covariance[k]![k]!)) within += 1;
      });
    }
    // Binomial: 360 readings at 95 % have a standard deviation of 1.15 %.
    expect(within / all).toBeGreaterThan(0.91);
    expect(within / all).toBeLessThan(0.99);
  });

  it('names a reading that is wrong by 25 mm', () => {
    const random = seeded(23);
    let named = 0;
    for (let i = 0; i < 20; i++) {
      const ends = randomEnds(random, 'askew', 3);
      const wrong = Math.floor(9 * random());
      const readings = ends.readings.map((one, k) => ({
        ...one,
        distance: one.distance + normal(random) * 0.3 + (k === wrong ? 25 : 0),
      }));
      if (oddReading(readings, ends.marks).index === wrong) named += 1;
    }
    expect(named).toBeGreaterThanOrEqual(19);
  });

  it('says where the tapes leave the end free to move', () => {
    const { marks, readings, pose } = randomEnds(seeded(29), 'askew', 3);
    expect(poseCovariance(readings.slice(0, 5), marks, pose)).toBeUndefined();
    // Six tapes to two of B's marks leave the third free to swing about them.
    expect(
      poseCovariance(
        readings.filter(({ b }) => b < 2),
        marks,
        pose,
      ),
    ).toBeUndefined();
  });
});
