/** A whole turn, radians. */
export const TURN = 2 * Math.PI;
export const QUARTER_TURN = TURN / 4;
/** One degree, radians. */
export const DEGREE = TURN / 360;

/** What is left of `a` when whole `b` are taken off: from 0 to less than `b`, whatever the sign of `a`. */
export const modulo = (a: number, b: number): number => ((a % b) + b) % b;

/** An angle to the nearest hundredth of a degree, as it is set out, or to another part of one. */
export const roundAngle = (angle: number, parts = 100): number =>
  (Math.round((angle * (180 * parts)) / Math.PI) * Math.PI) / (180 * parts);
