import { availableParallelism } from 'node:os';
import { join, resolve } from 'node:path';
import { requestError, UserError, type Issue } from '../issue.ts';
import { plainMessage } from '../jobs/place.ts';
import { planJobs, type Plan } from '../jobs/plan.ts';
import { readJob, type Job } from '../jobs/read-job.ts';
import { runPlan, type Ending, type JobEvent } from '../jobs/run.ts';
import { readShare } from '../jobs/share.ts';
import { checkBookName } from '../jobs/understand.ts';
import { findNearMiss } from '../near-miss.ts';
import { formats, isFormat, type Format } from '../render/formats.ts';
import { say } from '../words/say.ts';
import { advisePrint } from './advice.ts';
import { tellLine, type Given } from './command.ts';
import { tellFault } from './fault.ts';
import { showProgress, type Progress } from './progress.ts';

/** What was asked for once; throws a `request` UserError where it was asked for twice. */
const takeOne = (given: Given, name: string): string | undefined => {
  const texts = [given.texts[name] ?? []].flat();
  if (texts.length > 1)
    throw requestError(name, 'given-twice', say`given ${texts.length} times`, say`give it once`);
  if (texts[0]?.trim() === '')
    throw requestError(name, 'no-value', say`no value is given`, say`give one, or leave it out`);
  return texts[0];
};

const readFormats = (given: Given): readonly Format[] | undefined => {
  const text = given.texts.formats;
  if (text === undefined) return undefined;
  return [text]
    .flat()
    .flatMap((one) => one.split(','))
    .map((one) => {
      const name = one.trim().toLowerCase();
      if (isFormat(name)) return name;
      const near = findNearMiss(name, formats);
      const hint = near === undefined ? say`formats: ${formats.join(', ')}` : say`did you mean ${near}?`;
      throw requestError('formats', 'unknown-format', say`there is no format "${one.trim()}"`, hint);
    });
};

/** Most threads that can be asked for. */
const mostThreads = 256;

const readThreads = (text: string | undefined): number => {
  if (text === undefined) return availableParallelism();
  if (/^\d{1,3}$/.test(text.trim()) && Number(text) >= 1 && Number(text) <= mostThreads) return Number(text);
  throw requestError(
    'jobs',
    'not-a-number',
    say`"${text}" is not a number of pieces`,
    say`give 1 to ${mostThreads}`,
  );
};

/** Everything that went wrong, reported where it happens and remembered for the exit code. */
interface Trouble {
  readonly tell: (error: unknown) => void;
  readonly issues: readonly Issue[];
  /** 0 where there was none; the first fault's otherwise, our own before all. */
  readonly code: () => number;
}

const watchTrouble = (progress: () => Progress | undefined): Trouble => {
  const codes: number[] = [];
  const issues: Issue[] = [];
  return {
    tell: (error) => {
      progress()?.clear();
      if (error instanceof UserError) issues.push(...error.issues);
      codes.push(tellFault(error, new Set()));
    },
    issues,
    code: () => (codes.includes(1) ? 1 : (codes[0] ?? 0)),
  };
};

const readJobs = async (files: readonly string[], trouble: Trouble): Promise<readonly Job[]> => {
  const jobs: Job[] = [];
  // One file named in two ways is read once.
  for (const file of new Map(files.map((name) => [resolve(name), name])).values()) {
    try {
      const job = await readJob(file);
      if (job.issues.length > 0) trouble.tell(new UserError('request', job.issues));
      jobs.push(job);
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      trouble.tell(error);
    }
  }
  return jobs;
};

interface MadeFile {
  readonly piece: string | undefined;
  readonly files: readonly string[];
  readonly made: boolean;
  readonly pages: number;
  readonly identity: string;
}

const count = (number: number, word: string): string => `${number} ${word}${number === 1 ? '' : 's'}`;

