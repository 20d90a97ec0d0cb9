import { present } from './present.ts';
import { inflateSync } from 'node:zlib';

/** The objects of a PDF file (ISO 32000-1 §7.3), and an operator of a content stream. */
export type PdfName = { readonly kind: 'name'; readonly name: string };
export type PdfText = { readonly kind: 'string'; readonly raw: string };
export type PdfRef = { readonly kind: 'ref'; readonly id: number };
export type PdfOperator = { readonly kind: 'operator'; readonly name: string };
export type PdfDict = ReadonlyMap<string, PdfValue>;
export type PdfStream = { readonly kind: 'stream'; readonly dict: PdfDict; readonly raw: string };
export type PdfValue =
  | null
  | boolean
  | number
  | PdfName
  | PdfText
  | PdfRef
  | PdfOperator
  | PdfStream
  | PdfDict
  | readonly PdfValue[];

/** Reads objects one after another from Latin-1 text, so that one character is one byte. */
export interface Lexer {
  readonly next: () => PdfValue | undefined;
  position: number;
}

const isSpace = (c: number) => c === 32 || c === 10 || c === 13 || c === 9 || c === 12 || c === 0;
const isDelimiter = (c: number) =>
  c === 40 ||
  c === 41 ||
  c === 60 ||
  c === 62 ||
  c === 91 ||
  c === 93 ||
  c === 123 ||
  c === 125 ||
  c === 47 ||
  c === 37;
const escapes: Readonly<Record<string, string>> = { n: '\n', r: '\r', t: '\t', b: '\b', f: '\f' };

/** A reader of objects starting at `start`. References are read as such only where `withRefs` says they may stand. */
export function readObjects(text: string, start: number, withRefs: boolean): Lexer {
  const fail = (what: string): never => {
    throw new Error(`PDF syntax: ${what} at byte ${lexer.position}`);
  };
  const skipSpace = () => {
    for (;;) {
      const c = text.charCodeAt(lexer.position);
      if (isSpace(c)) lexer.position++;
      else if (c === 37)
        while (lexer.position < text.length && !/[\r\n]/.test(present(text[lexer.position])))
          lexer.position++;
      else return;
    }
  };
  const word = (): string => {
    const from = lexer.position;
    while (lexer.position < text.length) {
      const c = text.charCodeAt(lexer.position);
      if (isSpace(c) || isDelimiter(c)) break;
      lexer.position++;
    }
    return text.slice(from, lexer.position);
  };
  const literal = (): PdfText => {
    let raw = '';
    let depth = 1;
    for (lexer.position++; ;) {
      const c = text[lexer.position++] ?? fail('string without end');
      if (c === '(') depth++;
      if (c === ')' && --depth === 0) return { kind: 'string', raw };
      if (c !== '\\') {
        raw += c;
        continue;
      }
      const octal = /^[0-7]{1,3}/.exec(text.slice(lexer.position, lexer.position + 3))?.[0];
      if (octal !== undefined) {
        raw += String.fromCharCode(parseInt(octal, 8) & 255);
        lexer.position += octal.length;
        continue;
      }
      const e = text[lexer.position++] ?? fail('string without end');
      if (e === '\r' && text[lexer.position] === '\n') lexer.position++;
      else if (e !== '\r' && e !== '\n') raw += escapes[e] ?? e;
    }
  };
  const hex = (): PdfText => {
    const end = text.indexOf('>', lexer.position);
    const digits = text.slice(lexer.position + 1, end).replace(/\s+/g, '');
    if (end < 0 || /[^0-9a-fA-F]/.test(digits)) fail('bad hexadecimal string');
    lexer.position = end + 1;
    const even = digits.length % 2 ? `${digits}0` : digits;
    return { kind: 'string', raw: even.replace(/../g, (h) => String.fromCharCode(parseInt(h, 16))) };
  };
  const collect = (close: string): PdfValue[] => {
    const items: PdfValue[] = [];
    for (;;) {
      skipSpace();
      if (text.startsWith(close, lexer.position)) {
        lexer.position += close.length;
        return items;
      }
      const item = lexer.next();
      if (item === undefined) return fail(`no ${close}`);
      items.push(item);
    }
  };
  const dictionary = (): PdfDict => {
    const items = collect('>>');
    const dict = new Map<string, PdfValue>();
    if (items.length % 2) fail('dictionary with an odd number of entries');
    for (let i = 0; i < items.length; i += 2) dict.set(nameOf(items[i]), present(items[i + 1]));
    return dict;
  };
  const lexer: Lexer = {
    position: start,
    next: () => {
      skipSpace();
      if (lexer.position >= text.length) return undefined;
      const c = text[lexer.position];
      if (c === '/') {
        lexer.position++;
        const name = word().replace(/#([0-9a-fA-F]{2})/g, (_, h: string) =>
          String.fromCharCode(parseInt(h, 16)),
        );
        return { kind: 'name', name };
      }
      if (c === '(') return literal();
      if (c === '[') {
        lexer.position++;
        return collect(']');
      }
      if (c === '<' && text[lexer.position + 1] === '<') {
        lexer.position += 2;
        return dictionary();
      }
      if (c === '<') return hex();
      const token = word();
      if (token === '') return fail(`stray ${c}`);
      if (/^[+-]?(\d+\.?\d*|\.\d+)$/.test(token)) {
        const rest = withRefs && /^\d+$/.test(token) ? text.slice(lexer.position, lexer.position + 24) : '';
        const reference = /^\s+\d+\s+R(?![^\s()<>[\]{}/%])/.exec(rest);
        if (reference === null) return Number(token);
        lexer.position += reference[0].length;
        return { kind: 'ref', id: Number(token) };
      }
      if (token === 'true' || token === 'false') return token === 'true';
      return token === 'null' ? null : { kind: 'operator', name: token };
    },
  };
  return lexer;
}

