import { cross3, dot3, type Vec2, type Vec3 } from '../geometry/vector.ts';

/** A direction of sight: which unit directions of the scene run right and up in the picture; the eye is at right × up. */
export interface Sight {
  readonly right: Vec3;
  readonly up: Vec3;
}

/** The direction toward the eye. */
export const towardEye = ({ right, up }: Sight): Vec3 => cross3(right, up);

/** A point as it is seen, in the scene's mm. */
export const seenAt = ({ right, up }: Sight, p: Vec3): Vec2 => ({ x: dot3(p, right), y: dot3(p, up) });
