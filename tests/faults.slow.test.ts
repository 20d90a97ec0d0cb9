import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { buildCommandLine, type CommandLine, type Ran } from './support/command-line.ts';
import { countOf } from './support/counts.ts';
import { mountDisk, unmountDisk } from './support/disk.ts';

/** Kills, evenly over the run. */
const kills = countOf(200, 12);

let program: CommandLine;
beforeAll(async () => {
  program = await buildCommandLine();
});
afterAll(() => program.close());

const undo: (() => void)[] = [];
afterEach(() => {
  for (const step of undo.splice(0).reverse()) step();
});

const cuts = 12;
const cutList = [
  'piece,layout,stock,height,paper',
  ...Array.from(
    { length: cuts },
    (_, i) => `P${i + 1},band,NPS ${[1, 2, 3][i % 3]} sch 40,${60 + i}mm,tabloid`,
  ),
].join('\n');

const makeFolder = (): string => {
  const folder = program.makeFolder();
  writeFileSync(join(folder, 'cuts.csv'), cutList);
  return folder;
};

const band = ['band', '--stock', 'NPS 2 sch 40', '--paper', 'tabloid'];
const jobWords = ['job', 'cuts.csv', '-o', 'out', '--book', 'all.pdf', '--formats', 'pdf,csv', '--jobs', '2'];

/** All files under a folder by name. */
const readAll = (folder: string): Map<string, string> =>
  new Map(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(
        (entry) => [entry.name, readFileSync(join(entry.parentPath, entry.name)).toString('latin1')] as const,
      )
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );

const expectRefusal = ({ code, stderr }: Ran, ...names: readonly (string | RegExp)[]): void => {
  expect(stderr).toMatch(/^wrong: .+\nright: .+\n$/);
  expect(stderr).not.toMatch(/^\s+at |TypeError|undefined/m);
  for (const name of names) expect(stderr).toMatch(name);
  expect(code).toBe(4);
};

/** A disk that is taken off when the test ends. */
const mount = (folder: string, options: string): string | undefined => {
  const why = mountDisk(folder, options);
  if (why === undefined) undo.push(() => unmountDisk(folder));
  return why;
};

describe('a disk that takes no more', () => {
  it.each([
    ['full', 'size=64k'],
    ['without room for another name', 'size=8m,nr_inodes=6'],
  ])('%s: the run stops with the file named, and carries on when there is room', (_what, options) => {
    const folder = makeFolder();
    const why = mount(join(folder, 'out'), options);
    if (why !== undefined) return expect(why).toMatch(/superuser|mounted/);
    const stopped = program.run(folder, jobWords);
    expectRefusal(stopped, /out/, /full/);
    for (const name of readdirSync(join(folder, 'out'))) expect(name).not.toMatch(/\.part$/);
    expect(spawnSync('mount', ['-o', 'remount,size=64m,nr_inodes=10k', join(folder, 'out')]).status).toBe(0);
    expect(program.run(folder, jobWords)).toMatchObject({ code: 0 });
    const other = makeFolder();
    expect(program.run(other, jobWords).code).toBe(0);
    expect(readAll(join(folder, 'out'))).toEqual(readAll(join(other, 'out')));
  });

  it('read-only', () => {
    const folder = makeFolder();
    const why = mount(join(folder, 'out'), 'ro,size=64k');
    if (why !== undefined) return expect(why).toMatch(/superuser|mounted/);
    expectRefusal(program.run(folder, jobWords), /out/, /read-only/);
    expectRefusal(program.run(folder, [...band, '-o', 'out/x.pdf']), /out\/x\.pdf/, /read-only/);
  });
});

