/**
 * Measures speed as ratios, each against something that runs in turns with it on the same machine, prints them as a table and
 * fails beyond the limits. Run on a machine that does nothing else: npm run bench [-- --pieces 1000]. That is how many pieces
 * the lists have; with the usual 150 it takes some five minutes on two cores. `--record` writes the table into DEVELOPERS.md.
 */
import { execFileSync, fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type * as Library from '../../src/index.ts';
import type { Page } from '../../src/index.ts';
import { sectionPoints } from '../../tests/support/kernel.ts';
import { makeTable } from './table.ts';

const { values } = parseArgs({
  options: { pieces: { type: 'string', default: '150' }, record: { type: 'boolean', default: false } },
});
const pieces = Number(values.pieces);
const root = join(import.meta.dirname, '../..');
const program = join(root, 'dist/soapstone.js');
const bare = join(import.meta.dirname, 'bare.mjs');
const home = mkdtempSync(join(root, 'out/bench-'));
const { layouts, makeBook, readRequest } = (await import(join(root, 'dist/lib/index.js'))) as typeof Library;

const drawing = fork(join(import.meta.dirname, 'drawing.mjs'));
/** How long the library takes for something, ms. */
const time = async (order: object): Promise<number> => {
  drawing.send(order);
  const [ms] = (await once(drawing, 'message')) as [number];
  return ms;
};

const { note, finish } = makeTable();

const median = (times: readonly number[]): number =>
  times.toSorted((a, b) => a - b)[times.length >> 1] ?? NaN;

/** Medians of several measures taken in turns, so that what else the machine does falls on all alike. */
const inTurns = async (
  rounds: number,
  measures: readonly (() => number | Promise<number>)[],
): Promise<number[]> => {
  const times = measures.map((): number[] => []);
  for (let round = 0; round < rounds; round++)
    for (const [i, measure] of measures.entries()) times[i]?.push(await measure());
  return times.map(median);
};

const run = (words: readonly string[], memory?: string): string =>
  execFileSync(process.execPath, memory === undefined ? words : ['--require', join(import.meta.dirname, 'report-memory.cjs'), ...words], {
    cwd: home,
    encoding: 'utf8',
    env: { ...process.env, SOAPSTONE_BENCH: memory },
    maxBuffer: 1e8,
  }); // prettier-ignore

const wall = (words: readonly string[]): number => {
  const start = performance.now();
  run(words);
  return performance.now() - start;
};

const written = (ms: number): string =>
  ms < 10 ? `${ms.toFixed(2)} ms` : ms < 10_000 ? `${ms.toFixed(0)} ms` : `${(ms / 1000).toFixed(1)} s`;

/** A shop's list of branches that all differ. */
const cutList = (count: number): string => {
  const file = join(home, `cuts-${count}.csv`);
  const row = (i: number): string => {
    const [branch, header] =
      [
        ['2', '6'],
        ['3', '8'],
        ['4', '10'],
      ][i % 3] ?? [];
    return `B${i},branch,NPS ${branch} sch 40,NPS ${header} sch 40,${45 + ((i * 7) % 450) / 10},letter`;
  };
  writeFileSync(
    file,
    ['piece,layout,branch,header,angle,paper', ...Array.from({ length: count }, (_, i) => row(i))].join('\n'),
  );
  return file;
};

const marksOf = (name: string, books: readonly (readonly Page[])[]): string => {
  const file = join(home, `${name}.json`);
  writeFileSync(file, JSON.stringify(books));
  return file;
};

/** Different pieces whose marks the bare script draws over and over. */
const different = 15;
const branchBooks = Array.from({ length: different }, (_, i) => {
  const [branch, header] =
    [
      ['2', '6'],
      ['3', '8'],
      ['4', '10'],
    ][i % 3] ?? [];
  return makeBook(
    readRequest('branch', {
      branch: `NPS ${branch} sch 40`,
      header: `NPS ${header} sch 40`,
      angle: String(45 + ((i * 7) % 450) / 10),
      paper: 'letter',
      piece: `B${i}`,
    }),
  ).pages;
});
const branchMarks = marksOf('branches', branchBooks);
const pagesEach = branchBooks.reduce((sum, book) => sum + book.length, 0) / different;

let folders = 0;
const freshFolder = (): string => {
  const folder = join(home, `o${folders++}`);
  mkdirSync(folder);
  return folder;
};
const job =
  (count: number, ...options: readonly string[]) =>
  (): number =>
    wall([program, 'job', cutList(count), '-o', freshFolder(), ...options]);

const benchCold = async (): Promise<void> => {
  const texts = { stock: 'NPS 4 sch 40', paper: 'tabloid' };
  const marks = marksOf('band', [makeBook(readRequest('band', texts)).pages]);
  const options = Object.entries(texts).flatMap(([name, text]) => [`--${name}`, text]);
  const [ours = 0, theirs = 0] = await inTurns(11, [
    () => wall([program, 'band', ...options, '-o', 'band.pdf']),
    () => wall([bare, marks, '1', 'bare.pdf']),
  ]);
  note(
    'one sheet, cold command line / bare pdfkit',
    `${written(ours)} / ${written(theirs)}`,
    ours / theirs,
    1.15,
    'most',
  );
};

const benchLists = async (): Promise<void> => {
  const [alone = 0, files = 0, book = 0, bareFiles = 0, bareBook = 0] = await inTurns(3, [
    job(pieces, '--jobs', '1'),
    job(pieces, '--jobs', '2'),
    job(pieces, '--book', 'all.pdf'),
    () => Number(run([bare, branchMarks, String(pieces), freshFolder()])),
    () => Number(run([bare, branchMarks, String(pieces), 'bare-book.pdf'])),
  ]);
  const list = `${pieces} pieces of ${pagesEach.toFixed(1)} pages`;
  note(
    `${list} as files / bare pdfkit`,
    `${written(files)} / ${written(bareFiles)}`,
    files / bareFiles,
    0.6,
    'most',
  );
  note(
    `${list} as a book / bare pdfkit`,
    `${written(book)} / ${written(bareBook)}`,
    book / bareBook,
    0.6,
    'most',
  );
  note(
    `job --jobs 1 / --jobs 2, ${list}`,
    `${written(alone)} / ${written(files)}`,
    alone / files,
    1.7,
    'least',
  );
};

const benchGrowth = async (): Promise<void> => {
  const [few, many] = [Math.ceil(pieces / 5), pieces * 2];
  const start = await inTurns(5, [() => wall([program, 'layouts'])]);
  const [short = 0, long = 0] = await inTurns(3, [job(few, '--jobs', '1'), job(many, '--jobs', '1')]);
  const each = (total: number, count: number): number => (total - (start[0] ?? 0)) / count;
  const [ofFew, ofMany] = [each(short, few), each(long, many)];
  note(
    `time a piece, ${many} pieces / ${few}`,
    `${written(ofMany)} / ${written(ofFew)}`,
    ofMany / ofFew,
    1.1,
    'most',
  );
};

const benchMemory = (): void => {
  const count = pieces * 4;
  const measure = (words: readonly string[]): number => {
    run(words, join(home, 'memory'));
    return Number(readFileSync(join(home, 'memory'), 'utf8')) / 1024;
  };
  const ours = measure([
    program,
    'job',
    cutList(count),
    '-o',
    freshFolder(),
    '--book',
    'all.pdf',
    '--jobs',
    '1',
  ]);
  const theirs = measure([bare, branchMarks, String(count), 'memory.pdf']);
  note(`memory of ${Math.round(count * pagesEach)} pages / bare pdfkit`, `${ours.toFixed(0)} MB / ${theirs.toFixed(0)} MB`, ours / theirs, 1.25, 'most'); // prettier-ignore
};

const benchDevelopment = async (): Promise<void> => {
  const radians = Math.PI / 3;
  const along = { x: Math.sin(radians), y: 0, z: Math.cos(radians) };
  const [radius, wall, header] = [57.15, 6.02, 84.14];
  const origin = { x: 0, y: 0, z: 0 };
  const solid = { kind: 'cylinder', through: origin, along, radius: header };
  const develop = (): Promise<number> => time({ develop: { times: 50, stock: [radius, wall], solid } });
  // The kernel is compiled before it runs; the engine compiles what is hot once it is.
  for (let i = 0; i < 20; i++) await develop();
  const [ours = 0, kernel = 0] = await inTurns(15, [
    develop,
    async () => {
      const start = performance.now();
      await sectionPoints(
        { kind: 'cylinder', through: origin, along: { x: 0, y: 0, z: 1 }, radius },
        { kind: 'cylinder', through: origin, along, radius: header },
        0.0012,
      );
      return performance.now() - start;
    },
  ]);
  note('the CAD kernel’s section / a development, within 0.0012 mm', `${written(kernel)} / ${written(ours)}`, kernel / ours, 100, 'least'); // prettier-ignore
};

/** The inputs of a layout's first example. */
const firstExample = (line: string): Record<string, string[]> => {
  const texts: Record<string, string[]> = {};
  for (const [, name = '', quoted, plain] of line.matchAll(/--([a-z-]+)(?:[ =](?:"([^"]*)"|([^-\s]\S*)))?/g))
    (texts[name] ??= []).push(quoted ?? plain ?? 'yes');
  return texts;
};

const benchSheets = async (): Promise<void> => {
  const times: number[] = [];
  for (const { id, examples } of layouts) {
    const texts = firstExample(examples[0] ?? '');
    const rounds: number[] = [];
    for (let round = 0; round < 9; round++) rounds.push(await time({ draw: [id, texts] }));
    times.push(median(rounds));
  }
  const middle = median(times);
  note('request to drawn sheet, the median layout, / 8 ms', written(middle), middle / 8, 1, 'most');
};

try {
  await benchDevelopment();
  await benchSheets();
  await benchCold();
  await benchLists();
  await benchGrowth();
  benchMemory();
  finish('npm run bench', values.record);
} finally {
  drawing.disconnect();
  rmSync(home, { recursive: true, force: true });
}
