import { present } from './present.ts';
import {
  arrayOf,
  dictOf,
  isDict,
  isName,
  isOperator,
  isRef,
  isStream,
  isText,
  numberOf,
  readObjects,
  textOf,
  type PdfDict,
  type PdfValue,
} from './pdf-objects.ts';

/** A PDF file's objects, by way of its cross-reference table. */
export interface PdfObjects {
  readonly trailer: PdfDict;
  /** The object itself where the value is a reference to one. */
  readonly resolve: (value: PdfValue | undefined) => PdfValue | undefined;
}

/**
 * Opens a file with a classic cross-reference table (ISO 32000-1 §7.5.4), which is what pdfkit and `qpdf --qdf
 * --object-streams=disable` write. Throws on encryption, a cross-reference stream, or an object not where the table says.
 */
export function openPdf(bytes: Uint8Array): PdfObjects {
  const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('latin1');
  if (!/^%PDF-[12]\.\d/.test(text)) throw new Error('not a PDF file');
  const { offsets, trailer } = readTable(text);
  if (trailer.has('Encrypt')) throw new Error('PDF: encrypted');
  const cache = new Map<number, PdfValue>();

  const resolve = (value: PdfValue | undefined): PdfValue | undefined => {
    if (!isRef(value)) return value;
    const known = cache.get(value.id);
    if (known !== undefined) return known;
    const offset = offsets.get(value.id);
    if (offset === undefined) throw new Error(`PDF: object ${value.id} is not in the cross-reference table`);
    const object = readObject(text, value.id, offset, resolve);
    cache.set(value.id, object);
    return object;
  };
  return { trailer, resolve };
}

function readTable(text: string): { offsets: Map<number, number>; trailer: PdfDict } {
  const offsets = new Map<number, number>();
  let trailer: PdfDict | undefined;
  const last = /startxref\s+(\d+)\s+%%EOF\s*$/.exec(text.slice(-64))?.[1];
  if (!last) throw new Error('PDF: no startxref at the end of the file');
  for (let at: number | undefined = Number(last); at !== undefined;) {
    const lexer = readObjects(text, at, true);
    const head = lexer.next();
    if (!isOperator(head) || head.name !== 'xref')
      throw new Error(`PDF: no cross-reference table at byte ${at}`);
    for (let first = lexer.next(); ; first = lexer.next()) {
      if (isOperator(first) && first.name === 'trailer') break;
      const count = numberOf(lexer.next());
      for (let i = 0; i < count; i++) {
        const offset = numberOf(lexer.next());
        numberOf(lexer.next());
        const use = lexer.next();
        const id = numberOf(first) + i;
        if (isOperator(use) && use.name === 'n' && !offsets.has(id)) offsets.set(id, offset);
      }
    }
    const dict = dictOf(lexer.next());
    trailer ??= dict;
    const previous = dict.get('Prev');
    at = previous === undefined ? undefined : numberOf(previous);
  }
  return { offsets, trailer: present(trailer) };
}

function readObject(text: string, id: number, offset: number, resolve: PdfObjects['resolve']): PdfValue {
  const lexer = readObjects(text, offset, true);
  const [number, , obj] = [lexer.next(), lexer.next(), lexer.next()];
  if (number !== id || !isOperator(obj) || obj.name !== 'obj')
    throw new Error(`PDF: object ${id} is not at byte ${offset}`);
  const value = lexer.next();
  const after = lexer.next();
  if (value === undefined || !isOperator(after)) throw new Error(`PDF: object ${id} is broken`);
  if (after.name === 'endobj') return value;
  if (after.name !== 'stream') throw new Error(`PDF: object ${id} ends in ${after.name}`);
  const dict = dictOf(value);
  const start = lexer.position + (text.startsWith('\r\n', lexer.position) ? 2 : 1);
  const length = numberOf(resolve(dict.get('Length')));
  if (!/^\s*endstream/.test(text.slice(start + length, start + length + 12)))
    throw new Error(`PDF: stream ${id} is not as long as it says`);
  return { kind: 'stream', dict, raw: text.slice(start, start + length) };
}

/** Any value as plain JSON-like data, references followed: names and strings become strings. Throws on streams and cycles. */
export function plainValue(objects: PdfObjects, value: PdfValue | undefined, depth = 0): unknown {
  const v = objects.resolve(value);
  if (depth > 20) throw new Error('PDF: value nested too deep');
  if (v === undefined || v === null || typeof v === 'number' || typeof v === 'boolean') return v;
  if (isName(v)) return v.name;
  if (isText(v)) return textOf(v);
  if (isStream(v) || isOperator(v)) throw new Error('PDF: a stream or operator where a value should be');
  const plain = (e: PdfValue) => plainValue(objects, e, depth + 1);
  return isDict(v) ? Object.fromEntries([...v].map(([key, e]) => [key, plain(e)])) : arrayOf(v).map(plain);
}
