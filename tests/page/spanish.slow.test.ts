import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { preparePage, takeFile, type PageUnderTest } from './open-page.ts';
import { readTexts } from '../support/pdf-texts.ts';

let under: PageUnderTest;
beforeAll(async () => {
  under = await preparePage();
}, 120_000);
afterAll(() => under.close());

describe('the page in Spanish', () => {
  it.each([
    [320, 'light'],
    [1280, 'dark'],
  ] as const)(
    'at %i px, %s, is turned to it by one key, keeps it, and cuts nothing off',
    async (width, light) => {
      const { page, requests, errors } = await under.open('#miter', { width, light });
      await page.getByRole('button', { name: 'Español' }).click();
      await page.getByRole('button', { name: 'English' }).waitFor();
      expect(await page.locator('html').getAttribute('lang')).toBe('es');
      await page.getByRole('heading', { name: 'Inglete' }).waitFor();
      await page.getByText('Cuadro de título').first().waitFor();
      await page.reload();
      await page.getByRole('button', { name: 'English' }).waitFor();
      for (const hash of ['#', '#branch', '#/pieces', '#/printers']) {
        await page.goto(`${page.url().split('#')[0] ?? ''}${hash}`);
        await page.getByRole('button', { name: 'English' }).waitFor();
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      }
      expect({ requests, errors }).toEqual({ requests: [], errors: [] });
      await page.context().close();
    },
  );

  it('asks for a printer’s readings in Spanish', async () => {
    const { page } = await under.open('#/printers');
    await page.getByRole('button', { name: 'Español' }).click();
    await page.getByRole('button', { name: 'English' }).waitFor();
    await page.getByRole('heading', { name: 'Impresoras' }).waitFor();
    const captions = await page.locator('.row .caption').allTextContents();
    expect(captions[0]).toBe('Impresora');
    expect((await page.locator('main').textContent()) ?? '').not.toMatch(
      /\b(?:Printer|Paper|Bars|Date|name of)\b/,
    );
    await page.context().close();
  });

  it('finds templates by Spanish names, tells faults in Spanish, and saves a Spanish print', async () => {
    const { page } = await under.open();
    await page.getByRole('button', { name: 'Español' }).click();
    await page.getByRole('button', { name: 'English' }).waitFor();
    await page.getByRole('searchbox').fill('codo');
    await page.locator('.templates a[href="#elbow-trim"]').waitFor();
    await page.goto(`${page.url().split('#')[0] ?? ''}#miter`);
    const stock = page.locator('#in-stock');
    await stock.fill('NPS 9 sch 40');
    await page.getByText('no es una medida de tubo').first().waitFor();
    await stock.fill('NPS 6 sch 40');
    await page.getByText('no es una medida de tubo').first().waitFor({ state: 'detached' });
    const { bytes } = await takeFile(page, 'Guardar PDF');
    expect((await readTexts(bytes)).join(' ')).toContain('Haga el trabajo en este orden');
    await page.context().close();
  });
});
