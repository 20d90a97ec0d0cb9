const INCH = 25.4;

/**
 * Workable gages of holes, inches: by the width of a beam's flange (up to, gage) and of an angle's leg (leg; gage; the two
 * gages of a wide leg). AISC Steel Construction Manual, table 1-7A and the flange gages of table 1-1, second-hand, the legs of
 * 10 and 12 in from recent editions only: to be verified on the job.
 */
const FLANGES = [
  [4, 2.25],
  [6, 2.75],
  [7.9375, 3.5],
  [24, 5.5],
] as const;
const LEGS: readonly (readonly [leg: number, gage: number, pair?: readonly [number, number]])[] = [
  [12, 6, [3, 2.5]],
  [10, 5, [3, 2.5]],
  [8, 4.5, [3, 3]],
  [7, 4, [2.5, 3]],
  [6, 3.5, [2.25, 2.5]],
  [5, 3, [2, 1.75]],
  [4, 2.5],
  [3.5, 2],
  [3, 1.75],
  [2.5, 1.375],
  [2, 1.125],
  [1.75, 1],
  [1.5, 0.875],
  [1.375, 0.875],
  [1.25, 0.75],
  [1, 0.625],
];
/** Narrower flanges have no gage of the table. */
const NARROWEST = 3.9;

/** Gage between the two rows of holes in a beam's flange, by its width, mm; undefined where the table has none. */
export const flangeGage = (width: number): number | undefined => {
  const inches = width / INCH;
  const row = FLANGES.find(([most]) => inches <= most + 0.05);
  return inches < NARROWEST || !row ? undefined : row[1] * INCH;
};

/** Gage of the holes in a leg from the heel, mm, and for a wide leg the two gages one after the other. */
export const legGage = (
  leg: number,
): { readonly gage: number; readonly pair?: readonly [number, number] } | undefined => {
  const row = LEGS.find(([size]) => Math.abs(size * INCH - leg) < 0.5);
  if (!row) return undefined;
  const [, gage, pair] = row;
  return { gage: gage * INCH, ...(pair && { pair: [pair[0] * INCH, pair[1] * INCH] as const }) };
};