const hasKind = <K extends string>(
  value: PdfValue | undefined,
  kind: K,
): value is Extract<PdfValue, { kind: K }> =>
  typeof value === 'object' && value !== null && 'kind' in value && value.kind === kind;
export const isRef = (value: PdfValue | undefined): value is PdfRef => hasKind(value, 'ref');
export const isStream = (value: PdfValue | undefined): value is PdfStream => hasKind(value, 'stream');
export const isOperator = (value: PdfValue | undefined): value is PdfOperator => hasKind(value, 'operator');
export const isName = (value: PdfValue | undefined): value is PdfName => hasKind(value, 'name');
export const isDict = (value: PdfValue | undefined): value is PdfDict => value instanceof Map;
export const isArray = (value: PdfValue | undefined): value is readonly PdfValue[] => Array.isArray(value);
export const isText = (value: PdfValue | undefined): value is PdfText => hasKind(value, 'string');

const wrong = (want: string, got: unknown): never => {
  throw new Error(
    `PDF: expected ${want}, found ${got instanceof Map ? 'a dictionary' : JSON.stringify(got)}`,
  );
};
export const nameOf = (v: PdfValue | undefined): string => (isName(v) ? v.name : wrong('a name', v));
export const numberOf = (v: PdfValue | undefined): number =>
  typeof v === 'number' ? v : wrong('a number', v);
export const dictOf = (v: PdfValue | undefined): PdfDict => (isDict(v) ? v : wrong('a dictionary', v));
export const arrayOf = (v: PdfValue | undefined): readonly PdfValue[] =>
  isArray(v) ? v : wrong('an array', v);

/** A text string (ISO 32000-1 §7.9.2.2): UTF-16BE or UTF-8 where it says so by its first bytes, else Latin-1. */
export function textOf(value: PdfValue | undefined): string {
  const raw = isText(value) ? value.raw : wrong('a string', value);
  const bytes = Buffer.from(raw, 'latin1');
  if (raw.startsWith('\xfe\xff')) return bytes.subarray(2).swap16().toString('utf16le');
  return raw.startsWith('\xef\xbb\xbf') ? bytes.subarray(3).toString('utf8') : raw;
}

/** The bytes of a stream with its filter undone. Throws on any filter but FlateDecode. */
export function decodeStream(stream: PdfStream): Buffer {
  const filter = stream.dict.get('Filter');
  const filters = filter === undefined ? [] : isArray(filter) ? filter : [filter];
  if (stream.dict.has('DecodeParms')) wrong('a stream without predictor', 'DecodeParms');
  let bytes = Buffer.from(stream.raw, 'latin1');
  for (const f of filters)
    bytes = nameOf(f) === 'FlateDecode' ? inflateSync(bytes) : wrong('FlateDecode', nameOf(f));
  return bytes;
}
