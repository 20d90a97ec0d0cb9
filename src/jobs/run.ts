import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { UserError, fileError } from '../issue.ts';
import type { Format } from '../render/formats.ts';
import { writeFile } from '../render/write-file.ts';
import { breathe, digestBook, Stopped, writeBook } from './book.ts';
import { digest, openDoneList, type Done, type DoneList } from './done-list.ts';
import { digestRequest, drawWork, renderFile, tellFailure, type Drawn, type Failed } from './make.ts';
import { partFile, removeParts, savePart } from './parts.ts';
import type { BookWork, Plan, Work } from './plan.ts';

/** What happens while a job runs, in order. */
export type JobEvent =
  | { readonly kind: 'begin'; readonly pieces: number }
  | {
      readonly kind: 'made' | 'kept';
      readonly work: Work;
      readonly identity: string;
      readonly pages: number;
      /** The drawing, where it was made. */
      readonly drawn: Drawn | undefined;
    }
  | { readonly kind: 'failed'; readonly work: Work; readonly failed: Failed }
  | { readonly kind: 'writing'; readonly book: BookWork }
  | { readonly kind: 'book made' | 'book kept'; readonly book: BookWork; readonly done: Done };

export interface RunOptions {
  /** Makes nothing where one piece has a fault. */
  readonly isStrict: boolean;
  /** Makes everything again, whatever is done. */
  readonly isFresh: boolean;
  /** Lets a piece have any number of pages. */
  readonly isSure: boolean;
  /** Stops the run after the piece it is at. */
  readonly signal: AbortSignal;
  readonly onEvent: (event: JobEvent) => void;
}

/** How a run ended. */
export type Ending = 'done' | 'stopped' | 'refused';

interface Run extends RunOptions {
  readonly folder: string;
  readonly list: DoneList;
}

interface Target {
  readonly file: string;
  readonly format: Format | 'part';
}

const findDone = async (run: Run, work: Work, { file, format }: Target): Promise<Done | undefined> =>
  run.isFresh ? undefined : run.list.find(file, digestRequest(work, format));

const writeOne = async (run: Run, work: Work, { file, format }: Target, drawn: Drawn): Promise<void> => {
  if (format === 'part') return savePart(run.folder, run.list, work, drawn);
  const bytes = await renderFile(format, drawn);
  await writeFile(join(run.folder, file), bytes);
  const { identity, book } = drawn;
  const request = digestRequest(work, format);
  await run.list.add({ file, request, content: digest(bytes), identity, pages: book.pages.length });
};

/** Makes the files of a piece that are not done. False where the piece has a fault. */
const makeWork = async (run: Run, work: Work, targets: readonly Target[]): Promise<boolean> => {
  const found = await Promise.all(targets.map((target) => findDone(run, work, target)));
  const missing = targets.filter((_, i) => found[i] === undefined);
  const [known] = found;
  if (missing.length === 0 && known !== undefined) {
    run.onEvent({ kind: 'kept', work, identity: known.identity, pages: known.pages, drawn: undefined });
    return true;
  }
  try {
    const drawn = drawWork(work, run.isSure);
    for (const target of missing) await writeOne(run, work, target, drawn);
    const { identity, book } = drawn;
    run.onEvent({ kind: 'made', work, identity, pages: book.pages.length, drawn });
    return true;
  } catch (error) {
    // What the disk refuses to one piece it refuses to all.
    if (error instanceof UserError && error.failure === 'file') throw error;
    run.onEvent({ kind: 'failed', work, failed: tellFailure(work, error) });
    return false;
  }
};

/** Draws every piece that is not done and writes nothing. False where one has a fault. */
const checkAll = async (
  run: Run,
  plan: Plan,
  targetsOf: (work: Work) => readonly Target[],
): Promise<boolean> => {
  let isGood = true;
  for (const work of plan.works) {
    await breathe();
    if (run.signal.aborted) throw new Stopped();
    const found = await Promise.all(targetsOf(work).map((target) => findDone(run, work, target)));
    if (found.every((done) => done !== undefined)) continue;
    try {
      drawWork(work, run.isSure);
    } catch (error) {
      isGood = false;
      run.onEvent({ kind: 'failed', work, failed: tellFailure(work, error) });
    }
  }
  return isGood;
};

const makeAll = async (run: Run, plan: Plan): Promise<Ending> => {
  const settled = new Map<BookWork, Done>();
  for (const book of plan.books) {
    const done = run.isFresh ? undefined : await run.list.find(book.file, digestBook(book));
    if (done !== undefined) settled.set(book, done);
  }
  const open = plan.books.filter((book) => !settled.has(book));
  const needed = new Set(open.flatMap(({ works }) => works));
  const targetsOf = (work: Work): readonly Target[] => [
    ...work.files,
    ...(needed.has(work) ? [{ file: partFile(work), format: 'part' as const }] : []),
  ];
  const works = plan.works.filter((work) => targetsOf(work).length > 0);
  run.onEvent({ kind: 'begin', pieces: works.length });
  if (run.isStrict && !(await checkAll(run, { ...plan, works }, targetsOf))) return 'refused';
  const failed = new Set<Work>();
  for (const work of works) {
    await breathe();
    if (run.signal.aborted) return 'stopped';
    if (!(await makeWork(run, work, targetsOf(work)))) failed.add(work);
  }
  for (const [book, done] of settled) run.onEvent({ kind: 'book kept', book, done });
  for (const book of open) {
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
  return 'done';
};

/**
 * Makes everything that is planned and not done yet, one piece after the other. Every file is written whole or not at all and
 * noted at once, so that a run that was stopped in any way is carried on by the same command. A piece with a fault is told and
 * passed over. Throws a `file` UserError where the folder cannot be written.
 */
export const runPlan = async (plan: Plan, options: RunOptions): Promise<Ending> => {
  const { folder } = plan;
  await mkdir(folder, { recursive: true }).catch((error: unknown) => {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    throw fileError(
      'output',
      'no-folder',
      `cannot make the folder ${folder}: ${code}`,
      'name another folder',
    );
  });
  const list = await openDoneList(folder);
  try {
    return await makeAll({ ...options, folder, list }, plan);
  } catch (error) {
    if (error instanceof Stopped) return 'stopped';
    throw error;
  } finally {
    await list.close();
  }
};
