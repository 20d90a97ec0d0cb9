import { roles } from '../drawing/model.ts';
import type { PagingOptions } from '../paging/options.ts';
import type { PrintRecord } from './pdf-catalog.ts';
import { factFinding, lengthFinding, type Finding } from './finding.ts';
import { pageFrames, samplePath, type PdfFile, type PdfPage } from './pdf-reader.ts';

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

/** The file says what it is, and every page is as it was written. */
export const checkRecord = (file: PdfFile): readonly Finding[] => {
  const { record, pages } = file;
  if (record === undefined)
    return [factFinding('record', 'file', false, 'no soapstone.json inside', 'a record of the print')];
  const listed = record.sheets.flatMap((sheet) => sheet.pages);
  // Several sheets may share a page.
  const inOrder = new Set(listed).size === pages.length && Math.max(...listed) === pages.length;
  const changed = pages.flatMap((page, i) => (isAsWritten(page, record.pages?.[i]) ? [] : [page.label]));
  return [
    factFinding('record', 'file', record.program === 'soapstone', record.program, 'soapstone'),
    factFinding(
      'pages of sheets',
      'file',
      inOrder,
      `${new Set(listed).size} of ${pages.length}`,
      'every page',
    ),
    factFinding(
      'pages as written',
      'file',
      changed.length === 0,
      changed.length === 0 ? `${pages.length} unchanged` : `changed: ${changed.slice(0, 5).join(', ')}`,
      'no page changed since it was written',
    ),
    factFinding(
      'print settings',
      'file',
      file.viewerPreferences['PrintScaling'] === 'None',
      String(file.viewerPreferences['PrintScaling']),
      'None: printed at 100 %',
    ),
  ];
};

/** Two factors agree within this: a thousandth of a millimetre in half a metre. */
const FACTOR = 2e-6;

/**
 * What the pages are drawn at, against what the printer that was asked for makes of 100 % along the paper's short side (a
 * roll's width) and square to it: the product must be 1, and without a printer every page is drawn at 100 %.
 */
export const checkCorrection = (
  file: PdfFile,
  { paper, printer }: Pick<PagingOptions, 'paper' | 'printer'>,
): readonly Finding[] => {
  const { across, along } = printer ?? { across: 1, along: 1 };
  let worst = 0;
  for (const { mediaBox, viewports } of file.pages) {
    const [width, height] = [mediaBox.maxX * MM, mediaBox.maxY * MM];
    const isUpright = paper.kind === 'roll' ? Math.abs(width - paper.width) < 0.01 : width <= height;
    const [x, y] = isUpright ? [across, along] : [along, across];
    for (const { scale } of viewports)
      worst = Math.max(worst, Math.abs(scale.x / MM / x - 1), Math.abs(scale.y / MM / y - 1));
  }
  const what = printer === undefined ? 'drawn at 100 %' : `printed true by ${printer.name}`;
  return [
    factFinding(
      'correction for the printer',
      'all pages',
      worst < FACTOR,
      `${(worst * 100).toFixed(4)} % off`,
      what,
    ),
  ];
};

/** Straight strokes of one page on the scale layer, mm, along x or along y. */
const ruleLengths = (file: PdfFile, page: number, axis: 'x' | 'y'): readonly number[] => {
  const [move] = pageFrames(file, page);
  if (move === undefined) throw new Error(`page ${page} shows no sheet`);
  const along = axis;
  const across = axis === 'x' ? 'y' : 'x';
  const strokes = (file.pages[page - 1] as PdfPage).strokes.filter(({ layer }) => layer === 'scale');
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

/** The 100 mm and 4 in rules, both ways, on every page: one finding for the worst of each. */
export const checkRules = (file: PdfFile): readonly Finding[] =>
  (['x', 'y'] as const).flatMap((axis) =>
    [100, 101.6].map((length) => {
      const found = file.pages.map((_, i) => nearest(ruleLengths(file, i + 1, axis), length));
      const worst = found.reduce((a, b) => (Math.abs(b - length) > Math.abs(a - length) ? b : a), length);
      const name = length === 100 ? '100 mm rule' : '4 in rule';
      return lengthFinding(
        `${name} along ${axis}`,
        `all ${file.pages.length} pages`,
        worst,
        length,
        RULE_TOLERANCE,
      );
    }),
  );

/** No ink in the margins, mm from the paper's edges, and no layer with a strange name. */
export const checkPages = (
  file: PdfFile,
  margin: { readonly sides: number; readonly ends: number },
): readonly Finding[] => {
  let least = Infinity;
  const strange = new Set<string>();
  for (const { mediaBox, strokes, fills } of file.pages) {
    const box = {
      minX: mediaBox.minX + margin.sides / MM,
      maxX: mediaBox.maxX - margin.sides / MM,
      minY: mediaBox.minY + margin.ends / MM,
      maxY: mediaBox.maxY - margin.ends / MM,
    };
    for (const painted of [...strokes, ...fills]) {
      if (!(roles as readonly string[]).includes(painted.layer)) strange.add(painted.layer);
      const half = 'width' in painted ? painted.width / 2 : 0;
      for (const p of samplePath(painted.path, 20))
        least = Math.min(
          least,
          ...[p.x - box.minX, box.maxX - p.x, p.y - box.minY, box.maxY - p.y].map((d) => d * MM - half),
        );
    }
  }
  return [
    factFinding(
      'clear margins',
      'all pages',
      least > -0.01,
      `ink ${(-Math.min(0, least)).toFixed(2)} mm inside`,
      `none within ${margin.sides} mm of the sides and ${margin.ends} mm of top and bottom`,
    ),
    factFinding(
      'layers',
      'all pages',
      strange.size === 0,
      [...strange].join(', ') || 'known',
      'known layers only',
    ),
  ];
};
