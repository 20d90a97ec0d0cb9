import { along, type Line } from './mate.ts';
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

/**
 * Every place where a line enters a ring, mm along it, ascending.
 *
 * With t counted from the point nearest to the centre, the squared equation is a quartic without a cubic term, whose
 * turning points are the roots of a cubic in closed form. Between them it is monotone, so each entry is bracketed before
 * it is polished, on the distance to the bar itself (which keeps its digits where the quartic loses them).
 */
export const enterTorus = (torus: Torus, line: Line): readonly number[] => {
  const { centre, axis, major, minor } = torus;
  const nearest = dot3(sub3(centre, line.origin), line.direction);
  const o = sub3(along(line, nearest), centre);
  const distance2 = dot3(o, o);
  const reach2 = (major + minor) ** 2 - distance2;
  if (reach2 < -GRAZE * major) return [];
  const limit = Math.sqrt(Math.max(0, reach2)) * (1 + 1e-12) + GRAZE;
  const [oz, dz] = [dot3(o, axis), dot3(line.direction, axis)];
  const e = cross3(line.direction, axis);
  // Squared distance from the axis along the line: A t² + 2 B t + C.
  const [A, B, C] = [dot3(e, e), -oz * dz, distance2 - oz * oz];
  const K = distance2 + major * major - minor * minor;
  const from = (t: number): number => {
    const rho = Math.sqrt(Math.max(0, (A * t + 2 * B) * t + C));
    return Math.hypot(rho - major, oz + dz * t) - minor;
  };
  const slope = (t: number): number => {
    const rho = Math.sqrt(Math.max(1e-300, (A * t + 2 * B) * t + C));
    const z = oz + dz * t;
    return ((rho - major) * ((A * t + B) / rho) + z * dz) / (Math.hypot(rho - major, z) || 1);
  };
  const turns = depressedCubicRoots(K - 2 * major * major * A, -2 * major * major * B);
  const entries: number[] = [];
  turns.forEach((turn, i) => {
    if (i % 2 === 1) return;
    const low = Math.max(-limit, Math.min(limit, turn));
    const depth = from(low);
    const start = i === 0 ? -limit : Math.max(-limit, turns[i - 1] as number);
    const before = from(start);
    if (depth > GRAZE) return;
    if (depth >= 0) entries.push(low + nearest);
    else if (before > 0) entries.push(polish(from, slope, start, low) + nearest);
    else if (i === 0 || before >= 0) entries.push(start + nearest);
  });
  return entries;
};

/** The root between `outside` (f > 0) and `inside` (f < 0): Newton's steps, kept inside the bracket by halving. */
const polish = (
  f: (t: number) => number,
  slope: (t: number) => number,
  outside: number,
  inside: number,
): number => {
  let [low, high] = [outside, inside];
  let t = (low + high) / 2;
  for (let i = 0; i < 100; i++) {
    const value = f(t);
    if (value > 0) low = t;
    else high = t;
    if (value === 0) break;
    let next = t - value / slope(t);
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next - t) < 1e-13 || next === t) return next;
    t = next;
  }
  return t;
};
