import { canLetter, fontSize, letteringStart } from '../drawing/lettering.ts';
import type { Lettering } from '../drawing/model.ts';
import { type UserError, requestError } from '../issue.ts';
import type { FontSource } from './font-files.ts';
import { deflate } from './native.ts';
import type { PageContent } from './pdf-content.ts';
import { type ParsedFont, type PdfDocument, type PdfFont, pointsPerMm } from './pdf-document.ts';

/** Writes lines of lettering on the document's current page. */
export type LetteringWriter = (mark: Lettering) => void;

interface Face {
  readonly font: PdfFont;
  /** Glyph numbers in the embedded font, by sign. */
  readonly codes: Map<string, string>;
}

/** Fonts that have been parsed, by their source, regular and bold: parsing takes longer than drawing a page. */
const parsedFonts = new WeakMap<FontSource, Map<boolean, ParsedFont>>();

/** Signs that are taken into every print in this order, so that nearly all of them embed the same font file. */
const usualSigns = `${String.fromCharCode(...Array.from({ length: 95 }, (_, i) => 32 + i))}°″′⌀½¼¾⅛⅜⅝⅞±×–·…’áéíóúñ¿¡`;

/** Font files as they are embedded, packed, by their glyphs. */
const fontFiles = new WeakMap<ParsedFont, Map<string, Uint8Array>>();

/** More than a few come only from names in many alphabets. */
const mostFiles = 16;

const packFont = ({ font, subset }: PdfFont, encode: () => Uint8Array): Uint8Array => {
  const known = fontFiles.get(font) ?? new Map<string, Uint8Array>();
  fontFiles.set(font, known);
  const key = subset.glyphs.join(' ');
  const before = known.get(key);
  if (before !== undefined) return before;
  const packed = deflate(encode());
  if (known.size >= mostFiles) known.clear();
  known.set(key, packed);
  return packed;
};

/** Lets a font's file be made and packed once for all prints with the same glyphs, where pdfkit would do it for each. */
const shareFontFile = (doc: PdfDocument, font: PdfFont): void => {
  const { subset } = font;
  const encode = subset.encode.bind(subset);
  subset.encode = () => packFont(font, encode);
  const embed = font.embed.bind(font);
  font.embed = () => {
    const ref = doc.ref.bind(doc);
    doc.ref = (data) => {
      doc.ref = ref;
      return ref({ ...data, Filter: 'FlateDecode' });
    };
    return embed();
  };
};

/** Makes a source's font the document's own, parsed at most once for all documents. */
const useFont = (doc: PdfDocument, fontBytes: FontSource, bold: boolean): PdfFont => {
  const parsed = parsedFonts.get(fontBytes) ?? new Map<boolean, ParsedFont>();
  parsedFonts.set(fontBytes, parsed);
  const known = parsed.get(bold);
  doc.font(known ?? fontBytes(bold));
  const { font } = doc._font;
  parsed.set(bold, font);
  // A glyph is remembered with the sign it was first asked for, and a part of another (′ of ″) with none: then the next
  // document could not say what it is.
  if (known === undefined) font.characterSet.forEach((sign) => font.glyphForCodePoint(sign));
  return doc._font;
};

/**
 * Lettering in the embedded font, set letter by letter without kerning or ligatures, as the drawing measured it.
 * A face is loaded when it is first used. A sign the lettering lacks is a request error.
 */
export const createLetteringWriter = (
  doc: PdfDocument,
  content: PageContent,
  fontBytes: FontSource,
): LetteringWriter => {
  const faces = new Map<boolean, Face>();

  const faceOf = (bold: boolean): Face => {
    const known = faces.get(bold);
    if (known) return known;
    const font = useFont(doc, fontBytes, bold);
    shareFontFile(doc, font);
    const [usual] = font.encode(usualSigns);
    const face = { font, codes: new Map([...usualSigns].map((sign, i) => [sign, usual[i] ?? ''])) };
    faces.set(bold, face);
    return face;
  };

  return (mark) => {
    if (mark.text.trim() === '') return;
    const { font, codes } = faceOf(mark.bold);
    doc.page.fonts[font.id] ??= font.ref();

    let line = '';
    for (const sign of mark.text) {
      let code = codes.get(sign);
      if (code === undefined) {
        if (!canLetter(sign)) throw missingSign(sign, mark.text);
        code = font.encode(sign)[0].join('');
        codes.set(sign, code);
      }
      line += code;
    }

    const size = fontSize(mark.height, mark.bold) * pointsPerMm;
    const start = letteringStart(mark);
    const [cos, sin] = [Math.cos(mark.angle), Math.sin(mark.angle)];
    content.write(`BT /${font.id} `);
    content.number(size);
    content.write('Tf ');
    for (const value of [cos, sin, -sin, cos, start.x * pointsPerMm, start.y * pointsPerMm])
      content.number(value);
    content.write(`Tm <${line}> `);
    content.operator('Tj ET');
  };
};

const missingSign = (sign: string, text: string): UserError => {
  const code = (sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
  const shown = /\p{C}/u.test(sign) ? '' : ` “${sign}”`;
  return requestError(
    'text',
    'unknown-sign',
    `the lettering has no sign${shown} (U+${code}), which stands in “${text.replace(/\p{C}/gu, '·')}”`,
    'use Latin, Greek or Cyrillic letters, figures and common signs, in one line',
  );
};
