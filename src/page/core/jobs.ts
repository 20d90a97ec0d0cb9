import { stringify } from 'yaml';
import { isBookSpec } from '../../book-spec.ts';
import { identify } from '../../identity.ts';
import { requestError, type Issue } from '../../issue.ts';
import { bindBook } from '../../jobs/bind.ts';
import { decodeSpreadsheet, decodeUnicode } from '../../jobs/decode.ts';
import type { Listing } from '../../jobs/entry.ts';
import { nameFile, nameRequest } from '../../jobs/file-name.ts';
import type { Place } from '../../jobs/place.ts';
import type { BookWork, Work } from '../../jobs/plan.ts';
import { readCsvList } from '../../jobs/read-csv.ts';
import { readYaml } from '../../jobs/read-yaml.ts';
import { checkBookName, understandListing } from '../../jobs/understand.ts';
import type { FindCalibration } from '../../paging/printer.ts';
import { makeBook, makePanels, makeSheets } from '../../print.ts';
import { readPdf } from '../../proof/pdf-reader.ts';
import { renderPdf } from '../../render/pdf.ts';
import type { Request, Spec } from '../../request.ts';
import { say } from '../../words/say.ts';
import { makeFile } from './files.ts';
import type { Asked, FileView, Opened } from './views.ts';

const askedOf = ({ layout, ...texts }: Spec): Asked => ({ layout, texts });

const readListing = (name: string, bytes: Uint8Array): Listing => {
  if (/\.csv$/i.test(name)) return readCsvList(decodeSpreadsheet(bytes, name), name);
  if (/\.ya?ml$/i.test(name)) return readYaml(decodeUnicode(bytes, name), name);
  throw requestError(
    '',
    'unknown-file',
    say`${name} is not a file this page can open`,
    say`open a job file (.yaml), a cut list (.csv) or a PDF that soapstone wrote`,
  );
};

const notOurs = (name: string, why: string) =>
  requestError('', 'not-a-print', `${name} ${why}`, say`give a PDF that soapstone wrote`);

const openPrint = (name: string, bytes: Uint8Array): Opened => {
  let record;
  try {
    record = readPdf(bytes).record;
  } catch (error) {
    throw notOurs(name, say`cannot be read: ${error instanceof Error ? error.message : String(error)}`);
  }
  if (record?.program !== 'soapstone') throw notOurs(name, say`is not a Soapstone print`);
  const { spec } = record;
  if (isBookSpec(spec))
    return { pieces: spec.pieces.map((piece) => askedOf(piece.spec)), book: spec.book, issues: [] };
  if (typeof (spec as Partial<Spec>).layout !== 'string') throw notOurs(name, say`holds a damaged record`);
  return { pieces: [askedOf(spec as Spec)], book: undefined, issues: [] };
};

/**
 * Opens a job file, a cut list or a print: the requests it holds. Throws a `request` UserError for any other file.
 */
export const openFile = (name: string, bytes: Uint8Array, findCalibration: FindCalibration): Opened => {
  if (/\.pdf$/i.test(name)) return openPrint(name, bytes);
  const listing = readListing(name, bytes);
  const listed: readonly Issue[] =
    listing.list === undefined
      ? []
      : requestError(
          'list',
          'list',
          say`the list ${listing.list.text} is a file of its own`,
          say`open it too`,
        ).issues;
  const { pieces, book, issues } = understandListing(name, listing, undefined, findCalibration, listed);
  return { pieces: pieces.map(({ request }) => askedOf(request.spec)), book, issues };
};

/** Pieces as a job file, which the command line and this page read. */
export const writeJobFile = (pieces: readonly Asked[], book: string): FileView => {
  const text = stringify({
    ...(pieces.length > 1 ? { book: checkBookName(book) } : {}),
    pieces: pieces.map(({ layout, texts }) => ({ layout, ...texts })),
  });
  return makeFile(`${book.replace(/\.pdf$/i, '')}.yaml`, new TextEncoder().encode(text));
};

/** A name for each piece of one book: the mark, or what was asked for, with a number where it comes again. */
const nameWorks = (requests: readonly Request[]): readonly string[] => {
  const taken = new Set<string>();
  return requests.map((request) => {
    const mark = [request.spec.piece ?? []].flat()[0];
    const plain = (mark === undefined ? undefined : nameFile(mark)) ?? nameRequest(request);
    let name = plain;
    for (let n = 2; taken.has(name.toLowerCase()); n += 1) name = `${plain}-${n}`;
    taken.add(name.toLowerCase());
    return name;
  });
};

/** One PDF of many pieces, with a cover that lists them. */
export const writeBookFile = async (
  requests: readonly Request[],
  book: string,
  onPiece: (done: number) => void,
): Promise<FileView> => {
  const file = checkBookName(book);
  const place: Place = { file: book, line: 1, column: 1 };
  const names = nameWorks(requests);
  const works = requests.map((request, i): Work => {
    const mark = [request.spec.piece ?? []].flat()[0];
    return { piece: { request, mark, place, placeOf: () => place }, name: names[i] ?? '', files: [] };
  });
  const made = new Map(
    works.map((work, i) => {
      const { request } = work.piece;
      const sheets = makeSheets(request);
      const laid = makeBook(request, sheets);
      onPiece(i + 1);
      const identity = identify(request.understood, sheets);
      return [work, { ...laid, identity, panels: makePanels(request, sheets) }] as const;
    }),
  );
  const partOf = (work: Work) => {
    const part = made.get(work);
    if (part === undefined) throw new Error(`${work.name} was not drawn`);
    return part;
  };
  const pieces = works.map((work) => {
    const { subject, identity, pages, panels } = partOf(work);
    return { work, subject, identity, pages: pages.length, panels };
  });
  const bookWork: BookWork = { file, works, sources: [file.replace(/\.pdf$/, '.yaml')], isWhole: true };
  return makeFile(file, await renderPdf(bindBook(bookWork, pieces, partOf).stream));
};
