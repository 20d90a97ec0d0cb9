import { itemAt } from '../lists.ts';
import type { PrintRecord } from './pdf-catalog.ts';
import { rangeOf } from './cut-lines.ts';
import { factFinding, lengthFinding, type Finding } from './finding.ts';
import { hull } from './ink-checks.ts';
import {
  type Bookmark,
  type PageBox,
  pageFrames,
  type PdfFile,
  type PdfPage,
  samplePath,
} from './pdf-reader.ts';
import { present } from './present.ts';
import { roles } from './record.ts';
import type { Vec2 } from './space.ts';
import { say } from '../words/say.ts';

const MM = 25.4 / 72;
const RULE_TOLERANCE = 0.01;

type Written = NonNullable<PrintRecord['pages']>[number];

/** A page is as it was written where nothing on it, nor its size, nor its place on the sheet has changed. */
const isAsWritten = ({ digest, mediaBox, viewports }: PdfPage, written: Written | undefined): boolean => {
  if (written?.content !== digest) return false;
  if (viewports.length === 0 || viewports.length !== written.origins.length) return false;
  const { x, y } = written.stretch ?? { x: 1, y: 1 };
  const off = [
    mediaBox.minX,
    mediaBox.minY,
    mediaBox.maxX * MM - written.width,
    mediaBox.maxY * MM - written.height,
    ...viewports.flatMap(({ origin, scale }, i) => [
      origin.x * MM - (written.origins[i]?.x ?? NaN),
      origin.y * MM - (written.origins[i]?.y ?? NaN),
      // What the scale makes of a length of 1 m.
      1000 * ((scale.x / MM) * x - 1),
      1000 * ((scale.y / MM) * y - 1),
    ]),
  ];
  return off.every((length) => Math.abs(length) < 0.001);
};

/** Every page belongs to a sheet, and each sheet to pages that are there; on each page as many sheets as it has shares. */
export const takesAllPages = ({ record, pages }: PdfFile): boolean => {
  const listed = record?.sheets.flatMap((sheet) => [...new Set(sheet.pages)]) ?? [];
  const shares = pages.reduce((sum, { viewports }) => sum + viewports.length, 0);
  return (
    listed.length <= shares &&
    new Set(listed).size === pages.length &&
    listed.every((page) => page <= pages.length)
  );
};

const isKept = (preferences: Readonly<Record<string, unknown>>): boolean =>
  preferences['PrintScaling'] === 'None' && [preferences['Enforce']].flat().includes('PrintScaling');

/** The file says what it is, and every page is as it was written. */
export const checkRecord = (file: PdfFile): readonly Finding[] => {
  const { record, pages } = file;
  if (record === undefined)
    return [
      factFinding(say`record`, say`file`, false, say`no soapstone.json inside`, say`a record of the print`),
    ];
  const listed = record.sheets.flatMap((sheet) => sheet.pages);
  const changed = pages.flatMap((page, i) => (isAsWritten(page, record.pages?.[i]) ? [] : [page.label]));
  return [
    factFinding(
      say`record`,
      say`file`,
      record.program === 'soapstone',
      record.program.slice(0, 40),
      'soapstone',
    ),
    factFinding(
      say`pages of sheets`,
      say`file`,
      takesAllPages(file),
      say`${new Set(listed).size} of ${pages.length}`,
      say`every page`,
    ),
    factFinding(
      say`pages as written`,
      say`file`,
      changed.length === 0 && record.pages?.length === pages.length,
      changed.length === 0 ? say`${pages.length} unchanged` : say`changed: ${changed.slice(0, 5).join(', ')}`,
      say`no page changed since it was written`,
    ),
    factFinding(
      say`print settings`,
      say`file`,
      isKept(file.viewerPreferences),
      String(file.viewerPreferences['PrintScaling']),
      say`None: printed at 100 %`,
    ),
    factFinding(
      say`page names`,
      say`file`,
      namesAreTrue(file),
      say`${pages.length} pages`,
      say`every page, viewport and bookmark by the name of its sheet and page`,
    ),
  ];
};