const listEvent = (folder: string, event: JobEvent): MadeFile | undefined => {
  switch (event.kind) {
    case 'made':
    case 'kept': {
      const { work, identity, pages } = event;
      const files = work.files.map(({ file }) => join(folder, file));
      return { piece: work.piece.mark ?? work.name, files, made: event.kind === 'made', pages, identity };
    }
    case 'book made':
    case 'book kept': {
      const { file, pages, identity } = event.done;
      return {
        piece: undefined,
        files: [join(folder, file)],
        made: event.kind === 'book made',
        pages,
        identity,
      };
    }
    case 'begin':
    case 'failed':
    case 'writing':
      return undefined;
  }
};

const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
const signalCodes = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const;

/** Lets a signal stop the run after the piece it is at; the same signal once more ends the program at once. */
const catchSignals = (note: (text: string) => void) => {
  const controller = new AbortController();
  let caught: (typeof signals)[number] | undefined;
  const stop = (signal: (typeof signals)[number]): void => {
    if (caught !== undefined) process.exit(signalCodes[signal]);
    caught = signal;
    note(say`Stopping after this piece. Press again to stop now.`);
    controller.abort();
  };
  const listeners = signals.map((signal) => [signal, () => stop(signal)] as const);
  for (const [signal, listener] of listeners) process.on(signal, listener);
  return {
    signal: controller.signal,
    code: () => (caught === undefined ? 0 : signalCodes[caught]),
    release: () => {
      for (const [signal, listener] of listeners) process.off(signal, listener);
    },
  };
};

const note = (text: string): void => {
  process.stderr.write(`${text}\n`);
};

/** Pieces that were not made and why: by the first fault of each. */
const listMissing = (
  issues: readonly Issue[],
  only: readonly string[],
): readonly { readonly name: string; readonly why: string }[] => {
  const missing = new Map<string, { readonly name: string; readonly why: string }>();
  for (const issue of issues) {
    const { piece } = issue;
    if (piece === undefined || missing.has(piece.place)) continue;
    if (only.length === 0 || only.includes(piece.name))
      missing.set(piece.place, { name: piece.name, why: plainMessage(issue) });
  }
  return [...missing.values()];
};

/** Pieces named one by one at the end; with more of them the messages above are what helps. */
const mostNamed = 20;

const tellSummary = (
  ending: Ending,
  made: readonly MadeFile[],
  total: number,
  missing: ReturnType<typeof listMissing>,
): void => {
  const pieces = made.filter(({ piece }) => piece !== undefined);
  const fresh = pieces.filter((one) => one.made).length;
  const unchanged = pieces.length - fresh;
  if (ending === 'stopped')
    note(
      say`Stopped at ${pieces.length} of ${count(total, say`piece`)}: the same command carries on from here.`,
    );
  else if (ending === 'refused') note(say`Nothing was made, since a piece has a fault.`);
  else if (missing.length > 0) {
    const head = [
      say`${fresh} of ${pieces.length + missing.length} made`,
      ...(unchanged > 0 ? [say`${unchanged} unchanged`] : []),
    ].join(', ');
    const lines = missing.map(({ name, why }) => say`${name} NOT made: ${why}`);
    if (lines.length === 1) tellLine(`${head}; ${lines[0]}`);
    else {
      tellLine(say`${head}; ${lines.length} NOT made:`);
      for (const line of lines.slice(0, mostNamed)) tellLine(`  ${line}`);
      if (lines.length > mostNamed) tellLine(say`  and ${lines.length - mostNamed} more`);
    }
  } else if (pieces.length > 0)
    tellLine(
      `${[say`${count(fresh, say`piece`)} made`, ...(unchanged > 0 ? [say`${unchanged} unchanged`] : [])].join(', ')}.`,
    );
};

/** What looks wrong in what was asked of a piece: its sheets print it too. */
const tellQuestions = (event: JobEvent, progress: Progress | undefined): void => {
  if (event.kind !== 'made') return;
  for (const question of event.questions ?? []) {
    progress?.clear();
    note(say`check: ${event.work.piece.mark ?? event.work.name}: ${question}`);
  }
};

