import { itemAt } from '../lists.ts';
import { factFinding, type Finding } from './finding.ts';
import { readFit } from './fit-record.ts';
import { readPageText, type Fonts } from './font-checks.ts';
import { LONG } from './drawn.ts';
import { measureOn } from './measure.ts';
import { sheetPages, type PdfFile } from './pdf-reader.ts';
import { readPrinted, type PrintedFigure, type PrintedFigures } from './printed-record.ts';
import { readFigures } from './printed-text.ts';
import { say } from '../words/say.ts';

/** How far a figure may lie from what is measured: mm, radians, and parts of an area; over long lengths as a part of them. */
const OFF = { mm: 0.02, rad: 2e-4, mm2: 1e-4, n: 0 } as const;

/** An outline drawn so far off makes the area of something small wrong by more than its part, mm. */
const EDGE_OFF = 0.003;

const allowedOff = (found: number, { unit = 'mm' }: PrintedFigure): number => {
  const size = Math.abs(found);
  if (unit === 'mm2') return OFF.mm2 * size + 4 * EDGE_OFF * Math.sqrt(size);
  return unit === 'mm' ? Math.max(OFF.mm, LONG * size) : OFF[unit];
};

/** How far apart two values of a figure lie; places around a part, radians, come round again. */
const between = (a: number, b: number, { unit, measured }: PrintedFigure): number => {
  const off = Math.abs(a - b);
  const isAround = unit === 'rad' && measured.kind === 'distance' && measured.along === 'onward';
  return isAround ? Math.min(off, Math.abs(2 * Math.PI - off)) : off;
};

/** A value for people. */
const show = (value: number, unit: PrintedFigure['unit'] = 'mm'): string =>
  unit === 'rad'
    ? `${((value * 180) / Math.PI).toFixed(3)}°`
    : `${value.toFixed(unit === 'n' ? 0 : 3)}${unit === 'mm2' ? ' mm²' : unit === 'mm' ? ' mm' : ''}`;

/** One printed text, what it stands beside, and the figures in it. */
interface Named {
  readonly name: string;
  readonly text: string;
  readonly figures: readonly PrintedFigure[];
}

const listTexts = ({ facts, tables }: PrintedFigures): readonly Named[] => [
  ...facts.map(({ label, ...more }) => ({ name: label, ...more })),
  ...tables.flatMap(({ rows, cells }) =>
    cells.flatMap(({ row, columns, figures }) =>
      columns
        .map((column) => rows[row]?.[column] ?? '')
        .filter((text) => text !== '')
        .map((text) => ({ name: say`${rows[row]?.[0] ?? ''} in the table`, text, figures })),
    ),
  ),
];

/** Why a text contradicts the drawing; undefined where it does not. */
const contradiction = (
  { name, text, figures }: Named,
  measure: ReturnType<typeof measureOn>,
): string | undefined => {
  const printed = readFigures(text);
  if (printed.length !== figures.length) return say`${name}: "${text}" has ${printed.length} figures`;
  for (const [i, figure] of figures.entries()) {
    let found: number;
    try {
      found = measure(figure.measured);
    } catch (error) {
      return `${name}: ${error instanceof Error ? error.message : String(error)}`;
    }
    const off = allowedOff(found, figure);
    const { value = found } = figure;
    if (!(between(found, value, figure) <= off))
      return say`${name}: ${show(found, figure.unit)}, not ${show(value, figure.unit)}`;
    if (printed[i]?.some((one) => !(between(one.value, found, figure) <= one.rounding + off)) !== false)
      return say`${name}: ${show(found, figure.unit)}, printed ${text}`;
  }
  return undefined;
};

const close = (text: string): string => text.replaceAll(' ', '');

/** True where a label stands on a page with another value than its own, and nowhere with its own. */
const isMisprinted = (pages: readonly (readonly string[])[], label: string, text: string): boolean => {
  const wanted = close(text);
  let isThere = false;
  for (const words of pages)
    for (const [i, word] of words.entries()) {
      if (word !== close(label)) continue;
      isThere = true;
      // A value may be broken over lines.
      for (let n = 1; n <= 6; n++) if (words.slice(i + 1, i + 1 + n).join('') === wanted) return false;
    }
  return isThere;
};

