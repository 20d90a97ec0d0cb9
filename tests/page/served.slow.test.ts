import { createServer, type Server } from 'node:http';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildPage } from '../../.tools/page/build-page.ts';
import { runInside } from '../support/command-line.ts';

const root = join(import.meta.dirname, '../..');
let folder = '';
let server: Server;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
  // The command writes what the build left; here it is built for the test if it is not there.
  const dist = join(root, 'dist/page');
  if (!existsSync(join(dist, 'page.html'))) {
    const { html, keeper } = await buildPage(root);
    mkdirSync(dist, { recursive: true });
    writeFileSync(join(dist, 'page.html'), html);
    writeFileSync(join(dist, 'keeper.js'), keeper);
  }
  const ran = await runInside(folder, ['page', '--folder', 'www']);
  expect(ran.stderr).toBe('');
  const types = new Map([
    ['html', 'text/html'],
    ['js', 'text/javascript'],
    ['svg', 'image/svg+xml'],
    ['webmanifest', 'application/manifest+json'],
  ]);
  server = createServer(({ url = '/' }, answer) => {
    const name = url === '/' ? 'index.html' : url.slice(1);
    const path = join(folder, 'www', name.replace(/[^\w.-]/g, ''));
    if (!existsSync(path)) {
      answer.writeHead(404).end();
      return;
    }
    answer.writeHead(200, { 'content-type': types.get(name.replace(/^.*\./, '')) ?? 'text/plain' });
    answer.end(readFileSync(path));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
});
afterAll(() => {
  server.close();
  rmSync(folder, { recursive: true, force: true });
});

it('a served page opens again without a network', async () => {
  const browser = await chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: ['--headless', '--no-sandbox', '--disable-gpu'],
  });
  const context = await browser.newContext();
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  const { port } = server.address() as AddressInfo;
  await page.goto(`http://127.0.0.1:${port}/`);
  await page.locator('.templates').first().waitFor();
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  const manifest = await page.locator('link[rel="manifest"]').getAttribute('href');
  expect(manifest).toBe('manifest.webmanifest');
  await context.setOffline(true);
  await page.reload();
  await page.locator('.templates').first().waitFor();
  expect(errors).toEqual([]);
  await browser.close();
});
