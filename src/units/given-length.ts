import {
  formatExactInches,
  formatExactMm,
  formatFeetInches,
  formatInches,
  formatLength,
  formatMm,
  type LengthFormat,
} from './format.ts';

/**
 * A length that was given or comes from a table, not worked out, once in each unit, `[metric, US]`: exactly as it is in the
 * reader's unit, rounded in the other, `0.84″` and `21.34 mm`. A length that is endless in the reader's unit is rounded there too.
 */
export const givenInBoth = (length: number, format: LengthFormat): readonly [string, string] => {
  const { units, feet } = format;
  const mm = formatMm(length, 2);
  const inches = formatLength(length, { ...format, units: 'in' });
  const isEndless = (text: string): boolean => /\.\d{5}/.test(text);
  const exact = units === 'in' ? exactInches(length, feet) : formatExactMm(length);
  if (isEndless(exact)) return [mm, inches];
  return units === 'in' ? [mm, exact] : [exact, inches];
};

/** Feet and inches where they say the length exactly, down to 1/64; else inches alone. */
const exactInches = (length: number, feet: boolean | undefined): string => {
  const exact = formatExactInches(length);
  return feet === true && exact === formatInches(length, 64) ? formatFeetInches(length, 64) : exact;
};
