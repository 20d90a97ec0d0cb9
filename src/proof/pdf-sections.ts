import { BeyondLimit, limits, type Budget } from './limits.ts';
import { decodeStream } from './pdf-filters.ts';
import { readObject, readObjects } from './pdf-objects.ts';
import {
  dictOf,
  isOperator,
  isStream,
  nameOf,
  numberOf,
  numbersOf,
  type PdfDict,
  type PdfStream,
  type Resolve,
} from './pdf-values.ts';
import { present } from './present.ts';
import { say } from '../words/say.ts';

/** Where an object is: at a byte of the file, in an object stream, or nowhere. */
export type Place =
  | { readonly kind: 'at'; readonly offset: number; readonly generation: number }
  | { readonly kind: 'packed'; readonly stream: number; readonly index: number }
  | { readonly kind: 'free' };

/** One cross-reference section, from its first byte to the one after its last. */
export interface Section {
  readonly places: ReadonlyMap<number, Place>;
  readonly dict: PdfDict;
  readonly isStream: boolean;
  readonly start: number;
  readonly end: number;
}

/** A file's cross-reference sections, the newest first: the first that names an object counts. */
export const readSections = (
  text: string,
  budget: Budget,
): {
  readonly places: ReadonlyMap<number, Place>;
  readonly trailer: PdfDict;
  readonly saved: readonly string[];
  readonly sections: readonly Section[];
} => {
  const places = new Map<number, Place>();
  const saved = new Set<string>();
  const seen = new Set<number>();
  const sections: Section[] = [];
  let trailer: PdfDict | undefined;
  const last = /startxref[\t\n\f\r ]+(\d{1,12})[\t\n\f\r ]+%%EOF[\t\n\f\r ]*$/.exec(text.slice(-64))?.[1];
  if (last === undefined) throw new Error('PDF: no startxref at the end of the file');
  for (let at: number | undefined = Number(last); at !== undefined;) {
    if (seen.has(at)) throw new BeyondLimit(say`PDF: the cross-reference sections go in a circle`);
    if (seen.size >= limits.sections) throw new BeyondLimit(say`PDF: too many cross-reference sections`);
    seen.add(at);
    const section: Section = text.startsWith('xref', at) ? readTable(text, at) : readStream(text, at, budget);
    sections.push(section);
    for (const [id, place] of section.places) if (!places.has(id)) places.set(id, place);
    trailer ??= section.dict;
    if (section.isStream) saved.add(say`cross-reference stream`);
    if (seen.size > 1) saved.add(say`several cross-reference sections`);
    if ([...section.places.values()].some(({ kind }) => kind === 'packed')) saved.add(say`object streams`);
    // Readers that know streams and readers that do not would see two different files.
    if (section.dict.has('XRefStm')) throw new Error('PDF: a table and a stream in one section');
    const previous = section.dict.get('Prev');
    at = previous === undefined ? undefined : numberOf(previous);
  }
  return { places, trailer: present(trailer), saved: [...saved], sections };
};

const readTable = (text: string, at: number): Section => {
  const lexer = readObjects(text, at, true);
  lexer.next();
  const places = new Map<number, Place>();
  for (let first = lexer.next(); ; first = lexer.next()) {
    if (isOperator(first) && first.name === 'trailer') break;
    const count = numberOf(lexer.next());
    for (let i = 0; i < count; i += 1) {
      const [offset, generation] = [numberOf(lexer.next()), numberOf(lexer.next())];
      const use = lexer.next();
      if (!isOperator(use) || (use.name !== 'n' && use.name !== 'f'))
        throw new Error('PDF: the cross-reference table is broken');
      places.set(
        numberOf(first) + i,
        use.name === 'n' ? { kind: 'at', offset, generation } : { kind: 'free' },
      );
    }
  }
  const dict = dictOf(lexer.next());
  return { places, dict, isStream: false, start: at, end: lexer.position };
};

/** Nothing that a cross-reference stream needs may be found through it. */
const nothing: Resolve = (value) => value;

const readStream = (text: string, at: number, budget: Budget): Section => {
  const { value: stream, end } = readObject(text, undefined, { offset: at }, nothing);
  if (!isStream(stream) || nameOf(stream.dict.get('Type')) !== 'XRef')
    throw new Error(`PDF: no cross-reference table at byte ${at}`);
  return { places: listPlaces(stream, budget), dict: stream.dict, isStream: true, start: at, end };
};

const listPlaces = (stream: PdfStream, budget: Budget): ReadonlyMap<number, Place> => {
  const { dict } = stream;
  const bytes = decodeStream(stream, budget, nothing);
  const widths = numbersOf(dict.get('W'));
  const size = widths.reduce((sum, width) => sum + width, 0);
  if (widths.length !== 3 || widths.some((width) => !(width >= 0 && width <= 6)) || size === 0)
    throw new Error('PDF: a cross-reference stream with strange widths');
  const index = dict.has('Index') ? numbersOf(dict.get('Index')) : [0, numberOf(dict.get('Size'))];
  const places = new Map<number, Place>();
  let from = 0;
  const field = (width: number, usual: number): number => {
    if (width === 0) return usual;
    from += width;
    return bytes.readUIntBE(from - width, width);
  };
  const [kinds, seconds, thirds] = widths as [number, number, number];
  for (let i = 0; i + 1 < index.length; i += 2) {
    const [first, count] = [present(index[i]), present(index[i + 1])];
    if (!(count >= 0 && count * size <= bytes.length - from))
      throw new Error('PDF: a cross-reference stream shorter than it says');
    for (let k = 0; k < count; k += 1) {
      const [kind, second, third] = [field(kinds, 1), field(seconds, 0), field(thirds, 0)];
      if (kind === 1) places.set(first + k, { kind: 'at', offset: second, generation: third });
      else if (kind === 2) places.set(first + k, { kind: 'packed', stream: second, index: third });
      else if (kind === 0) places.set(first + k, { kind: 'free' });
      else throw new Error(`PDF: a cross-reference stream with an entry of kind ${kind}`);
    }
  }
  return places;
};
