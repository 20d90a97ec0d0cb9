import {
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
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runInside } from '../support/command-line.ts';
import { readPdf } from '../support/pdf-reader.ts';
import { readTexts } from '../support/pdf-texts.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const write = (name: string, text: string): void => writeFileSync(join(folder, name), text);
const job = (...words: string[]) => runInside(folder, ['job', ...words]);
const list = (name = 'out'): string[] =>
  readdirSync(join(folder, name)).filter((file) => !file.startsWith('.'));
const read = (name: string): Buffer => readFileSync(join(folder, 'out', name));

const bands = (pieces: string): string =>
  `defaults:\n  layout: band\n  pipe: NPS 2 sch 40\n  paper: tabloid\npieces:\n${pieces}`;

describe('a job file', () => {
  it('makes the same bytes as the command line of each piece', async () => {
    write('a.yaml', bands('  - { piece: B1, mark: ["37.5:lug", "90"], quantity: 4 }\n'));
    const { code, stdout } = await job('a.yaml', '-o', 'out', '--formats', 'pdf,csv,svg,dxf');
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Wrote out\/B1\.pdf, out\/B1\.csv, out\/B1\.svg, out\/B1\.dxf: 1 page, identity/);
    const words = [
      'band',
      '--pipe',
      'NPS 2 sch 40',
      '--paper',
      'tabloid',
      '--piece',
      'B1',
      '--quantity',
      '4',
    ];
    const files = ['pdf', 'csv', 'svg', 'dxf'].flatMap((format) => ['-o', `alone.${format}`]);
    await runInside(folder, [...words, '--mark', '37.5:lug', '--mark', '90', ...files]);
    for (const format of ['pdf', 'csv', 'svg', 'dxf'])
      expect(read(`B1.${format}`).equals(readFileSync(join(folder, `alone.${format}`)))).toBe(true);
    expect((await readTexts(read('B1.pdf')))[0]).toMatch(/Quantity\s+4/);
  });

  it('tells every fault with its place, and makes the good pieces all the same', async () => {
    write(
      'a.yaml',
      bands(
        '  - { piece: B1 }\n  - { piece: B2, pipe: NPS 3 sch 400, heigth: 3in }\n  - { piece: b1 }\n' +
          '  - { piece: T1, layout: branch, branch: NPS 4 sch 40, header: NPS 2 sch 40 }\n  - { piece: B3, layout: bend }\n',
      ).replace('paper:', 'colour: red\n  paper:'),
    );
    const { code, stderr, stdout } = await job('a.yaml', '-o', 'out');
    expect(code).toBe(2);
    const wrong = stderr.split('\n').filter((line) => line.startsWith('wrong: '));
    expect(wrong).toEqual([
      expect.stringMatching(/a\.yaml:4:11: there is no option "colour"/),
      expect.stringMatching(/a\.yaml:8:47: B2: heigth: there is no option "heigth"/),
      expect.stringMatching(/a\.yaml:8:24: B2: pipe: NPS 3 has no schedule 400/),
      expect.stringMatching(/a\.yaml:11:26: B3: layout: there is no layout "bend"/),
      expect.stringMatching(/a\.yaml:9:5: "b1" would be written to the same file as a\.yaml:7:5/),
      expect.stringMatching(/a\.yaml:10:42: T1: branch: the branch, .* is larger than the header/),
    ]);
    expect(stderr).toMatch(/did you mean height\?/);
    expect(stderr.split('\n').filter((line) => line.startsWith('right: '))).toHaveLength(6);
    expect(stdout).toMatch(
      /^1 of 5 made; 4 NOT made:\n {2}B2 NOT made: heigth: .*\n {2}B3 NOT made: layout: .*\n {2}b1 NOT made: "b1" would .*\n {2}T1 NOT made: branch: the branch, .*\n$/m,
    );
    expect(list()).toEqual(['B1.pdf']);
  });

  it('makes nothing of it when it is strict', async () => {
    write('a.yaml', bands('  - { piece: B1 }\n  - { piece: B2, height: 1mm }\n'));
    expect((await job('a.yaml', '--strict')).code).toBe(2);
    write(
      'b.yaml',
      bands(
        '  - { piece: B1 }\n  - { piece: T1, layout: branch, branch: NPS 4 sch 40, header: NPS 2 sch 40 }\n',
      ),
    );
    expect((await job('b.yaml', '--strict', '-o', '.')).code).toBe(3);
    expect(list('.')).toEqual(['a.yaml', 'b.yaml']);
  });

  it('makes only the pieces asked for', async () => {
    write('a.yaml', bands('  - { piece: B1 }\n  - { piece: B2 }\n  - { piece: C/3 }\n'));
    expect((await job('a.yaml', '-o', 'out', '--only', 'B2', '--only', 'C/3')).code).toBe(0);
    expect(list()).toEqual(['B2.pdf', 'C-3.pdf']);
    const { code, stderr } = await job('a.yaml', '-o', 'out', '--only', 'B22');
    expect([code, stderr]).toEqual([
      2,
      expect.stringMatching(/--only: no piece is marked "B22"\nright: did you mean B2\?/),
    ]);
  });

  it('keeps names in the output folder, whatever a file says', async () => {
    mkdirSync(join(folder, 'out'));
    write(
      'a.yaml',
      bands(
        '  - { piece: ../../up }\n  - { piece: /etc/passwd }\n  - { piece: con }\n  - { piece: .hidden }\n',
      ),
    );
    expect((await job('a.yaml', '-o', 'out')).code).toBe(0);
    expect(list()).toEqual(['etc-passwd.pdf', 'hidden.pdf', 'piece-con.pdf', 'up.pdf']);
    write('b.yaml', `book: ../up.pdf\n${bands('  - { piece: B1 }\n')}`);
    const { code, stderr } = await job('b.yaml', '-o', 'out');
    expect([code, stderr]).toEqual([2, expect.stringMatching(/b\.yaml:1:7: book: .*not a plain name/)]);
    expect(list('.')).toEqual(['a.yaml', 'b.yaml', 'out']);
  });

  it('never writes over its own cut list', async () => {
    write('cuts.csv', 'piece,layout,pipe\ncuts,band,NPS 2 sch 40\n');
    const { code, stderr } = await job('cuts.csv', '--formats', 'csv');
    expect([code, stderr]).toEqual([2, expect.stringMatching(/same file as cuts\.csv/)]);
    expect(readFileSync(join(folder, 'cuts.csv'), 'utf8')).toMatch(/^piece,layout/);
  });
});

