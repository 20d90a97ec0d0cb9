import { covarianceOf, leastSquares, type Row } from './least-squares.ts';
import { itemAround, itemAt } from '../lists.ts';
import {
  add2,
  add3,
  cross3,
  dot2,
  dot3,
  left2,
  length3,
  polar2,
  scale2,
  scale3,
  sub2,
  sub3,
  unit2,
  unit3,
  vec3,
  type Vec2,
  type Vec3,
} from './vector.ts';

/**
 * Where a second pipe end stands, from tapes between punch marks on it and on a first end. End A's frame: origin at the
 * center of end A, z out of A, x toward A's station 0. Each end's stations run counter-clockwise seen facing that end.
 * Lengths in mm, angles in radians.
 */

/** Where end B stands and points, in end A's frame. */
export interface Pose {
  /** Center of end B. */
  readonly at: Vec3;
  /** Unit, out of end B along its axis. */
  readonly along: Vec3;
  /** Unit, from B's center toward B's station 0; square to `along`. */
  readonly station0: Vec3;
}

/** One taped distance from A's mark `a` to B's mark `b` (their places in the lists of marks). */
export interface TapeReading {
  readonly a: number;
  readonly b: number;
  readonly distance: number;
}

/** The marks of both ends, each in the plane of its face: x toward station 0, y toward station 90. */
export interface TapeMarks {
  readonly a: readonly Vec2[];
  readonly b: readonly Vec2[];
}

/** An answer: a pose whose taped distances nowhere nearby fit better. */
export interface PoseFit {
  readonly pose: Pose;
  /** Distance of the pose less the tape, for each reading. */
  readonly residuals: readonly number[];
  readonly squares: number;
}

/** `count` marks at even stations from station 0, on a circle of the given radius. */
export const ringMarks = (count: number, radius: number): readonly Vec2[] =>
  Array.from({ length: count }, (_, i) => polar2(radius, (2 * Math.PI * i) / count));

/** B's station 90 in the pose. */
export const station90 = ({ along, station0 }: Pose): Vec3 => cross3(along, station0);

/** A point of end B's face plane, in A's frame. */
export const pointOfPose = (pose: Pose, { x, y }: Vec2): Vec3 =>
  add3(pose.at, add3(scale3(pose.station0, x), scale3(station90(pose), y)));

/** The other answer to the same tapes: B's marks seen in a mirror that lies in A's face. */
export const mirrorPose = ({ at, along, station0 }: Pose): Pose => ({
  at: { ...at, z: -at.z },
  along: { x: -along.x, y: -along.y, z: along.z },
  station0: { ...station0, z: -station0.z },
});

/** Turned by a small rotation vector, then set square again. */
const turned = ({ at, along, station0 }: Pose, shift: Vec3, turn: Vec3): Pose => {
  const angle = length3(turn);
  const rotate = (v: Vec3): Vec3 => {
    if (angle === 0) return v;
    const axis = scale3(turn, 1 / angle);
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    return add3(
      add3(scale3(v, c), scale3(cross3(axis, v), s)),
      scale3(axis, dot3(axis, v) * 2 * Math.sin(angle / 2) ** 2),
    );
  };
  const direction = unit3(rotate(along));
  const zero = rotate(station0);
  return {
    at: add3(at, shift),
    along: direction,
    station0: unit3(sub3(zero, scale3(direction, dot3(direction, zero)))),
  };
};

const reachOf = (marks: readonly Vec2[]): number => Math.max(...marks.map(({ x, y }) => Math.hypot(x, y)));

/** Rows of the problem; the turn is measured in mm at the radius of B's marks, so that all six unknowns are alike. */
const poseRows = (readings: readonly TapeReading[], marks: TapeMarks, pose: Pose): readonly Row[] => {
  const radius = reachOf(marks.b);
  return readings.map(({ a, b, distance }) => {
    const from = itemAt(marks.a, a);
    const to = pointOfPose(pose, itemAt(marks.b, b));
    const line = sub3(to, vec3(from.x, from.y, 0));
    const d = length3(line);
    const u = d > 0 ? scale3(line, 1 / d) : vec3(0, 0, 1);
    const turn = scale3(cross3(sub3(to, pose.at), u), 1 / radius);
    return { residual: d - distance, slope: [u.x, u.y, u.z, turn.x, turn.y, turn.z] };
  });
};

