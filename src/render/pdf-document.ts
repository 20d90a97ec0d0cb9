import PDFDocument from 'pdfkit';
import { version } from '../version.ts';

/** A PDF dictionary as pdfkit writes it: a plain string is a name, a `String` object a text string. */
export type PdfDictionary = Record<string, unknown>;

export interface PdfReference {
  readonly data: PdfDictionary;
  compress: boolean;
  end(chunk?: Uint8Array): void;
}

/** A font file as pdfkit has parsed it. Documents may share one: what is embedded is kept apart from it. */
export type ParsedFont = {
  readonly layout: unknown;
  /** Code points that the font has a glyph for. */
  readonly characterSet: readonly number[];
  glyphForCodePoint(sign: number): unknown;
};

export interface PdfFont {
  readonly id: string;
  readonly font: ParsedFont;
  /** Takes a text's glyphs into the embedded font: their numbers in hexadecimal, then their positions. */
  encode(text: string): [codes: string[], positions: object[]];
  ref(): PdfReference;
  /** The glyphs that are taken in, and the font file made of them. */
  readonly subset: { readonly glyphs: readonly number[]; encode: () => Uint8Array };
  /** Writes the font into its document when that ends; the font file first. */
  embed: () => unknown;
}

interface PdfPage {
  readonly dictionary: PdfReference;
  readonly resources: PdfReference;
  readonly fonts: Record<string, PdfReference>;
  /** Content written so far, in pieces, until the page is flushed. */
  readonly content: PdfReference & { buffer: readonly Uint8Array[] };
}

interface PdfOutline {
  addItem(title: string, options: { pageNumber: number; fit: boolean; expanded: boolean }): PdfOutline;
}

/** pdfkit's document with the parts that its types leave out; all of them are used by name in pdfkit 0.20. */
export interface PdfDocument {
  readonly _root: PdfReference;
  readonly _font: PdfFont;
  _addInfo: () => void;
  info: Record<string, string | Date>;
  readonly page: PdfPage;
  readonly outline: PdfOutline;
  ref: (data?: PdfDictionary) => PdfReference;
  addPage(options: { size: [number, number]; margin: number }): unknown;
  transform(a: number, b: number, c: number, d: number, e: number, f: number): unknown;
  font(font: Uint8Array | ParsedFont): unknown;
  addNamedEmbeddedFile(name: string, file: PdfReference): void;
  on(event: 'data', listener: (chunk: Uint8Array) => void): unknown;
  on(event: 'end', listener: () => void): unknown;
  end(): void;
}

export interface DocumentTitle {
  readonly title: string;
  readonly author: string;
  readonly subject: string;
}

/** Points (1/72 in) in a millimetre. */
export const pointsPerMm = 72 / 25.4;

/** A text string; pdfkit would write a plain string as a name. */
// eslint-disable-next-line @typescript-eslint/no-wrapper-object-types -- how pdfkit knows text from names
export const textString = (text: string): String => new String(text);

/** A number written with nine decimals: pdfkit itself stops at six. */
export const preciseNumber = (value: number): object => {
  if (!Number.isFinite(value)) throw new Error(`not a finite number: ${value}`);
  const text = value.toFixed(9).replace(/\.?0+$/, '');
  return { [Symbol.toStringTag]: 'Number', toString: () => (text === '-0' ? '0' : text) };
};

/** The date written into every file: the same input must give the same bytes, whenever it is printed. */
const fixedDate = new Date(Date.UTC(2000, 0, 1));

/**
 * An empty document that viewers open with the title shown and print unscaled, on the paper of the page's own size,
 * on one side. `identity` goes into the file identifier, so that different files have different ones.
 */
export const openDocument = (title: DocumentTitle, identity: string): PdfDocument => {
  const info = {
    Title: title.title,
    Author: title.author,
    Subject: title.subject,
    Creator: `Soapstone ${version}`,
    CreationDate: fixedDate,
  };
  const options = {
    autoFirstPage: false,
    pdfVersion: '1.7' as const,
    lang: 'en',
    displayTitle: true,
    // Without a default font pdfkit does not load the metrics of Helvetica.
    font: null as unknown as string,
    info: { ...info, Identity: identity },
  };
  const doc = new PDFDocument(options) as unknown as PdfDocument;
  delete doc.info['Identity'];
  const preferences = (doc._root.data['ViewerPreferences'] as PdfReference).data;
  Object.assign(preferences, {
    PrintScaling: 'None',
    Enforce: ['PrintScaling'],
    PickTrayByPDFSize: true,
    Duplex: 'Simplex',
    NumCopies: 1,
  });
  escapeMetadata(doc);
  return doc;
};

/** Adds a JSON file to the document that is packed already, in zlib's format; `size` is its length unpacked, bytes. */
export const attachFile = (
  doc: PdfDocument,
  name: string,
  { packed, size }: { readonly packed: Uint8Array; readonly size: number },
): void => {
  const content = doc.ref({
    Type: 'EmbeddedFile',
    Subtype: 'application#2Fjson',
    Filter: 'FlateDecode',
    Params: { CreationDate: fixedDate, ModDate: fixedDate, Size: size },
  });
  content.compress = false;
  content.end(packed);
  const told = textString(name);
  const file = doc.ref({ Type: 'Filespec', AFRelationship: 'Source', F: told, UF: told, EF: { F: content } });
  file.end();
  doc.addNamedEmbeddedFile(name, file);
  doc._root.data['AF'] = [file];
};

/** pdfkit copies the document information into XMP, which is XML, as it stands; the information itself is written first. */
const escapeMetadata = (doc: PdfDocument): void => {
  const addInfo = doc._addInfo.bind(doc);
  doc._addInfo = () => {
    const plain = doc.info;
    const escaped = Object.entries(plain).map(([key, value]) => [
      key,
      typeof value === 'string' ? escapeXml(value) : value,
    ]);
    doc.info = Object.fromEntries(escaped) as typeof plain;
    addInfo();
    doc.info = plain;
  };
};

const escapeXml = (text: string): string =>
  text
    .replace(/[\p{Cc}\p{Cs}]/gu, ' ')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');
