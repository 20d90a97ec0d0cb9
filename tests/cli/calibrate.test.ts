import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { proveFile } from '../../src/proof/prove.ts';
import { runInside } from '../support/command-line.ts';
import { readTexts } from '../support/pdf-texts.ts';
import { readPdf, type PdfPage } from '../support/pdf-reader.ts';
import { printPage, ruledLengths, tapeRow } from '../support/printer.ts';

/** A printer as bad as a shop's ever is: short across, long along the paper. */
const printer = { across: 0.993, along: 1.004 };
const name = 'shop laser';

let folder = '';
const before = process.env.SOAPSTONE_CONFIG;
const run = (...words: string[]) => runInside(folder, words);
const bytesOf = (file: string): Uint8Array => new Uint8Array(readFileSync(join(folder, file)));

/** The two longest level and the two longest upright rules of a calibration sheet, as a steel rule reads them. */
const readBars = (page: PdfPage): readonly string[] =>
  (['x', 'y'] as const).map((axis) => {
    const lengths = [...ruledLengths(printPage(page, printer), axis)].sort((a, b) => b - a);
    return lengths
      .slice(0, 2)
      .map((length) => `${length.toFixed(3)}mm`)
      .join(',');
  });

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
  process.env.SOAPSTONE_CONFIG = join(folder, 'settings', 'soapstone');
});
afterAll(() => {
  if (before === undefined) delete process.env.SOAPSTONE_CONFIG;
  else process.env.SOAPSTONE_CONFIG = before;
  rmSync(folder, { recursive: true });
});

