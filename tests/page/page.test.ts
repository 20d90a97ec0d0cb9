import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { layouts } from '../../src/layouts/registry.ts';
import { UserError } from '../../src/issue.ts';
import { readRequest } from '../../src/request.ts';
import { spoken } from '../../src/page/app/words.ts';
import { runInside } from '../support/command-line.ts';
import { preparePage, settle, takeFile, type PageUnderTest } from './open-page.ts';
import { expectSamePdf } from './same-file.ts';

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

describe('the file', () => {
  it('is one file of at most 2.2 MB', () => {
    expect(Buffer.byteLength(under.html)).toBeLessThanOrEqual(2.2e6);
    expect(under.html).not.toMatch(/<(?:script|img|link|iframe)[^>]*\s(?:src|href)="(?!data:)/);
  });

  it('lets no script but its own run, and nothing be fetched', () => {
    const policy = /http-equiv="Content-Security-Policy"\s+content="([^"]*)"/.exec(under.html)?.[1];
    expect(policy).toMatch(
      /^default-src 'none'; script-src 'sha256-[\w+/=]+'; style-src 'sha256-[\w+/=]+'; worker-src blob:; img-src data: blob:; base-uri 'none'; form-action 'none'$/,
    );
  });
});

describe('opened from the disk without a network', () => {
  it('asks for nothing and shows every layout', async () => {
    const { page, requests, errors } = await under.open();
    await page.locator('.templates').first().waitFor();
    for (const { id } of layouts) expect(await page.locator(`.templates a[href="#${id}"]`).count()).toBe(1);
    expect({ requests, errors }).toEqual({ requests: [], errors: [] });
    await page.context().close();
  });

  it.each([
    ['elbow', 'turn'],
    ['fishmouth', 'branch'],
    ['dummy leg', 'branch'],
    ['latteral', 'branch'],
    ['two-holing', 'bolt-circle'],
  ])('finds %s', async (typed, id) => {
    const { page } = await under.open();
    await page.getByRole('searchbox').fill(typed);
    await page.locator(`.templates a[href="#${id}"]`).waitFor();
    await page.context().close();
  });
});

const branch = ['--branch', 'NPS 2 sch 40', '--header', 'NPS 4 sch 40', '--angle', '60'];

describe('a branch asked for by keyboard', () => {
  it('comes out as the files of the command line', async () => {
    const { page, requests, errors } = await under.open();
    await page.getByRole('searchbox').focus();
    await page.keyboard.type('saddle');
    await page.locator('.templates a[href="#branch"]').focus();
    await page.keyboard.press('Enter');
    await page.getByLabel('Angle', { exact: true }).focus();
    await page.keyboard.press('ControlOrMeta+A');
    await page.keyboard.type('60');
    await settle(page);
    const outputs = ['pdf', 'svg', 'dxf', 'csv'].flatMap((format) => ['-o', `branch.${format}`]);
    const ran = await runInside(folder, ['branch', ...branch, ...outputs]);
    expect(ran.stderr).toBe('');
    for (const format of ['SVG', 'DXF', 'CSV'] as const) {
      const { bytes } = await takeFile(page, `Save ${format}`);
      const own = readFileSync(join(folder, `branch.${format.toLowerCase()}`), 'utf8');
      expect(bytes.toString('utf8')).toBe(own);
    }
    const { bytes } = await takeFile(page, 'Save PDF');
    expectSamePdf(bytes, readFileSync(join(folder, 'branch.pdf')));
    const identity = /identity ([\w-]+)/.exec(ran.stdout)?.[1];
    expect(await page.locator('.identity strong').textContent()).toBe(identity);
    expect({ requests, errors }).toEqual({ requests: [], errors: [] });
    await page.context().close();
  });

  it.each([
    ['angle', 'square'],
    ['branch', 'NPS 2 sch 41'],
    ['offset', '12'],
    ['gap', '-3mm'],
  ])('is refused with the words of the command line: %s "%s"', async (name, text) => {
    const texts = { branch: 'NPS 2 sch 40', header: 'NPS 4 sch 40', [name]: text };
    let refused: unknown;
    try {
      readRequest('branch', texts);
    } catch (error) {
      refused = error;
    }
    const [issue] = (refused as UserError).issues;
    const { page } = await under.open(`#branch?${new URLSearchParams(texts).toString()}`);
    await settle(page);
    const told = page.locator(`#wrong-${name}`);
    expect(await told.locator('strong').textContent()).toBe(issue?.message);
    expect(await told.textContent()).toContain(spoken(issue?.hint ?? ''));
    expect(await page.locator(`#in-${name}`).getAttribute('aria-invalid')).toBe('true');
    await page.context().close();
  });
});

describe('a link that anybody may have written', () => {
  it.each(['constructor', 'toString', '__proto__', 'hasOwnProperty'])(
    'names "%s" and is told',
    async (name) => {
      const { page, errors } = await under.open(`#miter?stock=NPS+2+sch+40&cut=20&${name}=1`);
      await page.locator('.form .telling', { hasText: `there is no option "${name}"` }).waitFor();
      expect(await page.locator('.wide-telling').count()).toBe(0);
      expect(errors).toEqual([]);
      await page.context().close();
    },
  );
});

describe('settings that were opened', () => {
  it('stay open while a fault in them is put right', async () => {
    const { page } = await under.open('#miter?stock=NPS+2+sch+40&cut=20');
    await settle(page);
    await page.locator('summary', { hasText: 'Paper' }).click();
    const paper = page.locator('#in-paper');
    await paper.fill('lettre');
    await page.locator('#wrong-paper').waitFor();
    await paper.fill('letter');
    await page.locator('#wrong-paper').waitFor({ state: 'detached' });
    expect(await paper.isVisible()).toBe(true);
    await page.context().close();
  });
});

describe('the link', () => {
  it('is shown to be copied by hand where the browser has no clipboard for the page', async () => {
    const { page, errors } = await under.open('#miter?stock=NPS+2+sch+40&cut=20');
    await settle(page);
    await page.evaluate(() => Object.defineProperty(navigator, 'clipboard', { value: undefined }));
    await page.getByRole('button', { name: 'Copy the link' }).click();
    await page.getByRole('status').filter({ hasText: 'does not let the page copy' }).waitFor();
    expect(await page.locator('.code code').textContent()).toBe('#miter?stock=NPS+2+sch+40&cut=20');
    expect(errors).toEqual([]);
    await page.context().close();
  });
});
