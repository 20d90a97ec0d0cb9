import { along, type Mate } from '../mate.ts';
import { GRAZE } from '../tolerance.ts';
import { dot3, length3, scale3, sub3, type Vec3 } from '../vector.ts';

/**
 * A sphere as a mate.
 * @param centre mm
 * @param radius mm
 */
export const sphereMate = (centre: Vec3, radius: number): Mate => ({
  convex: true,
  enter: (line) => {
    const closest = dot3(sub3(centre, line.origin), line.direction);
    const gap = length3(sub3(along(line, closest), centre));
    if (gap > radius + GRAZE) return undefined;
    const t = closest - Math.sqrt(Math.max(0, (radius - gap) * (radius + gap)));
    return { t, normal: scale3(sub3(along(line, t), centre), 1 / radius), face: 'sphere' };
  },
});
