import { parseLength, type Units } from './length.ts';
import { divide, fromNumber, multiply, rational, round, type Rational } from './rational.ts';

export interface LengthFormat {
  /** Unit the reader works in. */
  readonly units: Units;
  /** Finest part of an inch, a power of two; 16 by default. */
  readonly denominator?: number;
  /** Decimals of millimetres; 1 by default. */
  readonly decimals?: number;
  /** Twelve inches and more as feet and inches; they stay inches by default. */
  readonly feet?: boolean;
}

const INCH = rational(254n, 10n);

/** Millimetres as text, halves away from zero: `168.3 mm`. Throws a RangeError where the length is not finite. */
export function formatMm(mm: number, decimals = 1): string {
  if (!Number.isFinite(mm)) throw new RangeError(`${mm} is not a length`);
  // 3.175 as a double lies just short of the half.
  const text = (mm + Math.sign(mm) * 1e-9).toFixed(decimals);
  return `${/[1-9]/.test(text) ? text : text.replace('-', '')} mm`;
}

let unitsOfMessages: 'mm' | 'in' = 'mm';

/** Runs something whose messages speak in the units a request is typed in; nothing that waits may run in it. */
export const inUnits = <T>(units: 'mm' | 'in', run: () => T): T => {
  const before = unitsOfMessages;
  unitsOfMessages = units;
  try {
    return run();
  } finally {
    unitsOfMessages = before;
  }
};

/** A length as a message says it, in the units typed, without zeros at the end: `168.3 mm`, `6 mm`, `6.625″`. */
export const told = (length: number, decimals = 2): string =>
  unitsOfMessages === 'in'
    ? `${Number((length / 25.4).toFixed(decimals + 1))}″`
    : `${Number(length.toFixed(decimals))} mm`;

/** Millimetres as the nearest inch fraction in lowest terms, halves away from zero: `6 5/8″`. */
export function formatInches(mm: number, denominator = 16): string {
  const parts = inchParts(mm, denominator);
  return `${parts < 0 ? '-' : ''}${inchText(Math.abs(parts), denominator)}`;
}

/**
 * Millimetres as feet and the nearest inch fraction: `1′-3 1/2″`, `1′-0 1/16″` so that no dash stands before a bare fraction;
 * below one foot as inches alone.
 */
export function formatFeetInches(mm: number, denominator = 16): string {
  const parts = inchParts(mm, denominator);
  const foot = 12 * denominator;
  const feet = Math.floor(Math.abs(parts) / foot);
  const inches = inchText(Math.abs(parts) % foot, denominator);
  const whole = feet > 0 && /^\d+\//.test(inches) ? '0 ' : '';
  return `${parts < 0 ? '-' : ''}${feet > 0 ? `${feet}′-` : ''}${whole}${inches}`;
}

/** A length of which millimeters with one decimal show something, mm. */
const SEEN = 0.05;

/** A length in the reader's unit alone: `189.5 mm` or `7 7/16″`; less than half the finest part finer, as `1/64″` or `.004″`. */
export const formatLength = (mm: number, { units, denominator, decimals, feet }: LengthFormat): string => {
  const quiet = withoutNoise(mm);
  if (units === 'mm') return formatMm(quiet, decimals);
  // What is there is not said to be nothing.
  if (Math.abs(quiet) >= SEEN && inchParts(quiet, denominator ?? 16) === 0)
    return inchParts(quiet, 64) === 0 ? formatSize(mm, 'in') : formatInches(quiet, 64);
  return feet === true ? formatFeetInches(quiet, denominator) : formatInches(quiet, denominator);
};

/**
 * A size as a standard gives it: `168.28 mm`, `6.625″`, `.280″`. Millimetres to a hundredth, inches to a
 * thousandth.
 */
export const formatSize = (mm: number, units: Units): string => {
  const quiet = withoutNoise(mm);
  if (units === 'mm') return `${String(Number(quiet.toFixed(2)))} mm`;
  const inches = (quiet / 25.4).toFixed(3);
  // Wall thicknesses are spoken in thousandths, larger sizes with as many decimals as they need.
  return `${Math.abs(quiet) < 25.4 ? inches.replace(/^(-?)0/, '$1') : String(Number(inches))}″`;
};

/** A length in both units, the reader's first: `189.5 mm (7 7/16″)`. */
export const formatBoth = (mm: number, format: LengthFormat): string =>
  `${formatLength(mm, format)} (${formatLength(mm, { ...format, units: format.units === 'in' ? 'mm' : 'in' })})`;

/** Millimetres with as many decimals as it takes to read the same double back: `168.275 mm`. */
export const formatExactMm = (mm: number): string => exactDecimal(fromNumber(mm), ' mm', mm);

/**
 * Inches that read back as the same double: a fraction down to 1/64 where that is exact, `6 5/8″`, else decimals,
 * `0.28″`.
 */
export function formatExactInches(mm: number): string {
  const fraction = formatInches(mm, 64);
  return parseLength(fraction) === mm ? fraction : exactDecimal(divide(fromNumber(mm), INCH), '″', mm);
}

/** A length exactly, in the unit it was written in: inches where `text` has feet or inches, or a bare number of inches. */
export const formatAsWritten = (mm: number, text: string, units: Units = 'mm'): string =>
  /["'″′”’]|in|f/i.test(text) || (units === 'in' && !/m/i.test(text))
    ? formatExactInches(mm)
    : formatExactMm(mm);

/** Lengths that are equal but for the error of a search print alike: just short of a half counts as a half. */
const withoutNoise = (mm: number): number => mm + Math.sign(mm) * 1e-4;

/** What a length that was read as a half of the finest part may lack of it as a double, in parts. */
const NOISE = 1e-9;

function inchParts(mm: number, denominator: number): number {
  if (!Number.isInteger(Math.log2(denominator)) || denominator < 1) {
    throw new RangeError(`1/${denominator} is not a halving of an inch`);
  }
  if (!Number.isFinite(mm)) throw new RangeError(`${mm} is not a length`);
  return Math.sign(mm) * Math.round((Math.abs(mm) / 25.4) * denominator + NOISE);
}

/** Parts of an inch, zero or more, as whole inches and a fraction in lowest terms. */
function inchText(parts: number, denominator: number): string {
  const whole = Math.floor(parts / denominator);
  const { n, d } = rational(BigInt(parts % denominator), BigInt(denominator));
  if (n === 0n) return `${whole}″`;
  return `${whole > 0 ? `${whole} ` : ''}${n}/${d}″`;
}

/** The fewest decimals of `value` that, with `unit` after them, read back as `mm`. */
function exactDecimal(value: Rational, unit: string, mm: number): string {
  for (let decimals = 0; ; decimals += 1) {
    const parts = round(multiply(value, rational(10n ** BigInt(decimals))));
    const digits = String(parts < 0n ? -parts : parts).padStart(decimals + 1, '0');
    const point = digits.length - decimals;
    const text = `${parts < 0n ? '-' : ''}${digits.slice(0, point)}${decimals > 0 ? '.' : ''}${digits.slice(point)}${unit}`;
    // -0 and 0 are the same length.
    if (parseLength(text) === mm) return text;
  }
}
