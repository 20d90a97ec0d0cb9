import {
  findPoses,
  mirrorPose,
  type Pose,
  type TapeMarks,
  type TapeReading,
} from '../../src/geometry/pose-by-tape.ts';

/** Numbers from 0 to 1 that come again with the same seed (Marsaglia's xorshift, 32 bits). */
export const seeded = (seed: number): (() => number) => {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4294967296;
  };
};

/** Normally distributed numbers of standard deviation 1 (Box and Muller). */
export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(random() + 1e-12)) * Math.cos(2 * Math.PI * random());

type P3 = readonly [number, number, number];
const plus = (a: P3, b: P3, k = 1): P3 => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
const dot = (a: P3, b: P3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: P3, b: P3): P3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const unit = (a: P3): P3 => {
  const size = Math.sqrt(dot(a, a));
  return [a[0] / size, a[1] / size, a[2] / size];
};
const named = ([x, y, z]: P3) => ({ x, y, z });

/** A pair of ends as they may stand, with the distances between their marks. Nothing of the product makes the distances. */
export interface RandomEnds {
  readonly pose: Pose;
  readonly marks: TapeMarks;
  readonly readings: readonly TapeReading[];
  readonly radius: number;
}

/** Ends that stand anyhow, about parallel and coaxial, somewhat askew, or behind one another. */
export const randomEnds = (
  random: () => number,
  kind: 'any' | 'coaxial' | 'askew',
  count: 3 | 4,
): RandomEnds => {
  const radius = 30 + 300 * random();
  const length = radius * (1 + 19 * random());
  const tilt = kind === 'any' ? Math.PI * random() : kind === 'coaxial' ? 1e-3 * random() : 0.6 * random();
  const side =
    kind === 'any'
      ? length * random()
      : kind === 'coaxial'
        ? 1e-3 * length * random()
        : 0.4 * length * random();
  const [a, b, roll] = [random(), random(), random()].map((share) => 2 * Math.PI * share) as [
    number,
    number,
    number,
  ];
  const at: P3 = [side * Math.cos(a), side * Math.sin(a), length * (kind === 'any' ? 0.02 + random() : 1)];
  const along: P3 = [Math.sin(tilt) * Math.cos(b), Math.sin(tilt) * Math.sin(b), -Math.cos(tilt)];
  const across = unit(cross(along, [0.31, 0.92, 0.13]));
  const station0 = plus(
    [Math.cos(roll) * across[0], Math.cos(roll) * across[1], Math.cos(roll) * across[2]],
    cross(along, across),
    Math.sin(roll),
  );
  const station90 = cross(along, station0);
  const angles = Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count);
  const ring = angles.map((angle) => ({ x: radius * Math.cos(angle), y: radius * Math.sin(angle) }));
  const readings = ring.flatMap((from, i) =>
    ring.map((to, j) => {
      const far = plus(plus(at, station0, to.x), station90, to.y);
      const line = plus(far, [from.x, from.y, 0], -1);
      return { a: i, b: j, distance: Math.sqrt(dot(line, line)) };
    }),
  );
  return {
    pose: { at: named(at), along: named(along), station0: named(station0) },
    marks: { a: ring, b: ring },
    readings,
    radius,
  };
};

const apart = (p: { x: number; y: number; z: number }, q: { x: number; y: number; z: number }): number =>
  Math.hypot(p.x - q.x, p.y - q.y, p.z - q.z);

/** How far the best answer to exact tapes misses the truth: mm, and radians. */
export const poseMiss = ({
  pose,
  marks,
  readings,
}: RandomEnds): { readonly mm: number; readonly radians: number } => {
  const [best] = findPoses(readings, marks);
  if (!best) return { mm: Infinity, radians: Infinity };
  const found = pose.at.z < 0 ? mirrorPose(best.pose) : best.pose;
  return {
    mm: apart(found.at, pose.at),
    radians: Math.max(apart(found.along, pose.along), apart(found.station0, pose.station0)),
  };
};

/** The same ends on the other side of end A's face. */
export const mirrored = (ends: RandomEnds): RandomEnds => ({
  ...ends,
  pose: {
    at: { ...ends.pose.at, z: -ends.pose.at.z },
    along: { ...ends.pose.along, x: -ends.pose.along.x, y: -ends.pose.along.y },
    station0: { ...ends.pose.station0, z: -ends.pose.station0.z },
  },
});
