/** How far a drawn curve may stray from the true one, mm: the fit aims under the 0.002 mm the sheets promise. */
export const CURVE_TOLERANCE = 0.0012;

/** Lengths that differ by less than this are the same length, mm; it only absorbs rounding of the arithmetic. */
export const SAME_LENGTH = 1e-9;

/** A line that passes a body by less than this touches it, mm: what rounding leaves of an exact tangency. */
export const GRAZE = 2e-11;

/** Two ends of a cut line further apart than this along the stock are a step, mm. */
export const STEP = 1e-4;
