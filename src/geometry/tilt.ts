/**
 * The tilt of an end's face from four readings on its rim, taken at stations 0, 90, 180 and 270 from a square or level
 * held against the pipe: how far the face stands from it at each. A long reading is a low place on the face.
 */
export interface FaceReadings {
  readonly at0: number;
  readonly at90: number;
  readonly at180: number;
  readonly at270: number;
}

/** A tilted face. Angles in radians. */
export interface Tilt {
  /** Tilt in the plane of stations 0 and 180, and of 90 and 270: positive where the first of the two reads more. */
  readonly across0: number;
  readonly across90: number;
  /** Greatest tilt of the face from square to the axis. */
  readonly total: number;
  /** Station of the largest reading, in [0, 2π). */
  readonly station: number;
  /** Sum of the readings at 0 and 180 less the sum at 90 and 270: zero on a flat face read without error. */
  readonly closure: number;
}

/**
 * Tilt from four readings on a circle of the given diameter, any one unit of length:
 * tan = (difference across) / diameter in each plane, and of both together by their root of squares.
 */
export const tiltOf = ({ at0, at90, at180, at270 }: FaceReadings, diameter: number): Tilt => {
  const [v, h] = [at0 - at180, at90 - at270];
  const station = Math.atan2(h, v);
  return {
    across0: Math.atan(v / diameter),
    across90: Math.atan(h / diameter),
    total: Math.atan(Math.hypot(v, h) / diameter),
    station: station < 0 ? station + 2 * Math.PI : station,
    closure: at0 + at180 - at90 - at270,
  };
};
