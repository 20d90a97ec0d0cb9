import { ellipseProfile, rectangleProfile, regularProfile, type Profile } from '../geometry/profile.ts';
import { formatAsWritten, formatExactMm } from '../units/format.ts';
import { parseLength } from '../units/length.ts';
import { plainText, quoted, refusals } from '../units/notation.ts';
import type { Reading } from '../units/reading.ts';
import { say } from '../words/say.ts';

/** The end of a transition by its designation. */
export interface EndProfile {
  readonly designation: string;
  /** The outline, moved outward by `out` mm all round (inward where negative). */
  readonly outline: (out: number) => Profile;
  /** True where it has sharp corners: it is folded there, not rolled. */
  readonly sharp: boolean;
  /** Least half width, mm: it may not be moved inward by as much. */
  readonly least: number;
}

const HINT = () =>
  say`write round 200mm, rect 300x200mm, rounded 300x200mm corner 40mm, oval 400x200mm, ellipse 400x200mm or polygon 6 side 150mm`;

/** A length and how it is printed: in the unit it was typed in. */
interface Size {
  readonly value: number;
  readonly print: string;
}

const readSize = (text: string, reading: Reading): Size => {
  const value = parseLength(text, reading);
  return { value, print: formatAsWritten(value, text, reading.units) };
};

/** One or two lengths with x between; the last one's unit holds for those without. */
const readSizes = (text: string, reading: Reading): readonly Size[] => {
  const parts = text.split(/ ?[x×] ?/);
  const unit = /(?:[a-z]+\.?|["'])$/.exec(parts[parts.length - 1] ?? '')?.[0] ?? '';
  return parts.map((part) => readSize(/[a-z"']/.test(part) ? part : `${part}${unit}`, reading));
};

const rectangle = (width: number, height: number, corner: number, designation: string): EndProfile => ({
  designation,
  sharp: corner === 0,
  least: Math.min(width, height) / 2,
  outline: (out) =>
    rectangleProfile(width + 2 * out, height + 2 * out, corner === 0 ? 0 : Math.max(1e-3, corner + out)),
});

/**
 * Reads the profile of a transition's end: `round D`, `rect WxH`, `rounded WxH corner R`, `oval WxH` (two half circles),
 * `ellipse WxH`, `polygon N side L`. The width lies along station 0.
 */
export const readEndProfile = (text: string, reading: Reading): EndProfile => {
  const refuse = refusals(reading.path);
  const plain = plainText(text);
  const [word = '', ...rest] = plain.split(' ');
  const [sizeText = '', cornerText, ...more] = rest.join(' ').split(/ ?\b(?:corner|side)\b ?/);
  const bad = (why: string) => refuse('not-understood', `"${quoted(text)}": ${why}`, HINT());
  if (more.length > 0 || sizeText === '') throw bad(say`is not a profile`);
  const sized = (count: 1 | 2): readonly [a: number, b: number, name: string] => {
    const sizes = readSizes(sizeText, reading);
    if (sizes.length !== count)
      throw bad(count === 1 ? say`${word} has one size` : say`${word} has two sizes, width x height`);
    const [a = 0, b = a] = sizes.map(({ value }) => value);
    if (a <= 0 || b <= 0) throw bad(say`a size is not above zero`);
    return [a, b, `${word} ${sizes.map(({ print }) => print).join(' x ')}`];
  };
  const plainOnly = (): void => {
    if (cornerText !== undefined) throw bad(say`${word} has no corner or side`);
  };
  switch (word) {
    case 'round': {
      plainOnly();
      const [d, , name] = sized(1);
      return {
        designation: name,
        sharp: false,
        least: d / 2,
        outline: (out) => ellipseProfile(d + 2 * out, d + 2 * out),
      };
    }
    case 'ellipse': {
      plainOnly();
      const [a, b, name] = sized(2);
      return {
        designation: name,
        sharp: false,
        least: Math.min(a, b) / 2,
        outline: (out) => ellipseProfile(a + 2 * out, b + 2 * out),
      };
    }
    case 'rect': {
      plainOnly();
      const [a, b, name] = sized(2);
      return rectangle(a, b, 0, name);
    }
    case 'oval': {
      plainOnly();
      const [a, b, name] = sized(2);
      if (a === b) throw bad(say`an oval as high as wide is round`);
      return rectangle(a, b, Math.min(a, b) / 2, name);
    }
    case 'rounded': {
      const [a, b, name] = sized(2);
      if (!cornerText) throw bad(say`the corner radius is missing`);
      const { value: corner, print } = readSize(cornerText, reading);
      if (corner <= 0 || corner > Math.min(a, b) / 2)
        throw bad(say`the corner must be above zero and at most ${formatExactMm(Math.min(a, b) / 2)}`);
      return rectangle(a, b, corner, `${name} corner ${print}`);
    }
    case 'polygon': {
      const count = Number(sizeText);
      if (!Number.isInteger(count) || count < 3 || count > 60) throw bad(say`a polygon has 3 to 60 sides`);
      if (!cornerText) throw bad(say`the length of a side is missing`);
      const { value: side, print } = readSize(cornerText, reading);
      if (side <= 0) throw bad(say`a side is not above zero`);
      const inner = side / (2 * Math.tan(Math.PI / count));
      return {
        designation: `polygon ${count} side ${print}`,
        sharp: true,
        least: inner,
        outline: (out) => regularProfile(count, side * (1 + out / inner)),
      };
    }
    default:
      throw bad(say`is not a profile`);
  }
};
