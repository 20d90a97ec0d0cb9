import type { Mate } from '../mate.ts';
import { dot3, sub3, unit3, type Vec3 } from '../vector.ts';

/**
 * A plane as a mate: the solid is the half-space behind it.
 * @param point any point of the plane, mm
 * @param normal points out of the solid; need not be of unit length
 */
export const planeMate = (point: Vec3, normal: Vec3): Mate => {
  const n = unit3(normal);
  return {
    convex: true,
    enter: ({ origin, direction }) => {
      const approach = dot3(n, direction);
      if (approach >= 0) return undefined;
      return { t: dot3(n, sub3(point, origin)) / approach, normal: n, face: 'plane' };
    },
  };
};
