import { markBounds } from '../drawing/extent.ts';
import type { Mark, Role, Sheet, WrittenSheet } from '../drawing/model.ts';
import { unionBox } from '../drawing/shape.ts';
import { writeSheet } from '../drawing/written.ts';
import type { Block } from './block.ts';
import type { Page } from './book.ts';
import { stretchOf } from './calibration.ts';
import { type Draft, draftNotes } from './draft.ts';
import { inkBands } from './ink.ts';
import { layOneSheet, type Laid, notesSizes, type Prepared } from './lay-sheet.ts';
import { draftStripNotes, isNarrowRoll, layNarrow } from './narrow-roll.ts';
import { type PagingOptions, supersededStrip } from './options.ts';
import { manyPagesError } from './page-limit.ts';
import { pictureBlock } from './picture-block.ts';
import { settleBox, settleSheet } from './settle.ts';
import { packSheets } from './shared-page.ts';
import { isSignedOff, signOffBlock, laidOnOf } from './sign-off.ts';
import { stretchPage } from './stretch.ts';
import { tableBlock } from './table-block.ts';
import { type Also, cautionsBlock, factsBlock, stepsBlock } from './text-blocks.ts';

/** The pages of a print, and which of them belong to which sheet (1-based). */
export interface Paged {
  readonly pages: readonly Page[];
  readonly sheets: readonly {
    readonly name: string;
    readonly heading: string;
    readonly pages: readonly number[];
  }[];
}

const blocksOf = (sheet: WrittenSheet, { second }: PagingOptions): Block[] => {
  const { also } = sheet;
  const other = (texts: readonly string[] | undefined): Also | undefined =>
    second === undefined || texts === undefined ? undefined : { language: second, texts };
  return [
    ...sheet.pictures.map(pictureBlock),
    ...sheet.tables.filter(({ rows }) => rows.length > 0).map((table) => tableBlock(table)),
    ...(sheet.steps.length > 0 ? [stepsBlock(sheet.steps, other(also?.steps))] : []),
    ...(sheet.facts.length > 0 ? [factsBlock(sheet.facts, also?.labels)] : []),
    cautionsBlock(sheet.cautions, laidOnOf(sheet), other(also?.cautions)),
    ...(isSignedOff(sheet) ? [signOffBlock] : []),
  ];
};

const inBoth = (text: string, other: string | undefined): string =>
  other === undefined || other === text ? text : `${text} · ${other}`;

/** A sheet in two languages with both in its heading, and where they are wanted in its subject, its titles and its labels. */
const withBoth =
  (parts: readonly ('subject' | 'titles' | 'labels')[]) =>
  (sheet: Sheet): Sheet => {
    const { also, heading, subject, tables, pictures } = sheet;
    if (also === undefined) return sheet;
    const more = parts.includes('subject') ? also.subject.filter((line) => !subject.includes(line)) : [];
    const titles = (
      own: readonly { readonly title: string }[],
      others: readonly string[],
    ): readonly string[] =>
      own.map(({ title }, i) => (parts.includes('titles') ? inBoth(title, others[i]) : title));
    const [tableTitles, pictureTitles] = [titles(tables, also.tables), titles(pictures, also.pictures)];
    return {
      ...sheet,
      heading: inBoth(heading, also.heading),
      subject: [...subject, ...more],
      tables: tables.map((table, i) => ({ ...table, title: tableTitles[i] ?? table.title })),
      pictures: pictures.map((picture, i) => ({ ...picture, title: pictureTitles[i] ?? picture.title })),
      also: parts.includes('labels') ? also : { ...also, labels: [] },
    };
  };

/** The heading, and how many are made from the sheet where it is more than one. */
const headingOf = ({ heading, make = 1 }: Sheet, { title }: PagingOptions): string => {
  if (make <= 1) return heading;
  const pieces = Number(title.quantity ?? 1);
  return pieces > 1
    ? `${heading}: make ${make * pieces} (${make} for each piece)`
    : `${heading}: make ${make}`;
};

/** Lines of these roles are laid on the steel; a drawing without any is a figure. */
const fullSizeRoles: ReadonlySet<Role> = new Set(['cut', 'bend', 'punch', 'station', 'reference', 'scale']);

const prepare = (drawn: Sheet, options: PagingOptions): Prepared => {
  const sheet = settleSheet(drawn);
  const boxed = sheet.marks.map((mark) => ({ mark, box: settleBox(markBounds(mark)) }));
  const written = writeSheet(sheet, options);
  return {
    name: sheet.name,
    heading: headingOf(sheet, options),
    subject: sheet.subject,
    marks: sheet.marks,
    isFullSize: sheet.marks.some(({ role }) => fullSizeRoles.has(role)),
    drawing: {
      bounds: unionBox([sheet.bounds, ...boxed.map(({ box }) => box)]),
      boxed,
      ink: inkBands(sheet.marks),
    },
    blocks: blocksOf(written, options),
    says: {
      steps: JSON.stringify(sheet.steps),
      cautions: JSON.stringify(sheet.cautions),
      pictures: JSON.stringify(sheet.pictures.map(({ title }) => title)),
    },
  };
};

