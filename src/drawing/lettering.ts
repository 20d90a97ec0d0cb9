import type { Vec2 } from '../geometry/vector.ts';
import { requestError } from '../issue.ts';
import { boldGlyphs, regularGlyphs, type GlyphTable } from './glyph-table.ts';
import type { Box, Lettering } from './model.ts';
import { say } from '../words/say.ts';

/** A glyph's advance in font units, and how far it reaches below and above the baseline, in capital heights. */
interface Glyph {
  readonly advance: number;
  readonly low: number;
  readonly high: number;
}

/** A text broken at its spaces: the words between them and how wide each is, in font units. */
type Words = readonly {
  readonly word: string;
  readonly width: number;
  /** Kept on one line with the word before it wherever a whole line has room for both. */
  readonly joined?: boolean;
}[];

interface Face {
  readonly glyphs: ReadonlyMap<string, Glyph>;
  readonly unitsPerEm: number;
  /** Height of the capital H in font units. */
  readonly capital: number;
  /** Widths already measured, in font units: the same words are measured often while a page is composed. */
  readonly widths: Map<string, number>;
  /** Texts already broken into words, and how far their ink reaches in capital heights, for the same reason. */
  readonly words: Map<string, Words>;
  readonly reaches: Map<string, { readonly low: number; readonly high: number }>;
}

const readFace = ({ rows, capital, unitsPerEm }: GlyphTable): Face => {
  const glyphs = new Map<string, Glyph>();
  const grid = unitsPerEm / 128;
  for (const row of rows) {
    const colon = row.indexOf(':');
    const first = parseInt(row.slice(0, colon), 16);
    row
      .slice(colon + 1)
      .split(',')
      .forEach((entry, index) => {
        const [advance, low, high] = entry.split(' ').map((digits) => parseInt(digits, 36));
        if (advance === undefined || low === undefined || high === undefined) return;
        glyphs.set(String.fromCodePoint(first + index), {
          advance,
          low: (low * grid) / capital,
          high: (high * grid) / capital,
        });
      });
  }
  return { glyphs, unitsPerEm, capital, widths: new Map(), words: new Map(), reaches: new Map() };
};

/** Enough for the words of any sheet; a long batch must not fill the memory with its own. */
const mostKept = 20_000;

/** What a map holds for a text, made once; the map is emptied where it has grown too long. */
const recall = <Value>(known: Map<string, Value>, text: string, make: () => Value): Value => {
  const before = known.get(text);
  if (before !== undefined) return before;
  const value = make();
  if (known.size >= mostKept) known.clear();
  known.set(text, value);
  return value;
};

const faces = new Map<boolean, Face>();
const faceOf = (bold: boolean): Face => {
  const known = faces.get(bold);
  if (known) return known;
  const face = readFace(bold ? boldGlyphs : regularGlyphs);
  faces.set(bold, face);
  return face;
};

const glyphOf = (face: Face, sign: string): Glyph => {
  const glyph = face.glyphs.get(sign);
  if (glyph) return glyph;
  const code = sign.codePointAt(0)?.toString(16).toUpperCase().padStart(4, '0') ?? '';
  throw requestError(
    'text',
    'unknown-sign',
    say`the sheet's lettering has no sign for ${/\p{C}/u.test(sign) ? '' : `"${sign}" `}(U+${code})`,
    say`use Latin, Greek or Cyrillic letters, figures and common signs, in one line`,
  );
};

/** True where every sign of the text can be lettered. */
export const canLetter = (text: string): boolean =>
  [...text.normalize('NFC')].every((sign) => faceOf(false).glyphs.has(sign));

/** The font size (the em, mm) whose capitals are `height` mm high. */
export const fontSize = (height: number, bold: boolean): number => {
  const { unitsPerEm, capital } = faceOf(bold);
  return (height * unitsPerEm) / capital;
};

/** Width of one line in font units. They are whole numbers, so that a line is as wide as its words together. */
const unitWidth = (face: Face, text: string): number =>
  recall(face.widths, text, () => {
    let width = 0;
    for (const sign of text.normalize('NFC')) width += glyphOf(face, sign).advance;
    return width;
  });

/**
 * Width of one line in mm, capitals `height` mm high, set without kerning or ligatures.
 * Throws a request error where the font has no glyph for a sign.
 */
export const textWidth = (text: string, height: number, bold: boolean): number => {
  const face = faceOf(bold);
  return (unitWidth(face, text) / face.capital) * height;
};

/** How far the ink of one line reaches from its baseline, mm: `low` is zero or negative. */
export const textReach = (text: string, height: number, bold: boolean): { low: number; high: number } => {
  const face = faceOf(bold);
  const { low, high } = recall(face.reaches, text, () => {
    let [low, high] = [0, 0];
    for (const sign of text.normalize('NFC')) {
      const glyph = glyphOf(face, sign);
      low = Math.min(low, glyph.low);
      high = Math.max(high, glyph.high);
    }
    return { low, high };
  });
  return { low: low * height, high: high * height };
};

/** Where a line of lettering begins: the left end of its baseline, mm. */
export const letteringStart = (mark: Lettering): Vec2 => {
  const width = textWidth(mark.text, mark.height, mark.bold);
  const along = mark.align === 'left' ? 0 : mark.align === 'centre' ? -width / 2 : -width;
  const up = mark.valign === 'baseline' ? 0 : mark.valign === 'middle' ? -mark.height / 2 : -mark.height;
  const [cos, sin] = [Math.cos(mark.angle), Math.sin(mark.angle)];
  return { x: mark.at.x + along * cos - up * sin, y: mark.at.y + along * sin + up * cos };
};

