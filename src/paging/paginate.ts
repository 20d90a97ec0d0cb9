import { markBounds } from '../drawing/extent.ts';
import type { Mark, Role, Sheet, WrittenSheet } from '../drawing/model.ts';
import { unionBox } from '../drawing/shape.ts';
import { writeSheet } from '../drawing/written.ts';
import type { Block } from './block.ts';
import type { Page } from './book.ts';
import { stretchOf } from './calibration.ts';
import { cardsOf } from './card-pages.ts';
import type { Draft } from './draft.ts';
import { inkBands } from './ink.ts';
import { layAll } from './lay-all.ts';
import type { Prepared } from './lay-sheet.ts';
import { type PagingOptions, supersededStrip } from './options.ts';
import { manyPagesError } from './page-limit.ts';
import { pictureBlock } from './picture-block.ts';
import { settleBox, settleSheet } from './settle.ts';
import { isSignedOff, signOffBlock } from './sign-off.ts';
import { stretchPage } from './stretch.ts';
import { tableBlock } from './table-block.ts';
import { type Also, cautionsBlock, factsBlock, stepsBlock } from './text-blocks.ts';
import { say } from '../words/say.ts';

/** The pages of a print, and which of them belong to which sheet (1-based). */
export interface Paged {
  readonly pages: readonly Page[];
  readonly sheets: readonly {
    readonly name: string;
    readonly heading: string;
    readonly pages: readonly number[];
  }[];
}

/** A block with what it says, so that it is known again beside another sheet's. */
const saying = (block: Block, content: unknown): Block => {
  let text: string | undefined;
  return { ...block, says: () => (text ??= JSON.stringify(content)) };
};

const blocksOf = (sheet: WrittenSheet, { second }: PagingOptions): Block[] => {
  const { also, pictures, tables, steps, facts, cautions } = sheet;
  const other = (texts: readonly string[] | undefined): Also | undefined =>
    second === undefined || texts === undefined ? undefined : { language: second, texts };
  return [
    ...pictures.map((picture) => saying(pictureBlock(picture), picture)),
    ...tables.filter(({ rows }) => rows.length > 0).map((table) => saying(tableBlock(table), table)),
    ...(steps.length > 0 ? [saying(stepsBlock(steps, other(also?.steps)), steps)] : []),
    ...(facts.length > 0 ? [saying(factsBlock(facts, also?.labels), facts)] : []),
    saying(cautionsBlock(cautions, other(also?.cautions)), cautions),
    ...(isSignedOff(sheet) ? [saying(signOffBlock, '')] : []),
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
    ? say`${heading}: make ${make * pieces} (${make} for each piece)`
    : say`${heading}: make ${make}`;
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
    cards: cardsOf((sheet.cards ?? []).map(settleBox), boxed),
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

/** A page by what stands on it. */
const nameOf = ({ name }: Draft, [first = '', ...others]: readonly string[]): string => {
  if (others.length === 0) return `${first} ${name}`;
  const sheets =
    others.length > 3 ? say`${first} to ${others[others.length - 1] ?? ''}` : [first, ...others].join(' + ');
  return name.startsWith('notes') ? `${sheets} ${name}` : sheets;
};

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
  for (const { drafts, coded } of layAll(prepared, options)) {
    if (pages.length + drafts.length > mostPages) throw manyPagesError(mostPages);
    drafts.forEach((draft, i) => {
      const names = [...new Set(draft.views.map(({ sheet }) => sheet))];
      const plain = nameOf(draft, names);
      let label = plain;
      for (let n = 2; labels.has(label); n += 1) label = `${plain} (${n})`;
      labels.add(label);
      const rank = { name: draft.name, index: i + 1, count: drafts.length, hasCode: coded.has(draft) };
      const marks = draft.draw(rank);
      pages.push(finishPage(draft, [...supersededStrip(draft.size, options), ...marks], label, options));
      for (const name of names) {
        const numbers = pagesOf.get(name) ?? new Set<number>();
        pagesOf.set(name, numbers.add(pages.length));
      }
    });
  }
  return {
    pages,
    sheets: sheets.map(({ name, heading }) => ({ name, heading, pages: [...(pagesOf.get(name) ?? [])] })),
  };
};