const isSteel = (mark: Mark): boolean =>
  mark.kind === 'stroke' && (mark.role === 'cut' || mark.role === 'punch');

/** Marks in the order they are painted: the lines steel is cut by after all white paper, so that none is hidden, and words last. */
const paintOrder = (marks: readonly Mark[]): readonly Mark[] => [
  ...marks.filter((mark) => !isSteel(mark) && mark.kind !== 'text'),
  ...marks.filter(isSteel),
  ...marks.filter(({ kind }) => kind === 'text'),
];

const finishPage = (draft: Draft, marks: readonly Mark[], label: string, options: PagingOptions): Page => {
  const { size, views } = draft;
  const page = { ...size, label, marks: paintOrder(marks), views };
  if (options.printer === undefined) return page;
  return stretchPage(page, stretchOf(options.paper, size, options.printer));
};

/** Sheets in order with the pages they are laid on, and the notes that follow each. */
const layAll = (prepared: readonly Prepared[], options: PagingOptions): Laid[] => {
  const { mostPages = Infinity } = options;
  const laid: Laid[] = [];
  const said = new Set<string>();
  for (let i = 0; i < prepared.length;) {
    // Before the next is laid, and long before any is drawn.
    if (laid.reduce((sum, { drafts }) => sum + drafts.length, 0) > mostPages) throw manyPagesError(mostPages);
    const [sheet] = prepared.slice(i, i + 1);
    if (sheet && isNarrowRoll(options.paper)) {
      laid.push(layNarrow(sheet, options));
      i += 1;
      continue;
    }
    const shared = packSheets(prepared.slice(i), options);
    if (shared && shared.count > 1) {
      laid.push(shared.laid);
      i += shared.count;
      continue;
    }
    if (sheet) {
      const isOnce = options.notes === 'once' && said.has(sheet.says.steps);
      laid.push(layOneSheet(isOnce ? withoutSteps(sheet) : sheet, options));
      said.add(sheet.says.steps);
    }
    i += 1;
  }
  return laid;
};

/** A sheet whose steps stand on another already. */
const withoutSteps = (sheet: Prepared): Prepared => ({
  ...sheet,
  blocks: sheet.blocks.filter(({ kind }) => kind !== 'steps' && kind !== 'cautions'),
});

/**
 * Lays sheets on paper, full size: several sheets on a page where they go on one, one page where drawing and explanation
 * go on one, else tiles to be taped, with the explanation on their free ground and the rest on a page of notes after
 * them; a sheet without a drawing is notes alone. Same input, same pages. Throws a `request` UserError where the paper
 * has no room inside its margins or the overlap cannot be used. In two languages all that a sheet says is in both, or
 * only the work and the cautions where the rest would take more pages.
 */
export const paginate = (sheets: readonly Sheet[], options: PagingOptions): Paged => {
  if (options.second === undefined) return layPages(sheets, options);
  // The most that goes on the fewest pages: work and cautions are in both always.
  const [whole, ...briefer] = (
    [['subject', 'titles', 'labels'], ['titles', 'labels'], ['labels'], ['titles'], []] as const
  ).map((parts) => layPages(sheets.map(withBoth(parts)), options));
  return briefer.reduce((best, one) => (one.pages.length < best.pages.length ? one : best), whole as Paged);
};

const layPages = (sheets: readonly Sheet[], options: PagingOptions): Paged => {
  const { mostPages = Infinity } = options;
  const prepared = sheets.map((sheet) => prepare(sheet, options));
  const pages: Page[] = [];
  const labels = new Set<string>();
  const pagesOf = new Map<string, Set<number>>();
  const seen = new Set<string>();
  for (const { sheets: on, drafts: drawn, left } of layAll(prepared, options)) {
    const [first] = on;
    if (!first) continue;
    const notes =
      left.length === 0 || (options.notes === 'none' && drawn.length > 0)
        ? []
        : isNarrowRoll(options.notesPaper ?? options.paper)
          ? draftStripNotes(first, options, left)
          : draftNotes(first, options, notesSizes(first, options), left, drawn.length === 0);
    const drafts = [...drawn, ...notes];
    if (pages.length + drafts.length > mostPages) throw manyPagesError(mostPages);
    drafts.forEach((draft, i) => {
      const names = [...new Set(draft.views.map(({ sheet }) => sheet))];
      const plain = names.length > 1 ? names.join(' + ') : `${names[0] ?? ''} ${draft.name}`;
      let label = plain;
      for (let n = 2; labels.has(label); n += 1) label = `${plain} (${n})`;
      labels.add(label);
      const hasCode = i === 0;
      const marks = draft.draw({ name: draft.name, index: i + 1, count: drafts.length, hasCode });
      pages.push(finishPage(draft, [...supersededStrip(draft.size, options), ...marks], label, options));
      for (const name of names) {
        const numbers = pagesOf.get(name) ?? new Set<number>();
        pagesOf.set(name, numbers.add(pages.length));
      }
    });
    for (const { name } of on) seen.add(name);
  }
  return {
    pages,
    sheets: sheets.map(({ name, heading }) => ({ name, heading, pages: [...(pagesOf.get(name) ?? [])] })),
  };
};
