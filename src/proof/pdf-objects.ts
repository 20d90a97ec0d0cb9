import { BeyondLimit, limits } from './limits.ts';
import {
  dictOf,
  isOperator,
  nameOf,
  numberOf,
  type PdfDict,
  type PdfName,
  type PdfText,
  type PdfValue,
  type Resolve,
} from './pdf-values.ts';
import { present } from './present.ts';
import { say } from '../words/say.ts';

/** Reads objects one after another from Latin-1 text, so that one character is one byte. */
export interface Lexer {
  readonly next: () => PdfValue | undefined;
  readonly position: number;
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
const escapes = new Map([
  ['n', '\n'],
  ['r', '\r'],
  ['t', '\t'],
  ['b', '\b'],
  ['f', '\f'],
]);

/** Where a reader stands in its text. */
interface Cursor {
  readonly text: string;
  readonly withRefs: boolean;
  position: number;
  depth: number;
}

const fail = ({ position }: Cursor, what: string): never => {
  throw new Error(`PDF syntax: ${what} at byte ${position}`);
};

const skipSpace = (at: Cursor): void => {
  for (;;) {
    const c = at.text.charCodeAt(at.position);
    if (isSpace(c)) at.position++;
    else if (c === 37) skipComment(at);
    else return;
  }
};

const skipComment = (at: Cursor): void => {
  for (; at.position < at.text.length; at.position++) {
    const c = at.text.charCodeAt(at.position);
    if (c === 10 || c === 13) return;
  }
};

const readWord = (at: Cursor): string => {
  const from = at.position;
  while (at.position < at.text.length) {
    const c = at.text.charCodeAt(at.position);
    if (isSpace(c) || isDelimiter(c)) break;
    at.position++;
  }
  return at.text.slice(from, at.position);
};

const readName = (at: Cursor): PdfName => {
  at.position++;
  const name = readWord(at);
  return {
    kind: 'name',
    name: name.replace(/#([0-9a-fA-F]{2})/g, (_, h: string) => String.fromCharCode(parseInt(h, 16))),
  };
};

/** What stands after a backslash (ISO 32000-1 table 3). */
const readEscaped = (at: Cursor): string => {
  const octal = /^[0-7]{1,3}/.exec(at.text.slice(at.position, at.position + 3))?.[0];
  if (octal !== undefined) {
    at.position += octal.length;
    return String.fromCharCode(parseInt(octal, 8) & 255);
  }
  const e = at.text[at.position++] ?? fail(at, say`string without end`);
  if (e === '\r' && at.text[at.position] === '\n') at.position++;
  return e === '\r' || e === '\n' ? '' : (escapes.get(e) ?? e);
};

const readLiteral = (at: Cursor): PdfText => {
  let raw = '';
  let depth = 1;
  for (at.position++; ;) {
    const c = at.text[at.position++] ?? fail(at, say`string without end`);
    if (c === '(') depth++;
    if (c === ')' && --depth === 0) return { kind: 'string', raw };
    raw += c === '\\' ? readEscaped(at) : c;
  }
};

const readHex = (at: Cursor): PdfText => {
  const end = at.text.indexOf('>', at.position);
  const digits = at.text.slice(at.position + 1, end).replace(/[\t\n\f\r ]+/g, '');
  // Readers differ in what an odd last digit stands for.
  if (end < 0 || digits.length % 2 === 1 || /[^0-9a-fA-F]/.test(digits))
    fail(at, say`bad hexadecimal string`);
  at.position = end + 1;
  return {
    kind: 'string',
    raw: Buffer.from(digits, 'hex').toString('latin1'),
  };
};

/** All values up to the sign that closes them. */
const collect = (at: Cursor, close: string): PdfValue[] => {
  const items: PdfValue[] = [];
  if (++at.depth > limits.nesting) throw new BeyondLimit(say`values are nested deeper than in any print`);
  for (;;) {
    skipSpace(at);
    if (at.text.startsWith(close, at.position)) {
      at.position += close.length;
      at.depth -= 1;
      return items;
    }
    const item = readValue(at);
    items.push(item === undefined ? fail(at, say`no ${close}`) : item);
  }
};

const readDictionary = (at: Cursor): PdfDict => {
  at.position += 2;
  const items = collect(at, '>>');
  const dict = new Map<string, PdfValue>();
  if (items.length % 2) fail(at, say`dictionary with an odd number of entries`);
  for (let i = 0; i < items.length; i += 2) dict.set(nameOf(items[i]), present(items[i + 1]));
  // Readers differ in which of two they take.
  if (2 * dict.size < items.length) fail(at, say`an entry given twice`);
  return dict;
};

const readArray = (at: Cursor): PdfValue[] => {
  at.position++;
  return collect(at, ']');
};

/**
 * What makes a whole number the name of an object: its generation, and an R that ends there. White space is PDF's own (ISO
 * 32000-1 table 1): JavaScript's has signs in it that other readers take for letters.
 */
const restOfReference = /^[\t\n\f\r ]+(\d+)[\t\n\f\r ]+R(?![^\t\n\f\r ()<>[\]{}/%])/;

const readNumber = (at: Cursor, token: string): PdfValue => {
  const rest = at.withRefs && /^\d+$/.test(token) ? at.text.slice(at.position, at.position + 24) : '';
  const reference = restOfReference.exec(rest);
  if (reference === null) return Number(token);
  at.position += reference[0].length;
  return { kind: 'ref', id: Number(token), generation: Number(reference[1]) };
};

const readToken = (at: Cursor): PdfValue => {
  const token = readWord(at);
  if (token === '') return fail(at, say`stray ${at.text[at.position]}`);
  if (/^[+-]?(\d+\.?\d*|\.\d+)$/.test(token)) return readNumber(at, token);
  if (token === 'true' || token === 'false') return token === 'true';
  return token === 'null' ? null : { kind: 'operator', name: token };
};

const readValue = (at: Cursor): PdfValue | undefined => {
  skipSpace(at);
  if (at.position >= at.text.length) return undefined;
  const c = at.text[at.position];
  if (c === '/') return readName(at);
  if (c === '(') return readLiteral(at);
  if (c === '[') return readArray(at);
  if (c === '<') return at.text[at.position + 1] === '<' ? readDictionary(at) : readHex(at);
  return readToken(at);
};

/** A reader of objects starting at `start`. References are read as such only where `withRefs` says they may stand. */
export const readObjects = (text: string, start: number, withRefs: boolean): Lexer => {
  const at: Cursor = { text, withRefs, position: start, depth: 0 };
  return {
    next: () => readValue(at),
    get position() {
      return at.position;
    },
  };
};

/** Reads the object at its place in the file; `end` is the byte after its `endobj`. */
export function readObject(
  text: string,
  id: number | undefined,
  { offset, generation }: { readonly offset: number; readonly generation?: number },
  resolve: Resolve,
): { readonly value: PdfValue; readonly end: number } {
  const lexer = readObjects(text, offset, true);
  const [number, round, obj] = [lexer.next(), lexer.next(), lexer.next()];
  const isMeant = id === undefined ? typeof number === 'number' : number === id;
  if (!isMeant || (generation !== undefined && round !== generation))
    throw new Error(`PDF: object ${id} is not at byte ${offset}`);
  if (!isOperator(obj) || obj.name !== 'obj') throw new Error(`PDF: object ${id} is not at byte ${offset}`);
  const value = lexer.next();
  const after = lexer.next();
  if (value === undefined || !isOperator(after)) throw new Error(`PDF: object ${id} is broken`);
  if (after.name === 'endobj') return { value, end: lexer.position };
  if (after.name !== 'stream') throw new Error(`PDF: object ${id} ends in ${after.name.slice(0, 20)}`);
  const dict = dictOf(value);
  const start = lexer.position + (text.startsWith('\r\n', lexer.position) ? 2 : 1);
  const length = numberOf(resolve(dict.get('Length')));
  const rest = /^[\t\n\f\r ]*endstream[\t\n\f\r ]+endobj/.exec(
    text.slice(start + length, start + length + 32),
  );
  if (!(length >= 0) || rest === null) throw new Error(`PDF: stream ${id} is not as long as it says`);
  return {
    value: { kind: 'stream', dict, raw: text.slice(start, start + length) },
    end: start + length + rest[0].length,
  };
}