/** Whether a title stands on a page, broken over lines or not. */
const isTitled = (pages: readonly (readonly string[])[], title: string): boolean =>
  title !== '' && pages.some((words) => words.join('').includes(close(title)));

/** Where each word stands on the pages. */
const listPlaces = (
  pages: readonly (readonly string[])[],
): ReadonlyMap<string, readonly { readonly words: readonly string[]; readonly i: number }[]> => {
  const places = new Map<string, { readonly words: readonly string[]; readonly i: number }[]>();
  for (const words of pages)
    for (const [i, word] of words.entries()) {
      const known = places.get(word);
      if (known) known.push({ words, i });
      else places.set(word, [{ words, i }]);
    }
  return places;
};

/** The cells of a table that are not printed as recorded, by row. Nothing where the table is not printed at all. */
const misprintedRows = (
  pages: readonly (readonly string[])[],
  { title, rows, cells }: PrintedFigures['tables'][number],
): readonly string[] => {
  // A column that says the same in every row stands in the title instead.
  const widest = Math.max(0, ...rows.map(({ length }) => length));
  const kepts = Array.from(
    { length: widest },
    (_, column) => rows.length < 3 || column === 0 || rows.some((row) => row[column] !== rows[0]?.[column]),
  );
  const placesOf = listPlaces(pages);
  const wantedIn = new Map<number, Set<number>>();
  for (const { row, columns } of cells) {
    const wanted = wantedIn.get(row) ?? new Set();
    for (const column of columns) wanted.add(column);
    wantedIn.set(row, wanted);
  }
  let found = 0;
  const missing = rows.flatMap((row, r) => {
    const wanted = wantedIn.get(r) ?? new Set<number>();
    const kept = row
      .map((text, column) => ({ text: close(text), column }))
      .filter(({ text, column }) => text !== '' && kepts[column]);
    const [key, ...rest] = kept;
    const seen = new Set<number>();
    for (const { words, i } of placesOf.get(key?.text ?? '') ?? [])
      // A table too wide for its page goes on in a second one that begins with the same column.
      for (let s = 0; s < rest.length; s++)
        for (let n = 0; rest[s + n]?.text === words[i + 1 + n] && s + n < rest.length; n++)
          seen.add(rest[s + n]?.column ?? -1);
    if ([...wanted].some((column) => seen.has(column))) found++;
    return kept.some(({ column }) => column > 0 && wanted.has(column) && !seen.has(column))
      ? [row[0] ?? '']
      : [];
  });
  // A row or two may read like those of another table.
  const isPrinted = isTitled(pages, title) || 2 * found > rows.length;
  return isPrinted ? missing : [];
};

/**
 * The figures a sheet prints, facts and table cells: measured anew on its own drawing they must come out as printed, and
 * stand on its pages as recorded. A print made without its notes shows only its drawing.
 */
export const checkPrinted = (
  file: PdfFile,
  fonts: Fonts,
  { name, fit, figures }: { readonly name: string; readonly fit?: unknown; readonly figures?: unknown },
): readonly Finding[] => {
  const printed = readPrinted(figures);
  if (printed === undefined) return [];
  const measure = measureOn(file, name, readFit(fit));
  const listed = listTexts(printed);
  const wrong = listed.flatMap((figure) => contradiction(figure, measure) ?? []);
  const pages = sheetPages(file, name).map((page) =>
    readPageText(itemAt(file.pages, page - 1), fonts).map(({ text }) => close(text)),
  );
  const misprinted = [
    ...printed.facts.filter(({ label, text }) => isMisprinted(pages, label, text)).map(({ label }) => label),
    ...printed.tables.flatMap((table) => misprintedRows(pages, table)),
  ];
  const count = `${listed.length} ${listed.length === 1 ? say`figure` : say`figures`}`;
  const tell = (faults: readonly string[]): string => faults.slice(0, 5).join('; ').slice(0, 400);
  return [
    factFinding(
      say`figures as the drawing measures`,
      name,
      wrong.length === 0,
      wrong.length === 0 ? count : tell(wrong),
      say`every printed figure as it is drawn`,
    ),
    factFinding(
      say`figures as printed`,
      name,
      misprinted.length === 0,
      misprinted.length === 0 ? count : say`another value at: ${tell(misprinted)}`,
      say`every figure on the page as recorded`,
    ),
  ];
};