const refine = (
  readings: readonly TapeReading[],
  marks: TapeMarks,
  start: Pose,
  rounds?: number,
): PoseFit => {
  const radius = reachOf(marks.b);
  const { at: pose, squares } = leastSquares(
    {
      unknowns: 6,
      rows: (at) => poseRows(readings, marks, at),
      step: (at, [x = 0, y = 0, z = 0, p = 0, q = 0, r = 0]) =>
        turned(at, vec3(x, y, z), scale3(vec3(p, q, r), 1 / radius)),
    },
    start,
    rounds,
  );
  return { pose, squares, residuals: poseRows(readings, marks, pose).map(({ residual }) => residual) };
};

/**
 * The place of one of B's marks with three or more tapes to A, on A's open side: |p|² − 2 a·p + |a|² = d² is linear in x, y
 * and |p|² (the trilateration of surveyors). Undefined with fewer tapes, or from marks on one line.
 */
const trilaterate = (
  readings: readonly TapeReading[],
  marks: readonly Vec2[],
  b: number,
): Vec3 | undefined => {
  const own = readings.filter((reading) => reading.b === b);
  if (own.length < 3) return undefined;
  const rows = own.map(({ a, distance }): Row => {
    const { x, y } = itemAt(marks, a);
    return { residual: x * x + y * y - distance * distance, slope: [-2 * x, -2 * y, 1] };
  });
  if (!covarianceOf(rows, 3)) return undefined;
  const { at } = leastSquares<readonly number[]>(
    {
      unknowns: 3,
      rows: ([x = 0, y = 0, s = 0]) =>
        rows.map(({ residual, slope: [p = 0, q = 0, r = 0] }) => ({
          residual: residual + p * x + q * y + r * s,
          slope: [p, q, r],
        })),
      step: (point, by) => point.map((value, i) => value + itemAt(by, i)),
    },
    [0, 0, 0],
    3,
  );
  const [x = 0, y = 0, s = 0] = at;
  return { x, y, z: Math.sqrt(Math.max(0, s - x * x - y * y)) };
};

/** The pose whose marks lie about at the given points: two or more of B's marks around a center. */
const poseThrough = (points: readonly Vec3[], marks: readonly Vec2[]): Pose | undefined => {
  const center = scale3(points.reduce(add3), 1 / points.length);
  // Each pair of neighbors turns the same way about the axis; marks evenly spaced have their center in the middle.
  const normal = points
    .map((p, i) => cross3(sub3(p, center), sub3(itemAround(points, i + 1), center)))
    .reduce(add3);
  if (!(length3(normal) > 0)) return undefined;
  const along = unit3(normal);
  const first = itemAt(marks, 0);
  const angle = Math.atan2(first.y, first.x);
  const toward = sub3(itemAt(points, 0), center);
  const flat = sub3(toward, scale3(along, dot3(along, toward)));
  if (!(length3(flat) > 0)) return undefined;
  const x = unit3(flat);
  const station0 = sub3(scale3(x, Math.cos(angle)), scale3(cross3(along, x), Math.sin(angle)));
  return { at: center, along, station0 };
};

const DIRECTIONS: readonly Vec3[] = [-1, 0, 1]
  .flatMap((x) => [-1, 0, 1].flatMap((y) => [-1, 0, 1].map((z) => vec3(x, y, z))))
  .filter((v) => length3(v) > 0)
  .map(unit3);

/** Poses about a center that face every way, with several rolls each. */
const posesAbout = (at: Vec3, directions: readonly Vec3[], rolls: number): readonly Pose[] =>
  directions.flatMap((along) => {
    const across = unit3(cross3(along, Math.abs(along.x) < 0.7 ? vec3(1, 0, 0) : vec3(0, 1, 0)));
    const other = cross3(along, across);
    return Array.from({ length: rolls }, (_, i) => {
      const { x, y } = polar2(1, (2 * Math.PI * i) / rolls);
      return { at, along, station0: add3(scale3(across, x), scale3(other, y)) };
    });
  });

/** Poses that put two of B's marks at two points: turned about the line through them. */
const posesHinged = (
  [p, q]: readonly [Vec3, Vec3],
  [m, n]: readonly [Vec2, Vec2],
  turns: number,
): readonly Pose[] => {
  const line = sub3(q, p);
  if (!(length3(line) > 0)) return [];
  const u = unit2(sub2(n, m));
  const middle = scale2(add2(m, n), 0.5);
  const ahead = unit3(line);
  return posesAbout(scale3(add3(p, q), 0.5), [ahead], turns).map(({ at, station0: left }) => {
    // u of B's face runs along the line, and what is left of u square to it.
    const place = ({ x, y }: Vec2): Vec3 => {
      const v = { x, y };
      return add3(scale3(ahead, dot2(v, u)), scale3(left, dot2(v, left2(u))));
    };
    return { at: sub3(at, place(middle)), along: cross3(ahead, left), station0: place({ x: 1, y: 0 }) };
  });
};

