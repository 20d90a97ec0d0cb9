import { formatAngle } from './angle.ts';
import { formatLength, formatSize, type LengthFormat } from './format.ts';
import { givenInBoth } from './given-length.ts';

/** How a length is written that is not to the mark of the shop's tape. */
export type LengthForm =
  /** As a standard gives it: decimals of an inch, never rounded to a fraction. */
  | { readonly as: 'size' }
  /** As it was given or stands in a table: exact in the reader's unit. */
  | { readonly as: 'given' }
  /** To so many decimals of a millimeter, and one more of an inch. */
  | { readonly as: 'decimal'; readonly decimals: number }
  /** As a finer tape shows it: parts of an inch, and decimals of a millimeter where they are more than one. */
  | { readonly as: 'fine'; readonly parts: number; readonly decimals?: number };

/** A length, mm, and how it is written. */
export interface Length {
  readonly kind: 'length';
  readonly mm: number;
  readonly form?: LengthForm;
}

/** A value with its unit: a number for programs, written out only where people read it. */
export type Quantity =
  | Length
  | {
      readonly kind: 'angle';
      readonly radians: number;
      /** Decimals of a degree at most; two where it is left out: finer than any bevel or level is set. */
      readonly decimals?: number;
    }
  | { readonly kind: 'area'; readonly mm2: number }
  | { readonly kind: 'volume'; readonly mm3: number }
  | { readonly kind: 'mass'; readonly kg: number }
  | { readonly kind: 'count'; readonly n: number }
  /** A part of one, written as a percentage to so many decimals. */
  | { readonly kind: 'share'; readonly part: number; readonly decimals: number };

/** A length laid out or measured by tape, mm. */
export const lengthOf = (mm: number): Length => ({ kind: 'length', mm });

/** A length as a table of a standard gives it, mm: an outside diameter, a wall, a thickness. */
export const sizeOf = (mm: number): Length => ({ kind: 'length', mm, form: { as: 'size' } });

/** A length that was given or comes from a table, mm, not worked out. */
export const givenOf = (mm: number): Length => ({ kind: 'length', mm, form: { as: 'given' } });

/** A length worked out finer than a tape shows it, mm: by default to 0.01 mm and a thousandth of an inch. */
export const decimalOf = (mm: number, decimals = 2): Length => ({
  kind: 'length',
  mm,
  form: { as: 'decimal', decimals },
});

/** A length, mm, to 1/64 in or to so many decimals of a millimeter. */
export const fineOf = (mm: number, decimals = 1, parts = 64): Length => ({
  kind: 'length',
  mm,
  form: { as: 'fine', parts, decimals },
});

/** An angle, radians, to a hundredth of a degree or to so many decimals. */
export const angleOf = (radians: number, decimals?: number): Quantity => ({
  kind: 'angle',
  radians,
  ...(decimals !== undefined && { decimals }),
});

/** An area, mm². */
export const areaOf = (mm2: number): Quantity => ({ kind: 'area', mm2 });

/** A volume, mm³. */
export const volumeOf = (mm3: number): Quantity => ({ kind: 'volume', mm3 });

/** A mass, kg. */
export const massOf = (kg: number): Quantity => ({ kind: 'mass', kg });

/** A number of things. */
export const countOf = (n: number): Quantity => ({ kind: 'count', n });

/** A part of one, as a percentage to so many decimals. */
export const shareOf = (part: number, decimals = 0): Quantity => ({ kind: 'share', part, decimals });

/** The avoirdupois pound, by the international agreement of 1959. */
const KG_PER_LB = 0.45359237;
const INCH = 25.4;
const FOOT = 12 * INCH;

const significant = (value: number): string => String(Number(value.toPrecision(3)));

/** A number with so many decimals; what rounds to nothing has no sign. */
const fixed = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  return /[1-9]/.test(text) ? text : text.replace('-', '');
};

const lengthInBoth = ({ mm, form }: Length, format: LengthFormat): readonly [string, string] => {
  switch (form?.as) {
    case 'size':
      return [formatSize(mm, 'mm'), formatSize(mm, 'in')];
    case 'given':
      return givenInBoth(mm, format);
    case 'decimal':
      return [`${fixed(mm, form.decimals)} mm`, `${fixed(mm / INCH, form.decimals + 1)} in`];
    case 'fine':
    case undefined: {
      const { parts: denominator = format.denominator, decimals = format.decimals } = form ?? {};
      const write = (units: 'in' | 'mm'): string =>
        formatLength(mm, {
          units,
          ...(denominator !== undefined && { denominator }),
          ...(decimals !== undefined && { decimals }),
          ...(format.feet !== undefined && { feet: format.feet }),
        });
      return [write('mm'), write('in')];
    }
  }
};

/** A quantity once in each of the two systems where it has both: `[metric, US]`. */
const inBoth = (quantity: Quantity, format: LengthFormat): readonly [string, string?] => {
  switch (quantity.kind) {
    case 'length':
      return lengthInBoth(quantity, format);
    case 'angle':
      return [formatAngle(quantity.radians, quantity.decimals ?? 2)];
    case 'area': {
      const { mm2 } = quantity;
      // Small areas in small units: 0.0277 ft² says nothing to anybody.
      return [
        mm2 < 1e5 ? `${significant(mm2 / 100)} cm²` : `${significant(mm2 * 1e-6)} m²`,
        mm2 < FOOT ** 2 ? `${significant(mm2 / INCH ** 2)} in²` : `${significant(mm2 / FOOT ** 2)} ft²`,
      ];
    }
    case 'volume': {
      const [liters, ft3] = [quantity.mm3 * 1e-6, quantity.mm3 / FOOT ** 3];
      return [`${significant(liters)} L`, `${significant(ft3)} ft³`];
    }
    case 'mass':
      return [`${significant(quantity.kg)} kg`, `${significant(quantity.kg / KG_PER_LB)} lb`];
    case 'count':
      return [String(quantity.n)];
    case 'share':
      return [`${fixed(100 * quantity.part, quantity.decimals)} %`];
  }
};

/** A quantity in the reader's units, and in the others beside it where there are others: `6 5/8″ (168.3 mm)`. */
export const writeQuantity = (quantity: Quantity, format: LengthFormat): string => {
  const [metric, us] = inBoth(quantity, format);
  if (us === undefined) return metric;
  return format.units === 'in' ? `${us} (${metric})` : `${metric} (${us})`;
};

/** A quantity in the reader's units alone. */
export const writeOnce = (quantity: Quantity, format: LengthFormat): string => {
  const [metric, us] = inBoth(quantity, format);
  return format.units === 'in' ? (us ?? metric) : metric;
};

/** A length for a column that is headed by its unit, whose name is left out; inch marks stay. */
export const writeCell = (quantity: Length, units: 'in' | 'mm', format: LengthFormat): string =>
  lengthInBoth(quantity, format)[units === 'in' ? 1 : 0].replace(/ (?:mm|in)$/, '');
