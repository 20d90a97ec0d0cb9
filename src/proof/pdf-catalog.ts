import * as z from 'zod';
import { BeyondLimit, limits } from './limits.ts';
import { plainValue, type PdfObjects } from './pdf-document.ts';
import {
  arrayOf,
  dictOf,
  isDict,
  isStream,
  isText,
  textOf,
  type PdfDict,
  type PdfValue,
} from './pdf-values.ts';
import { present } from './present.ts';
import { say } from '../words/say.ts';

/** What `soapstone.json` inside the file says of the print. */
export interface PrintRecord {
  readonly program: string;
  readonly version: string;
  readonly spec: unknown;
  readonly sheets: readonly {
    readonly name: string;
    readonly pages: readonly number[];
    /** What the sheet's cut lines must touch; to be checked before use. */
    readonly fit?: unknown;
    /** What the sheet prints that its drawing shows; to be checked before use. */
    readonly figures?: unknown;
  }[];
  /**
   * Every page as it was written: a digest of its content, its size and its sheets' origins, mm, and what it is stretched by
   * for its printer.
   */
  readonly pages?: readonly {
    readonly content: string;
    readonly width: number;
    readonly height: number;
    readonly origins: readonly { readonly x: number; readonly y: number }[];
    readonly stretch?: { readonly x: number; readonly y: number };
    /** Edges kept clear, mm, and the printer the page is to come out true on, with the width of its roll. */
    readonly margin?: { readonly sides: number; readonly ends: number };
    readonly printer?: {
      readonly name: string;
      readonly across: number;
      readonly along: number;
      readonly roll?: number;
    };
  }[];
}

/** One bookmark and those under it. */
export interface Bookmark {
  readonly title: string;
  /** The 1-based page it leads to; undefined where it leads nowhere. */
  readonly page: number | undefined;
  readonly children: readonly Bookmark[];
}

/** What a file says of itself as a whole. */
export interface PdfCatalog {
  /** One label a page, as viewers show it. */
  readonly labels: readonly string[];
  readonly bookmarks: readonly Bookmark[];
  readonly viewerPreferences: Readonly<Record<string, unknown>>;
  readonly language: string | undefined;
  readonly info: Readonly<Record<string, unknown>>;
  /** Names of all optional content groups, in the catalog's order. */
  readonly layers: readonly string[];
  readonly attachments: ReadonlyMap<string, Buffer>;
  /** Check sum that the file gives of `soapstone.json`, in hexadecimal. */
  readonly recordSum: string | undefined;
  /** `soapstone.json` parsed, where it is attached. */
  readonly record: PrintRecord | undefined;
}

/** A page as it stands in the file, and with what it inherits. */
export interface PageEntry {
  readonly own: PdfDict;
  readonly page: PdfDict;
}

export function readCatalog(objects: PdfObjects, catalog: PdfDict, pages: readonly PageEntry[]): PdfCatalog {
  const { resolve, trailer } = objects;
  const plain = (value: PdfValue | undefined) => plainValue(objects, value);
  const attachments = readAttachments(objects, catalog);
  const pageOf = new Map<PdfValue | undefined, number>(pages.map(({ own }, i) => [own, i + 1]));
  const groups = dictOf(resolve(catalog.get('OCProperties')) ?? new Map()).get('OCGs');
  return {
    labels: readLabels(objects, catalog, pages.length),
    bookmarks: readBookmarks(objects, dictOf(resolve(catalog.get('Outlines')) ?? new Map()), pageOf),
    viewerPreferences: (plain(catalog.get('ViewerPreferences')) ?? {}) as Record<string, unknown>,
    language: plain(catalog.get('Lang')) as string | undefined,
    info: (plain(trailer.get('Info')) ?? {}) as Record<string, unknown>,
    layers: arrayOf(resolve(groups) ?? []).map((g) => textOf(resolve(dictOf(resolve(g)).get('Name')))),
    attachments: new Map(attachments.map(({ name, bytes }) => [name, bytes])),
    recordSum: attachments.find(({ name }) => name === 'soapstone.json')?.sum,
    record: readRecord(attachments.find(({ name }) => name === 'soapstone.json')?.bytes),
  };
}

/** The leaves of a name or number tree as key and value pairs (ISO 32000-1 §7.9.6, §7.9.7). */
function treeEntries(
  objects: PdfObjects,
  root: PdfValue | undefined,
  key: 'Names' | 'Nums',
  seen = new Set<PdfDict>(),
): [PdfValue, PdfValue][] {
  const { resolve } = objects;
  const node = dictOf(resolve(root) ?? new Map());
  if (seen.has(node)) throw new BeyondLimit(say`PDF: a tree of names goes in a circle`);
  seen.add(node);
  const items = arrayOf(resolve(node.get(key)) ?? []);
  const own = items.flatMap((item, i) =>
    i % 2 ? [] : [[item, present(items[i + 1])] as [PdfValue, PdfValue]],
  );
  const kids = arrayOf(resolve(node.get('Kids')) ?? []);
  return [...own, ...kids.flatMap((kid) => treeEntries(objects, kid, key, seen))];
}

interface Attachment {
  readonly name: string;
  readonly bytes: Buffer;
  readonly sum: string | undefined;
}