describe('files that are not what they seem', () => {
  it('names, links and folders in the way are told by their names', () => {
    const folder = makeFolder();
    writeFileSync(join(folder, 'plain'), '');
    symlinkSync('a', join(folder, 'b'));
    symlinkSync('b', join(folder, 'a'));
    const long = 'n'.repeat(300);
    for (const [file, reason] of [
      ['plain/x.pdf', /not a folder|no folder/],
      ['a/x.pdf', /circle/],
      [`${long}.pdf`, /too long/],
      [`${long}/x.pdf`, /too long/],
      ['none/x.pdf', /no folder/],
    ] as const)
      expectRefusal(program.run(folder, [...band, '-o', file]), reason);
    for (const file of ['none.csv', 'a.csv', 'plain/cuts.csv', `${long}.csv`]) {
      if (file === 'a.csv') symlinkSync('a.csv', join(folder, 'a.csv'));
      expectRefusal(program.run(folder, ['job', file]), file.slice(0, 20));
    }
    expectRefusal(program.run(folder, ['reprint', 'none.pdf']), /none\.pdf/);
    expectRefusal(program.run(folder, ['proof', 'none.pdf']), /none\.pdf/);
  });

  it('a working folder that is not there is told', () => {
    const folder = makeFolder();
    expect(program.run(folder, jobWords).code).toBe(0);
    const again = program.run(folder, ['reprint', 'out/all.pdf', '-o', 'again.pdf'], {
      TMPDIR: '/nowhere/at/all',
    });
    expectRefusal(again, /\/nowhere\/at\/all/);
  });
});

describe('what is said and nobody hears', () => {
  it('to a full disk: exit 4 in words; to a closed pipe or none at all: no fault', async () => {
    const folder = makeFolder();
    const shell = (command: string) =>
      spawnSync('sh', ['-c', command], { cwd: folder, encoding: 'utf8', env: { PATH: process.env['PATH'], NODE: process.execPath, BIN: program.bin } }); // prettier-ignore
    const full = shell('"$NODE" "$BIN" layouts > /dev/full');
    expect(full.status).toBe(4);
    expect(full.stderr).toMatch(/^wrong: .*disk is full\nright: .+\n$/);
    expect(shell('"$NODE" "$BIN" layouts | head -1').status).toBe(0);
    expect(shell('"$NODE" "$BIN" layouts >&-').stderr).toBe('');
    expect(shell('"$NODE" "$BIN" nothing 2>&-').status).toBe(2);
    const piped = spawn('sh', ['-c', '"$NODE" "$BIN" layouts --json | true'], { env: { PATH: process.env['PATH'], NODE: process.execPath, BIN: program.bin } }); // prettier-ignore
    let told = '';
    piped.stderr.on('data', (chunk) => (told += String(chunk)));
    await new Promise((resolve) => piped.on('close', resolve));
    expect(told).toBe('');
  });
});

describe('surroundings', () => {
  const bytesWith = (env: Readonly<Record<string, string>>): string => {
    const folder = makeFolder();
    const ran = program.run(
      folder,
      [...band, '-o', 'x.pdf', '-o', 'x.csv', '-o', 'x.dxf', '-o', 'x.svg'],
      env,
    );
    expect([ran.code, ran.stderr]).toEqual([0, '']);
    return JSON.stringify([...readAll(folder)]);
  };

  it('the same bytes in every language, time zone and with nothing set at all', () => {
    const plain = bytesWith({});
    const surroundings: readonly Readonly<Record<string, string>>[] = [
      { LANG: 'de_DE.UTF-8', LC_ALL: 'tr_TR.UTF-8' },
      { LANG: 'C', LC_ALL: 'POSIX' },
      { TZ: 'Pacific/Kiritimati' },
      { TZ: 'America/St_Johns', LANG: 'ar_EG.UTF-8' },
      { HOME: '', XDG_CONFIG_HOME: '', TMPDIR: '' },
      { NODE_ENV: 'production', NO_COLOR: '1', FORCE_COLOR: '3' },
    ];
    for (const env of surroundings) expect(bytesWith(env), JSON.stringify(env)).toBe(plain);
  });

  it('without a home no settings are written into the folder at hand', () => {
    const folder = makeFolder();
    const before = readdirSync(folder);
    expect(program.run(folder, ['calibrate', '--list'], { HOME: '', XDG_CONFIG_HOME: 'relative' }).code).toBe(
      0,
    );
    expect(readdirSync(folder)).toEqual(before);
  });
});

