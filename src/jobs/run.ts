import { makeFolder } from '../render/write-file.ts';
import { openDoneList, type Done, type DoneList } from './done-list.ts';
import { sweepWithoutHelpers } from './engine.ts';
import { makeWorks, type Made, type Making } from './make-works.ts';
import { partFile, removeParts } from './part-files.ts';
import type { Target } from './piece-maker.ts';
import type { BookWork, Plan, Work } from './plan.ts';
import { tellShare, worksOfShare, type Share } from './share.ts';
import { digestBook, Stopped, writeBook } from './write-book.ts';

/** What happens while a job runs, in order. */
export type JobEvent =
  | { readonly kind: 'begin'; readonly pieces: number }
  | Made
  | { readonly kind: 'writing'; readonly book: BookWork }
  | { readonly kind: 'book made' | 'book kept'; readonly book: BookWork; readonly done: Done };

export interface RunOptions extends Pick<Making, 'isFresh' | 'isSure' | 'threads' | 'signal'> {
  /** Makes nothing where one piece has a fault. */
  readonly isStrict: boolean;
  /** Makes this share of the pieces alone; books are left to a run of all. */
  readonly share?: Share | undefined;
  readonly onEvent: (event: JobEvent) => void;
}

/** How a run ended. */
export type Ending = 'done' | 'stopped' | 'refused';

interface Run extends RunOptions {
  readonly folder: string;
  readonly list: DoneList;
}

/** Writes the books that are not done, without the pieces that failed. */
const bindBooks = async (run: Run, books: readonly BookWork[], failed: ReadonlySet<Work>): Promise<void> => {
  for (const book of books) {
    const good = book.works.filter((work) => !failed.has(work));
    if (good.length === 0) continue;
    const isWhole = book.isWhole && good.length === book.works.length;
    const rest = { ...book, works: good, isWhole };
    run.onEvent({ kind: 'writing', book: rest });
    const done = await writeBook(run.folder, rest, run.signal);
    await run.list.add(done);
    await removeParts(run.folder, run.list, book.works);
    run.onEvent({ kind: 'book made', book: rest, done });
  }
};

const makeAll = async (run: Run, plan: Plan): Promise<Ending> => {
  const { folder, list, isFresh, isSure, threads, signal, share, onEvent } = run;
  const settled = new Map<BookWork, Done>();
  for (const book of plan.books) {
    const done = isFresh ? undefined : await list.find(book.file, digestBook(book));
    if (done !== undefined) settled.set(book, done);
  }
  const open = plan.books.filter((book) => !settled.has(book));
  const needed = new Set(open.flatMap(({ works }) => works));
  const targetsOf = (work: Work): readonly Target[] => [
    ...work.files,
    ...(needed.has(work) ? [{ file: partFile(work), format: 'part' as const }] : []),
  ];
  const works = worksOfShare(plan.works, share).filter((work) => targetsOf(work).length > 0);
  onEvent({ kind: 'begin', pieces: works.length });
  const failed = new Set<Work>();
  const making = { folder, list, works, targetsOf, isFresh, isSure, threads, signal };
  const onMade = (made: Made): void => {
    if (made.kind === 'failed') failed.add(made.work);
    onEvent(made);
  };
  if (run.isStrict) {
    const onTried = (made: Made): void => {
      if (made.kind === 'failed') onMade(made);
    };
    if (!(await makeWorks({ ...making, isTrial: true, onMade: onTried }))) return 'stopped';
    if (failed.size > 0) return 'refused';
  }
  if (!(await makeWorks({ ...making, isTrial: false, onMade }))) return 'stopped';
  for (const [book, done] of settled) onEvent({ kind: 'book kept', book, done });
  if (share === undefined) await bindBooks(run, open, failed);
  return 'done';
};

/**
 * Makes everything that is planned and not done yet, several pieces at a time. Every file is written whole or not at all and
 * noted at once, so that the same command carries on a run that was stopped in any way. A piece with a fault is
 * reported and skipped. Throws a `file` UserError where the folder cannot be written.
 */
export const runPlan = async (plan: Plan, options: RunOptions): Promise<Ending> => {
  const { folder } = plan;
  sweepWithoutHelpers();
  await makeFolder(folder, 'output');
  const list = await openDoneList(folder, options.share && tellShare(options.share));
  try {
    return await makeAll({ ...options, folder, list }, plan);
  } catch (error) {
    if (error instanceof Stopped) return 'stopped';
    throw error;
  } finally {
    await list.close();
  }
};
