import { listOperators } from './pdf-content.ts';
import type { PdfObjects } from './pdf-document.ts';
import { pageText, type PdfFile } from './pdf-reader.ts';
import {
  isArray,
  isDict,
  isName,
  isStream,
  isText,
  tellValue,
  textOf,
  type PdfDict,
  type PdfValue,
} from './pdf-values.ts';
import { say } from '../words/say.ts';

/** A file that has been opened and read. */
export interface Opened {
  readonly objects: PdfObjects;
  readonly file: PdfFile;
}

/** How a stream is packed, and what writers say of themselves: no part of the drawing. */
const apart = new Set(['Length', 'Filter', 'DecodeParms', 'Parent', 'Limits', 'Length1']);
/** Of the catalog: the pages are compared one by one; the version says how it was saved; metadata is not shown. */
const apartOfCatalog = new Set([...apart, 'Pages', 'Version', 'Metadata', 'Names', 'AF']);
const apartOfPage = new Set([...apart, 'Contents', 'Rotate', 'CropBox', 'BleedBox', 'TrimBox', 'ArtBox']);
const apartOfInfo = new Set(['Producer', 'ModDate', 'CreationDate', 'Trapped']);

/** More are not listed. */
const mostTold = 8;

interface Walk {
  readonly a: PdfObjects;
  readonly b: PdfObjects;
  readonly told: string[];
  readonly seen: Map<PdfValue, PdfValue>;
}

const tell = ({ told }: Walk, what: string): void => {
  if (told.length < mostTold) told.push(what);
};

const compareEntries = (
  walk: Walk,
  a: PdfDict,
  b: PdfDict,
  where: string,
  ignored: ReadonlySet<string>,
): void => {
  for (const key of new Set([...a.keys(), ...b.keys()]))
    if (!ignored.has(key)) compare(walk, a.get(key), b.get(key), `${where} /${key}`);
};

/** Some programs keep numbers in single precision: a ten-thousandth of a millimetre in half a metre. */
const isSamePlain = (a: PdfValue, b: PdfValue): boolean => {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= 1e-6 + 2e-7 * Math.abs(b);
  if (isName(a) && isName(b)) return a.name === b.name;
  if (isText(a) && isText(b)) return textOf(a) === textOf(b);
  return a === b;
};

const compare = (walk: Walk, first: PdfValue | undefined, second: PdfValue | undefined, where: string) => {
  const a = walk.a.resolve(first) ?? null;
  const b = walk.b.resolve(second) ?? null;
  if (isDict(a) && isDict(b)) {
    if (walk.seen.get(a) === b) return;
    walk.seen.set(a, b);
    compareEntries(walk, a, b, where, apart);
  } else if (isArray(a) && isArray(b)) {
    if (a.length !== b.length) tell(walk, say`${where}: ${a.length} entries, ${b.length} as drawn`);
    else a.forEach((item, i) => compare(walk, item, b[i], where));
  } else if (isStream(a) && isStream(b)) {
    if (walk.seen.get(a) === b) return;
    walk.seen.set(a, b);
    compareEntries(walk, a.dict, b.dict, where, apart);
    if (!walk.a.decode(a).equals(walk.b.decode(b))) tell(walk, say`${where}: other bytes`);
  } else if (!isSamePlain(a, b)) tell(walk, say`${where} is ${tellValue(a)}, as drawn ${tellValue(b)}`);
};

/** The first operator of a page that is not the one drawn. */
const compareContent = (walk: Walk, a: PdfDict, b: PdfDict, where: string): void => {
  const [own, drawn] = [listOperators(pageText(walk.a, a)), listOperators(pageText(walk.b, b))];
  const at = own.findIndex((operator, i) => operator !== drawn[i]);
  if (at < 0 && own.length === drawn.length) return;
  const place = at < 0 ? own.length : at;
  const show = (operator: string | undefined): string => (operator ?? 'nothing').slice(0, 60);
  tell(
    walk,
    say`${where}: operator ${place + 1} is "${show(own[place])}", as drawn "${show(drawn[place])}" (${own.length} and ${drawn.length} in all)`,
  );
};

const compareInfo = (walk: Walk): void => {
  const info = (objects: PdfObjects): PdfDict => {
    const found = objects.resolve(objects.trailer.get('Info'));
    return isDict(found) ? found : new Map<string, PdfValue>();
  };
  const [a, b] = [info(walk.a), info(walk.b)];
  // A program that saves a file again may leave out what it does not keep, but not say something else.
  for (const [key, value] of a)
    if (!apartOfInfo.has(key)) compare(walk, value, b.get(key), say`document information /${key}`);
};

/** What the file says of itself, the version apart. */
const recordOf = ({ file }: Opened): string => {
  const { version: _version, ...record } = file.record ?? { version: '' };
  return JSON.stringify(record);
};

const catalogOf = ({ objects }: Opened): PdfDict => {
  const found = objects.resolve(objects.trailer.get('Root'));
  return isDict(found) ? found : new Map<string, PdfValue>();
};

/**
 * In what two files differ besides how they are packed: every page operator by operator, with all that it refers to, fonts byte by
 * byte; the catalog with layers, labels, bookmarks and settings; the record. Empty where they show, print and say the same.
 */
export const compareDocuments = (own: Opened, drawn: Opened): readonly string[] => {
  const walk: Walk = { a: own.objects, b: drawn.objects, told: [], seen: new Map() };
  const [pages, wanted] = [own.file.leaves, drawn.file.leaves];
  if (pages.length !== wanted.length) return [say`${pages.length} pages, ${wanted.length} as drawn`];
  // References to pages lead back to them: their places are compared, not their entries once more.
  own.file.ownLeaves.forEach((page, i) => {
    const other = drawn.file.ownLeaves[i];
    if (other !== undefined) walk.seen.set(page, other);
  });
  pages.forEach((page, i) => {
    const [where, other] = [say`page ${own.file.pages[i]?.label.slice(0, 60)}`, wanted[i]];
    if (other === undefined || walk.told.length >= mostTold) return;
    compareContent(walk, page, other, where);
    compareEntries(walk, page, other, where, apartOfPage);
  });
  compareEntries(walk, catalogOf(own), catalogOf(drawn), 'catalog', apartOfCatalog);
  compareInfo(walk);
  if (recordOf(own) !== recordOf(drawn)) tell(walk, say`soapstone.json says something else`);
  return walk.told;
};
