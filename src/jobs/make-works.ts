import { UserError, type Failure, type Issue } from '../issue.ts';
import { breathe } from './write-book.ts';
import type { Done, DoneList } from './done-list.ts';
import { digestRequest, placeIssues } from './make.ts';
import { makePiece, type Order, type Outcome, type Target } from './piece-maker.ts';
import type { Work } from './plan.ts';
import { countThreads, openPool, type Pool } from './pool.ts';

/** Why a piece was not made: what the person can put right, or a fault of our own. */
export type Failed =
  | { readonly kind: 'issues'; readonly failure: Failure; readonly issues: readonly Issue[] }
  | { readonly kind: 'fault'; readonly error: Error };

/** What became of one piece. */
export type Made =
  | {
      readonly kind: 'made' | 'kept';
      readonly work: Work;
      readonly identity: string;
      readonly pages: number;
      /** Size of the first page, mm, where it was made. */
      readonly page?: { readonly width: number; readonly height: number } | undefined;
      /** What looks wrong in what was asked, where it was made. */
      readonly questions?: readonly string[];
    }
  | { readonly kind: 'failed'; readonly work: Work; readonly failed: Failed };

/** Pieces to be made, and how. */
export interface Making {
  readonly folder: string;
  readonly list: DoneList;
  readonly works: readonly Work[];
  readonly targetsOf: (work: Work) => readonly Target[];
  /** Tries every piece and writes nothing. */
  readonly isTrial: boolean;
  /** Makes everything again, whatever is done. */
  readonly isFresh: boolean;
  readonly isSure: boolean;
  /** Threads to make pieces on; 1 makes them on this one. */
  readonly threads: number;
  /** Stops after the pieces at hand. */
  readonly signal: AbortSignal;
  /** Hears of every piece, in their order. */
  readonly onMade: (made: Made) => void;
}

type Run = (order: Order, work: Work) => Promise<Outcome>;

const tellFailure = (work: Work, outcome: Exclude<Outcome, { kind: 'made' }>): Made => {
  if (outcome.kind === 'issues')
    return { kind: 'failed', work, failed: { ...outcome, issues: placeIssues(work, outcome.issues) } };
  const error = Object.assign(new Error('the piece was not made'), { stack: outcome.stack });
  return { kind: 'failed', work, failed: { kind: 'fault', error } };
};

/** Makes the files of one piece that are not done, and notes them. */
const makeOne = async (making: Making, work: Work, run: Run): Promise<Made> => {
  const { folder, list, isTrial, isFresh, isSure } = making;
  const targets = making.targetsOf(work);
  const found: (Done | undefined)[] = [];
  for (const { file, format } of targets)
    found.push(isFresh ? undefined : await list.find(file, digestRequest(work, format)));
  const missing = targets.filter((_, i) => found[i] === undefined);
  const [known] = found;
  if (missing.length === 0 && known !== undefined)
    return { kind: 'kept', work, identity: known.identity, pages: known.pages };
  const { spec } = work.piece.request;
  const outcome = await run({ folder, spec, targets: isTrial ? [] : missing, isSure }, work);
  // What the disk refuses to one piece it refuses to all.
  if (outcome.kind === 'issues' && outcome.failure === 'file') throw new UserError('file', outcome.issues);
  if (outcome.kind !== 'made') return tellFailure(work, outcome);
  const { identity, pages, page, questions, contents } = outcome;
  for (const [i, content] of contents.entries()) {
    const target = missing[i];
    if (target === undefined) continue;
    const request = digestRequest(work, target.format);
    await list.add({ file: target.file, request, content, identity, pages });
  }
  return { kind: 'made', work, identity, pages, page, questions };
};

/** Pieces asked for ahead of each thread, so that none waits for the next. */
const ahead = 2;

/** Makes pieces, several at a time where there are threads. False where it was stopped before all were made. */
export const makeWorks = async (making: Making): Promise<boolean> => {
  const { works, signal, onMade } = making;
  const threads = countThreads(works.length, making.threads);
  const pool: Pool | undefined = threads > 1 ? openPool(threads) : undefined;
  const run: Run = (order, work) => pool?.run(order) ?? makePiece(order, work.piece.request);
  const begun = new Set<Promise<Made>>();
  const finishFirst = async (): Promise<void> => {
    const [first] = begun;
    if (first === undefined) return;
    onMade(await first);
    begun.delete(first);
  };
  try {
    for (const work of works) {
      await breathe();
      if (signal.aborted) break;
      const piece = makeOne(making, work, run);
      // One that fails while we wait for another is reported when its turn comes.
      piece.catch(() => undefined);
      begun.add(piece);
      if (begun.size >= (pool === undefined ? 1 : ahead * threads)) await finishFirst();
    }
    while (begun.size > 0) await finishFirst();
    return !signal.aborted;
  } finally {
    await Promise.allSettled(begun);
    await pool?.close();
  }
};
