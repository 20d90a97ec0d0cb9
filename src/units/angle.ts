import { say } from '../words/say.ts';
import { UNIT, unitSize } from './length.ts';
import { checkedText, NUMBER, quoted, readNumber, refusals, type Refusal } from './notation.ts';
import { add, compare, divide, multiply, rational, toNumber, type Rational } from './rational.ts';
import { checkIsText } from '../words/wrong-type.ts';

const HINT = () => say`write it like 22.5, 22°30', 1:12, 3in/ft, 10mm/m or 5%`;
const TURN = rational(360n);
const SIXTY = rational(60n);

const DEGREES = new RegExp(`^(${NUMBER}) ?(°|º|degrees?|deg\\.?)?$`);
const SEXAGESIMAL = new RegExp(
  `^(\\d+) ?(?:°|º|degrees?|deg\\.?) ?(${NUMBER}) ?(?:(') ?(?:(${NUMBER}) ?(")?)?)?$`,
);
const RADIANS = new RegExp(`^(\\d+(?:\\.\\d+)?) ?rad$`);
const PERCENT = new RegExp(`^(${NUMBER}) ?%$`);
const RATIO = new RegExp(`^(${NUMBER}) ?: ?(${NUMBER})$`);
const RISE_PER_RUN = new RegExp(`^(${NUMBER}) ?(${UNIT}) ?(?:/|per) ?(${NUMBER})? ?(${UNIT})$`);

/**
 * Reads an angle, in radians: degrees `22.5`, `22.5deg`, `22 1/2°`, `22°30'15"`, or a slope as rise to run `1:12`,
 * `3in/ft`, `10mm/m`, `5%`, or radians as programs have them, `0.3927rad`, with an optional sign. Throws a request error for anything else, and beyond a full turn.
 */
export function parseAngle(text: string, { path = 'angle' }: { readonly path?: string } = {}): number {
  checkIsText(text, path, '22.5');
  const refuse = refusals(path);
  const plain = checkedText(text, say`angle`, HINT(), refuse);
  const [, sign = '', size = ''] = /^([+-]?) ?(.*)$/.exec(plain) ?? [];
  const shown = quoted(text);
  const radians = RADIANS.exec(size)?.[1];
  const slope = radians === undefined ? readSlope(size, shown, refuse) : undefined;
  const magnitude = slope
    ? Math.atan(toNumber(slope))
    : radians !== undefined
      ? withinTurn(Number(radians), shown, refuse)
      : turnPart(readDegrees(size, shown, refuse), shown, refuse);
  return sign === '-' && magnitude !== 0 ? -magnitude : magnitude;
}

/** Rise over run, or nothing where the text is no slope. */
function readSlope(size: string, shown: string, refuse: Refusal): Rational | undefined {
  const number = (text: string) => readNumber(text, shown, refuse);
  const percent = PERCENT.exec(size);
  if (percent) return divide(number(percent[1] ?? ''), rational(100n));
  const over = (rise: Rational, run: Rational) => {
    if (run.n === 0n)
      throw refuse('zero-run', say`${shown} has a run of zero`, say`write a run above zero, such as 1:12`);
    return divide(rise, run);
  };
  const ratio = RATIO.exec(size);
  if (ratio) return over(number(ratio[1] ?? ''), number(ratio[2] ?? ''));
  const units = RISE_PER_RUN.exec(size);
  if (!units) return undefined;
  const [, rise = '', riseUnit = '', run = '1', runUnit = ''] = units;
  return over(multiply(number(rise), unitSize(riseUnit)), multiply(number(run), unitSize(runUnit)));
}

function readDegrees(size: string, shown: string, refuse: Refusal): Rational {
  const single = DEGREES.exec(size);
  if (single) {
    const [, number = '', mark] = single;
    if (mark === undefined && /^\d+\/\d+$/.test(number)) {
      throw refuse(
        'bare-fraction',
        say`${shown} may be a slope or a part of a degree`,
        say`write ${number.replace('/', ':')} for a slope, ${number} in/ft for so many inches in a foot, ${number}deg for degrees`,
      );
    }
    return readNumber(number, shown, refuse);
  }
  const parts = SEXAGESIMAL.exec(size);
  if (!parts) throw refuse('not-an-angle', say`${shown} is not an angle`, HINT());
  const [, degrees = '', minutes = '', minuteMark, seconds = '0', secondMark] = parts;
  if (minuteMark === undefined || (parts[4] !== undefined && secondMark === undefined)) {
    const mark = minuteMark === undefined ? "'" : '"';
    throw refuse('missing-mark', say`${shown} has no ${mark} at its end`, say`write ${shown}${mark}`);
  }
  const sixtieths = [minutes, seconds].map((part) => readNumber(part, shown, refuse));
  if (sixtieths.some((part) => compare(part, SIXTY) >= 0)) {
    throw refuse(
      'past-sixty',
      say`${shown} has 60 or more minutes or seconds`,
      say`write both below 60, such as 22°30'15"`,
    );
  }
  if (parts[4] !== undefined && !/^\d+$/.test(minutes)) {
    throw refuse(
      'minutes-not-whole',
      say`${shown} has a part of a minute before the seconds`,
      say`write whole minutes, such as 22°30'15"`,
    );
  }
  const [minute = rational(0n), second = rational(0n)] = sixtieths;
  return add(readNumber(degrees, shown, refuse), divide(add(minute, divide(second, SIXTY)), SIXTY));
}

const tooLarge = (shown: string, refuse: Refusal): Error =>
  refuse('too-large', say`${shown} is more than a full turn`, say`write an angle from -360 to 360 degrees`);

const withinTurn = (radians: number, shown: string, refuse: Refusal): number => {
  if (radians > 2 * Math.PI) throw tooLarge(shown, refuse);
  return radians;
};

function turnPart(degrees: Rational, shown: string, refuse: Refusal): number {
  if (compare(degrees, TURN) > 0) throw tooLarge(shown, refuse);
  return toNumber(divide(degrees, rational(180n))) * Math.PI;
}

const toDegrees = (radians: number): number => {
  if (!Number.isFinite(radians)) throw new RangeError(`${radians} is not an angle`);
  return (radians / Math.PI) * 180;
};

/** Radians as decimal degrees with so many decimals at most and no trailing zeros: `22.5°`. */
export function formatAngle(radians: number, places = 4): string {
  const text = toDegrees(radians)
    .toFixed(places)
    .replace(/\.0+$|(?<=\.\d*)0+$/, '');
  return `${text === '-0' ? '0' : text}°`;
}

/** An angle as it is set out, to a hundredth of a degree. */
export const writeAngle = (radians: number): string => formatAngle(radians, 2);

/** Radians as degrees, minutes and whole seconds, parts that are zero at the end left out: `22°30′`, `22°30′15″`. */
export function formatDms(radians: number): string {
  const total = Math.round(Math.abs(toDegrees(radians)) * 3600);
  const [degrees, minutes, seconds] = [Math.floor(total / 3600), Math.floor(total / 60) % 60, total % 60];
  const sign = radians < 0 && total > 0 ? '-' : '';
  return `${sign}${degrees}°${minutes || seconds ? `${minutes}′` : ''}${seconds ? `${seconds}″` : ''}`;
}
