/**
 * How quick the page is, in Debian's chromium with the page opened from the disk: first drawing on a processor slowed four times,
 * from a key to the redrawn sheet, frames of the joint in space, and the size of the file. `--record` writes the table into
 * DEVELOPERS.md.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright-core';
import { makeTable } from '../bench/table.ts';
import { buildPage } from './build-page.ts';

const request = `#branch?${new URLSearchParams({ branch: 'NPS 2 sch 40', header: 'NPS 4 sch 40', angle: '60' }).toString()}`;
const keys = 200;

const openSlowed = async (browser: Browser, address: string, rate: number): Promise<Page> => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  // What runs in the page is compiled by tsx, which names functions by a helper of its own.
  await context.addInitScript('globalThis.__name = (made) => made');
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
  await page.goto(address);
  await page.locator('.board .drawing path').first().waitFor({ state: 'attached' });
  return page;
};

/** Milliseconds from opening to the first drawing, the median of five. */
const timeFirst = async (browser: Browser, address: string, rate: number): Promise<number> => {
  const times: number[] = [];
  for (let i = 0; i < 5; i += 1) {
    const page = await openSlowed(browser, address, rate);
    times.push(await page.evaluate(() => performance.now()));
    await page.context().close();
  }
  return times.sort((a, b) => a - b)[2] ?? 0;
};

/** Milliseconds from each key to the sheet that answers it. */
const timeKeys = (page: Page): Promise<readonly number[]> =>
  page.evaluate(async (count) => {
    const input = document.querySelector<HTMLInputElement>('#in-angle');
    const views = document.querySelector('.views-of');
    if (input === null || views === null) throw new Error('the form is not there');
    const drawn = (): string => document.querySelector('.board .drawing')?.innerHTML ?? '';
    const times: number[] = [];
    for (let i = 0; i < count; i += 1) {
      const before = drawn();
      const start = performance.now();
      const changed = new Promise<number>((resolve) => {
        const watch = new MutationObserver(() => {
          if (drawn() === before) return;
          watch.disconnect();
          resolve(performance.now());
        });
        watch.observe(views, { subtree: true, childList: true });
      });
      input.value = `${45 + (i % 60)}${i % 2 === 0 ? '' : '.5'}`;
      input.dispatchEvent(new Event('input', { bubbles: true }));
      times.push((await changed) - start);
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    return times.sort((a, b) => a - b);
  }, keys);

/** Frames a second while the joint is turned by keys for two seconds. */
const countFrames = async (page: Page): Promise<number> => {
  await page.getByRole('tab', { name: '3D' }).click();
  await page.locator('.joint canvas').waitFor();
  await page.waitForTimeout(1000);
  return page.evaluate(
    () =>
      new Promise<number>((resolve) => {
        const board = document.querySelector('.joint .board');
        const start = performance.now();
        let frames = 0;
        const turn = (): void => {
          frames += 1;
          board?.dispatchEvent(
            new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true, cancelable: true }),
          );
          if (performance.now() - start < 2000) requestAnimationFrame(turn);
          else resolve((frames * 1000) / (performance.now() - start));
        };
        requestAnimationFrame(turn);
      }),
  );
};

const { html } = await buildPage(join(import.meta.dirname, '../..'));
const folder = mkdtempSync(join(tmpdir(), 'soapstone-page-'));
const file = join(folder, 'soapstone.html');
writeFileSync(file, html);
const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-background-networking'],
});
const address = `${pathToFileURL(file).href}${request}`;
const [plain, slowed] = [await timeFirst(browser, address, 1), await timeFirst(browser, address, 4)];
const page = await openSlowed(browser, address, 1);
await page.waitForTimeout(1000);
const times = await timeKeys(page);
const frames = await countFrames(page);
await browser.close();
rmSync(folder, { recursive: true, force: true });
const at = (share: number): number => times[Math.floor(share * times.length)] ?? NaN;
const { note, finish } = makeTable();
const ms = (value: number): string => `${value.toFixed(value < 100 ? 1 : 0)} ms`;
const megabytes = html.length / 1e6;
note('size of the page, MB', `${megabytes.toFixed(2)} MB`, megabytes, 2.2, 'most');
note(
  `first drawing, processor slowed 4 times (${ms(plain)} unslowed), s`,
  ms(slowed),
  slowed / 1000,
  1.5,
  'most',
);
note('key to redrawn sheet, median, ms', ms(at(0.5)), at(0.5), 16, 'most');
note('key to redrawn sheet, 95 of 100 within, ms', ms(at(0.95)), at(0.95), 50, 'most');
note('joint in space, software rendering, frames a second', `${frames.toFixed(0)}`, frames, 30, 'least');
finish('npm run bench:page', process.argv.includes('--record'));
