import { BeyondLimit, limits } from './limits.ts';
import {
  dictOf,
  isOperator,
  nameOf,
  numberOf,
  type PdfDict,
  type PdfText,
  type PdfValue,
  type Resolve,
} from './pdf-values.ts';
import { present } from './present.ts';

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
const escapes = new Map([
  ['n', '\n'],
  ['r', '\r'],
  ['t', '\t'],
  ['b', '\b'],
  ['f', '\f'],
]);

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
      else if (e !== '\r' && e !== '\n') raw += escapes.get(e) ?? e;
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
  let depth = 0;
  const collect = (close: string): PdfValue[] => {
    const items: PdfValue[] = [];
    if (++depth > limits.nesting) throw new BeyondLimit('values are nested deeper than in any print');
    for (;;) {
      skipSpace();
      if (text.startsWith(close, lexer.position)) {
        lexer.position += close.length;
        depth -= 1;
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
    // Readers differ in which of two they take.
    if (2 * dict.size < items.length) fail('an entry given twice');
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

/** Reads the object at its place in the file. */
export function readObject(
  text: string,
  id: number | undefined,
  { offset, generation }: { readonly offset: number; readonly generation?: number },
  resolve: Resolve,
): PdfValue {
  const lexer = readObjects(text, offset, true);
  const [number, round, obj] = [lexer.next(), lexer.next(), lexer.next()];
  const isMeant = id === undefined ? typeof number === 'number' : number === id;
  if (!isMeant || (generation !== undefined && round !== generation))
    throw new Error(`PDF: object ${id} is not at byte ${offset}`);
  if (!isOperator(obj) || obj.name !== 'obj') throw new Error(`PDF: object ${id} is not at byte ${offset}`);
  const value = lexer.next();
  const after = lexer.next();
  if (value === undefined || !isOperator(after)) throw new Error(`PDF: object ${id} is broken`);
  if (after.name === 'endobj') return value;
  if (after.name !== 'stream') throw new Error(`PDF: object ${id} ends in ${after.name.slice(0, 20)}`);
  const dict = dictOf(value);
  const start = lexer.position + (text.startsWith('\r\n', lexer.position) ? 2 : 1);
  const length = numberOf(resolve(dict.get('Length')));
  if (!(length >= 0) || !/^\s*endstream/.test(text.slice(start + length, start + length + 12)))
    throw new Error(`PDF: stream ${id} is not as long as it says`);
  return { kind: 'stream', dict, raw: text.slice(start, start + length) };
}
