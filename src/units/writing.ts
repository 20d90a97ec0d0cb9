import { formatBoth, formatLength, formatSize } from './format.ts';
import type { Setting } from './setting.ts';

/** A length in the reader's unit without the unit's name where space is short. */
export const writeShort = (length: number, setting: Setting): string =>
  formatLength(length, setting).replace(' mm', '');

/** A length in both units, the reader's first. */
export const writeBoth = (length: number, setting: Setting): string => formatBoth(length, setting);

/** A size as a standard or a rule gives it, a plate's thickness, in both units: `.394″ (10 mm)`. */
export const writeSize = (size: number, { units }: Setting): string =>
  `${formatSize(size, units)} (${formatSize(size, units === 'in' ? 'mm' : 'in')})`;

/** A worked-out length in both units: by default to 0.01 mm and a thousandth of an inch. */
export const writeFine = (length: number, { units }: Setting, decimals = 2): string => {
  const [inches, millimeters] = [
    `${(length / 25.4).toFixed(decimals + 1)} in`,
    `${length.toFixed(decimals)} mm`,
  ];
  return units === 'in' ? `${inches} (${millimeters})` : `${millimeters} (${inches})`;
};

/** One column of lengths in both units, as two table columns, the reader's unit first. */
export const lengthColumns = (name: string, { units }: Setting): readonly [string, string] =>
  units === 'in' ? [`${name} in`, `${name} mm`] : [`${name} mm`, `${name} in`];

/** The cells under `lengthColumns`: millimetres to 0.1, inches to the chosen fraction. */
export const lengthCells = (length: number, setting: Setting): readonly [string, string] => {
  const { units } = setting;
  return [
    writeShort(length, setting),
    writeShort(length, { ...setting, units: units === 'in' ? 'mm' : 'in' }),
  ];
};
