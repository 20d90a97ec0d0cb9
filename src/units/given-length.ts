import {
  formatExactInches,
  formatExactMm,
  formatFeetInches,
  formatInches,
  formatLength,
  formatMm,
} from './format.ts';
import type { Setting } from './setting.ts';

/**
 * A length that was given or comes from a table, not worked out: exactly as it is in the reader's unit, rounded in the
 * other, `0.84″ (21.34 mm)`. A length that is endless in the reader's unit is rounded there too.
 */
export const writeGiven = (length: number, setting: Setting): string => {
  const { units, feet } = setting;
  const mm = formatMm(length, 2);
  const inches = formatLength(length, { ...setting, units: 'in' });
  const isEndless = (text: string): boolean => /\.\d{5}/.test(text);
  const exact = units === 'in' ? exactInches(length, feet) : formatExactMm(length);
  if (units === 'in') return `${isEndless(exact) ? inches : exact} (${mm})`;
  return `${isEndless(exact) ? mm : exact} (${inches})`;
};

/** Feet and inches where they say the length exactly, down to 1/64; else inches alone. */
const exactInches = (length: number, feet: boolean | undefined): string => {
  const exact = formatExactInches(length);
  return feet === true && exact === formatInches(length, 64) ? formatFeetInches(length, 64) : exact;
};