describe('a cut list', () => {
  it('is read by itself, or with the defaults of a job file', async () => {
    write('cuts.csv', 'Piece;Layout;Pipe;Quantity\nC1;band;"NPS 1-1/2 sch 40";3\nC2;band;NPS 0 sch 40;1\n');
    const alone = await job('cuts.csv', '-o', 'out');
    expect([alone.code, alone.stderr]).toEqual([2, expect.stringMatching(/cuts\.csv:3:9: C2: pipe: /)]);
    write('list.csv', 'piece,height\nC3,80mm\n');
    write('a.yaml', 'defaults: { layout: band, pipe: NPS 2 sch 40 }\nlist: list.csv\n');
    expect((await job('a.yaml', '-o', 'out')).code).toBe(0);
    expect(list()).toEqual(['C1.pdf', 'C3.pdf']);
  });

  it.each(['../list.csv', '/etc/hosts.csv', 'sub/../../list.csv', 'link.csv', 'none.csv', 'a.yaml'])(
    'is not read from %s',
    async (name) => {
      mkdirSync(join(folder, 'in'));
      write('list.csv', 'piece,pipe\nC3,NPS 2 sch 40\n');
      symlinkSync('../list.csv', join(folder, 'in/link.csv'));
      write('in/a.yaml', `defaults: { layout: band }\nlist: ${name}\n`);
      const { code, stderr } = await job('in/a.yaml', '-o', 'out');
      expect([code, stderr]).toEqual([2, expect.stringMatching(/in\/a\.yaml:2:7: /)]);
      expect(list('.')).not.toContain('out');
    },
  );
});