/** Page labels, viewports and bookmarks say the same name of a page, and bookmarks lead to it. */
const namesAreTrue = ({ pages, bookmarks, record }: PdfFile): boolean => {
  const isNamed = ({ label, viewports }: PdfPage): boolean =>
    viewports.length !== 1 || viewports[0]?.name === label;
  if (!pages.every(isNamed)) return false;
  const leadsHome = ({ title, page, children }: Bookmark): boolean =>
    children.length === 0 && page !== undefined && pages[page - 1]?.label === title;
  const sheets = record?.sheets.filter(({ pages: own }) => own.length > 0) ?? [];
  return (
    bookmarks.length === sheets.length &&
    bookmarks.every(({ title, page, children }, i) => {
      const sheet = sheets[i];
      const inOrder = children.every((child, k) => leadsHome(child) && child.page === sheet?.pages[k]);
      return title === sheet?.name && page === sheet.pages[0] && inOrder;
    })
  );
};

/** Two factors agree within this: a thousandth of a millimetre in half a metre. */
const FACTOR = 2e-6;

/** The factors a page is drawn at, along x and y, that make the printer it was asked for print it true. */
const correctionOf = ({ width, height, printer }: Written): { readonly x: number; readonly y: number } => {
  if (printer === undefined) return { x: 1, y: 1 };
  const { across, along, roll } = printer;
  const isUpright = roll === undefined ? width <= height : Math.abs(width - roll) < 0.01;
  return isUpright ? { x: across, y: along } : { x: along, y: across };
};

/**
 * What the pages are drawn at, against what the printer that was asked for makes of 100 % along the paper's short side (a
 * roll's width) and square to it: the product must be 1, and without a printer every page is drawn at 100 %.
 */
export const checkCorrection = ({ pages, record }: PdfFile): readonly Finding[] => {
  let worst = 0;
  pages.forEach(({ viewports }, i) => {
    const written = present(record?.pages?.[i]);
    const { x, y } = correctionOf(written);
    for (const { scale } of viewports)
      worst = Math.max(worst, Math.abs(scale.x / MM / x - 1), Math.abs(scale.y / MM / y - 1));
  });
  const printers = new Set(record?.pages?.flatMap(({ printer }) => printer?.name.slice(0, 40) ?? []));
  return [
    factFinding(
      say`correction for the printer`,
      say`all pages`,
      worst < FACTOR,
      say`${(worst * 100).toFixed(4)} % off`,
      printers.size === 0
        ? say`drawn at 100 %`
        : say`printed true by ${[...printers].slice(0, 3).join(', ')}`,
    ),
  ];
};

/** Straight strokes of one page on the scale layer, mm, along x or along y. */
const ruleLengths = (file: PdfFile, page: number, axis: 'x' | 'y'): readonly number[] => {
  const [move] = pageFrames(file, page);
  if (move === undefined) throw new Error(`page ${page} shows no sheet`);
  const along = axis;
  const across = axis === 'x' ? 'y' : 'x';
  const strokes = itemAt(file.pages, page - 1).strokes.filter(({ layer }) => layer === 'scale');
  return strokes.flatMap(({ path }) => {
    const [only, ...others] = path;
    const segment = only?.segments[0];
    if (!only || others.length > 0 || only.segments.length !== 1 || segment?.kind !== 'line') return [];
    const [a, b] = [move.toSheet(only.start), move.toSheet(segment.to)];
    return Math.abs(a[across] - b[across]) < 1e-6 ? [Math.abs(a[along] - b[along])] : [];
  });
};

const nearest = (lengths: readonly number[], to: number): number =>
  lengths.reduce((best, length) => (Math.abs(length - to) < Math.abs(best - to) ? length : best), 0);

/** A rule along an axis, in words. */
interface Rule {
  readonly axis: 'x' | 'y';
  readonly length: number;
  readonly name: string;
}

const longRules = (axis: 'x' | 'y'): readonly Rule[] => [
  { axis, length: 100, name: say`100 mm rule` },
  { axis, length: 101.6, name: say`4 in rule` },
];
/** Across a strip of a roll for labels, which has no room for the long ones. */
const shortRules = (): readonly Rule[] => [
  { axis: 'y', length: 50, name: say`50 mm rule` },
  { axis: 'y', length: 50.8, name: say`2 in rule` },
];
/** Higher pages have the long rules both ways, mm. */
const mostStrip = 210;

