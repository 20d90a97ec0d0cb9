import type { Role } from '../drawing/role.ts';
import { requestError } from '../issue.ts';
import { keepCompiled } from '../keep-compiled.ts';
import type { Book, Page } from '../paging/book.ts';
import { say } from '../words/say.ts';
import { checkIsKind } from '../words/wrong-type.ts';
import { joinBytes } from './bytes.ts';
import { digestContent } from './content-digest.ts';
import type { FontSource } from './font-files.ts';
import { deflate } from './native.ts';
import { type PageContent, createContent } from './pdf-content.ts';
import { type PdfDocument, attachFile, openDocument, pointsPerMm, textString } from './pdf-document.ts';
import { type Layers, createLayers } from './pdf-layers.ts';
import { type LineWriter, createLineWriter } from './pdf-lines.ts';
import { type FaceName, type LetteringWriter, createLetteringWriter } from './pdf-text.ts';
import { type SheetToRecord, openRecord } from './pdf-record.ts';
import { describeViewports } from './pdf-viewport.ts';

/** A page whose content is written already, as it goes into any document. */
export type WrittenPage = Omit<Page, 'marks'> & { readonly written: Written };

/** A page's content and what it needs of its document. */
export interface Written {
  /** Packed for FlateDecode. */
  readonly packed: Uint8Array;
  readonly digest: string;
  readonly layers: readonly Role[];
  readonly faces: readonly FaceName[];
}

/** A page of a stream, and the sheets that become known with it: those of a piece come with its first page. */
export type StreamedPage = (Page | WrittenPage) & { readonly sheets?: readonly SheetToRecord[] };

/** A book whose pages may be made one at a time, as they are written; `sheets` are those known before its first page. */
export type PageStream = Omit<Book, 'pages'> & { readonly pages: Iterable<StreamedPage> };

/** The longest side a PDF page may have, mm (ISO 32000-1, annex C: 14 400 units). */
export const longestPage = 5080;

/** So many pages are drawn before their bytes are handed on. */
const batch = 100;

/**
 * Writes a book as a PDF, true to size. The same book gives the same bytes. `fontBytes` supplies the lettering font;
 * without it the installed one is read from disk.
 *
 * Fails with a request error on a page longer than `longestPage` and on a sign that the lettering font lacks.
 */
export const renderPdf = async (book: PageStream, fontBytes?: FontSource): Promise<Uint8Array> => {
  const chunks: Uint8Array[] = [];
  for await (const chunk of streamPdf(book, fontBytes)) chunks.push(chunk);
  return joinBytes(chunks);
};

/** As `renderPdf`, in pieces, without holding the whole file: for books of thousands of pages. */
export async function* streamPdf(book: PageStream, fontBytes?: FontSource): AsyncGenerator<Uint8Array> {
  checkIsKind(book, ['pages', 'sheets', 'title', 'spec'], 'book', say`give what ${'makeBook'} returns`);
  const source = fontBytes ?? (await import('./font-files.ts')).readFontFile;
  const doc = openDocument(book, JSON.stringify(book.spec) ?? '');
  let pieces: Uint8Array[] = [];
  const ended = new Promise<void>((resolve) => doc.on('end', resolve));
  doc.on('data', (chunk) => pieces.push(chunk));

  const tools = createTools(doc, source);
  const labels: string[] = [];
  const record = openRecord(book.spec);
  const listed: Pick<SheetToRecord, 'name' | 'pages'>[] = [];
  const addSheet = (sheet: SheetToRecord): void => {
    listed.push({ name: sheet.name, pages: sheet.pages });
    record.addSheet(sheet);
  };
  book.sheets.forEach(addSheet);
  for (const page of book.pages) {
    page.sheets?.forEach(addSheet);
    startPage(doc, page);
    const written = 'written' in page ? page.written : drawPage(tools, page);
    placePage(doc, tools, written);
    const { width, height, views, stretch, asked } = page;
    const origins = views.map(({ origin }) => origin);
    record.addPage({ content: written.digest, width, height, origins, stretch, ...asked });
    labels.push(page.label);
    if (labels.length % batch === 0) {
      // A turn of the event loop, so that pdfkit's stream starts to flow.
      await new Promise((resolve) => setTimeout(resolve, 0));
      const chunk = joinBytes(pieces);
      pieces = [];
      yield chunk;
    }
  }

  tools.layers.finish();
  labelPages(doc, labels);
  addBookmarks(doc, listed, labels);
  attachFile(doc, 'soapstone.json', record.end());
  doc.end();
  await ended;
  yield joinBytes(pieces);
}