describe('a book', () => {
  it('has every piece behind an index that names its page and identity', async () => {
    write(
      'a.yaml',
      `book: all.pdf\n${bands('  - { piece: B1, revision: C }\n  - { piece: B2, paper: a4, quantity: 7 }\n  - { piece: M1, layout: miter, cut: 30 }\n')}`,
    );
    const { code, stdout } = await job('a.yaml', '-o', 'out', '--formats', 'pdf,dxf');
    expect(code).toBe(0);
    expect(list()).toEqual(['B1.dxf', 'B2.dxf', 'M1.dxf', 'all.pdf']);
    const file = readPdf(read('all.pdf'));
    const texts = await readTexts(read('all.pdf'));
    const names = file.record?.sheets.map(({ name }) => name);
    expect(names).toEqual(['index', 'B1 band', 'B2 band', 'M1 miter']);
    const identities = [...stdout.matchAll(/out\/(\w+)\.dxf: .*identity (\S+)/g)].map(([, piece, id]) => [
      piece,
      id,
    ]);
    expect(identities).toHaveLength(3);
    for (const [piece = '', identity = ''] of identities) {
      const [row] = new RegExp(`^.*${identity}.*$`, 'm').exec(texts[0] ?? '') ?? [];
      expect(row).toContain(piece);
      const page = Number(/\d+$/.exec(row?.trim() ?? '')?.[0]);
      const first = file.record?.sheets.find(({ name }) => name.startsWith(`${piece} `))?.pages[0];
      expect([piece, page]).toEqual([piece, first]);
      expect(texts[page - 1]).toContain(identity);
    }
  });

  it('proves, and is made again from its own file, on other paper too', async () => {
    write(
      'a.yaml',
      `book: all.pdf\n${bands('  - { piece: B1 }\n  - { piece: M1, layout: miter, cut: 30 }\n')}`,
    );
    await job('a.yaml', '-o', 'out');
    const again = await runInside(folder, ['reprint', 'out/all.pdf', '-o', 'again.pdf']);
    expect([again.code, again.stdout]).toEqual([
      0,
      expect.stringMatching(/Drawn exactly as the first print\./),
    ]);
    expect(readFileSync(join(folder, 'again.pdf')).equals(read('all.pdf'))).toBe(true);
    await runInside(folder, ['reprint', 'out/all.pdf', '--paper', 'a3', '-o', 'a3.pdf']);
    const proof = await runInside(folder, ['proof', 'out/all.pdf', 'a3.pdf', '--quiet']);
    expect([proof.code, proof.stdout]).toEqual([0, 'out/all.pdf: PASS\na3.pdf: PASS\n']);
    const { mediaBox } = readPdf(readFileSync(join(folder, 'a3.pdf'))).pages[0]!;
    const millimetres = (mediaBox.maxX * 25.4) / 72;
    // ISO 216: A3 is 297 mm across.
    expect(millimetres).toBeCloseTo(297, 2);
  });

  const missing = /Some pieces of the\s+job\s+are\s+not\s+in\s+this\s+book/;

  it('says on its cover where pieces are missing', async () => {
    write('a.yaml', bands('  - { piece: B1 }\n  - { piece: B2, height: 1mm }\n'));
    expect((await job('a.yaml', '-o', 'out', '--book', 'all.pdf')).code).toBe(2);
    expect((await readTexts(read('all.pdf')))[0]).toMatch(missing);
  });

  it('has a name of its own where some pieces alone were asked for, and says that others are missing', async () => {
    write('a.yaml', bands('  - { piece: B1 }\n  - { piece: B2 }\n'));
    const words = ['a.yaml', '-o', 'out', '--book', 'all.pdf'];
    expect((await job(...words)).code).toBe(0);
    const whole = read('all.pdf');
    expect((await readTexts(whole))[0]).not.toMatch(missing);
    expect((await job(...words, '--only', 'B2')).stdout).toMatch(/^Wrote out\/all-only\.pdf/m);
    expect((await readTexts(read('all-only.pdf')))[0]).toMatch(missing);
    expect(read('all.pdf').equals(whole)).toBe(true);
    expect((await job(...words, '--only', 'B1', '--only', 'B2')).code).toBe(0);
    expect(list().filter((file) => file.endsWith('.pdf'))).toEqual(['all-only.pdf', 'all.pdf']);
    expect(read('all.pdf').equals(whole)).toBe(true);
  });

  it('keeps the end of its name where that is as long as a name may be, and is made again from itself', async () => {
    write('a.yaml', bands('  - { piece: B1 }\n  - { piece: B2 }\n'));
    const stem = 'ñ'.repeat(60);
    expect((await job('a.yaml', '-o', 'out', '--book', `${stem}.pdf`, '--only', 'B2')).code).toBe(0);
    const file = `${'ñ'.repeat(57)}-only.pdf`;
    expect(list().filter((name) => name.endsWith('.pdf'))).toEqual([file]);
    expect((await runInside(folder, ['reprint', `out/${file}`, '-o', 'again.pdf'])).code).toBe(0);
    expect(readFileSync(join(folder, 'again.pdf')).equals(read(file))).toBe(true);
  });

  it('has the pieces of a file once, however often and by what names it is given', async () => {
    write('a.yaml', bands('  - { piece: B1 }\n'));
    const { code, stderr } = await job('a.yaml', './a.yaml', join(folder, 'a.yaml'), '-o', 'out');
    expect([code, stderr]).toEqual([0, '']);
  });
});

