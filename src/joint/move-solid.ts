import type { Vec3 } from '../geometry/vector.ts';
import type { Face, Solid } from './solid.ts';

/** How bodies are moved or mirrored: a map of points, and the same of directions. */
export interface Motion {
  readonly point: (p: Vec3) => Vec3;
  readonly direction: (v: Vec3) => Vec3;
}

/** A body moved, turned or mirrored. */
export const moveSolid = (solid: Solid, { point, direction }: Motion): Solid => {
  const face = ({ through, normal }: Face): Face => ({ through: point(through), normal: direction(normal) });
  switch (solid.kind) {
    case 'plane':
      return { ...solid, ...face(solid) };
    case 'cylinder': {
      const { ends } = solid;
      const moved = { ...solid, through: point(solid.through), along: direction(solid.along) };
      return ends === undefined ? moved : { ...moved, ends: ends.map(face) };
    }
    case 'sphere':
      return { ...solid, centre: point(solid.centre) };
    case 'cone':
      return {
        ...solid,
        from: point(solid.from),
        to: point(solid.to),
        along: direction(solid.along),
      };
    case 'bend': {
      const [first, second] = solid.legs;
      return { ...solid, corner: point(solid.corner), legs: [direction(first), direction(second)] };
    }
    case 'prism': {
      const { ends } = solid;
      const moved = {
        ...solid,
        through: point(solid.through),
        along: direction(solid.along),
        across: direction(solid.across),
      };
      return ends === undefined ? moved : { ...moved, ends: ends.map(face) };
    }
    case 'bar':
      return {
        ...solid,
        through: point(solid.through),
        along: direction(solid.along),
        across: direction(solid.across),
      };
    case 'ellipsoidal head':
    case 'torispherical head':
      return { ...solid, tangent: point(solid.tangent), axis: direction(solid.axis) };
  }
};
