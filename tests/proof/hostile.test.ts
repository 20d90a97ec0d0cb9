import { writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf } from '../../src/index.ts';
import { provePrint } from '../../src/cli/prove-print.ts';
import { proveFile } from '../../src/proof/prove.ts';
import { buildCommandLine, type CommandLine } from '../support/command-line.ts';
import { withFile } from '../support/external.ts';
import { packed, rawPdf } from '../support/raw-pdf.ts';
import { layOpen, withRecord, type Told } from '../support/tamper.ts';

const catalog = '<< /Type /Catalog /Pages 2 0 R >>';
const onePage = [
  catalog,
  '<< /Type /Pages /Count 1 /Kids [3 0 R] >>',
  '<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Resources << >> /Contents 4 0 R >>',
];
const zeros = (size: number): Uint8Array => new Uint8Array(size);

/** Heap of the process that measures, MB: twice over the whole allowance is not to be had. */
const heap = 512;

const files: readonly (readonly [string, () => Uint8Array])[] = [
  ['nothing', () => new Uint8Array()],
  ['noise', () => Uint8Array.from({ length: 100_000 }, (_, i) => (i * 7919) % 251)],
  ['a Flate bomb for a page', () => rawPdf([...onePage, packed(zeros(200e6))])],
  ['a Flate bomb in a Flate bomb', () => rawPdf([...onePage, packed(zeros(200e6), 3)])],
  [
    'a page tree that holds itself',
    () => rawPdf([catalog, '<< /Type /Pages /Count 9 /Kids [2 0 R 2 0 R 2 0 R] >>']),
  ],
  [
    'a page shared 100,000 times',
    () =>
      rawPdf([
        catalog,
        `<< /Type /Pages /Count 100000 /Kids [${'3 0 R '.repeat(100_000)}] >>`,
        ...onePage.slice(2),
        packed(zeros(10)),
      ]),
  ],
  [
    'a tree of shared page trees, each twice in the next',
    () =>
      rawPdf([
        catalog,
        ...Array.from(
          { length: 40 },
          (_, i) => `<< /Type /Pages /Count 2 /Kids [${i + 3} 0 R ${i + 3} 0 R] >>`,
        ),
        '<< /Type /Page /MediaBox [0 0 1 1] >>',
      ]),
  ],
  ['arrays a million deep', () => rawPdf([...onePage, `${'['.repeat(1e6)}${']'.repeat(1e6)}`])],
  [
    'a catalog a million dictionaries deep',
    () => rawPdf([`${'<< /A '.repeat(1e6)} null ${'>>'.repeat(1e6)}`]),
  ],
  [
    'a table that is its own predecessor',
    () =>
      new Uint8Array(
        Buffer.from(
          '%PDF-1.7\nxref\n0 1\n0000000000 65535 f \ntrailer\n<< /Size 1 /Prev 9 /Root 1 0 R >>\nstartxref\n9\n%%EOF\n',
          'latin1',
        ),
      ),
  ],
  [
    'a table of a billion entries',
    () =>
      new Uint8Array(
        Buffer.from(
          '%PDF-1.7\nxref\n0 1000000000\n0000000000 65535 f \ntrailer\n<< >>\nstartxref\n9\n%%EOF\n',
          'latin1',
        ),
      ),
  ],
  ['objects that are names of each other', () => rawPdf(['2 0 R', '1 0 R'])],
  ['a length that needs itself', () => rawPdf([catalog, '<< /Length 2 0 R >>\nstream\nx\nendstream'])],
  [
    'bookmarks without end',
    () =>
      rawPdf([
        '<< /Type /Catalog /Pages 2 0 R /Outlines 5 0 R >>',
        ...onePage.slice(1),
        packed(new TextEncoder().encode('q Q')),
        '<< /First 6 0 R /Last 6 0 R >>',
        '<< /Title (x) /Next 6 0 R /First 6 0 R >>',
      ]),
  ],
  [
    'a tree of names that holds itself',
    () =>
      rawPdf([
        '<< /Type /Catalog /Pages 2 0 R /Names << /EmbeddedFiles 5 0 R >> >>',
        ...onePage.slice(1),
        packed(new TextEncoder().encode('q Q')),
        '<< /Kids [5 0 R 5 0 R] >>',
      ]),
  ],
  [
    'a page of a million operators',
    () => rawPdf([...onePage, packed(new TextEncoder().encode('0 0 m 9 9 l S\n'.repeat(250_000)))]),
  ],
  [
    'a page of a million saved states',
    () => rawPdf([...onePage, packed(new TextEncoder().encode('q '.repeat(1e6)))]),
  ],
  ['a string of brackets', () => rawPdf([...onePage, `(${'('.repeat(1e6)}`])],
];

describe('a hostile file ends in a finding', () => {
  it.each(files)('%s', (_what, make) => {
    const { ok, findings } = proveFile(make());
    expect(ok).toBe(false);
    expect(findings.some((finding) => !finding.ok)).toBe(true);
  });
});

describe('a print whose record asks for too much', () => {
  let open = '';
  beforeAll(async () => {
    open = layOpen(await renderPdf(makeBook(readRequest('miter', { pipe: 'NPS 1 sch 40', cut: '22.5' }))));
  });

  it.each<[string, (record: Told) => unknown]>([
    [
      '20,000 solids',
      (record) => ({
        ...record,
        sheets: record.sheets.map((sheet) => ({
          ...sheet,
          fit: {
            ...sheet.fit,
            lines: sheet.fit.lines.map((line) => ({
              ...line,
              solids: Array.from({ length: 20_000 }, () => line.solids[0]),
            })),
          },
        })),
      }),
    ],
    [
      '20,000 sheets',
      (record) => ({
        ...record,
        sheets: Array.from({ length: 20_000 }, (_, i) => ({ ...record.sheets[0], name: `s${i}` })),
      }),
    ],
    ['no sheets', (record) => ({ ...record, sheets: [] })],
    ['a request of nothing', (record) => ({ ...record, spec: { layout: 'constructor' } })],
  ])('%s fails', async (_what, change) => {
    expect((await provePrint(withRecord(open, change))).ok).toBe(false);
  });
});

describe('the command', () => {
  let program: CommandLine;
  beforeAll(async () => {
    program = await buildCommandLine();
  });
  afterAll(() => program.close());

  const prove = (file: string, flags: readonly string[] = []) =>
    program.run(program.makeFolder(), ['proof', file, ...flags], {
      NODE_OPTIONS: `--max-old-space-size=${heap}`,
    });

  it('refuses what never ends', () => {
    const { code, stderr } = prove('/dev/zero');
    expect([code, stderr.includes('/dev/zero')]).toEqual([4, true]);
  });

  it('says FAIL of a bomb, also as JSON, in a heap of 512 MB', () => {
    withFile(rawPdf([...onePage, packed(zeros(200e6), 2)]), (file) => {
      const told = prove(file);
      expect([told.code, told.stdout.split('\n')[0]]).toEqual([1, `${file}: FAIL: do not use it`]);
      const json = JSON.parse(prove(file, ['--json']).stdout) as { ok: boolean; verdict: string }[];
      expect(json[0]).toMatchObject({ ok: false, verdict: 'FAIL' });
    });
  });

  it('says FAIL of a file that is no PDF', () => {
    withFile(new Uint8Array(), (file) => {
      writeFileSync(file, 'not a print');
      expect(prove(file).code).toBe(1);
    });
  });
});
