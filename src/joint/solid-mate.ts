import type { Mate } from '../geometry/mate.ts';
import { barMate, type Clip } from '../geometry/mates/bar.ts';
import { bendMate } from '../geometry/mates/bend.ts';
import { boxMate } from '../geometry/mates/box.ts';
import { coneMate } from '../geometry/mates/cone.ts';
import { cylinderMate } from '../geometry/mates/cylinder.ts';
import { ellipsoidalHeadMate, torisphericalHeadMate } from '../geometry/mates/head.ts';
import { planeMate } from '../geometry/mates/plane.ts';
import { prismMate } from '../geometry/mates/prism.ts';
import { severalMate } from '../geometry/mates/several.ts';
import { sphereMate } from '../geometry/mates/sphere.ts';
import { insideContour } from '../geometry/section-crossing.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { cross3, dot3, length3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';
import { say } from '../words/say.ts';
import { checkIsKind, refuseKind } from '../words/wrong-type.ts';
import type { Face, Solid } from './solid.ts';

/** A body as a mate, from the same data that travels with the print. Directions of bars, cones, legs and heads are of unit length. */
export const solidMate = (solid: Solid): Mate => {
  const example = say`give a solid such as ${"{ kind: 'sphere', centre, radius }"}`;
  checkIsKind(solid, ['kind'], 'solid', example);
  switch (solid.kind) {
    case 'plane':
      return planeMate(solid.through, solid.normal);
    case 'cylinder': {
      const { through, along, radius, ends } = solid;
      const endless = cylinderMate(through, along, radius);
      const axis = unit3(along);
      const holds = (p: Vec3): boolean => length3(cross3(sub3(p, through), axis)) <= radius + SAME_LENGTH;
      return ends ? barMate(endless, along, holds, clipsOf(ends)) : endless;
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
      return prismSolidMate(solid);
    case 'ellipsoidal head':
      return ellipsoidalHeadMate(solid, solid.depth);
    case 'torispherical head':
      return torisphericalHeadMate(solid, solid.crown, solid.knuckle);
    default:
      throw refuseKind('solid', example);
  }
};

const clipsOf = (ends: readonly Face[]): readonly Clip[] =>
  ends.map(({ through, normal }) => ({ point: through, normal }));

const prismSolidMate = ({
  section,
  through,
  along,
  across,
  length,
  ends,
}: Extract<Solid, { kind: 'prism' }>): Mate => {
  const endless = prismMate(section, through, along, across, length);
  if (!ends) return endless;
  const up = cross3(unit3(along), across);
  const holds = (p: Vec3): boolean => {
    const from = sub3(p, through);
    return insideContour(section.outside, { x: dot3(from, across), y: dot3(from, up) });
  };
  return barMate(endless, along, holds, clipsOf(ends));
};

/** Several bodies as one mate: the nearest is touched. */
export const solidsMate = (solids: readonly Solid[]): Mate => {
  const [only, ...more] = solids;
  return only !== undefined && more.length === 0
    ? solidMate(only)
    : severalMate(solids.map((solid) => solidMate(solid)));
};
