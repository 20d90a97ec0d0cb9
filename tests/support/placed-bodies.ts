import { bendDistance, coneThrough, cylinderDistance, type Distance } from './fit-up.ts';
import { minus, plus, point, times, type Vec3 } from './space.ts';

/**
 * Bodies placed by hand in the branch's frame, from what the help says of each, as signed distances that share nothing with
 * the product. The branch runs along z toward the body; stations 0 and 90 lie on +x and +y.
 */
export const DEGREE = Math.PI / 180;
export const ORIGIN = point(0, 0, 0);
export const Z = point(0, 0, 1);
/** A straight body's axis at `angle` degrees to the branch, and the direction from it to the branch. */
export const lie = (angle: number) => {
  const [s, c] = [Math.sin(angle * DEGREE), Math.cos(angle * DEGREE)];
  return { d: point(s, 0, c), u: point(c, 0, -s), y: point(0, 1, 0) };
};
export const turn = (v: Vec3, degrees: number): Vec3 => {
  const [c, s] = [Math.cos(degrees * DEGREE), Math.sin(degrees * DEGREE)];
  return point(v.x * c - v.y * s, v.x * s + v.y * c, v.z);
};
export const aside = (offset: number): Vec3 => point(0, offset, 0);

/** An elbow under a branch square to its center line: `round` from the extrados, `at` from the first leg, degrees. */
export const elbow = (
  radius: number,
  bend: number,
  total: number,
  round: number,
  at: number,
  offset = 0,
): Distance => {
  const out = point(0, -Math.sin(round * DEGREE), -Math.cos(round * DEGREE));
  const along = point(1, 0, 0);
  const centre = minus(aside(offset), times(out, bend));
  // The center line turns from `along` toward the bend's center: about along × -out.
  const axis = point(0, -out.z, out.y);
  const start = minus(times(out, Math.cos(at * DEGREE)), times(along, Math.sin(at * DEGREE)));
  return bendDistance(centre, times(axis, -1), start, total * DEGREE, bend, radius);
};

/** The same with the branch's axis through the corner of the legs, `angle` from the first leg's axis. */
export const elbowByAngle = (
  radius: number,
  bend: number,
  total: number,
  angle: number,
  offset = 0,
): Distance => {
  const inPlane = (degrees: number): Vec3 => point(Math.sin(degrees * DEGREE), 0, Math.cos(degrees * DEGREE));
  const [first, second] = [inPlane(-angle), inPlane(180 - total - angle)];
  const takeOff = bend * Math.tan((total * DEGREE) / 2);
  const inward = inPlane((180 - total) / 2 - angle);
  const centre = plus(aside(offset), times(inward, bend / Math.cos((total * DEGREE) / 2)));
  const start = minus(plus(aside(offset), times(first, takeOff)), centre);
  // Travel into the bend is against the first leg, and turns toward the second.
  const travel = times(first, -1);
  const axis = point(
    travel.y * second.z - travel.z * second.y,
    travel.z * second.x - travel.x * second.z,
    travel.x * second.y - travel.y * second.x,
  );
  return bendDistance(centre, axis, start, total * DEGREE, bend, radius);
};

/** Two half pipes met in the plane that halves their angle, the branch square on the heel's seam. */
export const miterHeel = (radius: number, total: number): Distance => {
  const half = (total * DEGREE) / 2;
  const first = point(-Math.cos(half), 0, Math.sin(half));
  const second = point(Math.cos(half), 0, Math.sin(half));
  const [one, two] = [cylinderDistance(ORIGIN, first, radius), cylinderDistance(ORIGIN, second, radius)];
  return (p) => (p.x < 0 ? one(p) : two(p));
};

export const rightCone = (
  angle: number,
  offset: number,
  large: number,
  small: number,
  length: number,
  at: number,
) => {
  const { d } = lie(angle);
  const from = minus(aside(offset), times(d, at));
  return coneThrough(from, large / 2, plus(from, times(d, length)), small / 2);
};

// Outside diameters: ASME B36.10M NPS 8 219.075 mm (8.625 in), NPS 6 168.275; reducer length 6 in, elbow radius 12 in LR, 8 in SR.
export const NPS8 = 8.625 * 25.4;
export const NPS6 = 6.625 * 25.4;
