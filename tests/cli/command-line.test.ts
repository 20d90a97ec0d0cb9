import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { formats } from '../../src/render/formats.ts';
import { buildCommandLine, type CommandLine, type Ran, runInside } from '../support/command-line.ts';

let program: CommandLine;
let folder = '';

beforeAll(async () => {
  program = await buildCommandLine();
});
afterAll(() => program.close());
beforeEach(() => {
  folder = program.makeFolder();
});

const run = (...words: string[]): Ran => program.run(folder, words);
const band = ['band', '--pipe', 'NPS 2 sch 40'];

/** Every refusal: its code, two lines for each fault, no stack trace, nothing written. */
const expectRefusal = (ran: Ran, code: number, wrong: RegExp, right: RegExp): void => {
  expect(ran.stderr).toMatch(wrong);
  expect(ran.stderr).toMatch(right);
  expect(ran.stderr).not.toMatch(/^\s+at /m);
  const lines = ran.stderr.trimEnd().split('\n');
  expect(lines.filter((_, i) => i % 2 === 0).every((line) => line.startsWith('wrong: '))).toBe(true);
  expect(lines.filter((_, i) => i % 2 === 1).every((line) => line.startsWith('right: '))).toBe(true);
  expect(ran.stdout).toBe('');
  expect(ran.code).toBe(code);
  expect(readdirSync(folder)).toEqual([]);
};

