import type { EndPlane } from './breech.ts';
import type { ConeShape } from './cone-pattern.ts';
import { solveGores, type Gore, type Turn } from './turn.ts';
import { vec3 } from './vector.ts';

/** A turn whose pieces taper evenly along its center line, from one radius to another, mm. */
export interface TaperedTurn extends Omit<Turn, 'throat' | 'heel'> {
  readonly large: number;
  readonly small: number;
}

/** One piece in its own frame: z up its axis from the joint below, station 0 at the throat. */
export interface TaperedGore {
  readonly gore: Gore;
  readonly shape: ConeShape;
  /** Planes of its joints, pointing into the piece; none at a square end. */
  readonly lower?: EndPlane;
  readonly upper?: EndPlane;
}

/**
 * The pieces of a tapered turn: all are cut from one right cone, whose axis is the turn's center line stretched straight.
 * Neighbors touch one sphere about the corner of their axes, so they meet in a plane, flush all round: it halves the
 * angle between the axes and lies ρ sin b / cos c past the corner (ρ the sphere's radius, b the side's lean, c the cut).
 * @param gap root gap square to the joints, half of it off each piece, mm
 */
export const solveTaperedTurn = (turn: TaperedTurn, gap: number): readonly TaperedGore[] => {
  const gores = solveGores({ ...turn, throat: turn.large, heel: turn.large });
  const total = gores.reduce((sum, { centre }) => sum + centre, 0);
  const slope = (turn.large - turn.small) / total;
  const lean = Math.atan(slope);
  let along = 0;
  return gores.map((gore): TaperedGore => {
    const radius = (at: number): number => turn.large - slope * at;
    const [start, end] = [along, along + gore.centre];
    along = end;
    const past = (at: number, cut: number): number =>
      (radius(at) * Math.cos(lean) * Math.sin(lean)) / Math.cos(cut);
    const shape: ConeShape = { large: radius(start), small: radius(end), height: gore.centre, offset: 0 };
    const { lower, upper } = gore;
    return {
      gore,
      shape,
      ...(lower > 0
        ? {
            lower: {
              normal: vec3(-Math.sin(lower), 0, Math.cos(lower)),
              constant: past(start, lower) + gap / 2,
            },
          }
        : {}),
      ...(upper > 0
        ? {
            upper: {
              normal: vec3(-Math.sin(upper), 0, -Math.cos(upper)),
              constant: -(past(end, upper) + gore.centre * Math.cos(upper)) + gap / 2,
            },
          }
        : {}),
    };
  });
};
