import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { preparePage, settle, takeFile, type PageUnderTest } from './open-page.ts';

let under: PageUnderTest;
beforeAll(async () => {
  under = await preparePage();
}, 120_000);
afterAll(() => under.close());

const go = async (page: Page, hash: string): Promise<void> => {
  await page.goto(`${page.url().split('#')[0] ?? ''}${hash}`);
  if (/^#\w/.test(hash)) await settle(page);
};

/** Presses a key of the form and waits for what it says it did. */
const press = async (page: Page, key: string, said: string): Promise<void> => {
  await page.getByRole('button', { name: key, exact: true }).click();
  await page.getByRole('status').filter({ hasText: said }).waitFor();
};

const listed = async (page: Page): Promise<readonly string[]> => {
  await go(page, '#/pieces');
  await page.getByRole('heading', { name: 'Pieces', level: 1 }).waitFor();
  return page.locator('.pieces strong').allTextContents();
};

describe('the list of pieces', () => {
  it('takes the change of a piece, and the next template as a piece of its own', async () => {
    const { page, errors } = await under.open('#miter?stock=NPS+2+sch+40&cut=20&piece=M1');
    await settle(page);
    await press(page, 'Add to the pieces', 'Added to the pieces');
    expect(await listed(page)).toEqual(['1. M1 · Miter']);
    await page.getByRole('button', { name: 'Open', exact: true }).click();
    await settle(page);
    await page.getByLabel('Cut', { exact: true }).fill('30');
    await settle(page);
    await press(page, 'Change the piece', 'Piece changed');
    await go(page, '#center?diameter=100mm&piece=C1');
    await press(page, 'Add to the pieces', 'Added to the pieces');
    expect(await listed(page)).toEqual(['1. M1 · Miter', '2. C1 · Center']);
    expect(await page.locator('.pieces li').first().textContent()).toContain('cut 30');
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('goes where it was sent, even when keys were pressed just before', async () => {
    const { page } = await under.open('#miter?stock=NPS+2+sch+40&cut=20&piece=M1');
    await settle(page);
    await page.getByLabel('Cut', { exact: true }).fill('30');
    // A browser tells a page of its new address a moment after it has it.
    await page.evaluate(() => history.pushState(null, '', '#center?diameter=100mm&piece=C1'));
    await page.waitForTimeout(600);
    await page.evaluate(() => dispatchEvent(new HashChangeEvent('hashchange')));
    await page.getByRole('heading', { name: 'Center', level: 1 }).waitFor();
    expect(page.url()).toContain('#center?');
    await page.context().close();
  });

  it('keeps what another window has added, and finds a piece that was moved there', async () => {
    const { page } = await under.open('#miter?stock=NPS+2+sch+40&cut=20&piece=M1');
    await settle(page);
    await press(page, 'Add to the pieces', 'Added to the pieces');
    const other = await page.context().newPage();
    await other.goto(page.url());
    await go(other, '#center?diameter=100mm&piece=C1');
    await listed(page);
    await page.getByRole('button', { name: 'Open', exact: true }).click();
    await settle(page);
    await press(other, 'Add to the pieces', 'Added to the pieces');
    expect(await listed(other)).toEqual(['1. M1 · Miter', '2. C1 · Center']);
    await other.getByRole('button', { name: 'Up', exact: true }).nth(1).click();
    await other.locator('.pieces strong', { hasText: '2. M1' }).waitFor();
    await page.getByLabel('Cut', { exact: true }).fill('30');
    await settle(page);
    await press(page, 'Change the piece', 'Piece changed');
    expect(await listed(page)).toEqual(['1. C1 · Center', '2. M1 · Miter']);
    expect(await page.locator('.pieces li').nth(1).textContent()).toContain('cut 30');
    await page.context().close();
  });

  it('takes a fault of the book’s name back when it is put right', async () => {
    const { page } = await under.open('#center?diameter=100mm&piece=C1');
    await settle(page);
    await press(page, 'Add to the pieces', 'Added to the pieces');
    await listed(page);
    await page.getByLabel('Name of the book').fill('a/b');
    await page.getByRole('button', { name: 'Save one book (PDF)' }).click();
    const told = page.locator('.telling', { hasText: 'not a plain name' });
    await told.waitFor();
    await page.getByLabel('Name of the book').fill('ab');
    await takeFile(page, 'Save one book (PDF)');
    expect(await told.count()).toBe(0);
    await page.context().close();
  });
});
