import { resolve } from 'node:path';
import { requestError, type Issue } from '../issue.ts';
import { findNearMiss } from '../near-miss.ts';
import type { Format } from '../render/formats.ts';
import { say } from '../words/say.ts';
import { fileKey, nameBookOfSome, nameFile, nameRequest } from './file-name.ts';
import { placeIssue, tellPlace } from './place.ts';
import type { Job } from './read-job.ts';
import type { Piece } from './understand.ts';

/** A piece to be made. */
export interface Work {
  readonly piece: Piece;
  /** What its files are named after, and its pages in a book. */
  readonly name: string;
  /** Its own files, by name in the output folder; its pages in a book are not among them. */
  readonly files: readonly { readonly format: Format; readonly file: string }[];
}

/** One PDF for many pieces. */
export interface BookWork {
  /** The PDF's name in the output folder. */
  readonly file: string;
  readonly works: readonly Work[];
  /** The job files it is made from. */
  readonly sources: readonly string[];
  /** False where pieces of those files are left out: they have faults, or others alone were asked for. */
  readonly isWhole: boolean;
}

/** Everything that is to be made, before anything is. */
export interface Plan {
  readonly folder: string;
  readonly works: readonly Work[];
  readonly books: readonly BookWork[];
  readonly issues: readonly Issue[];
}

export interface PlanOptions {
  readonly folder: string;
  /** Formats instead of those the files ask for. */
  readonly formats?: readonly Format[] | undefined;
  /** One book of all files instead of those they ask for. */
  readonly book?: string | undefined;
  /** Marks of the pieces to be made; all where there are none. */
  readonly only: readonly string[];
}

const nameWork = ({ mark, request }: Piece): string =>
  (mark === undefined ? undefined : nameFile(mark)) ?? nameRequest(request);

/** The pieces of the marks asked for. Throws a `request` UserError for a mark that no file has. */
const pick = (jobs: readonly Job[], only: readonly string[]): readonly Job[] => {
  if (only.length === 0) return jobs;
  const callsOf = (piece: Piece): readonly string[] => [piece.mark ?? [], nameWork(piece)].flat();
  const calls = jobs.flatMap(({ pieces }) => pieces.flatMap(callsOf));
  for (const mark of only) {
    if (calls.includes(mark)) continue;
    const lower = findNearMiss(
      mark,
      calls.map((call) => call.toLowerCase()),
    );
    const near = calls.find((call) => call.toLowerCase() === lower);
    const hint = near === undefined ? say`name the piece the way the file does` : say`did you mean ${near}?`;
    throw requestError('only', 'unknown-mark', say`no piece is marked "${mark}"`, hint);
  }
  return jobs.map((job) => ({
    ...job,
    pieces: job.pieces.filter((piece) => callsOf(piece).some((call) => only.includes(call))),
  }));
};

/** Says who has a name first; two pieces never share one. */
const claim = (taken: Map<string, string>, name: string, owner: string): string | undefined => {
  const key = fileKey(name);
  const other = taken.get(key);
  if (other === undefined) taken.set(key, owner);
  return other;
};

/** Names all files to be made. Pieces that would write over each other, or over a job file, are left out and reported. */
export const planJobs = (jobs: readonly Job[], options: PlanOptions): Plan => {
  const { folder } = options;
  const issues: Issue[] = [];
  const sources = jobs.flatMap((job) => job.sources);
  const inputs = new Map(sources.map((source) => [fileKey(resolve(source)), source]));
  const files = new Map<string, string>();
  const books = new Map<string, { works: Work[]; sources: string[]; isWhole: boolean }>();
  const works: Work[] = [];
  const picked = pick(jobs, options.only);
  const countPieces = (of: readonly Job[]): number => of.reduce((sum, { pieces }) => sum + pieces.length, 0);
  const isSome = countPieces(picked) < countPieces(jobs);
  for (const job of picked) {
    const named = options.book ?? job.book;
    const book = named !== undefined && isSome ? nameBookOfSome(named) : named;
    const asked = options.formats ?? job.formats;
    const formats = asked.length > 0 ? asked : (['pdf'] as const);
    const bound = book !== undefined && formats.includes('pdf') ? book : undefined;
    const inBook =
      bound === undefined ? undefined : (books.get(bound) ?? { works: [], sources: [], isWhole: true });
    if (bound !== undefined && inBook !== undefined) {
      const other = books.has(bound) ? undefined : claim(files, bound, job.file);
      if (other !== undefined)
        throw requestError(
          'book',
          'same-file',
          say`${bound} is also made for ${other}`,
          say`give the book another name`,
        );
      books.set(bound, inBook);
      inBook.sources.push(job.file);
      const all = jobs.find(({ file }) => file === job.file)?.pieces.length;
      if (job.issues.length > 0 || all !== job.pieces.length) inBook.isWhole = false;
    }
    const names = new Map<string, string>();
    for (const { name: taken, piece } of inBook?.works ?? [])
      names.set(fileKey(taken), tellPlace(piece.place));
    for (const piece of job.pieces) {
      const name = nameWork(piece);
      const place = tellPlace(piece.place);
      const own = formats.filter((format) => format !== 'pdf' || bound === undefined);
      const made = own.map((format) => ({ format, file: `${name}.${format}` }));
      const other =
        claim(names, name, place) ??
        made.map(({ file }) => claim(files, file, place)).find((owner) => owner !== undefined) ??
        made
          .map(({ file }) => inputs.get(fileKey(resolve(folder, file))))
          .find((owner) => owner !== undefined);
      if (other !== undefined) {
        const message = say`"${piece.mark ?? name}" would be written to the same file as ${other}`;
        const hint = say`give every piece a mark (piece) of its own, or a quantity instead of a second piece`;
        const issue = placeIssue({ code: 'same-file', path: '', message, hint }, piece.place);
        issues.push({ ...issue, piece: { name: piece.mark ?? name, place } });
        if (inBook !== undefined) inBook.isWhole = false;
        continue;
      }
      const work: Work = { piece, name, files: made };
      works.push(work);
      inBook?.works.push(work);
    }
  }
  return { folder, works, books: [...books].map(([file, book]) => ({ file, ...book })), issues };
};
