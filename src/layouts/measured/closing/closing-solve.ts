import { DEGREE, modulo, TURN } from '../../../geometry/angle-units.ts';
import { station90, type Pose } from '../../../geometry/pose-by-tape.ts';
import {
  add3,
  angleBetween,
  cross3,
  dot3,
  intoAxes,
  length3,
  scale3,
  sub3,
  unit3,
  vec3,
  type Vec3,
} from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import { formatAngle } from '../../../units/angle.ts';
import { say } from '../../../words/say.ts';

/** A unit vector's frame on a piece: x at its station 0, y at its station 90 seen as the sense says, z along the piece. */
export interface PieceFrame {
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}
const around = (angle: number): number => {
  const turned = modulo(angle, TURN);
  return TURN - turned < 1e-9 ? 0 : turned;
};

/** What of a vector is square to a unit direction, as a unit vector. */
const squareTo = (v: Vec3, direction: Vec3): Vec3 => unit3(sub3(v, scale3(direction, dot3(v, direction))));

/** Where a piece runs from and to, set back from the measured faces along each end's own axis. */
export interface SetBack {
  readonly from: Vec3;
  readonly to: Vec3;
}

/** The two points `back` mm off the faces, in end A's frame. */
export const setBack = ({ at, along }: Pose, back: number): SetBack => ({
  from: vec3(0, 0, back),
  to: add3(at, scale3(along, back)),
});

/** One straight piece between the two ends. Its station numbers are those of end A's pipe, carried along it. */
export interface StraightPiece {
  readonly length: number;
  /** In end A's frame: z runs from A to B. */
  readonly frame: PieceFrame;
  /** The face that each end is cut to in the end's own stock frame, as a normal toward the piece. */
  readonly faces: { readonly start: Vec3; readonly finish: Vec3 };
  /** Each end's cut out of square, and the piece's station where it is longest. */
  readonly tilts: {
    readonly start: { readonly tilt: number; readonly longest: number };
    readonly finish: { readonly tilt: number; readonly longest: number };
  };
  /** End B's station that the piece's line 0 meets. */
  readonly meets: number;
}

/** Steepest cut a straight closing piece may need, from square: over it the two pipes need a turn. */
const STEEPEST = 45 * DEGREE;

/** How far a straight piece between the faces leans from each end's axis. */
const leans = (
  pose: Pose,
  back: number,
): { readonly length: number; readonly z: Vec3; readonly tilts: readonly [number, number] } => {
  const { from, to } = setBack(pose, back);
  const line = sub3(to, from);
  const length = length3(line);
  const z = length > 1e-6 ? scale3(line, 1 / length) : vec3(0, 0, 1);
  const lean = (cosine: number): number => Math.acos(Math.max(-1, Math.min(1, cosine)));
  return { length, z, tilts: [lean(z.z), lean(-dot3(z, pose.along))] };
};

/** True where one straight piece can close the gap. */
export const areFacing = (pose: Pose, back: number): boolean => {
  const { length, tilts } = leans(pose, back);
  return length > 1e-6 && Math.max(...tilts) <= STEEPEST;
};

/**
 * The straight piece from face to face. Throws a `joint` UserError where the ends do not look at each other.
 * @param back how far the piece stands off each face along that end's axis, mm
 */
export const solveStraight = (pose: Pose, back: number): StraightPiece => {
  const { length, z, tilts } = leans(pose, back);
  const [leanA, leanB] = tilts;
  const steep = Math.max(leanA, leanB);
  if (!areFacing(pose, back))
    throw jointError(
      'turns',
      'not-facing',
      say`the two ends do not look at each other: a straight piece would be cut ${formatAngle(steep, 0)} from square`,
      say`give turns elbow or turns miter`,
    );
  const x = squareTo(vec3(1, 0, 0), z);
  const y = cross3(z, x);
  const inStart = (v: Vec3): Vec3 => vec3(dot3(v, x), -dot3(v, y), -dot3(v, z));
  const inFinish = (v: Vec3): Vec3 => intoAxes({ x, y, z }, v);
  // A face whose normal, toward the piece, leans to a station lies furthest off there: the piece is longest.
  const longest = (normal: Vec3, sense: 1 | -1): number => around(sense * Math.atan2(normal.y, normal.x));
  const faces = { start: inStart(vec3(0, 0, 1)), finish: inFinish(pose.along) };
  return {
    length,
    frame: { x, y, z },
    faces,
    tilts: {
      start: { tilt: leanA, longest: longest(faces.start, -1) },
      finish: { tilt: leanB, longest: longest(faces.finish, 1) },
    },
    meets: around(Math.atan2(dot3(x, station90(pose)), dot3(x, pose.station0))),
  };
};

/** A path of three straights and two turns between the ends, in end A's frame. */
export interface TurnedPath {
  /** Centers of the two turns. */
  readonly corners: readonly [Vec3, Vec3];
  /** From face to first center, center to center, second center to face. */
  readonly legs: readonly [number, number, number];
  readonly turns: readonly [number, number];
  /** Station on end A's pipe toward which it turns first (the throat's side). */
  readonly firstToward: number;
  /** How far the second turn is rolled from the first, clockwise looking along the pipe from A. */
  readonly roll: number;
  /** Station of end B toward which the last leg comes from the second turn (the throat's side). */
  readonly lastToward: number;
}

/** The path with given legs beside the ends. */
export const pathWith = (pose: Pose, { from, to }: SetBack, first: number, last: number): TurnedPath => {
  const outA = vec3(0, 0, 1);
  const p = add3(from, scale3(outA, first));
  const q = add3(to, scale3(pose.along, last));
  const middle = sub3(q, p);
  const way = unit3(middle);
  const into = scale3(pose.along, -1);
  const [n1, n2] = [cross3(outA, way), cross3(way, into)];
  const toward = squareTo(way, outA);
  const back = squareTo(scale3(way, -1), pose.along);
  const roll = Math.atan2(dot3(way, cross3(n1, n2)), dot3(n1, n2));
  return {
    corners: [p, q],
    legs: [first, length3(middle), last],
    turns: [angleBetween(outA, way), angleBetween(way, into)],
    firstToward: around(Math.atan2(toward.y, toward.x)),
    roll,
    lastToward: around(Math.atan2(dot3(back, station90(pose)), dot3(back, pose.station0))),
  };
};

/**
 * The shortest path whose straights beside the ends keep `least` mm of pipe beyond each turn's take-off.
 * @param takeOff from a turn's center to where its straight pipe begins, by the turn
 */
export const shortestPath = (
  pose: Pose,
  ends: SetBack,
  takeOff: (turn: number) => number,
  least: number,
): TurnedPath => {
  let [first, last] = [least, least];
  let path = pathWith(pose, ends, first, last);
  // Each turn sets its take-off, and that the turns: a few rounds settle both.
  for (let i = 0; i < 300; i++) {
    const [a, b] = path.turns.map((turn) => least + takeOff(Math.min(turn, 170 * DEGREE))) as [
      number,
      number,
    ];
    const moved = Math.abs(a - first) + Math.abs(b - last);
    [first, last] = [(first + a) / 2, (last + b) / 2];
    path = pathWith(pose, ends, first, last);
    if (moved < 1e-10) break;
  }
  return path;
};
