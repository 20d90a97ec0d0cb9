import { Zlib } from 'fflate';
import type { Book } from '../paging/book.ts';
import { version } from '../version.ts';
import { joinBytes } from './bytes.ts';

/** A sheet of a book. */
type BookSheet = Book['sheets'][number];

/** A sheet whose part of the record is written already, as it goes into any document. */
export interface RecordedSheet extends Pick<BookSheet, 'name' | 'pages'> {
  /** Members of a JSON object. */
  readonly recorded: Uint8Array;
}

/** A sheet for the record, whether its part is written already or not. */
export type SheetToRecord = BookSheet | RecordedSheet;

const utf8 = new TextEncoder();

/**
 * Numbers of the record to a hundredth of a nanometre: further down they depend on the machine's sine and cosine, and the
 * same print must have the same record wherever it is made.
 */
const roundNumbers = (_key: string, value: unknown): unknown =>
  typeof value === 'number' ? Number(value.toFixed(8)) + 0 : value;

const write = (value: object): string => JSON.stringify(value, roundNumbers);

/** The members of an object as JSON. Set in lines and steps the record would be three times as long. */
const writeMembers = (members: object): string => write(members).slice(1, -1);

/** Writes what the record keeps of a sheet besides its name and its pages, for a book that is bound later. */
export const recordSheet = ({ name, pages, fit, figures }: BookSheet): RecordedSheet => ({
  name,
  pages,
  recorded: utf8.encode(writeMembers({ fit, figures })),
});

/** A record as it is packed: in zlib's format (RFC 1950), and how long it is unpacked. */
interface PackedRecord {
  readonly packed: Uint8Array;
  readonly size: number;
}

/** The record of a print as it grows: what it was made from, what its sheets must fit and say, and what its pages hold. */
export interface PrintRecord {
  readonly addSheet: (sheet: SheetToRecord) => void;
  readonly addPage: (page: object) => void;
  readonly end: () => PackedRecord;
}

/** How hard it is packed: half the time of the usual choice, for a tenth more bytes. */
const level = 3;

/**
 * Starts a record. It is packed as it is written: a book of thousands of sheets has tens of megabytes of it, which need not be in
 * memory together.
 */
export const openRecord = (spec: Book['spec']): PrintRecord => {
  const chunks: Uint8Array[] = [];
  let size = 0;
  const packer = new Zlib({ level }, (chunk) => chunks.push(chunk));
  const add = (bytes: Uint8Array, isLast = false): void => {
    size += bytes.length;
    packer.push(bytes, isLast);
  };
  const listed: string[] = [];
  let between = '';
  add(utf8.encode(`{${writeMembers({ program: 'soapstone', version, spec })},"sheets":[`));
  return {
    addSheet: (sheet) => {
      const { name, pages, recorded } = 'recorded' in sheet ? sheet : recordSheet(sheet);
      add(utf8.encode(`${between}{${writeMembers({ name, pages })}${recorded.length > 0 ? ',' : ''}`));
      add(recorded);
      add(utf8.encode('}'));
      between = ',';
    },
    addPage: (page) => listed.push(write(page)),
    end: () => {
      add(utf8.encode(`],"pages":[${listed.join(',')}]}\n`), true);
      return { packed: joinBytes(chunks), size };
    },
  };
};
