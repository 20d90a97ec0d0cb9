import { present } from './present.ts';
import {
  axesAt,
  direction,
  inner,
  localTo,
  minus,
  norm,
  outer,
  point,
  times,
  type Vec2,
  type Vec3,
} from './space.ts';

/**
 * Signed distance in mm from a point to a body's surface: negative inside, exact outside, and never more than the true
 * distance. Written from the bodies' definitions alone, with nothing of the product's geometry.
 */
export type Distance = (p: Vec3) => number;

/** The half-space behind a plane: positive on the side `normal` points to. */
export function planeDistance(through: Vec3, normal: Vec3): Distance {
  const n = direction(normal);
  return (p) => inner(minus(p, through), n);
}

/** A round bar without ends, its axis through `through` along `along`. */
export function cylinderDistance(through: Vec3, along: Vec3, radius: number): Distance {
  const axes = axesAt(through, along);
  return (p) => {
    const { x, y } = localTo(axes, p);
    return Math.hypot(x, y) - radius;
  };
}

export const sphereDistance =
  (centre: Vec3, radius: number): Distance =>
  (p) =>
    norm(minus(p, centre)) - radius;

/** One nappe of a right circular cone without base: `axis` points from the apex into the body, `halfAngle` in (0, π/2). */
export function coneDistance(apex: Vec3, axis: Vec3, halfAngle: number): Distance {
  const axes = axesAt(apex, axis);
  const [c, s] = [Math.cos(halfAngle), Math.sin(halfAngle)];
  return (p) => {
    const q = localTo(axes, p);
    const r = Math.hypot(q.x, q.y);
    return q.z * c + r * s < 0 ? Math.hypot(r, q.z) : r * c - q.z * s;
  };
}

/** The cone through two circles square to the line between their centres, without base; a cylinder where the radii are equal. */
export function coneThrough(from: Vec3, radiusFrom: number, to: Vec3, radiusTo: number): Distance {
  const axes = axesAt(from, minus(to, from));
  const slope = (radiusTo - radiusFrom) / norm(minus(to, from));
  const c = 1 / Math.hypot(1, slope);
  return (p) => {
    const q = localTo(axes, p);
    const r = Math.hypot(q.x, q.y);
    const side = (r - radiusFrom - slope * q.z) * c;
    // A foot past the axis means the apex is nearest.
    return r - side * c >= 0 ? side : Math.hypot(r, q.z + radiusFrom / slope);
  };
}

/**
 * The oblique cone (an eccentric reducer) through two circles in parallel planes square to `axis`, carried on past both, to its
 * apex on the small side. The distance is found by search over its straight lines.
 */
export function obliqueConeDistance(
  from: Vec3,
  radiusFrom: number,
  to: Vec3,
  radiusTo: number,
  axis: Vec3,
): Distance {
  const axes = axesAt(from, axis);
  const top = localTo(axes, to);
  if (top.z === 0) throw new Error('the circles of a cone lie in different planes');
  /** The apex as a share of the way between the circles: before both or past both. */
  const apex = radiusFrom / (radiusFrom - radiusTo);
  const lineDistance = (q: Vec3, angle: number): number => {
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const foot = point(radiusFrom * c, radiusFrom * s, 0);
    const span = minus(point(top.x + radiusTo * c, top.y + radiusTo * s, top.z), foot);
    const d = minus(q, foot);
    const share = inner(d, span) / inner(span, span);
    const past = apex > 0 ? share > apex : share < apex;
    return past ? norm(minus(d, times(span, apex))) : norm(outer(d, span)) / norm(span);
  };
  return (p) => {
    const q = localTo(axes, p);
    const t = q.z / top.z;
    const inside = Math.hypot(q.x - t * top.x, q.y - t * top.y) < radiusFrom + t * (radiusTo - radiusFrom);
    const distance = lowest((a) => lineDistance(q, a), 0, 2 * Math.PI, 32, 1e-8).value;
    return inside ? -distance : distance;
  };
}

/** A whole ring: `major` from the centre to the middle of the round bar, `minor` the bar's radius. */
export function torusDistance(centre: Vec3, axis: Vec3, major: number, minor: number): Distance {
  const axes = axesAt(centre, axis);
  return (p) => {
    const q = localTo(axes, p);
    return Math.hypot(Math.hypot(q.x, q.y) - major, q.z) - minor;
  };
}

/**
 * A bend with straight pipe going on at both ends: its centre line starts at `centre` + `major` along `start` and turns
 * about `axis` by `angle` (right hand, under 2π). A pipe's surface lies its radius from the nearest point of its centre line.
 */
