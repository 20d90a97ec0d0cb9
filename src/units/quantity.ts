import { formatAngle } from './angle.ts';
import { formatLength, formatSize, type LengthFormat } from './format.ts';

/** A value with its unit: a number for programs, written out only where people read it. */
export type Quantity =
  | {
      readonly kind: 'length';
      readonly mm: number;
      /** A size as a standard gives it: decimals of an inch, never rounded to a fraction. */
      readonly size?: true;
    }
  | { readonly kind: 'angle'; readonly radians: number }
  | { readonly kind: 'area'; readonly mm2: number }
  | { readonly kind: 'volume'; readonly mm3: number }
  | { readonly kind: 'mass'; readonly kg: number }
  | { readonly kind: 'count'; readonly n: number };

/** A length laid out or measured by tape, mm. */
export const lengthOf = (mm: number): Quantity => ({ kind: 'length', mm });

/** A length as a table of a standard gives it, mm: an outside diameter, a wall, a thickness. */
export const sizeOf = (mm: number): Quantity => ({ kind: 'length', mm, size: true });

/** An angle, radians. */
export const angleOf = (radians: number): Quantity => ({ kind: 'angle', radians });

/** An area, mm². */
export const areaOf = (mm2: number): Quantity => ({ kind: 'area', mm2 });

/** A volume, mm³. */
export const volumeOf = (mm3: number): Quantity => ({ kind: 'volume', mm3 });

/** A mass, kg. */
export const massOf = (kg: number): Quantity => ({ kind: 'mass', kg });

/** A number of things. */
export const countOf = (n: number): Quantity => ({ kind: 'count', n });

/** The avoirdupois pound, by the international agreement of 1959. */
const KG_PER_LB = 0.45359237;
const INCH = 25.4;
const FOOT = 12 * INCH;

const significant = (value: number): string => String(Number(value.toPrecision(3)));

/** A quantity once in each of the two systems where it has both: `[metric, US]`. */
const inBoth = (quantity: Quantity, format: LengthFormat): readonly [string, string?] => {
  switch (quantity.kind) {
    case 'length': {
      const write = (units: 'in' | 'mm'): string =>
        quantity.size === true
          ? formatSize(quantity.mm, units)
          : formatLength(quantity.mm, { ...format, units });
      return [write('mm'), write('in')];
    }
    case 'angle':
      // A hundredth of a degree is finer than any bevel or level is set.
      return [formatAngle(quantity.radians, 2)];
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

/** A length for a column that is headed by its unit: the unit's name is left out of millimeters. */
export const writeCell = (
  quantity: Quantity & { kind: 'length' },
  units: 'in' | 'mm',
  format: LengthFormat,
): string => inBoth(quantity, format)[units === 'in' ? 1 : 0]?.replace(/ mm$/, '') ?? '';
