import type { Mate } from '../geometry/mate.ts';
import { barMate } from '../geometry/mates/bar.ts';
import { bendMate } from '../geometry/mates/bend.ts';
import { boxMate } from '../geometry/mates/box.ts';
import { coneMate } from '../geometry/mates/cone.ts';
import { cylinderMate } from '../geometry/mates/cylinder.ts';
import { ellipsoidalHeadMate, torisphericalHeadMate } from '../geometry/mates/head.ts';
import { planeMate } from '../geometry/mates/plane.ts';
import { prismMate } from '../geometry/mates/prism.ts';
import { severalMate } from '../geometry/mates/several.ts';
import { sphereMate } from '../geometry/mates/sphere.ts';
import type { Solid } from './solid.ts';

/** A body as a mate, from the same data that travels with the print. Directions of bars, cones, legs and heads are of unit length. */
export const solidMate = (solid: Solid): Mate => {
  switch (solid.kind) {
    case 'plane':
      return planeMate(solid.through, solid.normal);
    case 'cylinder': {
      const { through, along, radius, ends } = solid;
      return ends === undefined
        ? cylinderMate(through, along, radius)
        : barMate(
            through,
            along,
            radius,
            ends.map((end) => ({ point: end.through, normal: end.normal })),
          );
    }
    case 'sphere':
      return sphereMate(solid.centre, solid.radius);
    case 'cone':
      return coneMate({ ...solid, axis: solid.along });
    case 'bend':
      return bendMate(solid);
    case 'bar':
      return boxMate({ ...solid, centre: solid.through, axis: solid.along });
    case 'prism':
      return prismMate(solid.section, solid.through, solid.along, solid.across, solid.length);
    case 'ellipsoidal head':
      return ellipsoidalHeadMate(solid, solid.depth);
    case 'torispherical head':
      return torisphericalHeadMate(solid, solid.crown, solid.knuckle);
  }
};

/** Several bodies as one mate: the nearest is touched. */
export const solidsMate = (solids: readonly Solid[]): Mate => {
  const [only, ...more] = solids;
  return only !== undefined && more.length === 0
    ? solidMate(only)
    : severalMate(solids.map((solid) => solidMate(solid)));
};
