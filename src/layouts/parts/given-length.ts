import { formatExactInches, formatExactMm, formatInches, formatMm } from '../../units/format.ts';
import type { Setting } from '../layout.ts';

/**
 * A length that was given or comes from a table, not worked out: exactly as it is in the reader's unit, rounded in the
 * other, `0.84″ (21.34 mm)`.
 */
export const writeGiven = (length: number, { units, denominator }: Setting): string =>
  units === 'in'
    ? `${formatExactInches(length)} (${formatMm(length, 2)})`
    : `${formatExactMm(length)} (${formatInches(length, denominator)})`;
