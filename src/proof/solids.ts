import { prismDistance } from './contour.ts';
import {
  barDistance,
  bendDistance,
  commonDistance,
  coneThrough,
  cylinderDistance,
  obliqueConeDistance,
  planeDistance,
  sphereDistance,
  unionDistance,
  type Distance,
} from './distances.ts';
import { ellipsoidalHeadDistance, torisphericalHeadDistance } from './heads.ts';
import type { Solid } from './record.ts';
import { direction, inner, minus, norm, outer, plus, times, type Vec3 } from './space.ts';

/** Signed distance to a body as `soapstone.json` describes it, mm. */
export const solidDistance = (solid: Solid): Distance => {
  switch (solid.kind) {
    case 'plane':
      return planeDistance(solid.through, solid.normal);
    case 'cylinder': {
      const { through, along, radius, ends = [] } = solid;
      return cutOff(cylinderDistance(through, along, radius), ends);
    }
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
      return legsDistance(solid);
    case 'bar':
      return barDistance(
        { centre: solid.through, axis: solid.along, across: solid.across },
        solid.width,
        solid.depth,
        solid.corner,
        solid.length,
      );
    case 'prism': {
      const { section, through, along, across, length, ends = [] } = solid;
      return cutOff(prismDistance(section.outside, through, along, across, length), ends);
    }
    case 'ellipsoidal head':
      return ellipsoidalHeadDistance(solid.tangent, solid.axis, solid.radius, solid.depth);
    case 'torispherical head':
      return torisphericalHeadDistance(solid.tangent, solid.axis, solid.radius, solid.crown, solid.knuckle);
  }
};

/** A body as far as planes leave it. */
const cutOff = (
  whole: Distance,
  ends: readonly { readonly through: Vec3; readonly normal: Vec3 }[],
): Distance =>
  ends.length === 0
    ? whole
    : commonDistance(whole, ...ends.map((end) => planeDistance(end.through, end.normal)));

/** Two legs and the bend between them, or where its radius is 0 two legs met in the plane that halves their angle. */
const legsDistance = ({ corner, legs, bendRadius, radius }: Extract<Solid, { kind: 'bend' }>): Distance => {
  const [first, second] = [direction(legs[0]), direction(legs[1])];
  if (bendRadius === 0) {
    const [one, two] = [cylinderDistance(corner, first, radius), cylinderDistance(corner, second, radius)];
    const across = minus(first, second);
    // Each is the other's mirror image in that plane, so on its own side it is the nearer.
    return (p) => (inner(minus(p, corner), across) >= 0 ? one(p) : two(p));
  }
  const travel = times(first, -1);
  const axis = outer(travel, second);
  const turn = Math.atan2(norm(axis), inner(travel, second));
  const inward = direction(plus(first, second));
  const centre = plus(corner, times(inward, bendRadius / Math.cos(turn / 2)));
  const start = minus(plus(corner, times(first, bendRadius * Math.tan(turn / 2))), centre);
  return bendDistance(centre, axis, start, turn, bendRadius, radius);
};

/** Signed distance to the nearest of several bodies. */
export const solidsDistance = (solids: readonly Solid[]): Distance =>
  unionDistance(...solids.map(solidDistance));
