/**
 * The circle through an arc's ends and top. Lengths in any one unit. The rise is measured square to the chord from its
 * middle to the arc; more than half the diameter where the arc is more than a half circle.
 */

/** Radius from chord and rise, (c² + 4h²) / 8h (Machinery's Handbook, segments of circles). Both above zero. */
export const radiusOfChord = (chord: number, rise: number): number =>
  (chord * chord + 4 * rise * rise) / (8 * rise);

/** Chord that a rise makes, 2√(h(2r − h)); the rise is at most the diameter. */
export const chordOfRise = (radius: number, rise: number): number =>
  2 * Math.sqrt(Math.max(0, rise * (2 * radius - rise)));

/** The smaller rise over a chord, r − √(r² − c²/4), written so that a flat arc loses no digits. */
export const riseOfChord = (radius: number, chord: number): number =>
  (chord * chord) / 4 / (radius + Math.sqrt(Math.max(0, radius * radius - (chord * chord) / 4)));

/** Distance from the chord to the arc at `x` from the chord's middle; the center lies `radius - rise` below the chord. */
export const riseAt = (radius: number, rise: number, x: number): number => {
  const drop = (x * x) / (radius + Math.sqrt(Math.max(0, radius * radius - x * x)));
  return rise - drop;
};

/** Angle the smaller arc over a chord takes at the center, radians. */
export const angleOfChord = (radius: number, chord: number): number =>
  2 * Math.asin(Math.min(1, chord / (2 * radius)));

/**
 * Radius of the circle through three points whose distances are a, b and c: abc / 4K with the triangle's area K by Heron
 * in Kahan's form, which keeps its digits in a thin triangle. Infinite where the points lie on a line; NaN where no
 * triangle has such sides.
 */
export const circumradius = (a: number, b: number, c: number): number => {
  const [x, y, z] = [a, b, c].sort((p, q) => q - p) as [number, number, number];
  const product = (x + (y + z)) * (z - (x - y)) * (z + (x - y)) * (x + (y - z));
  return (x * y * z) / Math.sqrt(product);
};
