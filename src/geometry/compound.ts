import { add3, cross3, dot3, length3, scale3, vec3, type Vec3 } from './vector.ts';

/** Cuts that lean in two planes. Angles in radians. */

/** A saw's two settings: the part lies flat on the table with its edge on the fence. */
export interface SawSetting {
  /** Turn of the cut line on the face, from square across the part. */
  readonly miter: number;
  /** Tilt of the blade from square to the face. */
  readonly tilt: number;
}

/** Two sloping plates that meet along a mitered joint. */
export interface SlopedCorner {
  /** A positive miter makes the plate shorter toward its upper edge where the plates slope inward. */
  readonly first: SawSetting;
  readonly second: SawSetting;
  /** Angle between the faces inside the corner, square to the joint. */
  readonly between: number;
  /** Slope of the joint line from level. */
  readonly jointSlope: number;
}

/** A face that rises from a level edge: the edge away from the corner, the way up the face, its outward normal. */
interface Face {
  readonly edge: Vec3;
  readonly up: Vec3;
  readonly out: Vec3;
}

const risingFace = (edge: Vec3, inward: Vec3, slope: number): Face => {
  const [cosine, sine] = [Math.cos(slope), Math.sin(slope)];
  return {
    edge,
    up: add3(scale3(inward, cosine), vec3(0, 0, sine)),
    out: add3(scale3(inward, -sine), vec3(0, 0, cosine)),
  };
};

/**
 * The corner of a hip, hood, tray or hopper (the same upside down): plates whose level edges meet at `plan` seen from above
 * (0 to 180°, exclusive) and which slope from level by `firstSlope` and `secondSlope` (above 0, up to 90°). The joint lies in
 * both faces, so it runs along the cross product of their normals; the blade tilts by half the turn of the normals.
 * With equal slopes: tan miter = cos slope / tan(plan/2), sin tilt = sin slope · cos(plan/2).
 */
export const slopedCorner = (plan: number, firstSlope: number, secondSlope: number): SlopedCorner => {
  const [c, s] = [Math.cos(plan), Math.sin(plan)];
  const first = risingFace(vec3(1, 0, 0), vec3(0, 1, 0), firstSlope);
  const second = risingFace(vec3(c, s, 0), vec3(s, -c, 0), secondSlope);
  const cross = cross3(first.out, second.out);
  const joint = cross.z < 0 ? scale3(cross, -1) : cross;
  const turn = Math.atan2(length3(cross), dot3(first.out, second.out));
  const settingOf = ({ edge, up }: Face): SawSetting => ({
    miter: Math.atan2(dot3(joint, edge), dot3(joint, up)),
    tilt: turn / 2,
  });
  return {
    first: settingOf(first),
    second: settingOf(second),
    between: Math.PI - turn,
    jointSlope: Math.atan2(joint.z, Math.hypot(joint.x, joint.y)),
  };
};

/** A bar that meets an upright face, two of its sides level across. */
export interface BraceCut extends SawSetting {
  /** Angle between the bar's axis and the line square to the face. */
  readonly fromSquare: number;
}

/**
 * The end of a bar that runs out from an upright face, turned `swing` sideways from square (seen from above) and rising by
 * `rise` from level, both over −90° and under 90°. The bar lies on the saw on its lower side: the face's normal in the bar's
 * own directions is (cos rise cos swing, −sin swing, −sin rise cos swing) along, level across and square to both.
 */
export const braceCut = (swing: number, rise: number): BraceCut => ({
  miter: Math.atan2(Math.sin(swing), Math.cos(rise) * Math.cos(swing)),
  tilt: Math.asin(Math.sin(rise) * Math.cos(swing)),
  fromSquare: Math.atan2(
    Math.hypot(Math.sin(swing), Math.sin(rise) * Math.cos(swing)),
    Math.cos(rise) * Math.cos(swing),
  ),
});
