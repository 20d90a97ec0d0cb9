import { leanToSphere, partingPlane, type SphereCone } from './common-sphere.ts';
import type { ConeShape } from './cone-pattern.ts';
import { itemAt } from '../lists.ts';
import type { Mate } from './mate.ts';
import { planeMate } from './mates/plane.ts';
import { severalMate } from './mates/several.ts';
import { dot3, scale3, vec3, type Vec3 } from './vector.ts';

/** A plane that ends a leg: the solid lies where normal · X < constant. */
export interface EndPlane {
  readonly normal: Vec3;
  readonly constant: number;
}

/**
 * One leg of a breech in its own frame: its axis or its lean toward station 0 as a cone has it, the part below every
 * plane cut off.
 */
export interface BreechLeg {
  readonly shape: ConeShape;
  readonly planes: readonly EndPlane[];
}

/** The planes a leg ends on, as one body. */
export const planesMate = (planes: readonly EndPlane[]): Mate =>
  severalMate(
    planes.map(({ normal, constant }) => planeMate(scale3(normal, constant / dot3(normal, normal)), normal)),
  );

/** Radii and lengths in mm: a round trunk and two round outlets, all level. */
export interface LevelBreech {
  readonly trunk: number;
  readonly legs: readonly [number, number];
  readonly height: number;
  /** Between the centers of the outlets, each half of it from the trunk's axis. */
  readonly spread: number;
}

const LEVEL: EndPlane = { normal: vec3(0, 0, 1), constant: 0 };

/**
 * The legs of a level breech, each a leaning cone from the trunk's circle to its outlet, in frames whose station 0 points
 * away from the other leg. Two cones through one circle meet besides in a second plane curve: with m the lean and k the
 * taper a unit of height, the cone is x² + y² - R² + z (2 R² k - 2 m x) + z² (m² - R² k²) = 0, and the difference of two
 * is z times a plane.
 */
export const levelLegs = ({ trunk, legs, height, spread }: LevelBreech): readonly [BreechLeg, BreechLeg] => {
  const lean = spread / 2 / height;
  const taper = legs.map((radius) => (1 - radius / trunk) / height) as [number, number];
  const leg = (own: 0 | 1): BreechLeg => {
    const [k, other] = [taper[own], itemAt(taper, 1 - own)];
    return {
      shape: { large: trunk, small: legs[own], height, offset: spread / 2 },
      planes: [
        LEVEL,
        {
          normal: vec3(4 * lean, 0, trunk * trunk * (k * k - other * other)),
          constant: 2 * trunk * trunk * (k - other),
        },
      ],
    };
  };
  return [leg(0), leg(1)];
};

/** A trunk and two legs round one sphere, the legs right cones whose axes cross the trunk's in its center. */
export interface SphereBreech {
  readonly trunk: number;
  readonly legs: readonly [number, number];
  /** Between each leg's axis and the trunk's axis carried on, radians. */
  readonly angle: number;
  /** Along a leg's axis from the crossing to its outlet. */
  readonly length: number;
}

/** Legs and trunk of a breech round a sphere; the trunk's frame points up out of its cut end, `below` mm long. */
export const sphereLegs = (
  { trunk, legs, angle, length }: SphereBreech,
  below: number,
): { readonly legs: readonly [BreechLeg, BreechLeg]; readonly trunk: BreechLeg } => {
  const leans = legs.map((radius) => leanToSphere(trunk, radius, length)) as [number, number];
  const parting = (other: SphereCone, own: SphereCone): EndPlane => {
    const { normal, reach } = partingPlane(trunk, other, own);
    return { normal, constant: reach };
  };
  const up = vec3(0, 0, 1);
  const leg = (own: 0 | 1): BreechLeg => {
    const lean = leans[own];
    const self: SphereCone = { direction: up, lean };
    const other: SphereCone = {
      direction: vec3(-Math.sin(2 * angle), 0, Math.cos(2 * angle)),
      lean: itemAt(leans, 1 - own),
    };
    const pipe: SphereCone = { direction: vec3(Math.sin(angle), 0, -Math.cos(angle)), lean: 0 };
    return {
      shape: { large: trunk / Math.cos(lean), small: legs[own], height: length, offset: 0 },
      planes: [parting(other, self), parting(pipe, self)],
    };
  };
  // Seen from the trunk, z up and both legs above: what lies on their side of either plane is cut off.
  const self: SphereCone = { direction: vec3(0, 0, -1), lean: 0 };
  const cut = (own: 0 | 1): EndPlane => {
    const side = own === 0 ? 1 : -1;
    const { normal, reach } = partingPlane(
      trunk,
      { direction: vec3(side * Math.sin(angle), 0, Math.cos(angle)), lean: leans[own] },
      self,
    );
    // Raised by the trunk's length below the crossing.
    return { normal, constant: reach + normal.z * below };
  };
  return {
    legs: [leg(0), leg(1)],
    trunk: {
      shape: { large: trunk, small: trunk, height: below, offset: 0 },
      planes: [cut(0), cut(1)],
    },
  };
};
