import { inflateSync } from 'node:zlib';
import { BeyondLimit, spend, type Budget } from './limits.ts';
import {
  dictOf,
  isArray,
  isName,
  numberOf,
  tellValue,
  type PdfDict,
  type PdfStream,
  type PdfValue,
  type Resolve,
} from './pdf-values.ts';
import { say } from '../words/say.ts';

type Filter = (bytes: Buffer, parms: PdfDict, budget: Budget) => Buffer;

const isWhite = (c: number): boolean => c === 32 || (c >= 9 && c <= 13) || c === 0;

const flate: Filter = (bytes, parms, budget) => {
  let out: Buffer;
  try {
    out = inflateSync(bytes, { maxOutputLength: Math.max(1, Math.min(budget.decoded + 1, 2 ** 31 - 1)) });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE')
      throw new BeyondLimit(say`a packed stream is far larger than any print`);
    throw new Error('PDF: a stream does not unpack', { cause: error });
  }
  return unpredict(out, parms);
};

/** ISO 32000-1 §7.4.2. */
const asciiHex: Filter = (bytes) => {
  const digits = bytes.toString('latin1').replace(/[\t\n\f\r ]+/g, '');
  const end = digits.indexOf('>');
  const body = end < 0 ? digits : digits.slice(0, end);
  if (/[^0-9a-fA-F]/.test(body)) throw new Error('PDF: a stream is not hexadecimal');
  return Buffer.from(body.length % 2 === 0 ? body : `${body}0`, 'hex');
};

/** ISO 32000-1 §7.4.3. */
const ascii85: Filter = (bytes) => {
  const out: number[] = [];
  let group: number[] = [];
  const flush = (): void => {
    const have = group.length;
    if (have === 0) return;
    if (have === 1) throw new Error('PDF: a base-85 stream ends in the middle of a byte');
    while (group.length < 5) group.push(84);
    const value = group.reduce((sum, digit) => sum * 85 + digit, 0);
    if (value > 0xffffffff) throw new Error('PDF: a base-85 stream is out of range');
    for (let i = 0; i < have - 1; i += 1) out.push(Math.floor(value / 256 ** (3 - i)) % 256);
    group = [];
  };
  for (const c of bytes) {
    if (c === 0x7e) break;
    if (isWhite(c)) continue;
    if (c === 0x7a && group.length === 0) out.push(0, 0, 0, 0);
    else if (c < 0x21 || c > 0x75) throw new Error('PDF: a stream is not base 85');
    else if (group.push(c - 0x21) === 5) flush();
  }
  flush();
  return Buffer.from(out);
};

/** ISO 32000-1 §7.4.5. */
const runLength: Filter = (bytes, _parms, budget) => {
  const parts: Buffer[] = [];
  for (let at = 0; at < bytes.length;) {
    const count = bytes[at] ?? 128;
    if (count === 128) break;
    const part =
      count < 128 ? bytes.subarray(at + 1, at + 2 + count) : Buffer.alloc(257 - count, bytes[at + 1] ?? 0);
    spend(budget, part.length);
    parts.push(part);
    at += count < 128 ? count + 2 : 2;
  }
  return Buffer.concat(parts);
};

/** ISO 32000-1 §7.4.4: codes of 9 to 12 bits, 256 clears the table, 257 ends. */
const lzw: Filter = (bytes, parms, budget) => {
  const early = parms.has('EarlyChange') ? numberOf(parms.get('EarlyChange')) : 1;
  const parts: Buffer[] = [];
  let [table, width, last] = [[] as Buffer[], 9, undefined as Buffer | undefined];
  let [held, bits] = [0, 0];
  for (const byte of bytes) {
    [held, bits] = [(held * 256 + byte) % 2 ** 24, bits + 8];
    if (bits < width) continue;
    const code = Math.floor(held / 2 ** (bits - width)) % 2 ** width;
    bits -= width;
    if (code === 257) break;
    if (code === 256) {
      [table, width, last] = [[], 9, undefined];
      continue;
    }
    const known = code < 256 ? Buffer.of(code) : table[code - 258];
    const isNext = last !== undefined && code - 258 === table.length;
    const entry = known ?? (last && isNext ? Buffer.concat([last, last.subarray(0, 1)]) : undefined);
    if (entry === undefined) throw new Error('PDF: an LZW stream is broken');
    if (last && table.length < 4096 - 258) table.push(Buffer.concat([last, entry.subarray(0, 1)]));
    spend(budget, entry.length);
    parts.push(entry);
    last = entry;
    width = Math.min(12, Math.max(9, Math.floor(Math.log2(258 + table.length + early)) + 1));
  }
  return unpredict(Buffer.concat(parts), parms);
};

