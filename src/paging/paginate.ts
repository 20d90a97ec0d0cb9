import { checkAreSheets } from '../drawing/check-sheets.ts';
import type { Mark, Sheet } from '../drawing/model.ts';
import { say } from '../words/say.ts';
import { checkIsKind } from '../words/wrong-type.ts';
import type { Page } from './book.ts';
import { stretchOf } from './calibration.ts';
import type { Draft } from './draft.ts';
import { layAll } from './lay-all.ts';
import { type PagingOptions, supersededStrip } from './options.ts';
import { manyPagesError } from './page-limit.ts';
import { prepare, withBoth } from './prepare.ts';
import { stretchPage } from './stretch.ts';

/** The pages of a print, and which of them belong to which sheet (1-based). */
export interface Paged {
  readonly pages: readonly Page[];
  readonly sheets: readonly {
    readonly name: string;
    readonly heading: string;
    readonly pages: readonly number[];
  }[];
}

const isSteel = (mark: Mark): boolean =>
  mark.kind === 'stroke' && (mark.role === 'cut' || mark.role === 'punch');

/** Marks in the order they are painted: the lines steel is cut by after all white paper, so that none is hidden, and words last. */
const paintOrder = (marks: readonly Mark[]): readonly Mark[] => [
  ...marks.filter((mark) => !isSteel(mark) && mark.kind !== 'text'),
  ...marks.filter(isSteel),
  ...marks.filter(({ kind }) => kind === 'text'),
];

/** A page with its marks in the order they are painted, made true on its printer. */
export const finishPage = (
  { size, views }: Pick<Draft, 'size' | 'views'>,
  marks: readonly Mark[],
  label: string,
  options: PagingOptions,
): Page => {
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
  checkAreSheets(sheets);
  const hint = say`give the paging of what ${'readRequest'} returns, and an identity`;
  checkIsKind(options, ['paper', 'orientation', 'margin', 'title', 'identity'], 'options', hint);
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
