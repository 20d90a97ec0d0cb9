/**
 * Tries random requests of all layouts, from the texts to the bytes and back through the proof, and a share of them through the
 * built command line. Each must end in a print that proves or in a refusal with its words, within 2 s of processor time and
 * 512 MB; anything else is told with what makes it happen again. The same seed tries the same requests.
 * Run: npm run fuzz -- --minutes N --seed S
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { build } from 'esbuild';
import fc from 'fast-check';
import { bundle } from '../bundle.ts';
import { requests, type FuzzRequest } from './requests.ts';
import type { Result } from './try-request.ts';

const { values } = parseArgs({
  options: { minutes: { type: 'string', default: '1' }, seed: { type: 'string', default: '1' } },
});
const [minutes, seed] = [Number(values.minutes), Number(values.seed)];

const mostMs = 2000;
const mostMegabytes = 512;
/** Longest that is waited for an answer: others may share the machine. */
const patience = 120_000;
const batch = 200;
/** One in so many goes through the command line. */
const throughCommandLine = 200;

const root = join(import.meta.dirname, '../..');
const home = mkdtempSync(join(root, 'out/fuzz-'));

interface Tried {
  readonly result: Result;
  readonly ms: number;
}

let worker: Worker | undefined;

const tryOnce = (request: FuzzRequest): Promise<Tried> =>
  new Promise((resolve) => {
    worker ??= new Worker(join(home, 'worker.js'), {
      resourceLimits: { maxOldGenerationSizeMb: mostMegabytes },
    });
    const running = worker;
    const finish = (tried: Tried): void => {
      clearTimeout(timer);
      running.off('message', finish).off('error', fail).off('exit', leave);
      resolve(tried);
    };
    const lose = (what: string): void => {
      worker = undefined;
      finish({ result: { kind: 'defect', what }, ms: Infinity });
      void running.terminate();
    };
    const fail = (error: Error): void => lose(`ended: ${error.message}`);
    const leave = (): void => lose('ended');
    const timer = setTimeout(() => lose(`no answer within ${patience} ms`), patience);
    running.on('message', finish).on('error', fail).on('exit', leave);
    running.postMessage(request);
  });

/** `printed`, `refused` or what is wrong: the request tried, again where it took too long: the first ones of a kind pay for the engine's compiling. */
const tryRequest = async (request: FuzzRequest): Promise<string> => {
  let best = Infinity;
  for (let i = 0; i < 3; i++) {
    const { result, ms } = await tryOnce(request);
    if (result.kind === 'defect') return result.what;
    best = Math.min(best, ms);
    if (best <= mostMs) return result.kind;
  }
  return `${Math.round(best)} ms of processor time`;
};

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
  const isRefusal = (status === 2 || status === 3) && /^wrong: .+\nright: .+\n/.test(stderr);
  return isRefusal ? undefined : `exit ${status}: ${stderr.slice(0, 500)}`;
};

/** The same defect with as few inputs as show it. */
const shrink = async (request: FuzzRequest): Promise<FuzzRequest> => {
  let least = request;
  for (const name of Object.keys(request.texts)) {
    const { [name]: _, ...texts } = least.texts;
    const what = await tryRequest({ ...least, texts });
    if (what !== 'printed' && what !== 'refused') least = { ...least, texts };
  }
  return least;
};

const counts = { printed: 0, refused: 0, defects: 0, 'through the command line': 0 };
const told = new Set<string>();
const end = Date.now() + minutes * 60_000;
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
  for (let round = 0; Date.now() < end; round++) {
    for (const [i, request] of fc.sample(requests, { seed: seed + round, numRuns: batch }).entries()) {
      if (Date.now() > end) break;
      const what = await tryRequest(request);
      if (what === 'printed' || what === 'refused') counts[what]++;
      const isTyped = (round * batch + i) % throughCommandLine === 0;
      if (isTyped) counts['through the command line']++;
      const typed = isTyped ? tryCommandLine(request) : undefined;
      const defect = what === 'printed' || what === 'refused' ? typed : what;
      if (defect === undefined) continue;
      counts.defects++;
      // Each kind of defect once a layout, by its first words and place.
      const kind = `${request.layout} ${defect
        .split('\n')
        .slice(0, 2)
        .join(' ')
        .replace(/[\d.]+/g, '#')}`;
      if (told.has(kind)) continue;
      told.add(kind);
      const least = defect === typed ? request : await shrink(request);
      process.stdout.write(`${defect.slice(0, 700)}\n  ${JSON.stringify(least)}\n`);
    }
  }
} finally {
  await worker?.terminate();
  rmSync(home, { recursive: true, force: true });
}
process.stdout.write(`seed ${seed}, ${minutes} minutes: ${Object.entries(counts).map(([what, count]) => `${count} ${what}`).join(', ')}\n`); // prettier-ignore
if (counts.defects > 0) process.exitCode = 1;
