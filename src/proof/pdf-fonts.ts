import type { PdfObjects } from './pdf-document.ts';
import {
  arrayOf,
  dictOf,
  isArray,
  isStream,
  nameOf,
  numberOf,
  numbersOf,
  type PdfDict,
  type PdfValue,
} from './pdf-values.ts';
import { readTrueType, type TrueType } from './true-type.ts';
import { say } from '../words/say.ts';

/** Gives the bytes of the lettering font that the program embeds, regular or bold. */
export type Lettering = (bold: boolean) => Uint8Array;

/** An embedded font: what each of its codes shows, and whatever is not as in the font it was taken from. */
export interface PdfFont {
  readonly signs: ReadonlyMap<number, string>;
  /** Widths by code, thousandths of the em. */
  readonly widths: ReadonlyMap<number, number>;
  readonly faults: readonly string[];
}

/** A character more than any print shows. */
const mostSigns = 4096;

const packaged = new Map<boolean, TrueType>();
const packagedFont = (lettering: Lettering, bold: boolean): TrueType => {
  const known = packaged.get(bold) ?? readTrueType(lettering(bold));
  packaged.set(bold, known);
  return known;
};

/** Codes and their characters, from the one table that the program writes (ISO 32000-1 §9.10.3): one range over all codes. */
const readSigns = (text: string): ReadonlyMap<number, string> => {
  const signs = new Map<number, string>();
  const pattern = /<([0-9a-f]{4})>[\t\n\f\r ]*<([0-9a-f]{4})>[\t\n\f\r ]*\[([\t\n\f\r <>0-9a-f]*)\]/gi;
  for (const [, first = '', last = '', list = ''] of text.matchAll(pattern)) {
    const hexes = [...list.matchAll(/<([0-9a-f]*)>/gi)].map(([, hex = '']) => hex);
    const [from, to] = [parseInt(first, 16), parseInt(last, 16)];
    if (hexes.length !== to - from + 1 || signs.size + hexes.length > mostSigns)
      throw new Error('a font whose table of characters is broken');
    hexes.forEach((hex, i) =>
      signs.set(from + i, Buffer.from(hex.padStart(4, '0'), 'hex').swap16().toString('utf16le')),
    );
  }
  return signs;
};

/** `/W` in its form of a first code and a list (ISO 32000-1 §9.7.4.3). */
const readWidths = (value: PdfValue | undefined): ReadonlyMap<number, number> => {
  const widths = new Map<number, number>();
  const items = arrayOf(value);
  for (let i = 0; i + 1 < items.length; i += 2) {
    const list = items[i + 1];
    if (!isArray(list)) throw new Error('a font whose widths are broken');
    numbersOf(list).forEach((width, k) => widths.set(numberOf(items[i]) + k, width));
  }
  return widths;
};

/** Bytes of two tables, but for places that a font of fewer glyphs has its own of. */
const isSame = (a: Buffer | undefined, b: Buffer | undefined, own: readonly number[]): boolean =>
  a === undefined || b === undefined
    ? a === b
    : a.length === b.length && a.every((byte, i) => byte === b[i] || own.includes(i));

/** Places that differ where a font has fewer glyphs: check sum and offset format, number of metrics, number of glyphs. */
const ownPlaces: Readonly<Record<string, readonly number[]>> = {
  head: [8, 9, 10, 11, 50, 51],
  hhea: [34, 35],
  maxp: [4, 5],
  'cvt ': [],
  fpgm: [],
  prep: [],
};

const drawnTables = new Set([...Object.keys(ownPlaces), 'loca', 'glyf', 'hmtx']);

