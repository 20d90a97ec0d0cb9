import { length3, scale3, sub3, type Vec3 } from './vector.ts';

/**
 * Right cones and cylinders that all touch one sphere meet in flat curves. Each is
 * |X|² - R² = l(X)² with l(X) = (d·X - R sin b) / cos b, so two of them meet where l₁ = l₂ (or l₁ = -l₂): a plane.
 * X is measured from the sphere's center, d is the axis' unit direction, b the angle of the side, positive where the cone
 * narrows along d.
 */
export interface SphereCone {
  readonly direction: Vec3;
  readonly lean: number;
}

/** The plane that parts two cones about one sphere, X · normal = reach from the sphere's center, pointing out of the first. */
export const partingPlane = (
  radius: number,
  first: SphereCone,
  second: SphereCone,
): { readonly normal: Vec3; readonly reach: number } => {
  const level = ({ direction, lean }: SphereCone): Vec3 => scale3(direction, 1 / Math.cos(lean));
  const across = sub3(level(second), level(first));
  const size = length3(across);
  return {
    normal: scale3(across, 1 / size),
    reach: (radius * (Math.tan(second.lean) - Math.tan(first.lean))) / size,
  };
};

/**
 * The side angle of the cone that touches a sphere of radius R about its axis' start and has the radius r at the distance
 * `length` along it: L sin b + r cos b = R.
 */
export const leanToSphere = (sphere: number, radius: number, length: number): number =>
  Math.asin(sphere / Math.hypot(length, radius)) - Math.atan2(radius, length);
