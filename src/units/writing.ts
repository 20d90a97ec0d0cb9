import { formatBoth, formatLength } from './format.ts';
import { decimalOf, givenOf, sizeOf, writeQuantity } from './quantity.ts';
import type { Setting } from './setting.ts';

/** A length in the reader's unit without the unit's name where space is short. */
export const writeShort = (length: number, setting: Setting): string =>
  formatLength(length, setting).replace(' mm', '');

/** A length in both units, the reader's first. */
export const writeBoth = (length: number, setting: Setting): string => formatBoth(length, setting);

/** A size as a standard or a rule gives it, a plate's thickness, in both units: `.394″ (10 mm)`. */
export const writeSize = (size: number, setting: Setting): string => writeQuantity(sizeOf(size), setting);

/** A length that was given or comes from a table, exactly as it is in the reader's unit: `0.84″ (21.34 mm)`. */
export const writeGiven = (length: number, setting: Setting): string =>
  writeQuantity(givenOf(length), setting);

/** A worked-out length in both units: by default to 0.01 mm and a thousandth of an inch. */
export const writeDecimal = (length: number, setting: Setting, decimals?: number): string =>
  writeQuantity(decimalOf(length, decimals), setting);