interface Tools {
  readonly content: PageContent;
  readonly layers: Layers;
  readonly lines: LineWriter;
  readonly lettering: LetteringWriter;
}

const keepTools = keepCompiled<Tools>();

const createTools = (doc: PdfDocument, source: FontSource): Tools => {
  const content = createContent(doc);
  return keepTools({
    content,
    layers: createLayers(doc, content),
    lines: createLineWriter(content),
    lettering: createLetteringWriter(doc, content, source),
  });
};

const startPage = (doc: PdfDocument, page: Omit<Page, 'marks'>): void => {
  refuseLongPage(page);
  const height = page.height * pointsPerMm;
  doc.addPage({ size: [page.width * pointsPerMm, height], margin: 0 });
  // pdfkit turns y downward at the top of every page; turning it up again leaves PDF's own coordinates.
  doc.transform(1, 0, 0, -1, 0, height);
  doc.page.dictionary.data['VP'] = describeViewports(page);
};

/** Writes a page's marks; `isUsual` where the content is the same in every document. */
const drawPage = (
  { content, layers, lines, lettering }: Tools,
  page: Page,
): Written & { readonly isUsual: boolean } => {
  lines.startPage();
  for (const mark of page.marks) {
    layers.open(mark.role);
    if (mark.kind === 'stroke') lines.stroke(mark);
    else if (mark.kind === 'fill') lines.fill(mark);
    else lettering.write(mark);
  }
  const used = layers.close();
  const bytes = content.take();
  return { packed: deflate(bytes), digest: digestContent(bytes), layers: used, ...lettering.close() };
};

/** Puts content on the document's current page. */
const placePage = (doc: PdfDocument, { layers, lettering }: Tools, written: Written): void => {
  layers.place(written.layers);
  lettering.place(written.faces);
  const { content } = doc.page;
  // pdfkit would compress harder, which takes longer than all the drawing.
  content.compress = false;
  content.data['Filter'] = 'FlateDecode';
  content.buffer = [written.packed];
};

/**
 * Writes pages for a book that is bound later. A page with signs that not every document has stays as it is, to be written
 * with its book. Fails as `renderPdf` does.
 */
export const writePages = async (
  book: Book,
  fontBytes?: FontSource,
): Promise<readonly (Page | WrittenPage)[]> => {
  const source = fontBytes ?? (await import('./font-files.ts')).readFontFile;
  const doc = openDocument(book, '');
  const tools = createTools(doc, source);
  return book.pages.map((page) => {
    startPage(doc, page);
    const { isUsual, ...written } = drawPage(tools, page);
    const { marks: _, ...rest } = page;
    return isUsual ? { ...rest, written } : page;
  });
};

const refuseLongPage = ({ width, height, label }: Omit<Page, 'marks'>): void => {
  if (Math.max(width, height) <= longestPage) return;
  throw requestError(
    'paper',
    'page-too-long',
    say`page ${label} would be ${Math.round(width)} x ${Math.round(height)} mm; a PDF page has no side over ${longestPage} mm`,
    say`give a paper of at most ${longestPage} mm each way; the sheet is then divided over several pages`,
  );
};

/** Every page bears its own name; two of the same name would send a fitter to the wrong piece of paper. */
const labelPages = (doc: PdfDocument, labels: readonly string[]): void => {
  if (new Set(labels).size < labels.length) throw new Error('two pages of a book have the same label');
  doc._root.data['PageLabels'] = { Nums: labels.flatMap((label, at) => [at, { P: textString(label) }]) };
};

/** A bookmark for each sheet, and under it one for each of its pages where there are several. */
const addBookmarks = (
  doc: PdfDocument,
  sheets: readonly Pick<SheetToRecord, 'name' | 'pages'>[],
  labels: readonly string[],
): void => {
  const target = (page: number) => ({ pageNumber: page - 1, fit: true, expanded: true });
  for (const { name, pages } of sheets) {
    const [first] = pages;
    if (first === undefined) continue;
    const bookmark = doc.outline.addItem(name, target(first));
    if (pages.length < 2) continue;
    for (const page of pages) bookmark.addItem(labels[page - 1] ?? String(page), target(page));
  }
};
