import {
  barDistance,
  bendDistance,
  coneThrough,
  cylinderDistance,
  obliqueConeDistance,
  planeDistance,
  sphereDistance,
  unionDistance,
  type Distance,
} from './distances.ts';
import { ellipsoidalHeadDistance, torisphericalHeadDistance } from './heads.ts';
import type { Solid } from '../drawing/fit.ts';
import { minus, norm, outer } from './space.ts';

/** Signed distance to a body as `soapstone.json` describes it, mm. */
export const solidDistance = (solid: Solid): Distance => {
  switch (solid.kind) {
    case 'plane':
      return planeDistance(solid.through, solid.normal);
    case 'cylinder':
      return cylinderDistance(solid.through, solid.along, solid.radius);
    case 'sphere':
      return sphereDistance(solid.centre, solid.radius);
    case 'cone': {
      const { from, radiusFrom, to, radiusTo, along } = solid;
      const axis = minus(to, from);
      const leans = norm(outer(axis, along)) > 1e-9 * norm(axis) * norm(along);
      return leans
        ? obliqueConeDistance(from, radiusFrom, to, radiusTo, along)
        : coneThrough(from, radiusFrom, to, radiusTo);
    }
    case 'bend':
      return bendDistance(solid.centre, solid.axis, solid.start, solid.turn, solid.bendRadius, solid.radius);
    case 'bar':
      return barDistance(
        { centre: solid.through, axis: solid.along, across: solid.across },
        solid.width,
        solid.depth,
        solid.corner,
      );
    case 'ellipsoidal head':
      return ellipsoidalHeadDistance(solid.tangent, solid.axis, solid.radius, solid.depth);
    case 'torispherical head':
      return torisphericalHeadDistance(solid.tangent, solid.axis, solid.radius, solid.crown, solid.knuckle);
  }
};

/** Signed distance to the nearest of several bodies. */
export const solidsDistance = (solids: readonly Solid[]): Distance =>
  unionDistance(...solids.map(solidDistance));
