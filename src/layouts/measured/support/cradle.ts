import type { Vec2 } from '../../../geometry/vector.ts';

/** A plate that a pipe lies in. Lengths in mm, angles in radians. */
export interface CradleRequest {
  readonly pipe: { readonly od: number };
  readonly gap: number;
  /** Between the pipe's axis and the plate on the plan. */
  readonly angle: number;
  readonly thickness: number;
  /** How far it reaches around the pipe. */
  readonly cradle: number;
}

/** The cradle in the plate: frame with the pipe's center at the origin, y up, the plate below. Lengths in mm. */
export interface Cradle {
  /** Half axes of the pipe's section by the plate. */
  readonly across: number;
  readonly down: number;
  /** How far the sections at the plate's two faces stand apart each way from the middle one. */
  readonly shift: number;
  /** Where the cradle ends, to the right; its mirror image to the left. */
  readonly end: Vec2;
}

/**
 * A plate's cut to a pipe that crosses it at an angle: an ellipse, spread by what the two faces of the plate stand apart, so
 * that the whole thickness clears.
 */
export const cradleOf = ({ pipe, gap, angle, thickness, cradle }: CradleRequest): Cradle => {
  const down = pipe.od / 2 + gap;
  const across = down / Math.sin(angle);
  const shift = (thickness / 2) * (Math.cos(angle) / Math.sin(angle));
  return {
    across,
    down,
    shift,
    end: { x: shift + across * Math.sin(cradle / 2), y: -down * Math.cos(cradle / 2) },
  };
};
