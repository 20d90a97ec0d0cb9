/**
 * Prints the standard templates into `out/`: a book for every job file of `templates/`, and a page of pictures to choose from.
 * Run: npm run sheets
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { basename, join, relative } from 'node:path';
import { drawRequest } from '../../src/jobs/draw-request.ts';
import { planJobs } from '../../src/jobs/plan.ts';
import { readJob } from '../../src/jobs/read-job.ts';
import { runPlan, type JobEvent } from '../../src/jobs/run.ts';
import { drawPage, tellingPage } from './page-picture.ts';
import { writeIndex, type Chapter, type Shown } from './picture-index.ts';

const root = join(import.meta.dirname, '../..');
const out = join(root, 'out');
const say = (text: string): unknown => process.stdout.write(`${text}\n`);

/** What a job file says of itself: its first comment that is not for the editor. */
const readTitle = (file: string): string => {
  const comments = readFileSync(file, 'utf8').matchAll(/^# (?!yaml-language-server)(.*)$/gm);
  return [...comments][0]?.[1] ?? basename(file, '.yaml');
};

type Made = JobEvent & { readonly kind: 'made' };

/** Draws the picture of a piece and says where it stands in its book, `before` pages after the first. */
const show = ({ work, pages, identity }: Made, before: number): Shown => {
  const { book } = drawRequest(work.piece.request, false);
  const telling = tellingPage(book);
  const page = book.pages[telling];
  if (page === undefined) throw new Error(`${work.name} has no pages`);
  const picture = `pictures/${work.name}.svg`;
  writeFileSync(join(out, picture), drawPage(page));
  return {
    piece: work.piece.mark ?? work.name,
    subject: book.subject,
    picture,
    page: before + telling + 1,
    pages,
    identity,
  };
};

const printTemplate = async (file: string): Promise<Chapter> => {
  const book = `${basename(file, '.yaml')}.pdf`;
  const job = await readJob(relative('', file));
  const plan = planJobs([job], { folder: out, book, only: [] });
  const shown: Shown[] = [];
  let cover = 0;
  let before = 0;
  const onEvent = (event: JobEvent): void => {
    if (event.kind === 'failed')
      throw event.failed.kind === 'fault' ? event.failed.error : new Error(event.failed.issues[0]?.message);
    if (event.kind === 'book made') cover = event.done.pages - before;
    if (event.kind !== 'made') return;
    shown.push(show(event as Made, before));
    before += event.pages;
  };
  const [issue] = [...job.issues, ...plan.issues];
  if (issue !== undefined) throw new Error(issue.message);
  const { signal } = new AbortController();
  await runPlan(plan, {
    isStrict: false,
    isFresh: true,
    isSure: false,
    threads: availableParallelism(),
    signal,
    onEvent,
  });
  say(`Wrote ${relative('', join(out, book))}: ${shown.length} templates on ${before} pages`);
  return { title: readTitle(file), book, shown: shown.map((one) => ({ ...one, page: one.page + cover })) };
};

mkdirSync(join(out, 'pictures'), { recursive: true });
const templates = join(root, 'templates');
const chapters: Chapter[] = [];
for (const file of readdirSync(templates)
  .filter((name) => name.endsWith('.yaml'))
  .sort())
  chapters.push(await printTemplate(join(templates, file)));
const index = join(out, 'index.html');
writeFileSync(index, writeIndex(chapters));
say(`Wrote ${relative('', index)}: pictures of all of them; open it in a browser to choose`);