/** Undoes the PNG predictors of a row (ISO 32000-1 §7.4.4.4; W3C PNG §9). TIFF's predictor is not used by writers of PDF objects. */
const unpredict = (bytes: Buffer, parms: PdfDict): Buffer => {
  const predictor = parms.has('Predictor') ? numberOf(parms.get('Predictor')) : 1;
  if (predictor === 1) return bytes;
  const number = (key: string, usual: number) => (parms.has(key) ? numberOf(parms.get(key)) : usual);
  const pixel = Math.max(1, Math.ceil((number('Colors', 1) * number('BitsPerComponent', 8)) / 8));
  const row = Math.ceil((number('Colors', 1) * number('BitsPerComponent', 8) * number('Columns', 1)) / 8);
  if (predictor < 10 || !(row >= 1 && row <= bytes.length))
    throw new Error(`PDF: predictor ${predictor} is not read`);
  const rows = Math.ceil(bytes.length / (row + 1));
  const out = Buffer.alloc(rows * row);
  for (let r = 0; r < rows; r += 1) {
    const kind = bytes[r * (row + 1)] ?? 0;
    for (let i = 0; i < row; i += 1) {
      const at = r * row + i;
      const left = i >= pixel ? (out[at - pixel] ?? 0) : 0;
      const up = r > 0 ? (out[at - row] ?? 0) : 0;
      const corner = r > 0 && i >= pixel ? (out[at - row - pixel] ?? 0) : 0;
      out[at] = (bytes[r * (row + 1) + 1 + i] ?? 0) + predict(kind, left, up, corner);
    }
  }
  return out;
};

const predict = (kind: number, left: number, up: number, corner: number): number => {
  if (kind === 0) return 0;
  if (kind === 1) return left;
  if (kind === 2) return up;
  if (kind === 3) return Math.floor((left + up) / 2);
  if (kind !== 4) throw new Error(`PDF: row filter ${kind} is not known`);
  const guess = left + up - corner;
  const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
  return a <= b && a <= c ? left : b <= c ? up : corner;
};

const filters: ReadonlyMap<string, Filter> = new Map([
  ['FlateDecode', flate],
  ['LZWDecode', lzw],
  ['ASCIIHexDecode', asciiHex],
  ['ASCII85Decode', ascii85],
  ['RunLengthDecode', runLength],
]);

/** The bytes of a stream with its filters undone, within the file's budget. Throws on a filter no drawing needs. */
export const decodeStream = (stream: PdfStream, budget: Budget, resolve: Resolve): Buffer => {
  const listed = (key: string): readonly PdfValue[] => {
    const value = resolve(stream.dict.get(key)) ?? null;
    return value === null ? [] : isArray(value) ? value.map((v) => resolve(v) ?? null) : [value];
  };
  const parms = listed('DecodeParms');
  let bytes: Buffer = Buffer.from(stream.raw, 'latin1');
  const names = listed('Filter');
  if (names.length > 4) throw new Error('PDF: a stream packed more than four times');
  names.forEach((name, i) => {
    const filter = filters.get(isName(name) ? name.name : '');
    if (filter === undefined) throw new Error(`PDF: a stream is packed by ${tellValue(name)}`);
    const given = parms[i] ?? null;
    bytes = filter(bytes, given === null ? new Map<string, PdfValue>() : dictOf(given), budget);
    spend(budget, bytes.length);
  });
  return bytes;
};
