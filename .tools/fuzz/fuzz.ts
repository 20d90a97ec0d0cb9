/**
 * Tries random requests of all layouts, from the texts to the bytes and back through the proof, and a share of them through the
 * built command line. Each must end in a print that proves or in a refusal with its words, within 2 s of processor time and
 * 512 MB; anything else is told with what makes it happen again. The same seed tries the same requests.
 * Run: npm run fuzz -- --minutes N --seed S [--requests COUNT] [--workers N] [--record FILE]
 */
import { spawnSync } from 'node:child_process';
import { appendFileSync, mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';
import fc from 'fast-check';
import { bundle } from '../bundle.ts';
import { Tally } from './tally.ts';
import { requests, type FuzzRequest } from './requests.ts';
import { isDefect, Trier } from './try-in-process.ts';

const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    requests: { type: 'string', default: 'Infinity' },
    workers: { type: 'string', default: String(availableParallelism()) },
    record: { type: 'string' },
  },
});
const [minutes, seed, most, workers] = [values.minutes, values.seed, values.requests, values.workers].map(Number) as [number, number, number, number]; // prettier-ignore

const batch = 200;
/** One in so many goes through the command line. */
const throughCommandLine = 500;

const root = join(import.meta.dirname, '../..');
const home = mkdtempSync(join(root, 'out/fuzz-'));

const wordsOf = ({ layout, texts }: FuzzRequest): string[] => [
  layout,
  ...Object.entries(texts).flatMap(([name, value]) => [value].flat().map((text) => `--${name}=${text}`)),
];

/** The same through the command line: its exit code, and two lines for every refusal. */
const tryCommandLine = (request: FuzzRequest): string | undefined => {
  const words = wordsOf(request);
  // An argument cannot hold a zero byte.
  if (words.some((word) => word.includes('\0'))) return undefined;
  const { status, stderr } = spawnSync(process.execPath, [join(home, 'soapstone.js'), ...words, '-o', 'x.pdf', '-o', 'x.dxf'], { cwd: home, encoding: 'utf8' }); // prettier-ignore
  if (status === 0) return undefined;
  const isRefusal = (status === 2 || status === 3) && /^(wrong: .+\nright|mal: .+\nbien): .+\n/.test(stderr);
  return isRefusal ? undefined : `exit ${status}: ${stderr.slice(0, 500)}`;
};

/** The same defect with as few inputs as show it. */
const shrink = async (trier: Trier, request: FuzzRequest): Promise<FuzzRequest> => {
  let least = request;
  for (const name of Object.keys(request.texts)) {
    const { [name]: _, ...texts } = least.texts;
    if (isDefect(await trier.try({ ...least, texts }))) least = { ...least, texts };
  }
  return least;
};

/** A defect's kind: its layout, first words and place, whatever the numbers. */
const kindOf = ({ layout }: FuzzRequest, what: string): string =>
  `${layout} ${what
    .split('\n')
    .slice(0, 2)
    .join(' ')
    .replace(/[\d.]+/g, '#')}`;

const tally = new Tally();
const told = new Set<string>();
let end = Date.now() + minutes * 60_000;
// Stopped early, it still tells what it has tried.
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => (end = 0));

/** Requests one after another, the same for the same seed however many take them. */
function* drawRequests(): Generator<readonly [number, FuzzRequest]> {
  for (let i = 0, round = 0; ; round++)
    for (const request of fc.sample(requests, { seed: seed + round, numRuns: batch })) {
      if (i >= most || Date.now() > end) return;
      yield [i++, request];
    }
}

const work = async (drawn: Iterator<readonly [number, FuzzRequest]>): Promise<void> => {
  const trier = new Trier(join(home, 'worker.js'));
  for (let next = drawn.next(); next.done !== true; next = drawn.next()) {
    const [i, request] = next.value;
    const outcome = await trier.try(request);
    const isTyped = i % throughCommandLine === 0;
    const typed = isTyped ? tryCommandLine(request) : undefined;
    tally.count(request, outcome, isTyped, typed !== undefined);
    const defect = isDefect(outcome) ? outcome.what : typed;
    if (defect === undefined || told.has(kindOf(request, defect))) continue;
    told.add(kindOf(request, defect));
    const least = defect === typed ? request : await shrink(trier, request);
    process.stdout.write(`${defect.slice(0, 700)}\n  ${JSON.stringify(least)}\n`);
  }
  trier.close();
};

try {
  await bundle(home);
  await build({
    entryPoints: { worker: join(import.meta.dirname, 'worker.ts') },
    outdir: home,
    bundle: true,
    splitting: true,
    platform: 'node',
    format: 'esm',
    banner: { js: "import{createRequire as makeRequire}from'node:module';const require=makeRequire(import.meta.url);" }, // prettier-ignore
    logLevel: 'warning',
  });
  const drawn = drawRequests();
  await Promise.all(Array.from({ length: workers }, () => work(drawn)));
} finally {
  rmSync(home, { recursive: true, force: true });
}
const report = tally.report(`seed ${seed}, ${new Date().toISOString().slice(0, 10)}`);
process.stdout.write(report);
if (values.record !== undefined) appendFileSync(values.record, report);
if (tally.defects > 0) process.exitCode = 1;