const tellFiles = ({ made, files, pages, identity }: MadeFile): void =>
  tellLine(
    say`${made ? say`Wrote` : say`Kept `} ${files.join(', ')}: ${count(pages, say`page`)}, identity ${identity}`,
  );

/** How to print what was made, by the first PDF of it. */
const tellPrinting = ({ works }: Plan, made: readonly MadeFile[]): void => {
  const file = made.flatMap(({ files }) => files).find((name) => name.endsWith('.pdf'));
  const paging = works.map(({ piece }) => piece.request.paging).find(({ paper }) => paper.kind === 'sheet');
  if (file === undefined || paging?.paper.kind !== 'sheet') return;
  advisePrint(file, paging.paper, paging.printer).forEach(tellLine);
};

/** Runs the job command and returns its exit code. */
export const runJob = async (given: Given): Promise<number> => {
  let progress: Progress | undefined;
  const trouble = watchTrouble(() => progress);
  const folder = takeOne(given, 'output') ?? '.';
  const asked = { formats: readFormats(given), book: takeOne(given, 'book') };
  const book = asked.book === undefined ? undefined : checkBookName(asked.book);
  const threads = readThreads(takeOne(given, 'jobs'));
  const shareText = takeOne(given, 'shard');
  const share = shareText === undefined ? undefined : readShare(shareText);
  const isStrict = given.flags.has('strict');
  const isJson = given.flags.has('json');

  const jobs = await readJobs(given.words, trouble);
  const only = [given.texts.only ?? []].flat().map((mark) => mark.trim());
  const plan = planJobs(jobs, { folder, formats: asked.formats, book, only });
  if (plan.issues.length > 0) trouble.tell(new UserError('request', plan.issues));
  const hasFault = trouble.code() !== 0;
  const nothing = jobs.length === 0 || plan.works.length === 0;
  if (nothing || (isStrict && hasFault)) {
    if (!nothing) note(say`Nothing was made, since a piece has a fault.`);
    return trouble.code();
  }

  const made: MadeFile[] = [];
  let total = plan.works.length;
  const onEvent = (event: JobEvent): void => {
    if (event.kind === 'begin') {
      total = event.pieces;
      progress = showProgress(event.pieces);
    }
    if (event.kind === 'failed') {
      const { failed: why } = event;
      trouble.tell(why.kind === 'issues' ? new UserError(why.failure, why.issues) : why.error);
    }
    tellQuestions(event, progress);
    const one = listEvent(folder, event);
    if (one !== undefined) made.push(one);
    if (one !== undefined && one.files.length > 0 && !isJson) {
      progress?.clear();
      tellFiles(one);
    }
    if (event.kind === 'made' || event.kind === 'kept' || event.kind === 'failed')
      progress?.step(event.kind === 'made');
    if (event.kind === 'writing') progress?.tell(say`writing ${event.book.file}`);
  };

  const stopping = catchSignals((text) => {
    progress?.clear();
    note(text);
  });
  let ending: Ending;
  try {
    ending = await runPlan(plan, {
      isStrict,
      isFresh: given.flags.has('fresh'),
      isSure: given.flags.has('yes'),
      threads,
      share,
      signal: stopping.signal,
      onEvent,
    });
  } finally {
    progress?.clear();
    stopping.release();
  }
  if (isJson) tellLine(JSON.stringify({ ending, made, faults: trouble.issues }, null, 2));
  else {
    if (ending === 'done') tellPrinting(plan, made);
    if (ending === 'done' && share !== undefined && plan.books.length > 0)
      tellLine(say`When every share is made, the same command without --shard binds the book.`);
    // Last, so that it is what is read.
    tellSummary(ending, made, total, listMissing(trouble.issues, only));
  }
  return ending === 'stopped' ? stopping.code() : trouble.code();
};
