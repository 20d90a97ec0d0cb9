import { onceFor } from '../drawing/once.ts';
import { type Draft, draftNotes, isNoRoom } from './draft.ts';
import { type Laid, layOneSheet, notesSizes, type Prepared } from './lay-sheet.ts';
import { draftStripNotes, isNarrowRoll, layNarrow } from './narrow-roll.ts';
import type { PagingOptions } from './options.ts';
import { saysOf, shareBlocks } from './owned-blocks.ts';
import { manyPagesError } from './page-limit.ts';
import { packDrawings, packSheets } from './shared-page.ts';

/** Pages that are numbered together. */
export interface Run {
  readonly drafts: readonly Draft[];
  /** Those that bear the code: the first of each sheet, or of several that share it. */
  readonly coded: ReadonlySet<Draft>;
}

/** A sheet whose steps stand on another already. */
const withoutSteps = onceFor((sheet: Prepared): Prepared => ({
  ...sheet,
  blocks: sheet.blocks.filter(({ kind }) => kind !== 'steps' && kind !== 'cautions'),
}));

/** What is laid in more than one way of packing, each once. */
interface Ways {
  readonly layOne: (sheet: Prepared) => Laid;
  readonly brief: (sheet: Prepared) => Prepared;
}

/** Sheets in order with the pages they are laid on, and the notes that follow each. */
const layEach = (
  prepared: readonly Prepared[],
  options: PagingOptions,
  pack: typeof packSheets,
  { layOne, brief }: Ways,
): Laid[] => {
  const { mostPages = Infinity } = options;
  const laid: Laid[] = [];
  const said = new Set<string>();
  for (let i = 0; i < prepared.length;) {
    // Before the next is laid, and long before any is drawn.
    if (laid.reduce((sum, { drafts }) => sum + drafts.length, 0) > mostPages) throw manyPagesError(mostPages);
    const [sheet] = prepared.slice(i, i + 1);
    if (!sheet) break;
    const shared = pack(prepared.slice(i), options);
    if (shared && shared.count > 1) {
      laid.push(shared.laid);
      i += shared.count;
      continue;
    }
    const isOnce = options.notes === 'once' && said.has(sheet.says.steps);
    laid.push(layOne(isOnce ? brief(sheet) : sheet));
    said.add(sheet.says.steps);
    i += 1;
  }
  return laid;
};

/** Pages of notes for what is left of some sheets. */
const notesOf = (
  { sheets, drafts, left }: Pick<Laid, 'sheets' | 'drafts' | 'left'>,
  options: PagingOptions,
): readonly Draft[] => {
  const [first] = sheets;
  if (!first || left.length === 0 || (options.notes === 'none' && drafts.length > 0)) return [];
  if (isNarrowRoll(options.notesPaper ?? options.paper)) return draftStripNotes(first, options, left);
  const about =
    sheets.length === 1
      ? first
      : { heading: sheets.map(({ heading }) => heading).join(', '), subject: commonLines(sheets) };
  const head = { ...about, names: sheets.map(({ name }) => name) };
  return draftNotes(head, options, notesSizes(first, options), left, drafts.length === 0);
};

const commonLines = ([first, ...others]: readonly Prepared[]): readonly string[] =>
  (first?.subject ?? []).filter((line) => others.every(({ subject }) => subject.includes(line)));

/** Views and cautions that stand beside some drawing: they are not said again on notes for all. */
const seenBlocks = (laid: readonly Laid[]): ReadonlySet<string> =>
  new Set(
    laid.flatMap(({ sheets, left }) => {
      const missing = new Set(left.map(saysOf));
      return sheets
        .flatMap(({ blocks }) => blocks)
        .filter(({ kind }) => kind === 'picture' || kind === 'cautions')
        .flatMap((block) => saysOf(block) ?? [])
        .filter((said) => !missing.has(said));
    }),
  );

/** Each sheet's pages with its notes, or where that takes fewer pages, all of them with the notes of all at the end. */
const joinNotes = (laid: readonly Laid[], options: PagingOptions): Run[] => {
  const own = laid.map((one) => ({ ...one, notes: notesOf(one, options) }));
  const apart = own.map(({ drafts, notes }): Run => {
    const all = [...drafts, ...notes];
    return { drafts: all, coded: new Set(all.slice(0, 1)) };
  });
  const having = own.filter(({ notes }) => notes.length > 0);
  if (having.length < 2 || isNarrowRoll(options.notesPaper ?? options.paper)) return apart;
  const seen = seenBlocks(own);
  const left = [
    ...shareBlocks(
      having.flatMap(({ sheets: [sheet], left: blocks, isShared }) =>
        sheet && isShared !== true
          ? [{ sheet, blocks: blocks.filter((block) => !seen.has(saysOf(block) ?? '')) }]
          : [],
      ),
    ),
    ...having.flatMap(({ left: blocks, isShared }) => (isShared === true ? blocks : [])),
  ];
  const sheets = having.flatMap((one) => one.sheets);
  let joint: readonly Draft[];
  try {
    joint = notesOf({ sheets, drafts: having.flatMap(({ drafts }) => drafts), left }, options);
  } catch (error) {
    // What several sheets say in one block may be more than a page holds.
    if (!isNoRoom(error)) throw error;
    return apart;
  }
  if (joint.length >= having.reduce((sum, { notes }) => sum + notes.length, 0)) return apart;
  return [
    {
      drafts: [...own.flatMap(({ drafts }) => drafts), ...joint],
      coded: new Set(own.flatMap(({ drafts }) => drafts.slice(0, 1))),
    },
  ];
};

const countOf = (runs: readonly Run[]): number => runs.reduce((sum, { drafts }) => sum + drafts.length, 0);

/** All sheets on pages, several together where that takes fewer. */
export const layAll = (prepared: readonly Prepared[], options: PagingOptions): readonly Run[] => {
  if (isNarrowRoll(options.paper))
    return joinNotes(
      prepared.map((sheet) => layNarrow(sheet, options)),
      options,
    );
  const ways: Ways = {
    layOne: onceFor((sheet: Prepared) => layOneSheet(sheet, options)),
    brief: onceFor(withoutSteps),
  };
  const own = layEach(prepared, options, packSheets, ways);
  const apart = joinNotes(own, options);
  if (prepared.length < 2 || countOf(apart) < 2) return apart;
  const packed = layEach(prepared, options, packDrawings, ways);
  if (packed.every((one, i) => one === own[i])) return apart;
  const shared = joinNotes(packed, options);
  return countOf(shared) < countOf(apart) ? shared : apart;
};