/**
 * The 100 mm and 4 in rules, both ways, on every page, and 50 mm and 2 in across pages that are strips: one finding for the
 * worst of each.
 */
export const checkRules = (file: PdfFile): readonly Finding[] => {
  const numbers = file.pages.map((_, i) => i + 1);
  const strips = numbers.filter((number) => {
    const { mediaBox } = itemAt(file.pages, number - 1);
    const isLow = (mediaBox.maxY - mediaBox.minY) * MM < mostStrip;
    // Lines of other lengths may come near one rule by chance, not near both.
    const lengths = ruleLengths(file, number, 'y');
    const off = (rules: readonly Rule[]): number =>
      Math.max(...rules.map(({ length }) => Math.abs(nearest(lengths, length) - length)));
    return isLow && off(shortRules()) < off(longRules('y'));
  });
  const check = ({ axis, length, name }: Rule, pages: readonly number[]): readonly Finding[] => {
    if (pages.length === 0) return [];
    const found = pages.map((page) => nearest(ruleLengths(file, page, axis), length));
    const worst = found.reduce((a, b) => (Math.abs(b - length) > Math.abs(a - length) ? b : a), length);
    const where =
      pages.length === numbers.length ? say`all ${pages.length} pages` : say`${pages.length} pages`;
    return [lengthFinding(say`${name} along ${axis}`, where, worst, length, RULE_TOLERANCE)];
  };
  return [
    ...longRules('x').flatMap((rule) => check(rule, numbers)),
    ...longRules('y').flatMap((rule) =>
      check(
        rule,
        numbers.filter((number) => !strips.includes(number)),
      ),
    ),
    ...shortRules().flatMap((rule) => check(rule, strips)),
  ];
};

/** Ink that a margin's edge only touches, mm. */
const TOUCH = -0.01;
/** Steps along curves near a margin, points of the page. */
const STEP = 0.2;

const boundsOf = (points: readonly Vec2[]): PageBox => {
  const [[minX, maxX], [minY, maxY]] = [rangeOf(points.map(({ x }) => x)), rangeOf(points.map(({ y }) => y))];
  return { minX, minY, maxX, maxY };
};

/** Edges kept clear where the record does not say how wide, mm. */
const usualMargin = { sides: 6.5, ends: 13 };

/** No ink in the margins, mm from the paper's edges, and no layer with a strange name. */
export const checkPages = ({ pages, record }: PdfFile): readonly Finding[] => {
  let least = Infinity;
  let told = usualMargin;
  const strange = new Set<string>();
  pages.forEach(({ mediaBox, strokes, fills }, i) => {
    const { margin = usualMargin } = record?.pages?.[i] ?? {};
    if (i === 0) told = margin;
    for (const painted of [...strokes, ...fills]) {
      if (!(roles as readonly string[]).includes(painted.layer)) strange.add(painted.layer);
      const half = 'width' in painted ? painted.width / 2 : 0;
      const clearOf = (box: PageBox): number =>
        Math.min(
          Math.min(box.minX - mediaBox.minX, mediaBox.maxX - box.maxX) * MM - half - margin.sides,
          Math.min(box.minY - mediaBox.minY, mediaBox.maxY - box.maxY) * MM - half - margin.ends,
        );
      const rough = clearOf(hull(painted.path));
      // The points that steer a curve may lie beyond it.
      least = Math.min(least, rough > TOUCH ? rough : clearOf(boundsOf(samplePath(painted.path, STEP))));
    }
  });
  return [
    factFinding(
      say`clear margins`,
      say`all pages`,
      least > TOUCH,
      say`ink ${(-Math.min(0, least)).toFixed(2)} mm inside`,
      say`none within ${told.sides} mm of the sides and ${told.ends} mm of top and bottom`,
    ),
    factFinding(
      say`layers`,
      say`all pages`,
      strange.size === 0,
      [...strange].join(', ') || say`known`,
      say`known layers only`,
    ),
  ];
};
