import { itemAt } from '../lists.ts';
import type { Line } from './mate.ts';
import { GRAZE } from './tolerance.ts';
import { add3, cross3, dot3, length3, scale3, sub3, type Vec3 } from './vector.ts';

/** A ring: `major` from the centre to the middle of its round bar, `minor` the bar's radius, mm; `axis` a unit direction. */
export interface Torus {
  readonly centre: Vec3;
  readonly axis: Vec3;
  readonly major: number;
  readonly minor: number;
}

/** The middle of the bar nearest to `p`. */
const ringFoot = ({ centre, axis, major }: Torus, p: Vec3): Vec3 => {
  const from = sub3(p, centre);
  const radial = sub3(from, scale3(axis, dot3(from, axis)));
  const size = length3(radial);
  return size > 0 ? add3(centre, scale3(radial, major / size)) : centre;
};

/** Outward normal of the ring at a point of it. */
export const torusNormal = (torus: Torus, p: Vec3): Vec3 =>
  scale3(sub3(p, ringFoot(torus, p)), 1 / torus.minor);

/** Real roots of t³ + pt + q, ascending; a double root once (closed form, trigonometric where three are real). */
const depressedCubicRoots = (p: number, q: number): readonly number[] => {
  const discriminant = (q * q) / 4 + (p * p * p) / 27;
  if (discriminant > 0) {
    const root = Math.sqrt(discriminant);
    // The larger of the two cube roots first: their product is -p/3, which keeps the smaller one's digits.
    const u = Math.cbrt(q > 0 ? -q / 2 - root : -q / 2 + root);
    return [u === 0 ? 0 : u - p / (3 * u)];
  }
  const size = 2 * Math.sqrt(-p / 3);
  if (size === 0) return [0];
  const angle = Math.acos(Math.max(-1, Math.min(1, (3 * q) / (p * size)))) / 3;
  const roots = [0, 1, 2].map((k) => size * Math.cos(angle - (2 * Math.PI * k) / 3));
  return roots.sort((a, b) => a - b);
};

/** A line seen from a ring: t counts from the point nearest to its centre. */
interface Run {
  readonly major: number;
  readonly minor: number;
  /** Squared distance from the axis: A t² + 2 B t + C. */
  readonly A: number;
  readonly B: number;
  readonly C: number;
  /** Height along the axis: z + dz t. */
  readonly z: number;
  readonly dz: number;
}

/** Distance to the ring's surface at `t`. */
const gapAt = ({ major, minor, A, B, C, z, dz }: Run, t: number): number => {
  const beside = Math.sqrt(Math.max(0, (A * t + 2 * B) * t + C)) - major;
  const over = z + dz * t;
  return Math.sqrt(beside * beside + over * over) - minor;
};

/** How that distance grows with `t`. */
const gapSlope = ({ major, A, B, C, z, dz }: Run, t: number): number => {
  const rho = Math.sqrt(Math.max(1e-300, (A * t + 2 * B) * t + C));
  const over = z + dz * t;
  const size = Math.sqrt((rho - major) * (rho - major) + over * over);
  return size > 0 ? ((rho - major) * ((A * t + B) / rho) + over * dz) / size : 0;
};

/**
 * Every place where a line enters a ring, mm along it, ascending.
 *
 * With t counted from the point nearest to the centre, the squared equation is a quartic without a cubic term, whose
 * turning points are the roots of a cubic in closed form. Between them it is monotone, so each entry is bracketed before
 * it is polished, on the distance to the bar itself (which keeps its digits where the quartic loses them).
 */
export const enterTorus = ({ centre, axis, major, minor }: Torus, line: Line): readonly number[] => {
  const { origin, direction: d } = line;
  const [fx, fy, fz] = [origin.x - centre.x, origin.y - centre.y, origin.z - centre.z];
  const nearest = -(fx * d.x + fy * d.y + fz * d.z);
  const [ox, oy, oz] = [fx + nearest * d.x, fy + nearest * d.y, fz + nearest * d.z];
  const distance2 = ox * ox + oy * oy + oz * oz;
  const reach2 = (major + minor) ** 2 - distance2;
  if (reach2 < -GRAZE * major) return [];
  const limit = Math.sqrt(Math.max(0, reach2)) * (1 + 1e-12) + GRAZE;
  const z = ox * axis.x + oy * axis.y + oz * axis.z;
  const dz = d.x * axis.x + d.y * axis.y + d.z * axis.z;
  const e = cross3(d, axis);
  const A = dot3(e, e);
  const run: Run = { major, minor, A, B: -z * dz, C: distance2 - z * z, z, dz };
  const K = distance2 + major * major - minor * minor;
  const turns = depressedCubicRoots(K - 2 * major * major * A, -2 * major * major * run.B);
  const entries: number[] = [];
  // Every other turning point is a lowest one; the run falls to it from the highest before.
  for (let i = 0; i < turns.length; i += 2) {
    const low = Math.max(-limit, Math.min(limit, itemAt(turns, i)));
    const depth = gapAt(run, low);
    if (depth > GRAZE) continue;
    const start = i === 0 ? -limit : Math.max(-limit, itemAt(turns, i - 1));
    const before = gapAt(run, start);
    if (depth >= 0) entries.push(low + nearest);
    else if (before > 0) entries.push(polish(run, start, low) + nearest);
    else if (i === 0 || before >= 0) entries.push(start + nearest);
  }
  return entries;
};

/** The surface between `outside` and `inside`: Newton's steps, kept inside the bracket by halving. */
const polish = (run: Run, outside: number, inside: number): number => {
  let low = outside;
  let high = inside;
  let t = (low + high) / 2;
  for (let i = 0; i < 100; i++) {
    const value = gapAt(run, t);
    if (value > 0) low = t;
    else high = t;
    if (value === 0) break;
    let next = t - value / gapSlope(run, t);
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next - t) < 1e-13 || next === t) return next;
    t = next;
  }
  return t;
};
