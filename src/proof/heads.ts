import { lowest, revolvedDistance, type Distance } from './distances.ts';
import type { Vec2, Vec3 } from './space.ts';

/**
 * The nearest point of the quarter ellipse x²/a² + y²/b² = 1, x, y ≥ 0, to a point there: the one root of
 * (a·x/(t+a²))² + (b·y/(t+b²))² = 1 above −min(a, b)², by bisection (D. Eberly, "Distance from a Point to an Ellipse, an
 * Ellipsoid, or a Hyperellipsoid", Geometric Tools, from memory). Points on an axis are the limits of it.
 */
export function nearestOnEllipse(a: number, b: number, p: Vec2): Vec2 {
  if (a < b) {
    const swapped = nearestOnEllipse(b, a, { x: p.y, y: p.x });
    return { x: swapped.y, y: swapped.x };
  }
  if (p.y <= 1e-12 * b) {
    const x = a === b ? Infinity : (a * a * p.x) / (a * a - b * b);
    return x < a ? { x, y: b * Math.sqrt(1 - (x / a) ** 2) } : { x: a, y: 0 };
  }
  // The unknown is t + b², which keeps its digits where t comes close to −b².
  const more = a * a - b * b;
  const isLow = (u: number) => ((a * p.x) / (u + more)) ** 2 + ((b * p.y) / u) ** 2 > 1;
  let [low, high] = [b * p.y, Math.hypot(a * p.x, b * p.y)];
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (isLow(middle)) low = middle;
    else high = middle;
  }
  return { x: (a * a * p.x) / (high + more), y: (b * b * p.y) / high };
}

/**
 * An ellipsoidal head on its shell: half an ellipsoid of `radius` round the axis and `depth` along it, which points out of the
 * head, then a cylinder without end behind the tangent line at `tangent`. A 2:1 head has a depth of half its radius.
 */
export const ellipsoidalHeadDistance = (tangent: Vec3, axis: Vec3, radius: number, depth: number): Distance =>
  revolvedDistance(tangent, axis, ({ x, y }) => {
    const foot = x < 0 ? undefined : nearestOnEllipse(depth, radius, { x, y });
    // From inside the shell the root may lie on the missing half, so the nearest of the half that is there is searched for.
    const onHead = (t: number) => Math.hypot(x - depth * Math.sin(t), y - radius * Math.cos(t));
    const toHead = foot ? Math.hypot(x - foot.x, y - foot.y) : lowest(onHead, 0, Math.PI / 2, 60).value;
    const toShell = x <= 0 ? Math.abs(y - radius) : Math.hypot(x, y - radius);
    const inside = x <= 0 ? y < radius : (x / depth) ** 2 + (y / radius) ** 2 < 1;
    return (inside ? -1 : 1) * Math.min(toHead, toShell);
  });

/**
 * A torispherical head on its shell: a crown of radius `crown`, a knuckle of radius `knuckle`, and a cylinder of `radius`
 * without end behind the tangent line at `tangent`; the axis points out of the head. Each part lies square to the part next to it
 * where they meet, so the nearest is found part by part.
 */
export function torisphericalHeadDistance(
  tangent: Vec3,
  axis: Vec3,
  radius: number,
  crown: number,
  knuckle: number,
): Distance {
  if (!(knuckle > 0 && knuckle <= radius && crown >= radius)) throw new Error('no such head');
  // The knuckle touches the shell at the tangent line and the crown from within.
  const across = radius - knuckle;
  const back = -Math.sqrt((crown - knuckle) ** 2 - across ** 2);
  const turn = Math.atan2(across, -back);
  return revolvedDistance(tangent, axis, ({ x, y }) => {
    const toShell = Math.hypot(Math.max(x, 0), y - radius);
    const join = { x: back + crown * Math.cos(turn), y: crown * Math.sin(turn) };
    const toJoin = Math.hypot(x - join.x, y - join.y);
    const onKnuckle = x >= 0 && Math.atan2(y - across, x) >= turn;
    const toKnuckle = onKnuckle ? Math.abs(Math.hypot(x, y - across) - knuckle) : Math.min(toShell, toJoin);
    const onCrown = Math.atan2(y, x - back) <= turn;
    const toCrown = onCrown ? Math.abs(Math.hypot(x - back, y) - crown) : toJoin;
    const inside =
      x <= 0 ? y < radius : onCrown ? Math.hypot(x - back, y) < crown : Math.hypot(x, y - across) < knuckle;
    return (inside ? -1 : 1) * Math.min(toShell, toKnuckle, toCrown);
  });
}
