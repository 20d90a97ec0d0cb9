import { formatExactInches, formatExactMm, formatInches, formatMm } from './format.ts';
import type { Setting } from './setting.ts';

/**
 * A length that was given or comes from a table, not worked out: exactly as it is in the reader's unit, rounded in the
 * other, `0.84″ (21.34 mm)`. A length that is endless in the reader's unit is rounded there too.
 */
export const writeGiven = (length: number, { units, denominator }: Setting): string => {
  const mm = formatMm(length, 2);
  const inches = formatInches(length, denominator);
  const isEndless = (text: string): boolean => /\.\d{5}/.test(text);
  const exact = units === 'in' ? formatExactInches(length) : formatExactMm(length);
  if (units === 'in') return `${isEndless(exact) ? inches : exact} (${mm})`;
  return `${isEndless(exact) ? mm : exact} (${inches})`;
};
