import type { Mate } from '../mate.ts';
import { GRAZE } from '../tolerance.ts';
import { unit3, type Vec3 } from '../vector.ts';

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
  const { x: ax, y: ay, z: az } = unit3(axis);
  const { x: px, y: py, z: pz } = point;
  return {
    convex: true,
    // Written out in plain numbers: a cut line asks for some two thousand entries.
    enter: ({ origin, direction }) => {
      const { x: dx, y: dy, z: dz } = direction;
      const [crossX, crossY, crossZ] = [dy * az - dz * ay, dz * ax - dx * az, dx * ay - dy * ax];
      const square = crossX * crossX + crossY * crossY + crossZ * crossZ;
      const sine = Math.sqrt(square);
      if (sine < 1e-12) return undefined;
      const [fx, fy, fz] = [origin.x - px, origin.y - py, origin.z - pz];
      const gap = Math.abs(fx * crossX + fy * crossY + fz * crossZ) / sine;
      if (gap > radius + GRAZE) return undefined;
      const halfChord = Math.sqrt(Math.max(0, (radius - gap) * (radius + gap)));
      const closest =
        ((ay * fz - az * fy) * crossX + (az * fx - ax * fz) * crossY + (ax * fy - ay * fx) * crossZ) / square;
      const t = closest - halfChord / sine;
      const [hx, hy, hz] = [fx + t * dx, fy + t * dy, fz + t * dz];
      const along = hx * ax + hy * ay + hz * az;
      const [rx, ry, rz] = [hx - along * ax, hy - along * ay, hz - along * az];
      const size = Math.sqrt(rx * rx + ry * ry + rz * rz) || 1;
      return { t, normal: { x: rx / size, y: ry / size, z: rz / size }, face: 'cylinder' };
    },
  };
};
