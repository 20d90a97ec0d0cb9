import type { Hit, Mate } from '../mate.ts';
import { crossEdge, insideContour } from '../section-crossing.ts';
import { isConvex, type Section } from '../section.ts';
import { GRAZE } from '../tolerance.ts';
import { add2, add3, cross3, dot3, scale2, scale3, sub3, unit3, type Vec2, type Vec3 } from '../vector.ts';

/**
 * Any straight stock as a mate, by its outside. The line is followed in the plane of the section, edge by edge, and along it.
 * @param through the section's origin; in the middle of the length where there is one, mm
 * @param along direction of the stock; need not be of unit length
 * @param across unit direction of the section's +x, square to it; its +y is along × across
 * @param length left out, the stock has no ends
 */
export const prismMate = (
  section: Section,
  through: Vec3,
  along: Vec3,
  across: Vec3,
  length?: number,
): Mate => {
  const axis = unit3(along);
  const up = cross3(axis, across);
  const flat = (v: Vec3): Vec2 => ({ x: dot3(v, across), y: dot3(v, up) });
  const half = length === undefined ? Infinity : length / 2;
  const contour = section.outside;
  return {
    convex: isConvex(contour),
    finest: section.thickness,
    enter: (line) => {
      const from = sub3(line.origin, through);
      const [origin, direction] = [flat(from), flat(line.direction)];
      const [z, dz] = [dot3(from, axis), dot3(line.direction, axis)];
      let first: Hit | undefined;
      if (Math.hypot(direction.x, direction.y) > 1e-12)
        for (const edge of contour)
          for (const { t, out, entering } of crossEdge(edge, origin, direction)) {
            if (!entering || (first && t >= first.t) || Math.abs(z + t * dz) > half + GRAZE) continue;
            const normal = add3(scale3(across, out.x), scale3(up, out.y));
            first = { t, normal, face: edge.face };
          }
      if (half === Infinity || Math.abs(dz) < 1e-12) return first;
      const t = (-Math.sign(dz) * half - z) / dz;
      if (first && first.t <= t) return first;
      if (!insideContour(contour, add2(origin, scale2(direction, t)))) return first;
      return { t, normal: scale3(axis, -Math.sign(dz)), face: dz > 0 ? 'end 1' : 'end 2' };
    },
  };
};
