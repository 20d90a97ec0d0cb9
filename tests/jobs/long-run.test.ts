import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildCommandLine, type CommandLine } from '../support/command-line.ts';

/** A shop's largest list; fewer pieces in everyday tests. `SOAPSTONE_PIECES=1000` runs it whole. */
const pieces = Number(process.env.SOAPSTONE_PIECES ?? 16);

let program: CommandLine;
beforeAll(async () => {
  program = await buildCommandLine();
});
afterAll(() => program.close());

/** A cut list whose pieces all differ. */
const cutList = (paper: string): string =>
  [
    'piece,layout,pipe,height,paper,quantity',
    ...Array.from({ length: pieces }, (_, i) => {
      const [size, schedule] = [['1', '1-1/2', '2'][i % 3], ['40', '80'][i % 2]];
      return `P${String(i + 1).padStart(4, '0')},band,NPS ${size} sch ${schedule},${60 + (i % 50)}mm,${paper},${(i % 9) + 1}`;
    }),
  ].join('\r\n');

const makeFolder = (paper = 'tabloid'): string => {
  const folder = program.makeFolder();
  writeFileSync(join(folder, 'cuts.csv'), cutList(paper));
  return folder;
};

const readAll = (folder: string): Map<string, Buffer> => {
  const out = join(folder, 'out');
  const files = readdirSync(out, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return new Map(
    files.map((entry) => [entry.name, readFileSync(join(entry.parentPath, entry.name))] as const),
  );
};

interface Stopped {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stderr: string;
}

/** Run in the program itself, so that the signal comes at its time however slow the machine is: after so many files. */
const signalWhen = (signal: NodeJS.Signals, written: number): string => `
  import { isMainThread } from 'node:worker_threads';
  const write = process.stdout.write.bind(process.stdout);
  let left = ${written};
  if (isMainThread)
    process.stdout.write = (chunk, ...rest) => {
      const went = write(chunk, ...rest);
      const before = left;
      left -= String(chunk).split('\\n').filter((line) => line.startsWith('Wrote ')).length;
      if (before > 0 && left <= 0) process.kill(process.pid, '${signal}');
      return went;
    };
`;

/** Starts a run that is sent a signal when half of its pieces are written. */
const stop = (folder: string, words: readonly string[], signal: NodeJS.Signals): Promise<Stopped> =>
  new Promise((resolve, reject) => {
    const code = encodeURIComponent(signalWhen(signal, pieces / 2));
    const child = program.start(folder, words, ['--import', `data:text/javascript,${code}`]);
    let stderr = '';
    child.stdout?.resume();
    child.stderr?.on('data', (chunk) => (stderr += String(chunk)));
    child.on('error', reject);
    child.on('close', (code, by) => resolve({ code, signal: by, stderr }));
  });

describe(`${pieces} pieces from a cut list`, () => {
  const words = ['job', 'cuts.csv', '--jobs', '2', '-o', 'out'];
  let whole: Map<string, Buffer>;
  beforeAll(() => {
    const folder = makeFolder();
    expect(program.run(folder, words).code).toBe(0);
    whole = readAll(folder);
    expect(whole.size).toBe(pieces + 1);
  }, 1_800_000);

  it.each<[NodeJS.Signals, number | null]>([
    ['SIGINT', 130],
    ['SIGTERM', 143],
  ])(
    'stopped half way by %s and continued, are the same bytes as unbroken',
    async (signal, code) => {
      const folder = makeFolder();
      const stopped = await stop(folder, words, signal);
      expect(stopped.code).toBe(code);
      const [, at] = /Stopped at (\d+) of \d+ pieces/.exec(stopped.stderr) ?? [];
      const before = readAll(folder);
      expect(before.size).toBe(Number(at) + 1);
      expect(before.size).toBeLessThan(whole.size);
      const again = program.run(folder, words);
      expect(again.code).toBe(0);
      expect(again.stdout).toMatch(new RegExp(`${pieces - Number(at)} pieces? made, ${at} unchanged`));
      expect(readAll(folder)).toEqual(whole);
    },
    1_800_000,
  );

  it('killed without notice, leave no broken file, and are continued to the same bytes', async () => {
    const folder = makeFolder();
    const { signal } = await stop(folder, words, 'SIGKILL');
    expect(signal).toBe('SIGKILL');
    const isDraft = (name: string): boolean => name.endsWith('.part');
    for (const [name, bytes] of readAll(folder))
      if (name.endsWith('.pdf')) expect(bytes.equals(whole.get(name)!)).toBe(true);
    expect(program.run(folder, words).code).toBe(0);
    const after = readAll(folder);
    expect(new Map([...after].filter(([name]) => !isDraft(name)))).toEqual(whole);
  }, 1_800_000);
});

describe('a book of them', () => {
  const words = ['job', 'cuts.csv', '-o', 'out', '--book', 'all.pdf', '--formats', 'pdf,csv'];

  it.each(['tabloid', '24in-roll'])(
    'on %s, stopped half way and continued, is the same bytes as unbroken on one thread, and nothing else is left',
    async (paper) => {
      const [unbroken, broken] = [makeFolder(paper), makeFolder(paper)];
      expect(program.run(unbroken, [...words, '--jobs', '1']).code).toBe(0);
      const stopped = await stop(broken, [...words, '--jobs', '2'], 'SIGINT');
      expect(stopped.code).toBe(130);
      expect(readAll(broken).has('all.pdf')).toBe(false);
      const again = program.run(broken, [...words, '--jobs', '2']);
      expect(again.stdout).toMatch(/\d+ pieces? made, [1-9]\d* unchanged\./);
      const whole = readAll(unbroken);
      expect(whole.size).toBe(pieces + 2);
      expect(readAll(broken)).toEqual(whole);
    },
    1_800_000,
  );
});
