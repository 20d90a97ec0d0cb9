import { canLetter, fontSize, letteringStart } from '../drawing/lettering.ts';
import type { Lettering } from '../drawing/model.ts';
import { type UserError, requestError } from '../issue.ts';
import type { FontSource } from './font-files.ts';
import type { PageContent } from './pdf-content.ts';
import { type ParsedFont, type PdfDocument, type PdfFont, pointsPerMm, writeNumber } from './pdf-document.ts';

/** Writes lines of lettering on the document's current page. */
export type LetteringWriter = (mark: Lettering) => void;

interface Face {
  readonly font: PdfFont;
  /** Glyph numbers in the embedded font, by sign. */
  readonly codes: Map<string, string>;
}

/** Fonts that have been parsed, by their source, regular and bold: parsing takes longer than drawing a page. */
const parsedFonts = new WeakMap<FontSource, Map<boolean, ParsedFont>>();

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
    const face = { font: useFont(doc, fontBytes, bold), codes: new Map<string, string>() };
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
    const matrix = [cos, sin, -sin, cos, start.x * pointsPerMm, start.y * pointsPerMm];
    content.write(
      `BT /${font.id} ${writeNumber(size)} Tf ${matrix.map(writeNumber).join(' ')} Tm <${line}> Tj ET`,
    );
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
