import { onceFor } from '../drawing/once.ts';
import { canLetter, fontSize, letteringStart } from '../drawing/lettering.ts';
import type { Lettering } from '../drawing/model.ts';
import { type UserError, requestError } from '../issue.ts';
import type { FontSource } from './font-files.ts';
import { deflate } from './native.ts';
import type { PageContent } from './pdf-content.ts';
import { type ParsedFont, type PdfDocument, type PdfFont, pointsPerMm } from './pdf-document.ts';
import { say } from '../words/say.ts';

/** A document's two faces: the lettering on its pages. */
export interface LetteringWriter {
  readonly write: (mark: Lettering) => void;
  /** Ends a page: which faces it took, and whether all its signs are usual ones, which have the same codes in every document. */
  readonly close: () => { readonly faces: readonly FaceName[]; readonly isUsual: boolean };
  /** Gives the document's current page the faces that its content names. */
  readonly place: (faces: readonly FaceName[]) => void;
}

export type FaceName = 'plain' | 'bold';

interface Face {
  readonly font: PdfFont;
  /** Glyph numbers in the embedded font, by sign: of the usual signs, and of others as they come. */
  readonly codes: ReadonlyMap<string, string>;
  readonly unusual: Map<string, string>;
}

/** Fonts that have been parsed, by their source, regular and bold: parsing takes longer than drawing a page. */
const parsedFonts = onceFor((_: FontSource) => new Map<boolean, ParsedFont>());

/** The signs of our own words, taken into every print in this order, so that nearly all of them embed the same font file. */
const usualSigns = `${String.fromCharCode(...Array.from({ length: 95 }, (_, i) => 32 + i))}°″′⌀½¼¾⅛⅜⅝⅞±×–·…’“”áéíóúüñÁÉÍÓÚÜÑ¿¡º²³−÷√π▲▼`;

/** Font files as they are embedded, packed, by their glyphs. */
const fontFiles = onceFor((_: ParsedFont) => new Map<string, Uint8Array>());

/** More than a few come only from names in many alphabets. */
const mostFiles = 16;

const packFont = ({ font, subset }: PdfFont, encode: () => Uint8Array): Uint8Array => {
  const known = fontFiles(font);
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
  const parsed = parsedFonts(fontBytes);
  const known = parsed.get(bold);
  doc.font(known ?? fontBytes(bold));
  const { font } = doc._font;
  parsed.set(bold, font);
  // A glyph is remembered with the sign it was first asked for, and a part of another (′ of ″) with none: then the next
  // document could not say what it is.
  if (known === undefined) font.characterSet.forEach((sign) => font.glyphForCodePoint(sign));
  return doc._font;
};

const loadFace = (doc: PdfDocument, fontBytes: FontSource, bold: boolean): Face => {
  const font = useFont(doc, fontBytes, bold);
  shareFontFile(doc, font);
  const [usual] = font.encode(usualSigns);
  return {
    font,
    codes: new Map([...usualSigns].map((sign, i) => [sign, usual[i] ?? ''])),
    unusual: new Map(),
  };
};

/**
 * Lettering in the embedded font, set letter by letter without kerning or ligatures, as the drawing measured it.
 * Both faces are loaded when the first is used. A sign the lettering lacks is a request error.
 */
export const createLetteringWriter = (
  doc: PdfDocument,
  content: PageContent,
  fontBytes: FontSource,
): LetteringWriter => {
  let loaded: Readonly<Record<FaceName, Face>> | undefined;
  // Always in the same order, so that a face has the same name in every document.
  const faces = () =>
    (loaded ??= { plain: loadFace(doc, fontBytes, false), bold: loadFace(doc, fontBytes, true) });
  let used = new Set<FaceName>();
  let isUsual = true;

  /** A text in the face's glyph numbers. */
  const encode = ({ font, codes, unusual }: Face, text: string): string => {
    let line = '';
    for (const sign of text) {
      let code = codes.get(sign);
      if (code === undefined) {
        if (!canLetter(sign)) throw missingSign(sign, text);
        isUsual = false;
        code = unusual.get(sign) ?? font.encode(sign)[0].join('');
        unusual.set(sign, code);
      }
      line += code;
    }
    return line;
  };

  return {
    write(mark) {
      if (mark.text.trim() === '') return;
      const name = mark.bold ? 'bold' : 'plain';
      const face = faces()[name];
      used.add(name);
      const line = encode(face, mark.text);
      const size = fontSize(mark.height, mark.bold) * pointsPerMm;
      const start = letteringStart(mark);
      const [cos, sin] = [Math.cos(mark.angle), Math.sin(mark.angle)];
      content.write(`BT /${face.font.id} `);
      content.number(size);
      content.write('Tf ');
      for (const value of [cos, sin, -sin, cos, start.x * pointsPerMm, start.y * pointsPerMm])
        content.number(value);
      content.write(`Tm <${line}> `);
      content.operator('Tj ET');
    },
    close() {
      const page = { faces: [...used], isUsual };
      used = new Set();
      isUsual = true;
      return page;
    },
    place(page) {
      for (const name of page) {
        const { font } = faces()[name];
        doc.page.fonts[font.id] ??= font.ref();
      }
    },
  };
};

const missingSign = (sign: string, text: string): UserError => {
  const code = (sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
  const shown = /\p{C}/u.test(sign) ? '' : ` “${sign}”`;
  return requestError(
    'text',
    'unknown-sign',
    say`the lettering has no sign${shown} (U+${code}), which stands in “${text.replace(/\p{C}/gu, '·')}”`,
    say`use Latin, Greek or Cyrillic letters, figures and common signs, in one line`,
  );
};
