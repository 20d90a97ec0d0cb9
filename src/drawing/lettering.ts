import type { Vec2 } from '../geometry/vector.ts';
import { requestError } from '../issue.ts';
import { boldGlyphs, regularGlyphs, type GlyphTable } from './glyph-table.ts';
import type { Box, Lettering } from './model.ts';

/** A glyph's advance, and how far it reaches below and above the baseline, in capital heights. */
interface Glyph {
  readonly advance: number;
  readonly low: number;
  readonly high: number;
}

interface Face {
  readonly glyphs: ReadonlyMap<string, Glyph>;
  /** Widths already measured, in capital heights: the same words are measured often while a page is composed. */
  readonly widths: Map<string, number>;
  readonly sizePerCapital: number;
}

const readFace = (table: GlyphTable): Face => {
  const glyphs = new Map<string, Glyph>();
  const grid = table.unitsPerEm / 128;
  for (const row of table.rows) {
    const colon = row.indexOf(':');
    const first = parseInt(row.slice(0, colon), 16);
    row
      .slice(colon + 1)
      .split(',')
      .forEach((entry, index) => {
        const [advance, low, high] = entry.split(' ').map((digits) => parseInt(digits, 36));
        if (advance === undefined || low === undefined || high === undefined) return;
        glyphs.set(String.fromCodePoint(first + index), {
          advance: advance / table.capital,
          low: (low * grid) / table.capital,
          high: (high * grid) / table.capital,
        });
      });
  }
  return { glyphs, widths: new Map(), sizePerCapital: table.unitsPerEm / table.capital };
};

/** Enough for the words of any sheet; a long batch shall not fill the memory with its own. */
const mostWidths = 20_000;

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
    `the sheet's lettering has no sign for ${/\p{C}/u.test(sign) ? '' : `"${sign}" `}(U+${code})`,
    'use Latin, Greek or Cyrillic letters, figures and common signs, in one line',
  );
};

/** True where every sign of the text can be lettered. */
export const canLetter = (text: string): boolean =>
  [...text.normalize('NFC')].every((sign) => faceOf(false).glyphs.has(sign));

/** The font size (the em, mm) whose capitals are `height` mm high. */
export const fontSize = (height: number, bold: boolean): number => height * faceOf(bold).sizePerCapital;

/**
 * Width of one line in mm, capitals `height` mm high, set without kerning or ligatures.
 * Throws a request error where the font has no glyph for a sign.
 */
export const textWidth = (text: string, height: number, bold: boolean): number => {
  const face = faceOf(bold);
  let width = face.widths.get(text);
  if (width === undefined) {
    width = 0;
    for (const sign of text.normalize('NFC')) width += glyphOf(face, sign).advance;
    if (face.widths.size < mostWidths) face.widths.set(text, width);
  }
  return width * height;
};

/** How far the ink of one line reaches from its baseline, mm: `low` is zero or negative. */
export const textReach = (text: string, height: number, bold: boolean): { low: number; high: number } => {
  const face = faceOf(bold);
  let low = 0;
  let high = 0;
  for (const sign of text.normalize('NFC')) {
    const glyph = glyphOf(face, sign);
    low = Math.min(low, glyph.low);
    high = Math.max(high, glyph.high);
  }
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
  const corners = [
    [0, low],
    [width, low],
    [0, high],
    [width, high],
  ].map(([u = 0, v = 0]) => ({ x: start.x + u * cos - v * sin, y: start.y + u * sin + v * cos }));
  const xs = corners.map((corner) => corner.x);
  const ys = corners.map((corner) => corner.y);
  return { minX: Math.min(...xs), minY: Math.min(...ys), maxX: Math.max(...xs), maxY: Math.max(...ys) };
};

const breakWord = (word: string, height: number, bold: boolean, width: number): string[] => {
  if (textWidth(word, height, bold) <= width) return [word];
  const parts: string[] = [];
  let part = '';
  for (const sign of word) {
    if (part !== '' && textWidth(part + sign, height, bold) > width) {
      parts.push(part);
      part = '';
    }
    part += sign;
  }
  return [...parts, part];
};

/** Breaks a text at its spaces into lines no wider than `width` mm; a word wider than that is broken itself. */
export const wrapText = (text: string, height: number, bold: boolean, width: number): string[] => {
  const lines: string[] = [];
  let line = '';
  const words = text.split(' ').filter((word) => word !== '');
  for (const word of words.flatMap((whole) => breakWord(whole, height, bold, width))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, height, bold) > width) {
      lines.push(line);
      line = word;
    } else {
      line = longer;
    }
  }
  return line === '' ? lines : [...lines, line];
};
