import { add3, cross3, dot3, length3, scale3, unit3, vec3, type Vec3 } from './vector.ts';

/** Cuts that lean in two planes. Angles in radians. */

/** A saw's two settings for one part: the part lies flat on the table, its long edge on the fence. */
export interface SawSetting {
  /** Turn of the cut line on the face, from square across the part. */
  readonly miter: number;
  /** Tilt of the blade from square to the face. */
  readonly tilt: number;
}

/** Two sloping plates that meet along a mitered joint. */
export interface SlopedCorner {
  readonly first: SawSetting;
  readonly second: SawSetting;
  /** Angle between the two faces, through the material's side, measured square to the joint. */
  readonly between: number;
  /** Slope of the joint line from level. */
  readonly jointSlope: number;
}

/** A face through a level edge along `edge`, rising to its left at `slope`. */
const faceOf = (
  edge: Vec3,
  slope: number,
): { readonly edge: Vec3; readonly up: Vec3; readonly out: Vec3 } => {
  const side = vec3(-edge.y, edge.x, 0);
  const up = add3(scale3(side, Math.cos(slope)), vec3(0, 0, Math.sin(slope)));
  return { edge, up, out: cross3(up, edge) };
};

/**
 * The corner of a hopper, hood, hip or any tray: two plates whose level edges meet at `plan` (0 to 180°, exclusive, seen
 * from above) and which slope `firstSlope` and `secondSlope` from level (0 to 90°, not both 0). Worked with the faces' normals; for
 * equal slopes it comes to tan miter = cos slope / tan(plan/2) and sin tilt = sin slope cos(plan/2).
 */
export const slopedCorner = (plan: number, firstSlope: number, secondSlope: number): SlopedCorner => {
  // The corner at the origin, both plates inside the angle; the first edge runs toward the corner, the second from it.
  const first = faceOf(vec3(-1, 0, 0), firstSlope);
  const turned = vec3(Math.cos(plan), Math.sin(plan), 0);
  const flip = (face: typeof first): typeof first => face;
  const one = flip({ ...first, ...upInside(vec3(1, 0, 0), firstSlope, 1) });
  const two = upInside(turned, secondSlope, -1);
  const joint = unit3(cross3(one.out, two.out));
  const rising = joint.z < 0 ? scale3(joint, -1) : joint;
  const turn = Math.acos(Math.max(-1, Math.min(1, dot3(unit3(one.out), unit3(two.out)))));
  const tilt = turn / 2;
  return {
    first: { miter: miterOn(one, rising), tilt },
    second: { miter: miterOn(two, rising), tilt },
    between: Math.PI - turn,
    jointSlope: Math.asin(Math.max(-1, Math.min(1, rising.z / length3(rising)))),
  };
};