describe('several at once', () => {
  const finish = (folder: string, words: readonly string[], env = {}): Promise<number | null> =>
    new Promise((resolve) => {
      const child = program.start(folder, words, [], env);
      child.stdout?.resume();
      child.stderr?.resume();
      child.on('close', resolve);
    });

  it('two runs of one job in one folder end with the same bytes as one', async () => {
    const [one, two] = [makeFolder(), makeFolder()];
    expect(program.run(one, ['job', 'cuts.csv', '-o', 'out']).code).toBe(0);
    const codes = await Promise.all([1, 2, 3].map(() => finish(two, ['job', 'cuts.csv', '-o', 'out'])));
    expect(codes).toEqual([0, 0, 0]);
    expect(readAll(join(two, 'out'))).toEqual(readAll(join(one, 'out')));
  });

  it('shares made at the same time are bound to the same book', async () => {
    const [one, two] = [makeFolder(), makeFolder()];
    expect(program.run(one, jobWords).code).toBe(0);
    const codes = await Promise.all([1, 2, 3].map((i) => finish(two, [...jobWords, '--shard', `${i}/3`])));
    expect(codes).toEqual([0, 0, 0]);
    expect(readdirSync(join(two, 'out'))).not.toContain('all.pdf');
    expect(program.run(two, jobWords).stdout).toMatch(new RegExp(`0 pieces made, ${cuts} unchanged`));
    expect(readAll(join(two, 'out'))).toEqual(readAll(join(one, 'out')));
  });

  it('calibrations of several printers at the same time are all kept', async () => {
    const folder = makeFolder();
    const env = { SOAPSTONE_CONFIG: join(folder, 'settings') };
    const printers = ['north', 'south', 'east', 'west', 'store', 'office'];
    const words = (printer: string) => ['calibrate', '--printer', printer, '--paper', 'a4', '--across', '189.4mm,189.5mm', '--along', '239.1mm,239.0mm']; // prettier-ignore
    expect(await Promise.all(printers.map((printer) => finish(folder, words(printer), env)))).toEqual(printers.map(() => 0)); // prettier-ignore
    const { stdout } = program.run(folder, ['calibrate', '--list'], env);
    for (const printer of printers) expect(stdout).toContain(`${printer}, `);
    expect(readdirSync(join(folder, 'settings'))).toEqual(['printers.yaml']);
  });
});

describe('a run killed at any moment', () => {
  it(`carries on to the same bytes, ${kills} times`, async () => {
    const whole = makeFolder();
    expect(program.run(whole, jobWords).code).toBe(0);
    const expected = readAll(join(whole, 'out'));
    const start = Date.now();
    expect(program.run(makeFolder(), jobWords).code).toBe(0);
    const duration = Date.now() - start;
    for (let i = 0; i < kills; i++) {
      const folder = makeFolder();
      const child = program.start(folder, jobWords, []);
      child.stdout?.resume();
      const closed = new Promise((resolve) => child.on('close', resolve));
      // Evenly over the run, so that each part of it is met.
      await wait((duration * (i + 0.5)) / kills);
      child.kill('SIGKILL');
      await closed;
      const again = program.run(folder, jobWords);
      expect([i, again.code, again.stderr]).toEqual([i, 0, '']);
      expect([i, readAll(join(folder, 'out'))]).toEqual([i, expected]);
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

it('a file without the right to search its folder is told by its name', () => {
  const folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
  undo.push(() => rmSync(folder, { recursive: true, force: true }));
  mkdirSync(join(folder, 'closed'));
  writeFileSync(join(folder, 'closed/cuts.csv'), cutList);
  chmodSync(join(folder, 'closed'), 0o600);
  undo.push(() => chmodSync(join(folder, 'closed'), 0o700));
  // The superuser may search any folder.
  if (process.getuid?.() === 0) return expect(statSync(join(folder, 'closed/cuts.csv')).isFile()).toBe(true);
  expectRefusal(
    program.run(folder, ['job', 'closed/cuts.csv']),
    /closed\/cuts\.csv/,
    /no permission to read/,
  );
  expectRefusal(
    program.run(folder, [...band, '-o', 'closed/x.pdf']),
    /closed\/x\.pdf/,
    /no permission to write/,
  );
});
