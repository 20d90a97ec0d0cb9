/** A value as it stands on the paper: what it says, and by how much its rounding may hide, in mm, mm², radians or a number. */
export interface PrintedValue {
  readonly value: number;
  readonly rounding: number;
}

const INCH = 25.4;
const FOOT = 12 * INCH;
/** Units of area, mm². */
const SQUARES = { ' cm²': 100, ' m²': 1e6, ' in²': INCH ** 2, ' ft²': FOOT ** 2 } as const;
const DEGREE = Math.PI / 180;
/** Fractions are in lowest terms: `5 1/2` may have been rounded to a sixteenth. */
const COARSEST = 16;

const sizeOf = (text: string): number => Number(text.replaceAll('−', '-'));

/** Half of the last place of a decimal number. */
const lastPlace = (text: string): number => 0.5 * 10 ** -(text.split('.')[1]?.length ?? 0);

/** Half of the third significant place. */
const thirdPlace = (value: number): number =>
  value === 0 ? 0 : 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(value))) - 2);

/** Inches as `3`, `13/16`, `3 1/2` or `6.625`. */
const readInches = (text: string): PrintedValue | undefined => {
  const fraction = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(text);
  if (fraction) {
    const [, whole = '0', n = '', d = ''] = fraction;
    return {
      value: (Number(whole) + Number(n) / Number(d)) * INCH,
      rounding: INCH / (2 * Math.max(COARSEST, Number(d))),
    };
  }
  if (/^\d+$/.test(text)) return { value: Number(text) * INCH, rounding: INCH / (2 * COARSEST) };
  if (/^\d*\.\d+$/.test(text)) return { value: Number(text) * INCH, rounding: lastPlace(text) * INCH };
  return undefined;
};

/** One value in one unit; undefined where it is none. A number without a unit is millimeters, or what is counted. */
const readOne = (text: string): PrintedValue | undefined => {
  const sign = /^[-−]/.test(text) ? -1 : 1;
  const plain = text.replace(/^[-−+±]/, '');
  const signed = (read: PrintedValue | undefined): PrintedValue | undefined =>
    read && { ...read, value: sign * read.value };
  const feet = /^(\d+)′(?:-(.+)″)?$/.exec(plain);
  if (feet) {
    const inches = readInches(feet[2] ?? '0');
    return signed(inches && { ...inches, value: inches.value + Number(feet[1]) * FOOT });
  }
  const inches = /^(.+)″$/.exec(plain);
  if (inches) return signed(readInches(inches[1] ?? ''));
  const number = /^(\d*\.?\d+)( mm|°| (?:cm|m|in|ft)²)?$/.exec(plain);
  if (!number) return undefined;
  const [, digits = '', unit = ' mm'] = number;
  const value = sizeOf(digits);
  switch (unit) {
    case '°':
      return signed({ value: value * DEGREE, rounding: lastPlace(digits) * DEGREE });
    case ' cm²':
    case ' m²':
    case ' in²':
    case ' ft²': {
      const square = SQUARES[unit];
      return signed({ value: value * square, rounding: thirdPlace(value) * square });
    }
    default:
      return signed({ value, rounding: lastPlace(digits) });
  }
};

const ONE =
  '[-−+±]?(?:\\d+′(?:-(?:(?:\\d+ )?\\d+/\\d+|\\d*\\.\\d+|\\d+)″)?|(?:(?:\\d+ )?\\d+/\\d+|\\d*\\.\\d+|\\d+)″|\\d*\\.?\\d+(?: mm|°))';

/** One figure, which may stand there in two units, as `6 5/8″ (168.3 mm)`; undefined where it is none. */
const readFigure = (text: string): readonly PrintedValue[] | undefined => {
  const parts = /^(.+?)(?: \((.+)\))?$/.exec(text);
  const read = [parts?.[1], parts?.[2]].filter((part) => part !== undefined).map(readOne);
  return read.every((value) => value !== undefined) && read.length > 0 ? read : undefined;
};

/** The figures of a printed text in order, each in one unit or in two: the text alone, or those that stand in its words. */
export const readFigures = (text: string): readonly (readonly PrintedValue[])[] => {
  const whole = readFigure(text);
  if (whole) return [whole];
  return [...text.matchAll(new RegExp(`${ONE}(?: \\(${ONE}\\))?`, 'g'))].flatMap(([found]) => {
    const read = readFigure(found);
    return read ? [read] : [];
  });
};