const compareFonts = (
  font: TrueType,
  whole: TrueType,
  signs: ReadonlyMap<number, string>,
  widths: ReadonlyMap<number, number>,
): readonly string[] => {
  const faults: string[] = [];
  for (const [name, own] of Object.entries(ownPlaces))
    if (!isSame(font.tables.get(name), whole.tables.get(name), own))
      faults.push(say`table ${name} is changed`);
  for (const name of font.tables.keys())
    if (!drawnTables.has(name)) faults.push(say`table ${name.trim()} is not the program's`);
  for (const [code, sign] of signs) {
    const characters = [...sign];
    // Code 0 is the sign for what is missing; no text shows it.
    if (code === 0) continue;
    const glyph = characters.length === 1 ? whole.glyphOf(sign.codePointAt(0) ?? 0) : 0;
    const metrics = whole.metrics(glyph);
    const own = font.metrics(code);
    const isTrue =
      glyph !== 0 &&
      font.drawing(code) === whole.drawing(glyph) &&
      own.advance === metrics.advance &&
      own.bearing === metrics.bearing &&
      Math.abs((widths.get(code) ?? NaN) - (1000 * metrics.advance) / whole.unitsPerEm) < 0.001;
    if (!isTrue) faults.push(say`what is drawn for “${sign}” is another sign`);
  }
  return faults;
};

const need = (ok: boolean, what: string): void => {
  if (!ok) throw new Error(`a font ${what}`);
};

/** Reads an embedded font and holds each glyph against the same sign of the font that the program embeds. */
export const readFont = (objects: PdfObjects, value: PdfValue, lettering: Lettering): PdfFont => {
  const { resolve, decode } = objects;
  const at = (dict: PdfDict, key: string): PdfValue | undefined => resolve(dict.get(key));
  const font = dictOf(resolve(value));
  need(
    at(font, 'Subtype') !== undefined && nameOf(at(font, 'Subtype')) === 'Type0',
    say`that is not composite`,
  );
  need(nameOf(at(font, 'Encoding')) === 'Identity-H', say`with an encoding of its own`);
  const [only, ...more] = arrayOf(at(font, 'DescendantFonts'));
  need(more.length === 0, say`of several fonts`);
  const inner = dictOf(resolve(only));
  need(nameOf(at(inner, 'Subtype')) === 'CIDFontType2', say`that is not TrueType`);
  need(nameOf(at(inner, 'CIDToGIDMap')) === 'Identity', say`with a glyph table of its own`);
  const descriptor = dictOf(at(inner, 'FontDescriptor'));
  const [file, table] = [at(descriptor, 'FontFile2'), at(font, 'ToUnicode')];
  if (!isStream(file) || !isStream(table)) throw new Error('a font that is not embedded');
  const signs = readSigns(decode(table).toString('latin1'));
  const widths = readWidths(at(inner, 'W'));
  const bold = /bold/i.test(nameOf(at(font, 'BaseFont')));
  const [own, whole] = [readTrueType(decode(file)), packagedFont(lettering, bold)];
  const em = 1000 / whole.unitsPerEm;
  const head = whole.tables.get('head') ?? Buffer.alloc(0);
  const box = [36, 38, 40, 42].map((place) => head.readInt16BE(place) * em);
  const stated = numbersOf(at(descriptor, 'FontBBox'));
  const faults = [...compareFonts(own, whole, signs, widths)];
  if (stated.length !== 4 || stated.some((v, i) => Math.abs(v - (box[i] ?? NaN)) > 0.001))
    faults.push(say`the extent of its signs is changed`);
  if (numberOf(at(descriptor, 'Flags')) !== 4 || numberOf(at(descriptor, 'ItalicAngle')) !== 0)
    faults.push(say`its style is changed`);
  return { signs, widths, faults };
};

/** What a run of codes of two bytes each says. Undefined where one of them shows nothing known. */
export const readRun = (font: PdfFont, raw: string): string | undefined => {
  let text = '';
  for (let i = 0; i < raw.length; i += 2) {
    const sign = font.signs.get(raw.charCodeAt(i) * 256 + raw.charCodeAt(i + 1));
    if (sign === undefined) return undefined;
    text += sign;
  }
  return text;
};
