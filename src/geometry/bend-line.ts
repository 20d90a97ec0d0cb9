import { itemAt } from '../lists.ts';
import { add3, cross3, dot3, length3, scale3, sub3, unit3, vec3, type Vec3 } from './vector.ts';

/**
 * The center line of a bent pipe or tube: straights joined by arcs, each arc tangent to its two neighbors. Lengths in mm,
 * angles in radians, points in space.
 */

/** One bend. */
export interface Bend {
  /** Change of direction, 0 to π. */
  readonly turn: number;
  /** Radius of the center line. */
  readonly radius: number;
  /** Where it would have its corner. */
  readonly corner: Vec3;
  /** From the corner back to where the arc begins, and on to where it ends: radius · tan(turn / 2). */
  readonly takeOff: number;
  /** Length of the arc on the center line: radius · turn. */
  readonly arc: number;
  /**
   * How far the plane of the bend is turned from that of the bend before, about the way the pipe runs and clockwise looking
   * along it from the start: −π to π. Zero for the first.
   */
  readonly roll: number;
}

/** A bent center line. */
export interface BentLine {
  readonly bends: readonly Bend[];
  /** Straights between tangent points, one more than the bends; negative where two arcs overlap. */
  readonly straights: readonly number[];
  /** Whole length along the center line. */
  readonly length: number;
}

/** A corner that is no bend: its neighbors lie on one line, or it comes back on itself. */
export class BendError extends Error {
  /** Place of the corner in the list of points, from 0. */
  readonly index: number;
  readonly reason: 'straight' | 'back' | 'same';
  constructor(index: number, reason: 'straight' | 'back' | 'same') {
    super(`point ${index + 1} makes no bend (${reason})`);
    this.name = 'BendError';
    this.index = index;
    this.reason = reason;
  }
}

/** Below this change of direction a corner is straight, radians. */
const STRAIGHT = 1e-9;

/**
 * The bends through the corners of a line of two or more points.
 * @param radius radius of each bend's center line, by the bend's place from 0, mm
 * @throws BendError where two points fall together, or a corner is straight or comes back on itself
 */
export const bendLine = (points: readonly Vec3[], radius: (bend: number) => number): BentLine => {
  const legs = points.slice(1).map((p, i) => sub3(p, itemAt(points, i)));
  const lengths = legs.map(length3);
  lengths.forEach((length, i) => {
    if (!(length > 0)) throw new BendError(i + 1, 'same');
  });
  const ways = legs.map(unit3);
  const normals = ways.slice(1).map((way, i) => cross3(itemAt(ways, i), way));
  const bends = normals.map((normal, i): Bend => {
    const [before, after] = [itemAt(ways, i), itemAt(ways, i + 1)];
    const turn = Math.atan2(length3(normal), dot3(before, after));
    if (turn < STRAIGHT) throw new BendError(i + 1, 'straight');
    if (turn > Math.PI - 1e-6) throw new BendError(i + 1, 'back');
    const last = normals[i - 1];
    const roll = last ? Math.atan2(dot3(before, cross3(last, normal)), dot3(last, normal)) : 0;
    return {
      turn,
      radius: radius(i),
      corner: itemAt(points, i + 1),
      takeOff: radius(i) * Math.tan(turn / 2),
      arc: radius(i) * turn,
      roll,
    };
  });
  const straights = lengths.map(
    (length, i) => length - (bends[i - 1]?.takeOff ?? 0) - (bends[i]?.takeOff ?? 0),
  );
  return {
    bends,
    straights,
    length: straights.reduce((sum, s) => sum + s, 0) + bends.reduce((sum, { arc }) => sum + arc, 0),
  };
};

/**
 * The corner points of a line given by its legs, its changes of direction and how far each bend's plane is rolled from the
 * one before. It starts at the origin along +z and its first bend turns toward +x.
 * @param legs lengths between corners, one more than the turns
 */
export const cornersOf = (
  legs: readonly number[],
  turns: readonly number[],
  rolls: readonly number[],
): readonly Vec3[] => {
  let way = vec3(0, 0, 1);
  let side = vec3(1, 0, 0);
  let at = vec3(0, 0, 0);
  const points = [at];
  legs.forEach((leg, i) => {
    at = add3(at, scale3(way, leg));
    points.push(at);
    const turn = turns[i];
    if (turn === undefined) return;
    const roll = i === 0 ? 0 : (rolls[i - 1] ?? 0);
    const across = cross3(way, side);
    const toward = add3(scale3(side, Math.cos(roll)), scale3(across, Math.sin(roll)));
    [way, side] = [
      add3(scale3(way, Math.cos(turn)), scale3(toward, Math.sin(turn))),
      sub3(scale3(toward, Math.cos(turn)), scale3(way, Math.sin(turn))),
    ];
  });
  return points;
};

/** Where one bend is marked on the straight stock before it is bent, and how it is bent. */
export interface BendMark {
  /** From the start end to where the bend begins and ends. */
  readonly from: number;
  readonly to: number;
  /** Angle to bend to before it springs back. */
  readonly bendTo: number;
  /**
   * Station of the bend's throat, counter-clockwise seen facing the start end, the first bend's at 0: −(sum of the rolls), in
   * [0, 2π).
   */
  readonly throat: number;
}

/** The stock laid straight. */
export interface BendLayout {
  readonly marks: readonly BendMark[];
  /** Length to cut. */
  readonly cutLength: number;
}

/**
 * Marks on the straight stock.
 * @param stretch share of an arc's length that the bend draws out of the stock: an arc takes (1 − stretch) of its length
 * @param springback share of the angle bent to that springs back: a bend is bent to turn / (1 − springback)
 */
export const layOutBends = (line: BentLine, stretch = 0, springback = 0): BendLayout => {
  let run = line.straights[0] ?? 0;
  let rolled = 0;
  const marks = line.bends.map((bend, i): BendMark => {
    const from = run;
    const to = from + bend.arc * (1 - stretch);
    run = to + itemAt(line.straights, i + 1);
    rolled += bend.roll;
    const throat = -rolled % (2 * Math.PI);
    return {
      from,
      to,
      bendTo: bend.turn / (1 - springback),
      throat: throat < -1e-12 ? throat + 2 * Math.PI : Math.max(0, throat),
    };
  });
  return { marks, cutLength: run };
};
