import { along, type Line, type Mate } from '../mate.ts';
import { GRAZE } from '../tolerance.ts';
import { dot3, length3, scale3, sub3, unit3, type Vec3 } from '../vector.ts';

/**
 * A circular cone by two circles in planes square to `axis`: right where their centres lie on the axis, oblique (an
 * eccentric reducer) where they do not, a cylinder where right and of equal radii. Lengths in mm.
 */
export interface Cone {
  readonly from: Vec3;
  readonly radiusFrom: number;
  readonly to: Vec3;
  readonly radiusTo: number;
  /** Unit direction, from the first circle's plane toward the second's. */
  readonly axis: Vec3;
}

/** Where the parts of a line's run lie inside a solid: [enter, leave] in mm along it, either may be infinite. */
type Span = readonly [number, number];

/**
 * A cone as a mate, carried on endlessly past both circles (to its apex), or as a frustum with flat ends.
 *
 * With w the height of a point p between the planes (0 to 1), q its offset from the circle's centre there and rho the
 * circle's radius, the solid is |q| <= rho. Both q and rho are linear along a line, so it crosses where a quadratic is
 * zero; taken about its own vertex, as a product, so that a tangent line stays exact.
 */
export const coneMate = (cone: Cone, ends: 'endless' | 'flat' = 'endless'): Mate => {
  const { from, radiusFrom, radiusTo, axis } = cone;
  const across = sub3(cone.to, from);
  const height = dot3(across, axis);
  const growth = radiusTo - radiusFrom;
  const levelOf = (p: Vec3): number => dot3(sub3(p, from), axis) / height;
  const offsetOf = (p: Vec3, w: number): Vec3 => sub3(sub3(p, from), scale3(across, w));

  const crossCone = (line: Line): Span | undefined => {
    const rise = dot3(line.direction, axis) / height;
    const side = sub3(line.direction, scale3(across, rise));
    const spread = growth * rise;
    const a = dot3(side, side) - spread * spread;
    const w0 = levelOf(line.origin);
    const q0 = offsetOf(line.origin, w0);
    const b = dot3(q0, side) - (radiusFrom + growth * w0) * spread;
    if (Math.abs(a) < 1e-13) {
      // Parallel to a straight line of the cone: one crossing.
      const rho = radiusFrom + growth * w0;
      const c = dot3(q0, q0) - rho * rho;
      if (Math.abs(b) < 1e-13) return c <= 0 && rho > 0 ? [-Infinity, Infinity] : undefined;
      const t = -c / (2 * b);
      return b < 0 ? [t, Infinity] : [-Infinity, t];
    }
    const middle = -b / a;
    const p = along(line, middle);
    const w = levelOf(p);
    const rho = radiusFrom + growth * w;
    const gap = length3(offsetOf(p, w));
    const square = -((gap - Math.abs(rho)) * (gap + Math.abs(rho))) / a;
    if (a > 0) {
      if (rho < 0 || gap > rho + GRAZE) return undefined;
      const half = Math.sqrt(Math.max(0, square));
      return [middle - half, middle + half];
    }
    // Steeper than the cone: it stays inside on the side where the cone grows.
    const half = Math.sqrt(Math.max(0, square));
    if (square < 0) return spread > 0 ? [middle, Infinity] : [-Infinity, middle];
    return spread > 0 ? [middle + half, Infinity] : [-Infinity, middle - half];
  };

  const normalAt = (p: Vec3): Vec3 => {
    const w = levelOf(p);
    const q = offsetOf(p, w);
    const lean = (dot3(q, across) + (radiusFrom + growth * w) * growth) / height;
    return unit3(sub3(q, scale3(axis, lean)));
  };

  return {
    convex: true,
    enter: (line) => {
      const span = crossCone(line);
      if (!span) return undefined;
      let [enter, leave] = span;
      let face = 'cone';
      let normal: Vec3 | undefined;
      if (ends === 'flat') {
        const rise = dot3(line.direction, axis) / height;
        const w0 = levelOf(line.origin);
        if (rise === 0) {
          if (w0 < 0 || w0 > 1) return undefined;
        } else {
          const [first, last] = rise > 0 ? [-w0 / rise, (1 - w0) / rise] : [(1 - w0) / rise, -w0 / rise];
          if (first > enter) {
            enter = first;
            face = rise > 0 ? 'end 1' : 'end 2';
            normal = scale3(axis, rise > 0 ? -1 : 1);
          }
          leave = Math.min(leave, last);
        }
      }
      if (enter === -Infinity || enter > leave + GRAZE) return undefined;
      return { t: enter, normal: normal ?? normalAt(along(line, enter)), face };
    },
  };
};

/** The same cone with its surface moved inward by `depth` mm, square to it; true for right cones only. */
export const insetCone = (cone: Cone, depth: number): Cone => {
  const height = dot3(sub3(cone.to, cone.from), cone.axis);
  const slope = (cone.radiusTo - cone.radiusFrom) / height;
  const less = depth * Math.hypot(1, slope);
  return { ...cone, radiusFrom: cone.radiusFrom - less, radiusTo: cone.radiusTo - less };
};