describe('a calibrated printer', () => {
  it.each(['a4', 'letter'])('is measured on its sheet, %s', async (paper) => {
    expect(await run('calibrate', '--printer', name, '--paper', paper, '-o', 'sheet.pdf')).toMatchObject({
      code: 0,
    });
    const bytes = bytesOf('sheet.pdf');
    expect(proveFile(bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
    const [across = '', along = ''] = readBars(readPdf(bytes).pages[0] as PdfPage);
    const readings = ['--across', across, '--along', along, '--date', '2026-03-14'];
    const ran = await run('calibrate', '--printer', name, '--paper', paper, ...readings);
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    expect(ran.stdout).toContain('99.3% across, 100.4% along, 2026-03-14');
  });

  it('is kept in a file that people can read, and listed', async () => {
    const text = readFileSync(join(folder, 'settings', 'soapstone', 'printers.yaml'), 'utf8');
    expect(text).toContain('shop laser:\n  210 x 297 mm: 99.3% across, 100.4% along, 2026-03-14\n');
    const { stdout } = await run('calibrate', '--list');
    expect(stdout).toContain('shop laser, 215.9 x 279.4 mm: 99.3% across, 100.4% along, 2026-03-14');
  });

  it.each([
    ['a4', 'portrait'],
    ['letter', 'landscape'],
    ['letter', 'portrait'],
  ])('prints 100 mm and 4 in true on %s %s, and the length of pages taped together', async (paper, hold) => {
    const asked = [
      'band',
      '--stock',
      'DN 300 sch 40',
      '--height',
      '150mm',
      '--paper',
      paper,
      '--orientation',
      hold,
    ];
    const ran = await run(...asked, '--units', 'mm', '--printer', name, '-o', 'band.pdf');
    expect(ran).toMatchObject({ code: 0, stderr: '' });
    const file = readPdf(bytesOf('band.pdf'));
    for (const page of file.pages)
      for (const axis of ['x', 'y'] as const)
        for (const length of [100, 101.6]) {
          const lengths = ruledLengths(printPage(page, printer), axis);
          const off = Math.min(...lengths.map((found) => Math.abs(found - length)));
          expect(off, `${page.label} ${axis} ${length}`).toBeLessThan(0.01);
        }
    // The check line under the drawing, from arrow to arrow: the longest level line of all pages of its row together.
    const checked = [1, 2].flatMap((row) => {
      const pages = file.pages.flatMap(({ label }, i) => (label.includes(` ${row}.`) ? [i + 1] : []));
      if (pages.length < 3) return [];
      const { strokes, miss } = tapeRow(file, pages, printer);
      expect(miss).toBeLessThan(0.01);
      const pieces = strokes.filter(({ layer, from, to }) => {
        const length = Math.abs(to.x - from.x);
        const isRule = Math.abs(length - 100) < 0.5 || Math.abs(length - 101.6) < 0.5;
        return layer === 'scale' && Math.abs(to.y - from.y) < 1e-4 && length > 5 && !isRule;
      });
      const xs = pieces.flatMap(({ from, to }) => [from.x, to.x]);
      return pieces.length > 0 ? [Math.max(...xs) - Math.min(...xs)] : [];
    });
    expect(checked.length).toBeGreaterThan(0);
    const length = Math.max(...checked);
    const words = (await readTexts(bytesOf('band.pdf'))).join(' ');
    const told = Math.max(
      ...[...words.matchAll(/taping check (\d+(?:\.\d+)?) mm/g)].map(([, mm]) => Number(mm)),
    );
    expect(told).toBeGreaterThan(900);
    expect(Math.abs(length - told)).toBeLessThan(0.01);
    expect(words).toContain('True on printer "shop laser" only,');
    expect(words).toContain('calibrated 2026-03-14');
  });

  it('gives the same bytes for the same profile, and a reprint from the file alone', async () => {
    const asked = ['miter', '--pipe', 'NPS 2 sch 40', '--cut', '45', '--printer', name];
    await run(...asked, '-o', 'first.pdf');
    await run(...asked, '-o', 'second.pdf');
    expect(Buffer.compare(bytesOf('first.pdf'), bytesOf('second.pdf'))).toBe(0);
    process.env.SOAPSTONE_CONFIG = join(folder, 'nothing here');
    expect(await run('reprint', 'first.pdf', '-o', 'again.pdf')).toMatchObject({ code: 0, stderr: '' });
    expect(Buffer.compare(bytesOf('first.pdf'), bytesOf('again.pdf'))).toBe(0);
    const other = await run('reprint', 'first.pdf', '--paper', 'a3', '-o', 'other.pdf');
    expect(other).toMatchObject({ code: 2 });
    expect(other.stderr).toContain('not calibrated');
    expect(await run('reprint', 'first.pdf', '--printer', 'none', '-o', 'plain.pdf')).toMatchObject({
      code: 0,
    });
    process.env.SOAPSTONE_CONFIG = join(folder, 'settings', 'soapstone');
    await run('miter', '--pipe', 'NPS 2 sch 40', '--cut', '45', '-o', 'uncorrected.pdf');
    const contentOf = (file: string) => readPdf(bytesOf(file)).pages.map(({ digest }) => digest);
    expect(contentOf('plain.pdf')).toEqual(contentOf('uncorrected.pdf'));
  });

  it('is proved by what it prints; a file whose scale was changed is not', async () => {
    await run('miter', '--pipe', 'NPS 2 sch 40', '--cut', '45', '--printer', name, '-o', 'miter.pdf');
    expect(proveFile(bytesOf('miter.pdf')).findings.filter(({ ok }) => !ok)).toEqual([]);
    const text = Buffer.from(bytesOf('miter.pdf')).toString('latin1');
    const changed = text.replace(
      /(\/C 0\.35)(\d)/,
      (_all, lead: string, digit: string) => `${lead}${digit === '9' ? 8 : Number(digit) + 1}`,
    );
    expect(changed).not.toBe(text);
    const failed = proveFile(new Uint8Array(Buffer.from(changed, 'latin1'))).findings.filter(({ ok }) => !ok);
    expect(failed.map(({ check }) => check)).toContain('correction for the printer');
    expect(failed.map(({ check }) => check)).toContain('pages as written');
  });

  it('leaves files for cutters as they are', async () => {
    const asked = ['miter', '--pipe', 'NPS 2 sch 40', '--cut', '45'];
    await run(...asked, '-o', 'plain.svg', '-o', 'plain.dxf', '-o', 'plain.csv');
    await run(...asked, '--printer', name, '-o', 'printer.svg', '-o', 'printer.dxf', '-o', 'printer.csv');
    for (const format of ['svg', 'dxf', 'csv'])
      expect(readFileSync(join(folder, `printer.${format}`), 'utf8')).toBe(
        readFileSync(join(folder, `plain.${format}`), 'utf8'),
      );
  });

  it('corrects the pieces of a job', async () => {
    const job = `defaults: {paper: a4, printer: ${name}}\npieces:\n  - {layout: band, pipe: DN 50 sch 40, piece: B1}\n`;
    writeFileSync(join(folder, 'job.yaml'), job);
    expect(await run('job', 'job.yaml', '-o', '.')).toMatchObject({ code: 0 });
    const page = readPdf(bytesOf('B1.pdf')).pages[0] as PdfPage;
    const off = ruledLengths(printPage(page, printer), 'x').map((length) => Math.abs(length - 100));
    expect(Math.min(...off)).toBeLessThan(0.01);
  });

  it('is forgotten when asked, one paper or all', async () => {
    const remove = (...more: string[]) => run('calibrate', '--remove', '--printer', 'SHOP laser', ...more);
    expect(await remove('--paper', 'a0')).toMatchObject({ code: 2 });
    expect(await remove('--paper', 'letter')).toMatchObject({ code: 0 });
    expect((await run('calibrate', '--list')).stdout).not.toContain('215.9');
    expect(await remove()).toMatchObject({ code: 0 });
    expect((await run('calibrate', '--list')).stdout).toContain('No printer is calibrated');
    const lost = await run('band', '--pipe', 'DN 50 sch 40', '--printer', name, '-o', 'lost.pdf');
    expect(lost).toMatchObject({ code: 2 });
    expect(lost.stderr).toContain('not calibrated');
  });
});

describe('readings are refused', () => {
  it.each([
    ['more than 2 %', ['--across', '180mm', '--along', '240mm'], 'fit to page'],
    ['another bar', ['--across', '19mm', '--along', '240mm'], 'drawn 190 mm'],
    ['bars that differ', ['--across', '189mm,190mm', '--along', '240mm'], 'crooked'],
    ['half of them', ['--across', '190mm'], 'one reading or both'],
    ['too many', ['--across', '190mm,190mm,190mm', '--along', '240mm'], 'one reading or both'],
    ['no length', ['--across', 'long', '--along', '240mm'], ''],
    ['a length below nothing', ['--across', '-190mm', '--along', '240mm'], ''],
    ['bare numbers', ['--across', '190', '--along', '240'], ''],
    ['no date', ['--across', '190mm', '--along', '240mm', '--date', '2026-02-30'], 'year-month-day'],
    ['two tasks', ['--across', '190mm', '--list'], 'one of them'],
  ])('%s', async (_what, words, hint) => {
    const { code, stderr } = await run('calibrate', '--printer', name, '--paper', 'a4', ...words);
    expect(code).toBe(2);
    expect(stderr).toContain(hint);
    expect((await run('calibrate', '--list')).stdout).toContain('No printer is calibrated');
  });

  it('a printer called none, and no printer', async () => {
    const readings = ['--across', '190mm', '--along', '240mm'];
    expect(await run('calibrate', '--printer', 'None', ...readings)).toMatchObject({ code: 2 });
    expect(await run('calibrate', ...readings)).toMatchObject({ code: 2 });
  });

  it('a file of profiles that says nothing of the kind', async () => {
    process.env.SOAPSTONE_CONFIG = folder;
    for (const text of [
      'shop laser: 1',
      'a: {b: 50% across, 50% along, 2026-03-14}',
      '{',
      '- x',
      '&a [*a]',
    ]) {
      writeFileSync(join(folder, 'printers.yaml'), text);
      const { code, stderr } = await run('calibrate', '--list');
      expect(code, text).toBe(4);
      expect(stderr).toContain('printers.yaml');
    }
  });
});
