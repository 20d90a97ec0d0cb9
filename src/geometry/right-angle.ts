/**
 * Right angles by tape: triangles with whole sides, and what the diagonals of a frame show. Lengths in any one unit,
 * angles in radians.
 */

/** Two legs and the diagonal across them. */
export interface RightTriangle {
  readonly short: number;
  readonly long: number;
  readonly diagonal: number;
}

/** Right triangles with whole sides and no common factor (Euclid, Elements X, lemma 1 to proposition 29), by slimness. */
export const wholeTriangles: readonly RightTriangle[] = [
  { short: 20, long: 21, diagonal: 29 },
  { short: 3, long: 4, diagonal: 5 },
  { short: 28, long: 45, diagonal: 53 },
  { short: 8, long: 15, diagonal: 17 },
  { short: 5, long: 12, diagonal: 13 },
  { short: 12, long: 35, diagonal: 37 },
  { short: 7, long: 24, diagonal: 25 },
  { short: 9, long: 40, diagonal: 41 },
];

/**
 * The triangle enlarged by the greatest whole number of `step` at which its legs lie inside `length` x `width`, its long
 * leg along the longer side; undefined where one step is already too large.
 */
export const fitTriangle = (
  { short, long, diagonal }: RightTriangle,
  length: number,
  width: number,
  step: number,
): RightTriangle | undefined => {
  const scale = Math.min(Math.max(length, width) / long, Math.min(length, width) / short);
  // A length read from tenths or sixteenths may lack a last bit of the whole step it is.
  const steps = Math.floor((scale / step) * (1 + 1e-12));
  if (steps < 1) return undefined;
  const factor = steps * step;
  return { short: short * factor, long: long * factor, diagonal: diagonal * factor };
};

/** How far a frame with equal opposite sides is racked. */
export interface Rack {
  /** How far its corners are off 90°, radians; the ends of the longer diagonal are the sharp ones. */
  readonly lean: number;
  /** Square distance of the long side's end from where it should run, over its whole length. */
  readonly overLength: number;
  /** The same over the short side: also how far one long side must slide along to be square to the other. */
  readonly overWidth: number;
}

/**
 * What a difference of diagonals means: in a parallelogram with sides l and w whose corners are 90° ± δ,
 * p² − q² = 4 l w sin δ and p² + q² = 2(l² + w²) (law of cosines), so with d = p − q,
 * sin δ = d √(4(l² + w²) − d²) / 4 l w. `difference` runs from 0 to twice the short side; beyond, NaN.
 */
export const rackOfDifference = (length: number, width: number, difference: number): Rack => {
  const sum = Math.sqrt(4 * (length * length + width * width) - difference * difference);
  return rackOf(length, width, (difference * sum) / (4 * length * width));
};

/** The same from both diagonals as measured: sin δ = (p² − q²) / 4 l w; negative where the second is the longer. */
export const rackOfDiagonals = (length: number, width: number, first: number, second: number): Rack =>
  rackOf(length, width, ((first - second) * (first + second)) / (4 * length * width));

const rackOf = (length: number, width: number, sine: number): Rack => ({
  lean: Math.asin(sine),
  overLength: Math.max(length, width) * sine,
  overWidth: Math.min(length, width) * sine,
});