describe('what is done', () => {
  const times = (): Record<string, number> =>
    Object.fromEntries(list().map((file) => [file, statSync(join(folder, 'out', file)).mtimeMs]));

  it('is not made again, unless its request or its file has changed', async () => {
    const pieces = '  - { piece: B1 }\n  - { piece: B2 }\n  - { piece: B3 }\n';
    write('a.yaml', bands(pieces));
    await job('a.yaml', '-o', 'out', '--formats', 'pdf,csv');
    const first = times();
    const whole = read('B2.pdf');
    expect((await job('a.yaml', '-o', 'out', '--formats', 'pdf,csv')).stdout).toMatch(
      /^0 pieces made, 3 unchanged\.$/m,
    );
    expect(times()).toEqual(first);

    write('out/B2.pdf', 'somebody has edited this');
    write('a.yaml', bands(pieces.replace('B3 }', 'B3, revision: B }')));
    const { stdout } = await job('a.yaml', '-o', 'out', '--formats', 'pdf,csv');
    expect(stdout).toMatch(/^Kept {2}out\/B1\.pdf/m);
    expect(stdout).toMatch(/^Wrote out\/B2\.pdf/m);
    expect(stdout).toMatch(/^Wrote out\/B3\.pdf/m);
    expect(read('B2.pdf').equals(whole)).toBe(true);
    const after = times();
    expect([after['B1.pdf'], after['B1.csv'], after['B2.csv']]).toEqual([
      first['B1.pdf'],
      first['B1.csv'],
      first['B2.csv'],
    ]);
    expect((await job('a.yaml', '-o', 'out', '--fresh')).stdout).toMatch(/^3 pieces made\.$/m);
  });

  it('is a book, too', async () => {
    write('a.yaml', `book: all.pdf\n${bands('  - { piece: B1 }\n')}`);
    await job('a.yaml', '-o', 'out');
    const first = times();
    const { stdout } = await job('a.yaml', '-o', 'out');
    expect(stdout).toMatch(/^Kept {2}out\/all\.pdf: 2 pages/m);
    expect(times()).toEqual(first);
    expect(readdirSync(join(folder, 'out'))).toEqual(['.soapstone-done.jsonl', 'all.pdf']);
  });
});

describe('a command line that is not understood', () => {
  it.each<[words: string[], code: number, told: RegExp]>([
    [[], 2, /no file is named/],
    [['none.yaml'], 4, /cannot read none\.yaml: there is no such file/],
    [['a.txt'], 2, /neither a job file nor a cut list/],
    [['.yaml'], 2, /neither a job file nor a cut list/],
    [['a.yaml', '--formats', 'pfd'], 2, /there is no format "pfd"[^]*did you mean pdf\?/],
    [['a.yaml', '--book', '../x.pdf'], 2, /--book: .*not a plain name/],
    [['a.yaml', '-o', 'a.yaml'], 4, /cannot make the folder a\.yaml/],
  ])('%j', async (words, code, told) => {
    write('a.yaml', bands('  - { piece: B1 }\n'));
    write('a.txt', 'x');
    const ran = await job(...words);
    expect([ran.code, ran.stdout]).toEqual([code, '']);
    expect(ran.stderr).toMatch(told);
    expect(ran.stderr).not.toMatch(/^\s+at /m);
    expect(list('.')).toEqual(['a.txt', 'a.yaml']);
  });

  it('tells files that are too large or not text', async () => {
    write('a.yaml', 'x'.repeat(4_000_001));
    writeFileSync(join(folder, 'b.yaml'), Buffer.from([0x70, 0xff, 0xfe]));
    const { code, stderr } = await job('a.yaml', 'b.yaml');
    expect(code).toBe(4);
    expect(stderr).toMatch(/4000001 bytes, more than 4000000/);
    expect(stderr).toMatch(/b\.yaml is not written in UTF-8/);
  });
});
