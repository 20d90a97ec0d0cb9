import { digestContent } from '../render/content-digest.ts';
import { present } from './present.ts';
import { BeyondLimit, limits } from './limits.ts';
import { listOperators, readContent, type PageContent, type PdfFill, type PdfStroke } from './pdf-content.ts';
import { openPdf, plainValue, type PdfObjects } from './pdf-document.ts';
import { readCatalog, type PageEntry, type PdfCatalog } from './pdf-catalog.ts';
import {
  arrayOf,
  dictOf,
  isArray,
  isDict,
  isStream,
  nameOf,
  numberOf,
  textOf,
  type PdfDict,
  type PdfValue,
} from './pdf-values.ts';
import { isInside, movePath, samplePath, type Path } from './paths.ts';
import type { Vec2 } from './space.ts';
import { say } from '../words/say.ts';

export { samplePath } from './paths.ts';
export type { Path, Subpath, PathSegment } from './paths.ts';
export type { PdfFill, PdfLettering, PdfStroke } from './pdf-content.ts';
export type { Bookmark } from './pdf-catalog.ts';

/** An upright rectangle in page points. */
export interface PageBox {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** A viewport with a rectilinear measure (ISO 32000-1 §12.9): where its origin lies and how long a page point is. */
export interface Viewport {
  readonly box: PageBox;
  /** Sheet and share: `band 1.2`. */
  readonly name: string;
  /** The scale in words, as viewers show it. */
  readonly ratio: string;
  /** `/O`, in page points. */
  readonly origin: Vec2;
  /** Length of one page point in the measure's unit along each axis. */
  readonly scale: Vec2;
  readonly unit: string;
}

export interface PdfPage extends PageContent {
  readonly mediaBox: PageBox;
  readonly label: string;
  /** Digest of the content as it stands, to be held against the print's own record. */
  readonly digest: string;
  readonly viewports: readonly Viewport[];
  /** Fonts by the names they have on the page. */
  readonly fonts: readonly { readonly name: string; readonly value: PdfValue }[];
}
export interface PdfFile extends PdfCatalog {
  readonly pages: readonly PdfPage[];
  /** The pages as they stand in the file, with what they inherit. */
  readonly leaves: readonly PdfDict[];
  /** The same pages without what they inherit: what a link to a page leads to. */
  readonly ownLeaves: readonly PdfDict[];
  /** How it was saved, where that is not as the program writes. */
  readonly saved: readonly string[];
}

const attributes = ['Resources', 'MediaBox', 'Rotate', 'CropBox'] as const;

/** How much content is held as marks at a time, bytes; that of other pages is read again when it is asked for. */
const heldContent = 10e6;
/** As much of the other pages is held until others are asked for, bytes: a sheet is measured in many ways one after another. */
const recentContent = 2e6;

/** Every page of the tree with what it inherits, each once. */
const listPages = (objects: PdfObjects, catalog: PdfDict): readonly PageEntry[] => {
  const leaves: PageEntry[] = [];
  const seen = new Set<PdfValue | undefined>();
  const walk = (node: PdfValue | undefined, inherited: ReadonlyMap<string, PdfValue>, depth: number) => {
    const own = dictOf(objects.resolve(node));
    if (seen.has(own)) throw new BeyondLimit(say`PDF: a page stands twice in the tree of pages`);
    seen.add(own);
    if (depth > limits.nesting) throw new BeyondLimit(say`PDF: the tree of pages is too deep`);
    const dict = new Map([...inherited, ...own]);
    if (nameOf(objects.resolve(dict.get('Type'))) === 'Page') return void leaves.push({ own, page: dict });
    const passed = new Map(
      attributes.flatMap((key) => (dict.has(key) ? [[key, present(dict.get(key))] as const] : [])),
    );
    for (const kid of arrayOf(objects.resolve(dict.get('Kids')))) walk(kid, passed, depth + 1);
  };
  walk(catalog.get('Pages'), new Map(), 0);
  return leaves;
};

/** Reads a PDF from its bytes. Throws on whatever it does not fully understand, so that nothing goes unmeasured. */
export function readPdf(bytes: Uint8Array): PdfFile {
  return readOpened(openPdf(bytes));
}

/** The same of a file that is open already. */
export function readOpened(objects: PdfObjects): PdfFile {
  const catalog = dictOf(objects.resolve(objects.trailer.get('Root')));
  const leaves = listPages(objects, catalog);
  const whole = readCatalog(objects, catalog, leaves);
  const held = new Map<PdfDict, PageContent>();
  const recent = new Map<PdfDict, { content: PageContent; length: number }>();
  let [size, recentSize] = [0, 0];
  const read = (page: PdfDict): PageContent => {
    const known = held.get(page) ?? recent.get(page)?.content;
    if (known !== undefined) return known;
    const text = pageText(objects, page);
    const { length } = text;
    const content = readMarks(objects, page, text);
    // What is held stays: the file is gone through in order again and again, and the oldest would be wanted next.
    if (size + length <= heldContent) {
      size += length;
      held.set(page, content);
      return content;
    }
    recent.set(page, { content, length });
    recentSize += length;
    for (const [oldest, { length: freed }] of recent) {
      if (recentSize <= recentContent) break;
      recent.delete(oldest);
      recentSize -= freed;
    }
    return content;
  };
  return {
    ...whole,
    leaves: leaves.map(({ page }) => page),
    ownLeaves: leaves.map(({ own }) => own),
    saved: objects.saved,
    pages: leaves.map(({ page }, i) => readPage(objects, page, present(whole.labels[i]), read)),
  };
}

/** A page's content streams as one text. Two pages never share one. */
export const pageText = (objects: PdfObjects, page: PdfDict): string => {
  const contents = objects.resolve(page.get('Contents'));
  const streams = isArray(contents) ? contents.map(objects.resolve) : [contents];
  const parts = streams.map((stream) => {
    if (!isStream(stream)) throw new Error('PDF: page without content');
    return objects.decode(stream).toString('latin1');
  });
  return parts.length === 1 ? present(parts[0]) : joinParts(parts);
};

/**
 * Readers join the parts of a page by nothing, by a space or by a line end: a comment or a number that goes on into the next
 * part would be read in one way by some, in another by others.
 */
const joinParts = (parts: readonly string[]): string => {
  const text = parts.join('\n');
  const listed = listOperators(text).join('\n');
  for (const between of ['', ' '])
    if (listOperators(parts.join(between)).join('\n') !== listed)
      throw new Error(say`the content of a page is parted in the middle of a word or a comment`);
  return text;
};

const readMarks = (objects: PdfObjects, page: PdfDict, text: string): PageContent => {
  const { resolve } = objects;
  const resources = dictOf(resolve(page.get('Resources')));
  const properties = dictOf(resolve(resources.get('Properties')) ?? new Map());
  const states = dictOf(plainDict(objects, resources.get('ExtGState')));
  const layerOf = (property: string): string => {
    const group = resolve(properties.get(property));
    if (!isDict(group)) throw new Error(`PDF: no layer behind /${property}`);
    if (nameOf(group.get('Type')) !== 'OCG')
      throw new Error(`PDF: /${property} is no optional content group`);
    return textOf(resolve(group.get('Name')));
  };
  return readContent(text, layerOf, states);
};

const readPage = (
  objects: PdfObjects,
  page: PdfDict,
  label: string,
  read: (page: PdfDict) => PageContent,
): PdfPage => {
  const { resolve } = objects;
  if ((resolve(page.get('Rotate')) ?? 0) !== 0) throw new Error('PDF: rotated page');
  if ((resolve(page.get('UserUnit')) ?? 1) !== 1) throw new Error('PDF: page with its own user unit');
  const { operators } = read(page);
  const fonts = dictOf(resolve(dictOf(resolve(page.get('Resources'))).get('Font')) ?? new Map());
  return {
    mediaBox: readBox(plainValue(objects, page.get('MediaBox'))),
    label,
    digest: digestContent(Buffer.from(`${listOperators(pageText(objects, page)).join(' ')} `, 'latin1')),
    viewports: arrayOf(resolve(page.get('VP')) ?? []).map((v) => readViewport(plainValue(objects, v))),
    operators,
    fonts: [...fonts].map(([name, value]) => ({ name, value })),
    get strokes() {
      return read(page).strokes;
    },
    get fills() {
      return read(page).fills;
    },
    get letterings() {
      return read(page).letterings;
    },
  };
};

/** A dictionary of dictionaries with the references of its first level followed. */
const plainDict = ({ resolve }: PdfObjects, value: PdfValue | undefined): PdfDict =>
  new Map([...dictOf(resolve(value) ?? new Map())].map(([k, v]) => [k, present(resolve(v))]));

function readBox(value: unknown): PageBox {
  if (!Array.isArray(value) || value.length !== 4) throw new Error('PDF: a rectangle has four numbers');
  const [a, b, c, d] = value.map((v) => numberOf(v as PdfValue)) as [number, number, number, number];
  return { minX: Math.min(a, c), minY: Math.min(b, d), maxX: Math.max(a, c), maxY: Math.max(b, d) };
}

interface PlainFormat {
  readonly U?: string;
  readonly C?: number;
}
interface PlainViewport {
  readonly Name?: string;
  readonly BBox?: unknown;
  readonly Measure?: {
    readonly Subtype?: string;
    readonly R?: string;
    readonly X?: PlainFormat[];
    readonly Y?: PlainFormat[];
    readonly D?: PlainFormat[];
    readonly A?: PlainFormat[];
    readonly O?: number[];
  };
}

/**
 * ISO 32000-1 tables 260 to 262: `X`[0] `C` takes default user space to the largest unit along x, `Y` likewise (as `X` where
 * absent), `D` and `A` are required and start from that unit, `O` is in default user space and defaults to the box's corner.
 */
function readViewport(value: unknown): Viewport {
  const { BBox, Measure, Name } = value as PlainViewport;
  const box = readBox(BBox);
  if (!Measure || (Measure.Subtype ?? 'RL') !== 'RL')
    throw new Error('PDF: viewport without a rectilinear measure');
  const { R, X, Y = X, D, A, O = [box.minX, box.minY] } = Measure;
  const [x, y] = [X?.[0], Y?.[0]];
  if (typeof R !== 'string' || !D?.[0] || !A?.[0]) throw new Error('PDF: measure without R, D or A');
  if (typeof x?.U !== 'string' || typeof y?.U !== 'string' || x.U !== y.U)
    throw new Error('PDF: measure of mixed or no units');
  const [scaleX, scaleY] = [trueScale(numberOf(x.C)), trueScale(numberOf(y.C))];
  if (!(scaleX > 0 && scaleY > 0)) throw new Error('PDF: measure with a scale of nothing');
  return {
    box,
    name: Name ?? '',
    ratio: R,
    origin: { x: numberOf(O[0]), y: numberOf(O[1]) },
    scale: { x: scaleX, y: scaleY },
    unit: x.U,
  };
}

/** pdfkit rounds 25.4/72 to 0.352778, which would make a metre 0.6 µm too long: a factor that rounds to it is taken as exact. */
const trueScale = (c: number): number => (Math.abs(c - 25.4 / 72) <= 5e-7 ? 25.4 / 72 : c);

/** A stroke or fill taken to its sheet's frame: points in sheet mm, x right and y up from the sheet's origin. */
export type SheetStroke = PdfStroke & Where;
export type SheetFill = PdfFill & Where;

/** The page (1-based) a line is on, and which of the shares of that page. */
export interface Where {
  readonly page: number;
  readonly share: number;
}

/** A share of a sheet on a page: how page points go to sheet mm there. */
interface Frame {
  readonly name: string;
  /** The ground it takes, page points. */
  readonly box: PageBox;
  readonly toSheet: (p: Vec2) => Vec2;
}

/** The shares of sheets that a page (1-based) shows. Throws where one is not measured in mm. */
export const pageFrames = (file: PdfFile, page: number): readonly Frame[] =>
  (file.pages[page - 1]?.viewports ?? []).map(({ box, name, origin, scale, unit }) => {
    if (unit !== 'mm') throw new Error(`page ${page} is measured in ${unit}, not mm`);
    return { name, box, toSheet: (p) => ({ x: (p.x - origin.x) * scale.x, y: (p.y - origin.y) * scale.y }) };
  });

/** What follows the sheet's name in the name of a share: its row and column, or that it is notes. */
const SHARE = /^(?:| \d+\.\d+| notes(?: \d+)?)$/;

/** Those of a page's shares that show a sheet. Throws where there is none. */
const framesOf = (file: PdfFile, page: number, sheet: string): readonly Frame[] => {
  const frames = pageFrames(file, page);
  const found = frames.filter(({ name }) => name.startsWith(sheet) && SHARE.test(name.slice(sheet.length)));
  // Another program may drop the names when it saves the file again.
  const [only, more] = frames;
  if (only?.name === '' && !more) return [only];
  if (found.length === 0) throw new Error(`page ${page} shows nothing of ${sheet}`);
  return found;
};

/** A share's lines are cut at its edge, so that one point decides. */
const isIn = ({ minX, minY, maxX, maxY }: PageBox, { x, y }: Vec2): boolean =>
  x >= minX - 0.01 && x <= maxX + 0.01 && y >= minY - 0.01 && y <= maxY + 0.01;

/** The 1-based pages of a sheet, as the attachment names them. Throws where there is no such sheet or page. */
export function sheetPages(file: PdfFile, sheet: string): readonly number[] {
  const found = file.record?.sheets.filter((s) => s.name === sheet) ?? [];
  if (found.length !== 1) throw new Error(`${found.length} sheets named ${sheet} in soapstone.json`);
  const { pages } = present(found[0]);
  if (pages.length === 0 || pages.some((p) => !file.pages[p - 1]))
    throw new Error(`sheet ${sheet} names pages that are not there`);
  return pages;
}

function gather<T extends PdfStroke | PdfFill>(
  file: PdfFile,
  sheet: string,
  layer: string | undefined,
  of: (p: PdfPage) => readonly T[],
) {
  return sheetPages(file, sheet).flatMap((page) => {
    const drawn = present(file.pages[page - 1]);
    const isAlone = drawn.viewports.length === 1;
    return framesOf(file, page, sheet).flatMap(({ box, toSheet }, share) =>
      of(drawn)
        .filter((item) => layer === undefined || item.layer === layer)
        .filter(({ path }) => isAlone || path.every(({ start }) => isIn(box, start)))
        .map((item) => ({
          ...item,
          page,
          share,
          path: movePath(item.path, toSheet),
          clips: item.clips.map((clip) => movePath(clip, toSheet)),
        })),
    );
  });
}

/** Every stroke of a sheet in sheet mm, over all its pages, of one layer or of all. Tiles overlap, so lines there come twice. */
export const sheetStrokes = (file: PdfFile, sheet: string, layer?: string): SheetStroke[] =>
  gather(file, sheet, layer, (page) => page.strokes);

/** Every fill of a sheet in sheet mm, as {@link sheetStrokes}. */
export const sheetFills = (file: PdfFile, sheet: string, layer?: string): SheetFill[] =>
  gather(file, sheet, layer, (page) => page.fills);

/** Points along a painted path no further apart than `maxStep`, only where they show: inside every clip. */
export function visiblePoints(
  painted: { readonly path: Path; readonly clips: readonly Path[] },
  maxStep: number,
): Vec2[] {
  const points = samplePath(painted.path, maxStep);
  return points.filter((p) => painted.clips.every((clip) => isInside(clip, p, maxStep)));
}
