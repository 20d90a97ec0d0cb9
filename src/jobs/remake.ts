import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import * as z from 'zod';
import { isBookSpec } from '../book-spec.ts';
import { requestError, UserError } from '../issue.ts';
import { layouts } from '../layouts/registry.ts';
import { makeBook } from '../print.ts';
import { guard } from '../render/file-fault.ts';
import { renderPdf } from '../render/pdf.ts';
import { readSpec, type Paging, type Request, type Spec } from '../request.ts';
import type { Place } from './place.ts';
import type { Work } from './plan.ts';
import { findCalibration } from './printer-profiles.ts';
import { checkBookName } from './understand.ts';
import { runPlan, type JobEvent } from './run.ts';
import { say } from '../words/say.ts';

/** A print that has been made again, and the paper it begins with. */
export interface Remade {
  readonly bytes: Uint8Array;
  readonly paging: Paging;
  /** Size of the first piece's first page, mm; undefined where it was not drawn here. */
  readonly page: { readonly width: number; readonly height: number } | undefined;
}

const specShape = z.object({ layout: z.string() }).catchall(z.union([z.string(), z.array(z.string())]));

const bookShape = z.object({
  book: z.string(),
  sources: z.array(z.string()),
  isWhole: z.boolean(),
  pieces: z.array(z.object({ name: z.string(), spec: specShape })).min(1),
});

const notOurs = (): UserError =>
  requestError(
    '',
    'not-a-print',
    say`the record inside the file is damaged`,
    say`give a PDF that soapstone wrote and nothing has changed since`,
  );

const read = (spec: Spec): Request => readSpec(spec, layouts, findCalibration);

const remakeBook = async (recorded: unknown, change: (spec: Spec) => Spec): Promise<Remade> => {
  const checked = bookShape.safeParse(recorded);
  if (!checked.success) throw notOurs();
  const { pieces, sources, isWhole } = checked.data;
  const book = checkBookName(checked.data.book);
  const place: Place = { file: book, line: 1, column: 1 };
  const works: readonly Work[] = pieces.map(({ name, spec }) => {
    const request = read(change(spec));
    const mark = [request.spec.piece ?? []].flat()[0];
    return { piece: { request, mark, place, placeOf: () => place }, name, files: [] };
  });
  let page: Remade['page'];
  const onEvent = (event: JobEvent): void => {
    if (event.kind === 'made') page ??= event.page;
    if (event.kind !== 'failed') return;
    const { failed } = event;
    throw failed.kind === 'fault' ? failed.error : new UserError(failed.failure, failed.issues);
  };
  const folder = await guard('make the folder', tmpdir(), () => mkdtemp(join(tmpdir(), 'soapstone-')));
  try {
    const plan = { folder, works, books: [{ file: book, works, sources, isWhole }], issues: [] };
    const { signal } = new AbortController();
    await runPlan(plan, {
      isStrict: false,
      isFresh: true,
      isSure: true,
      threads: availableParallelism(),
      signal,
      onEvent,
    });
    const [first] = works;
    if (first === undefined) throw notOurs();
    return { bytes: await readFile(join(folder, book)), paging: first.piece.request.paging, page };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
};

/**
 * Makes a print again from what its file says of it, one request or a book of many, after `change`. Throws a UserError
 * where the record is damaged or the print can no longer be made.
 */
export const remakePrint = async (recorded: unknown, change: (spec: Spec) => Spec): Promise<Remade> => {
  if (isBookSpec(recorded)) return remakeBook(recorded, change);
  const checked = specShape.safeParse(recorded);
  if (!checked.success) throw notOurs();
  const request = read(change(checked.data));
  const book = makeBook(request);
  return { bytes: await renderPdf(book), paging: request.paging, page: book.pages[0] };
};
