/** Corners and frames of straight parts. Lengths in any one unit, angles in radians. */

/** How a corner's joint line divides the angle between two parts. */
export interface CornerSplit {
  /** Angle between the joint line and the edges of the first part; over 90° where a much narrower part leans away. */
  readonly first: number;
  /** The same for the second part; both together are the angle between the parts. */
  readonly second: number;
  /** Length of the joint line, from the inside to the outside corner. */
  readonly joint: number;
}

/**
 * The joint line of two parts whose inside edges meet at `between` (0 to 180°, exclusive) and whose outside edges meet
 * too: w₁ = j sin a₁, w₂ = j sin a₂, a₁ + a₂ = θ, so tan a₁ = sin θ / (w₂/w₁ + cos θ).
 */
export const splitCorner = (between: number, firstWidth: number, secondWidth: number): CornerSplit => {
  const [sine, cosine] = [Math.sin(between), Math.cos(between)];
  const first = Math.atan2(firstWidth * sine, secondWidth + firstWidth * cosine);
  const second = Math.atan2(secondWidth * sine, firstWidth + secondWidth * cosine);
  // The joint line and both widths: the outside corner by the law of cosines over the perpendiculars.
  const joint = Math.sqrt(firstWidth ** 2 + secondWidth ** 2 + 2 * firstWidth * secondWidth * cosine) / sine;
  return { first, second, joint };
};

/** A frame of equal sides and corners, made of bars of one width. */
export interface RegularFrame {
  readonly sides: number;
  /** Angle between neighbouring sides. */
  readonly between: number;
  /** Angle of the cut from square: half a turn over the number of sides. */
  readonly cut: number;
  readonly outside: FrameLine;
  readonly inside: FrameLine;
}

/** The outside or the inside edge of a regular frame. */
export interface FrameLine {
  readonly side: number;
  /** From the center square to a side. */
  readonly flatRadius: number;
  /** From the center to a corner. */
  readonly cornerRadius: number;
}

const lineOf = (sides: number, flatRadius: number): FrameLine => ({
  side: 2 * flatRadius * Math.tan(Math.PI / sides),
  flatRadius,
  cornerRadius: flatRadius / Math.cos(Math.PI / sides),
});

/** A regular frame from the distance of its center to the outside edge; `bar` is the width of its parts. */
export const regularFrame = (sides: number, outsideFlatRadius: number, bar: number): RegularFrame => ({
  sides,
  between: Math.PI - (2 * Math.PI) / sides,
  cut: Math.PI / sides,
  outside: lineOf(sides, outsideFlatRadius),
  inside: lineOf(sides, outsideFlatRadius - bar),
});

/** Distance between two corners of a regular polygon that are `steps` sides apart. */
export const cornerChord = (sides: number, cornerRadius: number, steps: number): number =>
  2 * cornerRadius * Math.sin((steps * Math.PI) / sides);
