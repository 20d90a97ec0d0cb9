import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright-core';
import { buildPage } from '../../.tools/page/build-page.ts';

const flags = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** How a window is opened. */
export interface Window {
  readonly width?: number;
  readonly height?: number;
  readonly light?: 'light' | 'dark';
  readonly touch?: boolean;
}

/** A window with the page in it, and what it did that it should not. */
export interface Opened {
  readonly page: Page;
  /** Addresses asked for beside the page's own file and what it makes itself. */
  readonly requests: readonly string[];
  /** Errors of scripts and of the content policy. */
  readonly errors: readonly string[];
}

/** The page built and written to a folder, and a browser to open it in. */
export interface PageUnderTest {
  readonly file: string;
  readonly folder: string;
  readonly html: string;
  /** Opens the page, from the disk, without a network; `hash` is the part of its address after the file. */
  readonly open: (hash?: string, window?: Window) => Promise<Opened>;
  readonly close: () => Promise<void>;
}

/** Builds the page and starts a browser. */
export const preparePage = async (): Promise<PageUnderTest> => {
  const { html } = await buildPage(join(import.meta.dirname, '../..'));
  const folder = mkdtempSync(join(tmpdir(), 'soapstone-page-'));
  const file = join(folder, 'soapstone.html');
  writeFileSync(file, html);
  const browser: Browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: flags });
  return {
    file,
    folder,
    html,
    open: async (hash = '', { width = 1280, height = 900, light = 'light', touch = false } = {}) => {
      const context = await browser.newContext({
        viewport: { width, height },
        colorScheme: light,
        hasTouch: touch,
        isMobile: touch,
        acceptDownloads: true,
        reducedMotion: 'reduce',
      });
      // A slow machine is no fault of the page; each test has its own limit.
      context.setDefaultTimeout(120_000);
      const page = await context.newPage();
      const [requests, errors]: [string[], string[]] = [[], []];
      page.on('request', (request) => {
        const url = request.url();
        if (!url.startsWith('blob:') && !url.startsWith('data:') && !url.startsWith(pathToFileURL(file).href))
          requests.push(url);
      });
      page.on('pageerror', (error) => errors.push(error.message));
      page.on('console', (message) => {
        if (message.type() === 'error') errors.push(message.text());
      });
      await context.setOffline(true);
      await page.goto(`${pathToFileURL(file).href}${hash}`);
      return { page, requests, errors };
    },
    close: async () => {
      await browser.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
};

/** Waits until the form's request has been answered: drawn, or told why not. */
export const settle = async (page: Page): Promise<void> => {
  await page.locator('.views-of[aria-busy="false"]').waitFor();
};

/** Presses a key of the page and takes the file it saves. */
export const takeFile = async (page: Page, key: string): Promise<{ name: string; bytes: Buffer }> => {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: key, exact: true }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
};