describe('a request that is not understood', () => {
  it.each<[what: string, words: string[], wrong: RegExp, right: RegExp]>([
    ['a command that is not there', ['bandd'], /no layout or command "bandd"/, /did you mean band\?/],
    ['an option before the layout', ['--json', ...band], /--json stands where/, /named first/],
    [
      'an option that is not there',
      [...band, '--heigth', '80mm'],
      /no option --heigth/,
      /did you mean --height\?/,
    ],
    ['a letter that is not there', [...band, '-x'], /no option -x/, /--help/],
    ['two options that are not there', [...band, '--alpha', '--omega=2'], /--alpha[^]*--omega/, /--help/],
    [
      'an option given twice',
      [...band, '--height', '70mm', '--height', '80mm'],
      /--height: given 2 times/,
      /once/,
    ],
    ['an option without a value', [...band, '--height'], /--height: no value/, /for example/],
    ['a required option left out', ['band'], /--stock: missing/, /for example "NPS/],
    [
      'a text without quotes',
      ['band', '--pipe', 'NPS', '2', 'sch', '40'],
      /"2" belongs to no option/,
      /quotes/,
    ],
    ['a bare length', [...band, '--height', '80'], /--height: .*80.* no unit/, /80mm or 80in/],
    ['a length that is no number', [...band, '--height', 'NaN'], /--height: .*NaN/, /like/],
    ['a length with an exponent', [...band, '--height', '1e9'], /--height: .*1e9/, /write it out/],
    [
      'a length beyond reason',
      [...band, '--height', '1000000000mm'],
      /--height: .*1000000000mm/,
      /up to|at most|45 mm to/,
    ],
    [
      'a negative length',
      [...band, '--height', '-80mm'],
      /--height: "-80mm" is out of range/,
      /45 mm to 1000 mm/,
    ],
    ['a decimal comma', [...band, '--height', '80,5mm'], /--height/, /80\.5/],
    ['a step that leaves a remainder', [...band, '--step', '7'], /--step: .*360/, /7\.0588/],
    [
      'a step and divisions',
      [...band, '--step', '15', '--divisions', '24'],
      /step and divisions are both given/,
      /not both|one of them/,
    ],
    [
      'a wall thicker than the radius',
      ['band', '--pipe', 'OD 60mm wall 30mm'],
      /--stock: .*wall/,
      /30\.00 mm/,
    ],
    ['a schedule that is not there', ['band', '--pipe', 'NPS 2 sch 41'], /--stock: .*41/, /40/],
    ['a paper that is not there', [...band, '--paper', 'lettre'], /--paper/, /letter/],
    ['a paper with no room', [...band, '--paper', '30x30mm'], /paper|margin/, /\d/],
    ['a format that is not there', [...band, '-o', 'x.pfd'], /--output: .*\.pfd/, /did you mean \.pdf\?/],
    ['a file without extension', [...band, '-o', 'x'], /no extension/, /\.pdf or /],
    ['a file named twice', [...band, '-o', 'x.pdf', '-o', './x.pdf'], /named twice/, /of its own/],
    ['a fault beside a good file', [...band, '-o', 'good.pdf', '-o', 'bad.xyz'], /\.xyz/, /\.pdf/],
  ])('%s: exit 2', async (_what, words, wrong, right) => {
    expectRefusal(await runInside(folder, words), 2, wrong, right);
  });

  it('ends a process of its own with that code', () => {
    expectRefusal(run('bandd'), 2, /no layout or command "bandd"/, /did you mean band\?/);
  });

  it('is told with all its faults at once', () => {
    const { stderr } = run('band', '--height', '5', '--seam', 'x', '--fraction', '12');
    for (const name of ['--stock', '--height', '--seam', '--fraction'])
      expect(stderr).toContain(`wrong: ${name}: `);
  });

  it('is more than 100 pages, unless --yes is given', () => {
    const many = [
      'band',
      '--pipe',
      'OD 8m wall 10mm',
      '--height',
      '1m',
      '--overlap',
      '70mm',
      '--paper',
      'letter',
    ];
    expectRefusal(run(...many), 2, /more than 100 pages/, /--yes/);
    expect(run(...many, '--yes', '-o', 'many.csv').code).toBe(0);
    expect(existsSync(join(folder, 'many.csv'))).toBe(true);
  });
});

describe('a joint that cannot be made', () => {
  const branch = ['branch', '--header', 'NPS 6 sch 40', '--branch'];
  it.each<[what: string, words: string[], wrong: RegExp, right: RegExp]>([
    // ASME B36.10M: NPS 6 is 6.625 in outside, NPS 2 is 2.375 in: (6.625 − 2.375) / 2 = 2.125 in.
    ['a branch larger than its header', [...branch, 'NPS 8 sch 40'], /--branch: .*larger/, /at most 6\.625″/],
    [
      'an offset over the side',
      [...branch, 'NPS 2 sch 40', '--offset', '3in'],
      /--offset: .*hangs/,
      /at most 2\.125″/,
    ],
  ])('%s: exit 3', async (_what, words, wrong, right) => {
    expectRefusal(await runInside(folder, words), 3, wrong, right);
  });

  it.each<[words: string[], wrong: RegExp, right: RegExp]>([
    [
      [...branch, 'NPS 2 sch 40', '--angle', '0'],
      /--angle: "0" is out of range/,
      /more than 0° and less than 180°/,
    ],
    [
      ['miter', '--pipe', 'NPS 6 sch 40', '--cut', '90'],
      /--cut: "90" is out of range/,
      /more than 0° and less than 90°/,
    ],
  ])('is told as a range where one option alone rules it out: %j', async (words, wrong, right) => {
    expectRefusal(await runInside(folder, words), 2, wrong, right);
  });
});

describe('a file that cannot be written: exit 4', () => {
  it('has no folder', () => {
    expectRefusal(run(...band, '-o', 'nowhere/x.pdf'), 4, /nowhere\/x\.pdf/, /folder/);
  });

  it('is a folder', () => {
    mkdirSync(join(folder, 'x.pdf'));
    const ran = run(...band, '-o', 'a.csv', '-o', 'x.pdf');
    expect(ran).toMatchObject({ code: 4, stdout: '' });
    expect(ran.stderr).toContain('x.pdf: it is a folder');
    expect(readdirSync(folder)).toEqual(['x.pdf']);
  });

  // Linux makes no folder there, whoever asks (proc(5)); Node's own recursive mkdir tried for ever.
  it('stands in a folder that takes none', { skip: process.platform !== 'linux' }, async () => {
    writeFileSync(join(folder, 'a.yaml'), 'pieces:\n  - { layout: band, stock: NPS 2 sch 40 }\n');
    const { code, stderr } = await runInside(folder, ['job', 'a.yaml', '-o', '/proc/nothing/out']);
    expect(code).toBe(4);
    expect(stderr).toMatch(
      /cannot make the folder \/proc\/nothing\/out: part of its path is missing\nright: name another folder/,
    );
    expect(readdirSync(folder)).toEqual(['a.yaml']);
  });

  it('is asked for in a folder that is gone', () => {
    const gone = join(folder, 'gone');
    mkdirSync(gone);
    const { status, stderr } = spawnSync(
      'sh',
      ['-c', 'rmdir "$PWD" && exec "$0" "$@"', process.execPath, program.bin, ...band],
      { cwd: gone, encoding: 'utf8' },
    );
    expect(status).toBe(4);
    expect(stderr).toBe(
      'wrong: the folder you are in is gone\nright: go to one that is there, and run it again\n',
    );
  });

  it('leaves the old file as it was', () => {
    const file = join(folder, 'x.pdf');
    writeFileSync(file, 'old');
    chmodSync(folder, 0o555);
    const ran = run(...band, '-o', 'x.pdf');
    chmodSync(folder, 0o755);
    // The superuser may write anywhere; then the file is new and whole.
    const text = readFileSync(file, 'latin1');
    if (process.getuid?.() === 0) expect(text.endsWith('%%EOF\n')).toBe(true);
    else expect([ran.code, text]).toEqual([4, 'old']);
    expect(readdirSync(folder)).toEqual(['x.pdf']);
  });
});

describe('a good request', () => {
  it('writes a file named after it, says what it made and how to print it', () => {
    const ran = run(...band, '--height', '80mm');
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(readdirSync(folder)).toEqual(['band-NPS-2-sch-40-height-80mm.pdf']);
    expect(ran.stdout).toMatch(/^Wrote band-NPS-2-sch-40-height-80mm\.pdf$/m);
    expect(ran.stdout).toMatch(/^Degree band: \d pages?, identity [0-9A-Z]{4}-[0-9A-Z]{4}$/m);
    expect(ran.stdout).toContain(
      'lp -d PRINTER -o media=Letter -o print-scaling=none band-NPS-2-sch-40-height-80mm.pdf',
    );
  });

  it('knows A5 as a sheet, not as a roll of labels', () => {
    const { stdout } = run('band', '--pipe', 'DN 25 sch 40', '--paper', 'a5');
    expect(stdout).toContain('media=A5');
    expect(stdout).not.toContain('Label rolls');
    expect(run('band', '--pipe', 'DN 25 sch 40', '--paper', '102mm-roll').stdout).toContain('Label rolls');
  });

  it('takes A4 with millimetres', () => {
    expect(run('band', '--pipe', 'DN 50 sch 40').stdout).toContain('media=A4');
  });

  it('writes the same bytes twice', () => {
    run(...band, '-o', 'a.pdf', '-o', 'a.csv');
    run(...band, '-o', 'b.pdf', '-o', 'b.csv');
    for (const kind of ['pdf', 'csv'])
      expect(readFileSync(join(folder, `a.${kind}`)).equals(readFileSync(join(folder, `b.${kind}`)))).toBe(
        true,
      );
  });

  it('says figures as values with units for programs, in words too', () => {
    const ran = run(
      'bolt-circle',
      '--holes',
      '8',
      '--circle',
      '200mm',
      '--hole',
      '18mm',
      '--json',
      '-o',
      'b.pdf',
    );
    const [sheet] = (JSON.parse(ran.stdout) as { sheets: { facts: Record<string, unknown> }[] }).sheets;
    expect(sheet?.facts).toMatchObject({
      'Circle diameter': { kind: 'length', mm: 200 },
      Holes: { parts: [{ kind: 'count', n: 8 }, ' × ⌀ ', { kind: 'length', mm: 18 }] },
      // Half of 45° between center lines.
      'First hole at': { kind: 'angle', radians: expect.closeTo(Math.PI / 8, 12) as number },
      'Hole to next hole': { kind: 'length', mm: expect.closeTo(200 * Math.sin(Math.PI / 8), 9) as number },
    });
    expect(Object.keys(sheet?.facts['Circle diameter'] as object)).toEqual(['kind', 'mm']);
  });

  it('tells programs what it made', () => {
    const ran = run(...band, '--json', '-o', 'A.PDF', '--mark', '37.5:lug', '--mark', '-10:drain');
    const made: unknown = JSON.parse(ran.stdout);
    expect(made).toMatchObject({
      files: ['A.PDF'],
      paper: { unit: 'mm' },
      sheets: [{ name: 'band' }],
      print: ['lp -d PRINTER -o media=Letter -o print-scaling=none A.PDF'],
      spec: { layout: 'band', stock: 'NPS 2 sch 40', mark: ['37.5:lug', '-10:drain'], overlap: '10mm' },
    });
  });

  it('takes a value that begins with a minus', () => {
    expect(run(...band, '--seam', '-90', '--json').code).toBe(0);
  });
});

describe('help', () => {
  it('has examples first, then every option', () => {
    const { code, stdout } = run('band', '--help');
    expect(code).toBe(0);
    expect(stdout.indexOf('Examples:')).toBeLessThan(stdout.indexOf('Usage:'));
    expect(stdout).toMatch(/^ {2}soapstone band --stock "NPS/m);
    for (const name of [
      'pipe',
      'step',
      'paper',
      'paper-thickness',
      'units',
      'revision',
      'output',
      'json',
      'yes',
    ])
      expect(stdout).toMatch(new RegExp(`--${name}\\b`));
  });

  it('is what no words at all give, and names every layout', () => {
    const { code, stdout } = run();
    expect(code).toBe(0);
    expect(stdout).toBe(run('--help').stdout);
    for (const { layout } of JSON.parse(run('layouts', '--json').stdout) as { layout: string }[])
      expect(stdout).toContain(`soapstone ${layout}`);
  });

  it('lists the layouts in Spanish, too', async () => {
    const { code, stdout } = await runInside(folder, ['layouts', '--language', 'es']);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^band +banda de grados/m);
  });

  it('names every format that can be written', async () => {
    const { stdout } = await runInside(folder, ['miter', '--help']);
    for (const format of formats) expect(stdout).toMatch(new RegExp(`\\.${format}\\b`));
  });

  it('names the sheets of a print in Spanish, too', async () => {
    const asked = ['miter', '--stock', 'NPS 1 sch 40', '--cut', '22.5', '--language', 'es'];
    const { code, stdout } = await runInside(folder, asked);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^ {2}inglete: página/m);
  });

  it('tells the version, and completes options and choices', () => {
    const shipped = JSON.parse(readFileSync(join(import.meta.dirname, '../../package.json'), 'utf8')) as {
      version: string;
    };
    expect(run('--version').stdout).toBe(`${shipped.version}\n`);
    expect(run('--get-yargs-completions', 'soapstone', 'band', '--').stdout).toContain('--paper-thickness');
    expect(run('--get-yargs-completions', 'soapstone', 'band', '--orientation', '').stdout).toBe(
      'auto\nportrait\nlandscape\n',
    );
  });
});

it('has no colour where none is wanted', () => {
  expect(program.run(folder, ['bandd'], { NO_COLOR: '1' }).stderr).not.toContain('\u001b');
  expect(run('bandd').stderr).not.toContain('\u001b');
});
