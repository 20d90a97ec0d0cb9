import { say } from '../words/say.ts';
import { checkedText, NUMBER, quoted, readNumber, refusals, type Refusal } from './notation.ts';
import { add, compare, multiply, negate, rational, toNumber, type Rational } from './rational.ts';
import { checkIsText } from '../words/wrong-type.ts';

/** The units a reader works in. */
export type Units = 'in' | 'mm';

export interface LengthOptions {
  /** Unit of a number that is written without one; without it such a number is refused. */
  readonly units?: Units;
  /** Name of the input, for errors. */
  readonly path?: string;
}

/** Millimetres in each unit, exactly (the inch is 25.4 mm by the international agreement of 1959). */
const MILLIMETRES: ReadonlyMap<string, Rational> = new Map(
  Object.entries({
    mm: rational(1n),
    cm: rational(10n),
    m: rational(1000n),
    in: rational(254n, 10n),
    ft: rational(3048n, 10n),
  }),
);

/** Ways to write each unit, in plain text, as regular-expression source. */
const SPELLINGS = String.raw`mm|cm|m|inches|inch|in\.?|"|feet|foot|ft\.?|'`;

/** Source of a unit group, for the patterns of lengths and slopes. */
export const UNIT = SPELLINGS;

/** Millimetres in a unit as spelled in plain text. */
export function unitSize(spelling: string): Rational {
  const key = /^(in|")/.test(spelling) ? 'in' : /^(f|')/.test(spelling) ? 'ft' : spelling;
  const size = MILLIMETRES.get(key);
  if (!size) throw new RangeError(`no unit ${spelling}`);
  return size;
}

const LONGEST = rational(1_000_000n);
const HINT = () => say`write it like 6 5/8", 1'-3 1/2", 168.3mm, 16.83cm or 2ft`;

const SINGLE = new RegExp(`^(${NUMBER}) ?(${SPELLINGS})?$`);
const FEET_AND_INCHES = new RegExp(
  `^(${NUMBER}) ?(?:'|ft\\.?|feet|foot) ?-? ?(${NUMBER}) ?("|inches|inch|in\\.?)?$`,
);

/**
 * Reads a length, in mm: `6-5/8"`, `6 5/8in`, `1'-3 1/2"`, `2 ft 3 in`, `6½″`, `168.3mm`, `16.83cm`, `1.2m`, with an
 * optional sign. The value is exact until one last rounding to a double. A number without a unit is in `units`; where
 * those are not given only 0 may stand alone. Throws a request error for anything else, and beyond 1,000,000 mm.
 */
export function parseLength(text: string, { units, path = 'length' }: LengthOptions = {}): number {
  checkIsText(text, path, '168.3mm');
  const refuse = refusals(path);
  const plain = checkedText(text, say`length`, HINT(), refuse);
  const [, sign = '', size = ''] = /^([+-]?) ?(.*)$/.exec(plain) ?? [];
  const magnitude = readMagnitude(size, quoted(text), units, refuse);
  if (compare(magnitude, LONGEST) > 0) {
    throw refuse(
      'too-large',
      say`${quoted(text)} is over 1,000,000 mm`,
      say`write a length up to 1,000,000 mm (39,370 in)`,
    );
  }
  return toNumber(sign === '-' ? negate(magnitude) : magnitude);
}

function readMagnitude(size: string, shown: string, units: Units | undefined, refuse: Refusal): Rational {
  const single = SINGLE.exec(size);
  if (single) {
    const [, number = '', spelling] = single;
    const value = readNumber(number, shown, refuse);
    if (spelling === undefined && units === undefined && value.n !== 0n) {
      throw refuse(
        'bare-number',
        say`${shown} has no unit`,
        say`write ${shown}mm or ${shown}in, or set --units`,
      );
    }
    return multiply(value, unitSize(spelling ?? units ?? 'mm'));
  }
  const both = FEET_AND_INCHES.exec(size);
  if (!both) throw refuse('not-a-length', say`${shown} is not a length`, HINT());
  const [, feet = '', number = '', mark] = both;
  if (mark === undefined) {
    throw refuse(
      'missing-mark',
      say`${shown} has no inch mark at its end`,
      say`write ${shown}" or ${shown} in`,
    );
  }
  if (!/^\d+$/.test(feet)) {
    throw refuse(
      'feet-not-whole',
      say`${shown} has a part of a foot before the inches`,
      say`write whole feet, such as 1'-6"`,
    );
  }
  const inches = readNumber(number, shown, refuse);
  if (compare(inches, rational(12n)) >= 0) {
    throw refuse(
      'inches-past-a-foot',
      say`${shown} has 12 inches or more after the feet`,
      say`write inches below 12, such as 2'-2"`,
    );
  }
  return add(multiply(rational(BigInt(feet)), unitSize('ft')), multiply(inches, unitSize('in')));
}

/**
 * Reads the finest fraction of an inch to print, `1/16` or `16`: a power of two from 2 to 128, returned as its
 * denominator. Throws a request error for anything else.
 */
export function parseDenominator(
  text: string,
  { path = 'fraction' }: { readonly path?: string } = {},
): number {
  const [, digits] = /^(?:1\/)?(2|4|8|16|32|64|128)$/.exec(text.trim()) ?? [];
  if (digits === undefined) {
    throw refusals(path)(
      'not-a-fraction',
      say`${quoted(text)} is not a fraction of an inch`,
      say`write 1/16, 1/32 or 1/64`,
    );
  }
  return Number(digits);
}
