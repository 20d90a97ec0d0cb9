import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { proveFile } from '../../src/proof/prove.ts';
import { readPdf } from '../../src/proof/pdf-reader.ts';
import { runInside } from '../support/command-line.ts';
import { tracedPoints } from '../support/external.ts';
import { preparePage, settle, takeFile, type PageUnderTest } from './open-page.ts';

let under: PageUnderTest;
let folder = '';

beforeAll(async () => {
  under = await preparePage();
  folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
});
afterAll(async () => {
  await under.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Drops a file on the page, as from a folder window. */
const dropFile = async (page: Page, name: string, bytes: Buffer): Promise<void> => {
  const transfer = await page.evaluateHandle(
    ([file, text]) => {
      const data = new DataTransfer();
      const content = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
      data.items.add(new File([content], file));
      return data;
    },
    [name, bytes.toString('base64')] as const,
  );
  await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
};

const request = `#branch?${new URLSearchParams({ branch: 'DN 80 sch 40', header: 'DN 150 sch 40', angle: '70', piece: 'N-7' }).toString()}`;

describe('a print of the page', () => {
  it('proves, and opens again as the request that made it when it is dropped', async () => {
    const { page, errors } = await under.open(request);
    await settle(page);
    const identity = await page.locator('.identity strong').textContent();
    const { bytes } = await takeFile(page, 'Save PDF');
    expect(proveFile(bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
    const other = await under.open();
    await other.page.locator('.templates').first().waitFor();
    await dropFile(other.page, 'n-7.pdf', bytes);
    await settle(other.page);
    expect(await other.page.getByLabel('Angle', { exact: true }).inputValue()).toBe('70');
    expect(await other.page.locator('.identity strong').textContent()).toBe(identity);
    expect([...errors, ...other.errors]).toEqual([]);
    await page.context().close();
    await other.page.context().close();
  });

  it('comes out of the browser at true size', async () => {
    const { page } = await under.open(`${request}&paper=a4`);
    await settle(page);
    await page.evaluate(() => {
      window.print = () => undefined;
    });
    await page.getByRole('button', { name: 'Print', exact: true }).click();
    await page.locator('#print section').first().waitFor({ state: 'attached' });
    const laid = await page.locator('#print section').count();
    const printed = await page.pdf({ preferCSSPageSize: true, printBackground: true });
    writeFileSync(join(folder, 'printed.pdf'), printed);
    const pages = readPages(printed);
    expect(pages).toHaveLength(laid);
    for (const [width, height] of pages)
      expect([Math.min(width, height), Math.max(width, height)].map((side) => Math.round(side))).toEqual([
        595, 842,
      ]);
    // The 100 mm bar of the page: two ends 283.46 points apart on one line. Chromium sets pages 17 ppm small.
    const points = tracedPoints(printed, 1);
    const bars = points.flatMap((a, i) => {
      const b = points[i + 1];
      return b !== undefined && Math.abs(Math.hypot(a.x - b.x, a.y - b.y) - 283.4646) < 0.05 ? [i] : [];
    });
    expect(bars.length).toBeGreaterThanOrEqual(1);
    await page.context().close();
  });

  it('is refused where it is no print of ours', async () => {
    const { page } = await under.open();
    await page.locator('.templates').first().waitFor();
    await dropFile(page, 'letter.pdf', Buffer.from('%PDF-1.7\nnothing'));
    await page.locator('.wide-telling', { hasText: 'letter.pdf' }).waitFor();
    await page.context().close();
  });
});

/** Page sizes in points, from the page boxes of a file that another program wrote. */
const readPages = (bytes: Uint8Array): readonly (readonly [number, number])[] =>
  [
    ...Buffer.from(bytes)
      .toString('latin1')
      .matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g),
  ].map(([, width, height]) => [Number(width), Number(height)] as const);

describe('a job of 20 pieces', () => {
  const pieces = Array.from({ length: 20 }, (_, i) => ({ mark: `L-${i + 1}`, angle: String(45 + 2 * i) }));
  const yaml = [
    'book: laterals.pdf',
    'defaults:',
    '  layout: miter',
    '  stock: NPS 3 sch 40',
    '  job: Pump house',
    'pieces:',
    ...pieces.map(({ mark, angle }) => `  - { piece: ${mark}, cut: ${Number(angle) / 4} }`),
  ].join('\n');

  it('opens from its file and becomes the book of the command line, and a job file again', async () => {
    const { page, errors } = await under.open();
    await page.locator('.templates').first().waitFor();
    await page.locator('input[type="file"]').setInputFiles({
      name: 'laterals.yaml',
      mimeType: 'application/yaml',
      buffer: Buffer.from(yaml),
    });
    await page.getByRole('heading', { name: 'Pieces', level: 1 }).waitFor();
    expect(await page.locator('.pieces li').count()).toBe(20);
    await page.getByLabel('Name of the book').fill('laterals');
    const made = await takeFile(page, 'Save one book (PDF)');
    writeFileSync(join(folder, 'laterals.yaml'), yaml);
    const ran = await runInside(folder, ['job', 'laterals.yaml', '-o', folder]);
    expect(ran.stderr).toBe('');
    const [ours, theirs] = [readPdf(made.bytes), readPdf(readFileSync(join(folder, 'laterals.pdf')))];
    expect(ours.pages.map(({ label }) => label)).toEqual(theirs.pages.map(({ label }) => label));
    expect(ours.pages.map(({ strokes }) => strokes.length)).toEqual(
      theirs.pages.map(({ strokes }) => strokes.length),
    );
    expect(proveFile(made.bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
    const job = await takeFile(page, 'Save job file');
    expect(job.name).toBe('laterals.yaml');
    writeFileSync(
      join(folder, 'again.yaml'),
      job.bytes.toString('utf8').replace('laterals.pdf', 'again.pdf'),
    );
    const again = await runInside(folder, ['job', 'again.yaml', '-o', folder]);
    expect(again.stderr).toBe('');
    expect(readPdf(readFileSync(join(folder, 'again.pdf'))).pages.length).toBe(theirs.pages.length);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('is kept on the device', async () => {
    const { page } = await under.open('#miter');
    await settle(page);
    await page.getByRole('button', { name: 'Add to the pieces' }).click();
    await page.getByRole('link', { name: 'Pieces (1)' }).waitFor();
    await page.waitForTimeout(300);
    await page.reload();
    await page.getByRole('link', { name: 'Pieces (1)' }).waitFor();
    await page.context().close();
  });
});
