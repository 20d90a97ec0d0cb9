import { along, type Mate } from '../mate.ts';
import { enterTorus, torusNormal, type Torus } from '../torus.ts';
import type { Vec3 } from '../vector.ts';

/**
 * A ring, or the part of it where `keep` holds, as a mate.
 * @param keep says whether a point of the surface belongs to the body; left out, the whole ring
 */
export const torusMate = (torus: Torus, face = 'ring', keep?: (p: Vec3) => boolean): Mate => ({
  convex: false,
  enter: (line) => {
    for (const t of enterTorus(torus, line)) {
      const p = along(line, t);
      if (!keep || keep(p)) return { t, normal: torusNormal(torus, p), face };
    }
    return undefined;
  },
});
