import { BeyondLimit, limits, openBudget, type Budget } from './limits.ts';
import { decodeStream } from './pdf-filters.ts';
import { readObject, readObjects } from './pdf-objects.ts';
import { readSections, type Place } from './pdf-sections.ts';
import { checkOneReading } from './pdf-one-reading.ts';
import {
  arrayOf,
  isDict,
  isName,
  isOperator,
  isRef,
  isStream,
  isText,
  nameOf,
  numberOf,
  textOf,
  type PdfDict,
  type PdfStream,
  type PdfValue,
} from './pdf-values.ts';
import { say } from '../words/say.ts';

/** A PDF file's objects, by way of its cross-reference tables and streams. */
export interface PdfObjects {
  readonly trailer: PdfDict;
  /** The object itself where the value is a reference to one. */
  readonly resolve: (value: PdfValue | undefined) => PdfValue | undefined;
  /** The bytes of a stream, its filters undone. */
  readonly decode: (stream: PdfStream) => Buffer;
  /** How it was saved, where that is not as the program writes: `object streams`, `changes appended`. */
  readonly saved: readonly string[];
}

/** Thrown for a file that needs a password or permission. */
export class Encrypted extends Error {}

/**
 * Opens a file by its cross-reference tables (ISO 32000-1 §7.5.4), streams (§7.5.8) and object streams (§7.5.7). Throws on
 * encryption, on an object that is not where the table says, and on whatever readers are known to understand differently.
 */
export function openPdf(bytes: Uint8Array): PdfObjects {
  const budget = openBudget(bytes.length);
  const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('latin1');
  if (!/^%PDF-[12]\.\d/.test(text)) throw new Error('not a PDF file');
  const { places, trailer, saved, sections } = readSections(text, budget);
  if (trailer.has('Encrypt'))
    throw new Encrypted(
      say`the file is encrypted: save it without a password or restrictions, or make it again`,
    );
  const cache = new Map<number, PdfValue>();
  const open = new Set<number>();

  const resolve = (value: PdfValue | undefined): PdfValue | undefined => {
    if (!isRef(value)) return value;
    const place = places.get(value.id);
    // What other readers take for nothing: an object of another generation (ISO 32000-1 §7.3.10).
    if (place !== undefined && place.kind !== 'free' && value.generation !== generationOf(place))
      throw new Error(`PDF: object ${value.id} is named with another generation`);
    const known = cache.get(value.id);
    if (known !== undefined) return known;
    if (place === undefined) throw new Error(`PDF: object ${value.id} is not in the cross-reference table`);
    if (open.has(value.id)) throw new Error(`PDF: object ${value.id} needs itself to be read`);
    open.add(value.id);
    const object =
      place.kind === 'free'
        ? null
        : place.kind === 'at'
          ? readObject(text, value.id, place, resolve).value
          : readPacked(value.id, place, { resolve, budget, packs });
    open.delete(value.id);
    if (isRef(object)) throw new Error(`PDF: object ${value.id} is only the name of another`);
    cache.set(value.id, object);
    return object;
  };
  const packs = new Map<number, Pack>();
  const paid = new Map<PdfStream, Budget>();
  const decode = (stream: PdfStream): Buffer => {
    const before = paid.get(stream);
    if (before !== undefined) return decodeStream(stream, { ...before }, resolve);
    paid.set(stream, { ...budget });
    return decodeStream(stream, budget, resolve);
  };
  checkOneReading(text, sections, resolve);
  return { trailer, resolve, saved, decode };
}

/** What is in an object stream is of generation 0 (ISO 32000-1 §7.5.7). */
const generationOf = (place: Exclude<Place, { kind: 'free' }>): number =>
  place.kind === 'at' ? place.generation : 0;

/** An object stream opened: its text, and each object's number and place in it, in order. */
interface Pack {
  readonly text: string;
  readonly objects: readonly { readonly id: number; readonly at: number }[];
}

interface Packing {
  readonly resolve: PdfObjects['resolve'];
  readonly budget: Budget;
  readonly packs: Map<number, Pack>;
}

const openPack = (id: number, { resolve, budget }: Packing): Pack => {
  const stream = resolve({ kind: 'ref', id, generation: 0 });
  if (!isStream(stream) || nameOf(stream.dict.get('Type')) !== 'ObjStm')
    throw new Error(`PDF: object ${id} is no object stream`);
  const text = decodeStream(stream, budget, resolve).toString('latin1');
  const [count, first] = [numberOf(stream.dict.get('N')), numberOf(stream.dict.get('First'))];
  if (!(count >= 0 && 2 * count <= text.length && first >= 0))
    throw new BeyondLimit(say`object stream ${id} cannot hold ${count} objects`);
  const head = readObjects(text.slice(0, first), 0, false);
  const objects = Array.from({ length: count }, () => ({
    id: numberOf(head.next()),
    at: first + numberOf(head.next()),
  }));
  return { text, objects };
};

const readPacked = (id: number, place: Extract<Place, { kind: 'packed' }>, packing: Packing): PdfValue => {
  const pack = packing.packs.get(place.stream) ?? openPack(place.stream, packing);
  packing.packs.set(place.stream, pack);
  const object = pack.objects[place.index];
  if (object?.id !== id) throw new Error(`PDF: object ${id} is not in stream ${place.stream}`);
  const value = readObjects(pack.text, object.at, true).next();
  if (value === undefined || isOperator(value)) throw new Error(`PDF: object ${id} is broken`);
  return value;
};

/** Any value as plain JSON-like data, references followed: names and strings become strings. Throws on streams and cycles. */
export function plainValue(
  objects: PdfObjects,
  value: PdfValue | undefined,
  depth = 0,
  seen = { values: 0 },
): unknown {
  const v = objects.resolve(value);
  seen.values += 1;
  if (depth > limits.nesting || seen.values > limits.values)
    throw new BeyondLimit(say`PDF: a value larger than any in a print`);
  if (v === undefined || v === null || typeof v === 'number' || typeof v === 'boolean') return v;
  if (isName(v)) return v.name;
  if (isText(v)) return textOf(v);
  if (isStream(v) || isOperator(v)) throw new Error('PDF: a stream or operator where a value should be');
  const plain = (e: PdfValue) => plainValue(objects, e, depth + 1, seen);
  return isDict(v) ? Object.fromEntries([...v].map(([key, e]) => [key, plain(e)])) : arrayOf(v).map(plain);
}
