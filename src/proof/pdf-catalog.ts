import { present } from './present.ts';
import { plainValue, type PdfObjects } from './pdf-document.ts';
import {
  arrayOf,
  decodeStream,
  dictOf,
  isStream,
  textOf,
  type PdfDict,
  type PdfValue,
} from './pdf-objects.ts';

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
  }[];
}

/** One bookmark and those under it. */
export interface Bookmark {
  readonly title: string;
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
  /** `soapstone.json` parsed, where it is attached. */
  readonly record: PrintRecord | undefined;
}

export function readCatalog(objects: PdfObjects, catalog: PdfDict, pageCount: number): PdfCatalog {
  const { resolve, trailer } = objects;
  const plain = (value: PdfValue | undefined) => plainValue(objects, value);
  const attachments = readAttachments(objects, catalog);
  const groups = dictOf(resolve(catalog.get('OCProperties')) ?? new Map()).get('OCGs');
  return {
    labels: readLabels(objects, catalog, pageCount),
    bookmarks: readBookmarks(objects, dictOf(resolve(catalog.get('Outlines')) ?? new Map())),
    viewerPreferences: (plain(catalog.get('ViewerPreferences')) ?? {}) as Record<string, unknown>,
    language: plain(catalog.get('Lang')) as string | undefined,
    info: (plain(trailer.get('Info')) ?? {}) as Record<string, unknown>,
    layers: arrayOf(resolve(groups) ?? []).map((g) => textOf(resolve(dictOf(resolve(g)).get('Name')))),
    attachments,
    record: readRecord(attachments.get('soapstone.json')),
  };
}

/** The leaves of a name or number tree as key and value pairs (ISO 32000-1 §7.9.6, §7.9.7). */
function treeEntries(
  objects: PdfObjects,
  root: PdfValue | undefined,
  key: 'Names' | 'Nums',
): [PdfValue, PdfValue][] {
  const { resolve } = objects;
  const node = dictOf(resolve(root) ?? new Map());
  const items = arrayOf(resolve(node.get(key)) ?? []);
  const own = items.flatMap((item, i) =>
    i % 2 ? [] : [[item, present(items[i + 1])] as [PdfValue, PdfValue]],
  );
  const kids = arrayOf(resolve(node.get('Kids')) ?? []);
  return [...own, ...kids.flatMap((kid) => treeEntries(objects, kid, key))];
}

function readAttachments(objects: PdfObjects, catalog: PdfDict): Map<string, Buffer> {
  const { resolve } = objects;
  const names = dictOf(resolve(catalog.get('Names')) ?? new Map());
  return new Map(
    treeEntries(objects, names.get('EmbeddedFiles'), 'Names').map(([, value]) => {
      const spec = dictOf(resolve(value));
      const stream = resolve(dictOf(resolve(spec.get('EF'))).get('F'));
      if (!isStream(stream)) throw new Error('PDF: attachment without content');
      return [textOf(resolve(spec.get('UF') ?? spec.get('F'))), decodeStream(stream)];
    }),
  );
}

function readRecord(bytes: Buffer | undefined): PrintRecord | undefined {
  if (!bytes) return undefined;
  const record = JSON.parse(bytes.toString('utf8')) as PrintRecord;
  const isPage = (p: unknown) => Number.isInteger(p) && (p as number) >= 1;
  const isSheet = (s: PrintRecord['sheets'][number]) =>
    typeof s.name === 'string' && Array.isArray(s.pages) && s.pages.every(isPage);
  if (typeof record.program !== 'string' || typeof record.version !== 'string' || !('spec' in record))
    throw new Error('soapstone.json: program, version and spec are wanted');
  if (!Array.isArray(record.sheets) || !record.sheets.every(isSheet))
    throw new Error('soapstone.json: sheets with a name and 1-based pages are wanted');
  return record;
}

const roman = (n: number): string => {
  const steps = [1000, 900, 500, 400, 100, 90, 50, 40, 10, 9, 5, 4, 1];
  const signs = ['m', 'cm', 'd', 'cd', 'c', 'xc', 'l', 'xl', 'x', 'ix', 'v', 'iv', 'i'];
  const i = steps.findIndex((s) => s <= n);
  return i < 0 ? '' : present(signs[i]) + roman(n - present(steps[i]));
};
/** a to z, then aa to zz, then aaa (ISO 32000-1 table 159). */
const lettered = (n: number): string => String.fromCharCode(97 + ((n - 1) % 26)).repeat(Math.ceil(n / 26));

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
    const style = {
      D: String,
      r: roman,
      R: (k: number) => roman(k).toUpperCase(),
      a: lettered,
      A: (k: number) => lettered(k).toUpperCase(),
    };
    if (!Object.hasOwn(style, S)) throw new Error(`PDF: page label style ${S}`);
    return P + style[S as keyof typeof style](n);
  });
}

function readBookmarks(objects: PdfObjects, parent: PdfDict): Bookmark[] {
  const found: Bookmark[] = [];
  for (
    let at = objects.resolve(parent.get('First'));
    at instanceof Map;
    at = objects.resolve((at as PdfDict).get('Next'))
  ) {
    const item = at as PdfDict;
    found.push({ title: textOf(objects.resolve(item.get('Title'))), children: readBookmarks(objects, item) });
    if (found.length > 100_000) throw new Error('PDF: bookmarks without end');
  }
  return found;
}