export function bendDistance(
  centre: Vec3,
  axis: Vec3,
  start: Vec3,
  angle: number,
  major: number,
  minor: number,
): Distance {
  const axes = axesAt(centre, axis, start);
  /** Distance to the half line that leaves the arc's end at azimuth `at`, running in the turning direction times `sense`. */
  const toLeg = (q: Vec3, at: number, sense: number): number => {
    const radial = q.x * Math.cos(at) + q.y * Math.sin(at) - major;
    const along = sense * (q.y * Math.cos(at) - q.x * Math.sin(at));
    return Math.hypot(radial, q.z, Math.min(0, along));
  };
  return (p) => {
    const q = localTo(axes, p);
    const azimuth = (Math.atan2(q.y, q.x) + 2 * Math.PI) % (2 * Math.PI);
    const arc = azimuth <= angle ? Math.hypot(Math.hypot(q.x, q.y) - major, q.z) : Infinity;
    return Math.min(arc, toLeg(q, 0, -1), toLeg(q, angle, 1)) - minor;
  };
}

/** Where a bar lies: the middle of its length, its axis, and the direction of its width. */
export interface BarPlace {
  readonly centre: Vec3;
  readonly axis: Vec3;
  readonly across: Vec3;
}

/**
 * A rectangular bar or the outside of a rectangular tube: `width` along `across`, `depth` square to it, corners along the
 * length rounded to `corner`. Without `length` it has no ends; a block is one with no corner and a length.
 */
export function barDistance(
  place: BarPlace,
  width: number,
  depth: number,
  corner = 0,
  length = Infinity,
): Distance {
  const axes = axesAt(place.centre, place.axis, place.across);
  if (!(corner >= 0 && 2 * corner <= Math.min(width, depth))) throw new Error('corner radius out of range');
  return (p) => {
    const q = localTo(axes, p);
    const x = Math.abs(q.x) - width / 2 + corner;
    const y = Math.abs(q.y) - depth / 2 + corner;
    const section = Math.hypot(Math.max(x, 0), Math.max(y, 0)) + Math.min(Math.max(x, y), 0) - corner;
    const end = Math.abs(q.z) - length / 2;
    if (end === -Infinity) return section;
    return Math.hypot(Math.max(section, 0), Math.max(end, 0)) + Math.min(Math.max(section, end), 0);
  };
}

/** The nearest of several bodies: exact outside all of them. */
export const unionDistance =
  (...bodies: readonly Distance[]): Distance =>
  (p) =>
    Math.min(...bodies.map((body) => body(p)));

/** What several bodies have in common, e.g. a bar cut off by planes: exact where one face is nearest, never too large. */
export const commonDistance =
  (...bodies: readonly Distance[]): Distance =>
  (p) =>
    Math.max(...bodies.map((body) => body(p)));

/** The body grown by `by` on every side (a root gap, a wall), or shrunk where negative. */
export const grown =
  (body: Distance, by: number): Distance =>
  (p) =>
    body(p) - by;

/** A body grown round an axis from its meridian: `profile` takes height along the axis and radius to signed distance. */
export function revolvedDistance(origin: Vec3, axis: Vec3, profile: (p: Vec2) => number): Distance {
  const axes = axesAt(origin, axis);
  return (p) => {
    const q = localTo(axes, p);
    return profile({ x: q.z, y: Math.hypot(q.x, q.y) });
  };
}

/** The lowest value of f over [from, to]: scanned in `steps`, then narrowed to `fineness` by golden section round each dip worth it. */
export function lowest(
  f: (t: number) => number,
  from: number,
  to: number,
  steps: number,
  fineness = 1e-10,
): { at: number; value: number } {
  const step = (to - from) / steps;
  const values = Array.from({ length: steps + 1 }, (_, i) => f(from + i * step));
  let best = { at: from, value: present(values[0]) };
  values.forEach((value, i) => {
    if (value < best.value) best = { at: from + i * step, value };
  });
  const dips = values.flatMap((v, i) =>
    v <= (values[i - 1] ?? Infinity) && v <= (values[i + 1] ?? Infinity) ? [i] : [],
  );
  dips.sort((a, b) => present(values[a]) - present(values[b]));
  for (const i of dips.slice(0, 4)) {
    // Where it rises from an end at once it is lowest right there, as under the corner of a wall.
    const inward = i === 0 ? from + fineness : i === steps ? to - fineness : undefined;
    if (inward !== undefined && f(inward) >= present(values[i])) continue;
    const found = golden(
      f,
      Math.max(from, from + (i - 1) * step),
      Math.min(to, from + (i + 1) * step),
      fineness,
    );
    if (found.value < best.value) best = found;
  }
  return best;
}

function golden(
  f: (t: number) => number,
  from: number,
  to: number,
  fineness: number,
): { at: number; value: number } {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  let [c, d] = [b - ratio * (b - a), a + ratio * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  while (b - a > fineness * (1 + Math.abs(a))) {
    if (fc < fd) [b, d, fd, c] = [d, c, fc, NaN];
    else [a, c, fc, d] = [c, d, fd, NaN];
    if (Number.isNaN(c)) fc = f((c = b - ratio * (b - a)));
    else fd = f((d = a + ratio * (b - a)));
  }
  return fc < fd ? { at: c, value: fc } : { at: d, value: fd };
}