/** Poses to set out from. Points found one by one may each lie on either side of A's face; both are tried. */
const startsOf = (readings: readonly TapeReading[], marks: TapeMarks): readonly Pose[] => {
  const points = marks.b.map((_, b) => trilaterate(readings, marks.a, b));
  const found = points.filter((p) => p !== undefined);
  const mean = readings.reduce((sum, { distance }) => sum + distance, 0) / readings.length;
  if (found.length === points.length) {
    const sides = Array.from({ length: 2 ** (found.length - 1) }, (_, mask) =>
      found.map((p, i) => (i > 0 && (mask >> (i - 1)) % 2 === 1 ? { ...p, z: -p.z } : p)),
    );
    const through = sides.map((side) => poseThrough(side, marks.b)).filter((pose) => pose !== undefined);
    const center = scale3(found.reduce(add3), 1 / found.length);
    const facing = [vec3(0, 0, -1), ...(length3(center) > 0 ? [unit3(scale3(center, -1))] : [])];
    return [...through, ...posesAbout(center, facing, 4)];
  }
  const known = points.flatMap((p, b) => (p ? [{ p, mark: itemAt(marks.b, b) }] : []));
  const [one, two] = known;
  if (one && two)
    return [1, -1].flatMap((side) =>
      posesHinged([one.p, { ...two.p, z: side * two.p.z }], [one.mark, two.mark], 12),
    );
  const centers =
    found.length > 0
      ? [scale3(found.reduce(add3), 1 / found.length)]
      : DIRECTIONS.filter((v) => v.z >= 0).map((v) => scale3(v, mean));
  return centers.flatMap((at) => posesAbout(at, DIRECTIONS, 4));
};

const ahead = (fit: PoseFit): PoseFit => (fit.pose.at.z < 0 ? { ...fit, pose: mirrorPose(fit.pose) } : fit);

/** How far two poses lie apart, mm, turns taken at the given radius. */
export const poseDistance = (p: Pose, q: Pose, radius: number): number =>
  Math.max(
    length3(sub3(p.at, q.at)),
    radius * length3(sub3(p.along, q.along)),
    radius * length3(sub3(p.station0, q.station0)),
  );

/**
 * All answers to six or more tapes with end B on A's open side (at.z ≥ 0), the best first; `mirrorPose` gives the other
 * half. Answers that fit much worse than the best may stand behind it. With exact tapes the best is within rounding of the
 * truth.
 */
export const findPoses = (readings: readonly TapeReading[], marks: TapeMarks): readonly PoseFit[] => {
  const radius = reachOf(marks.b);
  const scale = Math.max(radius, ...readings.map(({ distance }) => distance));
  const rough = startsOf(readings, marks).map((start) => ahead(refine(readings, marks, start, 12)));
  const distinct: PoseFit[] = [];
  for (const fit of [...rough].sort((p, q) => p.squares - q.squares)) {
    if (distinct.length >= 6) break;
    if (distinct.every(({ pose }) => poseDistance(pose, fit.pose, scale) > 1e-4 * scale)) distinct.push(fit);
  }
  const fine = distinct
    .map((fit) => ahead(refine(readings, marks, fit.pose)))
    .sort((p, q) => p.squares - q.squares);
  return fine.filter((fit, i) =>
    fine.slice(0, i).every(({ pose }) => poseDistance(pose, fit.pose, scale) > 1e-5 * scale),
  );
};

/**
 * Covariance of a pose for tapes with an error of one mm (standard deviation): shift x, y, z in mm, then turn about x, y, z
 * in radians. Undefined where the tapes leave the end free to move.
 */
export const poseCovariance = (
  readings: readonly TapeReading[],
  marks: TapeMarks,
  pose: Pose,
): readonly (readonly number[])[] | undefined => {
  const radius = reachOf(marks.b);
  const found = covarianceOf(poseRows(readings, marks, pose), 6, 1e8);
  const unit = (k: number): number => (k < 3 ? 1 : 1 / radius);
  return found?.map((row, i) => row.map((value, j) => value * unit(i) * unit(j)));
};

/** The reading without which the others agree best, and their sum of squares then. At least eight readings. */
export const oddReading = (
  readings: readonly TapeReading[],
  marks: TapeMarks,
): { readonly index: number; readonly squares: number } => {
  const without = readings.map((_, index) => {
    const rest = readings.filter((_, i) => i !== index);
    return { index, squares: findPoses(rest, marks)[0]?.squares ?? Infinity };
  });
  return without.reduce((best, one) => (one.squares < best.squares ? one : best));
};