function readAttachments(objects: PdfObjects, catalog: PdfDict): readonly Attachment[] {
  const { resolve } = objects;
  const names = dictOf(resolve(catalog.get('Names')) ?? new Map());
  return treeEntries(objects, names.get('EmbeddedFiles'), 'Names').map(([, value]) => {
    const spec = dictOf(resolve(value));
    const stream = resolve(dictOf(resolve(spec.get('EF'))).get('F'));
    if (!isStream(stream)) throw new Error('PDF: attachment without content');
    const sum = resolve(dictOf(resolve(stream.dict.get('Params')) ?? new Map()).get('CheckSum'));
    return {
      name: textOf(resolve(spec.get('UF') ?? spec.get('F'))),
      bytes: objects.decode(stream),
      // pdfkit writes the sum's digits, others its bytes.
      sum: isText(sum)
        ? sum.raw.length === 16
          ? Buffer.from(sum.raw, 'latin1').toString('hex')
          : sum.raw
        : undefined,
    };
  });
}

const length = z.number().finite();
const size = length.positive();

const recordShape = z.looseObject({
  program: z.string(),
  version: z.string(),
  spec: z.unknown(),
  sheets: z.array(
    z.looseObject({
      name: z.string(),
      pages: z.array(z.int().positive()),
      fit: z.unknown().optional(),
      figures: z.unknown().optional(),
    }),
  ),
  pages: z
    .array(
      z.looseObject({
        content: z.string(),
        width: size,
        height: size,
        origins: z.array(z.looseObject({ x: length, y: length })),
        stretch: z.looseObject({ x: size, y: size }).exactOptional(),
        margin: z.looseObject({ sides: length.nonnegative(), ends: length.nonnegative() }).exactOptional(),
        printer: z
          .looseObject({ name: z.string(), across: size, along: size, roll: size.exactOptional() })
          .exactOptional(),
      }),
    )
    .exactOptional(),
});

function readRecord(bytes: Buffer | undefined): PrintRecord | undefined {
  if (!bytes) return undefined;
  const record = recordShape.safeParse(JSON.parse(bytes.toString('utf8')));
  if (record.success) return record.data;
  const [issue] = record.error.issues;
  throw new Error(`soapstone.json: ${issue?.path.join('.').slice(0, 60)}: ${issue?.message.slice(0, 100)}`);
}

const roman = (n: number): string => {
  const steps = [1000, 900, 500, 400, 100, 90, 50, 40, 10, 9, 5, 4, 1];
  const signs = ['m', 'cm', 'd', 'cd', 'c', 'xc', 'l', 'xl', 'x', 'ix', 'v', 'iv', 'i'];
  const i = steps.findIndex((s) => s <= n);
  return i < 0 ? '' : present(signs[i]) + roman(n - present(steps[i]));
};
/** a to z, then aa to zz, then aaa (ISO 32000-1 table 159). */
const lettered = (n: number): string => String.fromCharCode(97 + ((n - 1) % 26)).repeat(Math.ceil(n / 26));

/** ISO 32000-1 table 159. */
const labelStyles = new Map<string, (n: number) => string>([
  ['D', String],
  ['r', roman],
  ['R', (n) => roman(n).toUpperCase()],
  ['a', lettered],
  ['A', (n) => lettered(n).toUpperCase()],
]);

function readLabels(objects: PdfObjects, catalog: PdfDict, pageCount: number): string[] {
  const ranges = treeEntries(objects, catalog.get('PageLabels'), 'Nums').map(
    ([first, value]) =>
      [first as number, plainValue(objects, value) as { S?: string; P?: string; St?: number }] as const,
  );
  return Array.from({ length: pageCount }, (_, i) => {
    const range = ranges.findLast(([first]) => first <= i);
    if (!range) return String(i + 1);
    const [first, { S, P = '', St = 1 }] = range;
    const n = St + i - first;
    if (S === undefined) return P;
    const style = labelStyles.get(S);
    if (style === undefined) throw new Error(`PDF: page label style ${S.slice(0, 20)}`);
    return P + style(n);
  });
}

/** What a bookmark may lead to: a page shown whole. */
const targetOf = (
  objects: PdfObjects,
  item: PdfDict,
  pageOf: ReadonlyMap<PdfValue | undefined, number>,
): number | undefined => {
  const target = objects.resolve(item.get('Dest'));
  return Array.isArray(target) ? pageOf.get(objects.resolve((target as readonly PdfValue[])[0])) : undefined;
};

function readBookmarks(
  objects: PdfObjects,
  root: PdfDict,
  pageOf: ReadonlyMap<PdfValue | undefined, number>,
): readonly Bookmark[] {
  const seen = new Set<PdfDict>();
  const under = (parent: PdfDict, depth: number): readonly Bookmark[] => {
    const found: Bookmark[] = [];
    if (depth > limits.nesting) throw new BeyondLimit(say`PDF: bookmarks are nested too deep`);
    for (let at = objects.resolve(parent.get('First')); isDict(at); at = objects.resolve(at.get('Next'))) {
      if (seen.has(at)) throw new BeyondLimit(say`PDF: bookmarks without end`);
      seen.add(at);
      found.push({
        title: textOf(objects.resolve(at.get('Title'))),
        page: targetOf(objects, at, pageOf),
        children: under(at, depth + 1),
      });
    }
    return found;
  };
  return under(root, 0);
}