/** The upright rectangle round a line of lettering: its advance wide, its ink high, turned by its angle. */
export const letteringBox = (mark: Lettering): Box => {
  const start = letteringStart(mark);
  const width = textWidth(mark.text, mark.height, mark.bold);
  const { low, high } = textReach(mark.text, mark.height, mark.bold);
  const [cos, sin] = [Math.cos(mark.angle), Math.sin(mark.angle)];
  const x = (u: number, v: number): number => start.x + u * cos - v * sin;
  const y = (u: number, v: number): number => start.y + u * sin + v * cos;
  return {
    minX: Math.min(x(0, low), x(width, low), x(0, high), x(width, high)),
    minY: Math.min(y(0, low), y(width, low), y(0, high), y(width, high)),
    maxX: Math.max(x(0, low), x(width, low), x(0, high), x(width, high)),
    maxY: Math.max(y(0, low), y(width, low), y(0, high), y(width, high)),
  };
};

/** Where a text may be broken: never between a number and its fraction or unit, or 7 7/8″ would be read as 7. */
const BREAK = /(?<!\d) | (?!\d+\/\d|%|(?:mm|cm|m|in|ft|kg|lb|L)(?!\p{L}))/u;

/** A size goes on as the same name after these: `HE 200 B`, `NPS 6 sch 40`, `elbow NPS 8 LR`. */
const MORE_OF_NAME = /^(?:[A-Z]|LR|SR|XX?S|STD|sch|class|wall|[x×])(?![\p{L}\d])/u;

/** True where a space parts what is read as one: a name and its number (`station 90`, `HE 200`), a number and what its name goes on with. */
const isOne = (before: string, after: string): boolean =>
  (/(?:\p{L}|⌀|[±<>=≤≥+×])$/u.test(before) && /^[⌀±.]?\d/.test(after)) ||
  (/\d$/.test(before) && MORE_OF_NAME.test(after));

const wordsOf = (face: Face, text: string): Words =>
  recall(face.words, text, () => {
    const words = text.split(BREAK).filter((word) => word !== '');
    return words.map((word, i) => ({
      word,
      width: unitWidth(face, word),
      joined: i > 0 && isOne(words[i - 1] ?? '', word),
    }));
  });

/** A word as it stands, or in parts no wider than `most` font units (though never less than a sign). */
const breakWord = (face: Face, whole: Words[number], most: number): Words => {
  if (whole.width <= most) return [whole];
  const parts: { word: string; width: number }[] = [];
  let part = { word: '', width: 0 };
  // After a hyphen, as by hand, where that fills most of the line.
  const [signs, least] = [[...whole.word], most / 2];
  for (const sign of signs) {
    const width = unitWidth(face, sign);
    if (part.word !== '' && part.width + width > most) {
      const hyphen = part.word.lastIndexOf('-') + 1;
      const kept = part.word.slice(0, hyphen);
      const rest = part.word.slice(hyphen);
      const keptWidth = unitWidth(face, kept);
      if (hyphen > 0 && keptWidth >= least) {
        parts.push({ word: kept, width: keptWidth });
        part = { word: rest, width: part.width - keptWidth };
      } else {
        parts.push(part);
        part = { word: '', width: 0 };
      }
    }
    part = { word: part.word + sign, width: part.width + width };
  }
  return [...parts, part];
};

/** A text broken at its spaces into lines no wider than a width; a word wider than that is broken itself. */
export interface WrappedText {
  readonly count: number;
  /** True where a word had to be broken. */
  readonly isBroken: boolean;
  /** Width of the widest line, mm. */
  readonly width: number;
  /** Put together when they are drawn: a text is wrapped to many widths before one is chosen. */
  readonly lines: () => string[];
}

/** Lines by the words they begin with; the last entry is the number of words. */
const breakLines = (words: Words, most: number, space: number): { starts: number[]; widest: number } => {
  const starts = words.length > 0 ? [0] : [];
  let [length, widest] = [0, 0];
  /** How wide the words are together that are joined to word i. */
  const groupFrom = (i: number): number => {
    let sum = words[i]?.width ?? 0;
    for (let k = i + 1; words[k]?.joined; k += 1) sum += space + (words[k]?.width ?? 0);
    return sum;
  };
  for (let i = 0; i < words.length; i += 1) {
    const wide = words[i]?.width ?? 0;
    const isFirst = starts[starts.length - 1] === i;
    const group = words[i]?.joined ? wide : groupFrom(i);
    if (!isFirst && length + space + (group <= most ? group : wide) > most) {
      widest = Math.max(widest, length);
      starts.push(i);
      length = wide;
    } else length += (isFirst ? 0 : space) + wide;
  }
  return { starts: [...starts, words.length], widest: Math.max(widest, length) };
};

/** Breaks a text, capitals `height` mm high, into lines no wider than `width` mm. */
export const setText = (text: string, height: number, bold: boolean, width: number): WrappedText => {
  const face = faceOf(bold);
  const most = (width / height) * face.capital * (1 + 1e-12);
  const whole = wordsOf(face, text);
  const isBroken = whole.some((word) => word.width > most);
  const words = isBroken ? whole.flatMap((word) => breakWord(face, word, most)) : whole;
  const { starts, widest } = breakLines(words, most, unitWidth(face, ' '));
  return {
    count: starts.length - 1,
    isBroken,
    width: (widest / face.capital) * height,
    lines: () =>
      starts.slice(1).map((end, i) =>
        words
          .slice(starts[i], end)
          .map(({ word }) => word)
          .join(' '),
      ),
  };
};

/** The lines of a text no wider than `width` mm. */
export const wrapText = (text: string, height: number, bold: boolean, width: number): string[] =>
  setText(text, height, bold, width).lines();
