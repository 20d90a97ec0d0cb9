import { polar2, type Vec2 } from './vector.ts';

/** An arc over its chord, mm and radians: the chord's middle at the origin, the arc above it. */
export interface Arc {
  readonly radius: number;
  readonly chord: number;
  /** From the chord's middle to the arc's; more than the radius where the arc is more than a half circle. */
  readonly rise: number;
  /** What the arc takes of a full turn at its center. */
  readonly angle: number;
}

/** Chord and rise of an arc by its radius and angle. */
export const arcByAngle = (radius: number, angle: number): Arc => ({
  radius,
  chord: 2 * radius * Math.sin(angle / 2),
  // 1 - cos written so that a flat arc loses no digits.
  rise: 2 * radius * Math.sin(angle / 4) ** 2,
  angle,
});

/** Two of an arc's figures. */
export interface ArcFigures {
  readonly radius?: number;
  readonly chord?: number;
  readonly rise?: number;
  readonly angle?: number;
}

/**
 * The arc that has two given figures; of radius and chord the smaller one. NaN in its figures where there is none: a chord
 * over the diameter, a rise over the diameter. Undefined where not exactly two are given.
 * tan(angle/4) = 2h/c, sin(angle/2) = c/2r, sin²(angle/4) = h/2r (Machinery's Handbook, segments of circles).
 */
export const solveArc = ({ radius, chord, rise, angle }: ArcFigures): Arc | undefined => {
  if ([radius, chord, rise, angle].filter((figure) => figure !== undefined).length !== 2) return undefined;
  if (chord !== undefined && rise !== undefined)
    return {
      radius: (chord * chord + 4 * rise * rise) / (8 * rise),
      chord,
      rise,
      angle: 4 * Math.atan2(2 * rise, chord),
    };
  if (radius !== undefined && chord !== undefined)
    return { ...arcByAngle(radius, 2 * Math.asin(chord / (2 * radius))), chord };
  if (radius !== undefined && rise !== undefined)
    return { ...arcByAngle(radius, 4 * Math.asin(Math.sqrt(rise / (2 * radius)))), rise };
  const turn = angle ?? 0;
  if (radius !== undefined) return arcByAngle(radius, turn);
  if (chord !== undefined) return { ...arcByAngle(chord / (2 * Math.sin(turn / 2)), turn), chord };
  return { ...arcByAngle((rise ?? 0) / (2 * Math.sin(turn / 4) ** 2), turn), rise: rise ?? 0 };
};

/** The point of an arc at `turn` from its top, counter-clockwise, from the chord's middle. */
export const arcPoint = ({ radius, rise }: Arc, turn: number): Vec2 => {
  const { x } = polar2(radius, Math.PI / 2 + turn);
  return { x, y: rise - 2 * radius * Math.sin(turn / 2) ** 2 };
};
