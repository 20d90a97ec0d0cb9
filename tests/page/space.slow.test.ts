import { readFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { runInside } from '../support/command-line.ts';
import { findBarriers, findSmallTargets } from './access.ts';
import { preparePage, settle, takeFile, type PageUnderTest } from './open-page.ts';

let under: PageUnderTest;
beforeAll(async () => {
  under = await preparePage();
});
afterAll(() => under.close());

const request = `#branch?${new URLSearchParams({ branch: 'NPS 2 sch 40', header: 'NPS 4 sch 40', angle: '60' }).toString()}`;

/** What the board shows, as a picture. */
const look = async (page: Page): Promise<Buffer> => {
  await page.waitForTimeout(600);
  return page.locator('.joint .board').screenshot();
};

it('shows the joint with its template, turned by keys, parts off and taken apart', async () => {
  const { page, errors } = await under.open(request);
  await settle(page);
  await page.getByRole('tab', { name: '3D' }).click();
  await page.locator('.joint canvas').waitFor();
  await page.getByLabel('Template: Branch end').waitFor();
  const first = await look(page);
  await page.locator('.joint .board').focus();
  await page.keyboard.press('ArrowRight');
  const turned = await look(page);
  expect(turned.equals(first)).toBe(false);
  await page.keyboard.press('0');
  expect((await look(page)).equals(first)).toBe(true);
  await page.getByLabel('Branch', { exact: true }).last().uncheck();
  expect((await look(page)).equals(first)).toBe(false);
  await page.getByLabel('Branch', { exact: true }).last().check();
  await page.getByLabel('Exploded').focus();
  await page.keyboard.press('End');
  expect((await look(page)).equals(first)).toBe(false);
  expect(await findBarriers(page)).toEqual([]);
  expect(await findSmallTargets(page)).toEqual([]);
  expect(errors).toEqual([]);
  await page.context().close();
});

it('writes the same mesh as the command line', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
  const { page } = await under.open(request);
  await settle(page);
  const { bytes } = await takeFile(page, 'Save STL');
  const words = ['--branch', 'NPS 2 sch 40', '--header', 'NPS 4 sch 40', '--angle', '60', '-o', 'x.stl'];
  expect((await runInside(folder, ['branch', ...words])).stderr).toBe('');
  const own = readFileSync(join(folder, 'x.stl'));
  expect(bytes.length).toBe(own.length);
  // Binary STL: 84 bytes of head, then 50 a triangle: 12 floats of 32 bits and two bytes (Fabbers, StereoLithography Interface Specification).
  for (let at = 84; at + 50 <= own.length; at += 50)
    for (let i = 0; i < 12; i += 1)
      expect(Math.abs(bytes.readFloatLE(at + 4 * i) - own.readFloatLE(at + 4 * i))).toBeLessThan(1e-4);
  rmSync(folder, { recursive: true, force: true });
  await page.context().close();
});
