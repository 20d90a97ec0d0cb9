import type { Mate } from '../mate.ts';
import { GRAZE } from '../tolerance.ts';
import { cross3, dot3, length3, scale3, sub3, unit3, type Vec3 } from '../vector.ts';

/**
 * An endless round cylinder as a mate.
 * @param point any point of its axis, mm
 * @param axis direction of its axis; need not be of unit length
 * @param radius mm
 *
 * The line and the axis are closest at distance `gap` apart; seen along the axis the line crosses the circle at
 * half-chord sqrt(radius^2 - gap^2), written as a product so that a line tangent to the cylinder stays exact.
 */
export const cylinderMate = (point: Vec3, axis: Vec3, radius: number): Mate => {
  const a = unit3(axis);
  return {
    convex: true,
    enter: ({ origin, direction }) => {
      const across = cross3(direction, a);
      const sine = length3(across);
      if (sine < 1e-12) return undefined;
      const from = sub3(origin, point);
      const gap = Math.abs(dot3(from, across)) / sine;
      if (gap > radius + GRAZE) return undefined;
      const halfChord = Math.sqrt(Math.max(0, (radius - gap) * (radius + gap)));
      const closest = dot3(cross3(a, from), across) / (sine * sine);
      const t = closest - halfChord / sine;
      const hit = { x: from.x + t * direction.x, y: from.y + t * direction.y, z: from.z + t * direction.z };
      const radial = sub3(hit, scale3(a, dot3(hit, a)));
      return { t, normal: scale3(radial, 1 / (length3(radial) || 1)), face: 'cylinder' };
    },
  };
};
