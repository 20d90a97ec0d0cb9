import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { findBarriers, findSmallTargets, isTooWide } from './access.ts';
import { preparePage, settle, type PageUnderTest } from './open-page.ts';

let under: PageUnderTest;
beforeAll(async () => {
  under = await preparePage();
});
afterAll(() => under.close());

const request = `#branch?${new URLSearchParams({ branch: 'NPS 2 sch 40', header: 'NPS 4 sch 40', angle: '60' }).toString()}`;
const wrong = `#branch?${new URLSearchParams({ branch: 'NPS 2 sch 41', header: 'NPS 4 sch 40', angle: '12' }).toString()}`;

const tab = (name: string) => async (page: Page) => {
  await settle(page);
  await page.getByRole('tab', { name, exact: true }).click();
  await page.waitForTimeout(500);
};

/** Every screen of the page: how it is come to. */
interface Screen {
  readonly name: string;
  readonly hash: string;
  readonly go?: (page: Page) => Promise<void>;
}

const screens: readonly Screen[] = [
  { name: 'choosing', hash: '' },
  { name: 'searching', hash: '', go: (page) => page.getByRole('searchbox').fill('elbow') },
  { name: 'a form and its sheet', hash: request, go: settle },
  { name: 'a form with faults', hash: wrong, go: settle },
  { name: 'pages', hash: request, go: tab('Pages') },
  { name: 'figures', hash: request, go: tab('Figures') },
  {
    name: 'holding to the work',
    hash: request,
    go: async (page) => {
      await settle(page);
      await page.getByRole('button', { name: 'Hold to the work' }).click();
    },
  },
  {
    name: 'all inputs and the code',
    hash: request,
    go: async (page) => {
      await settle(page);
      await page.evaluate(() => document.querySelectorAll('details').forEach((one) => (one.open = true)));
      await page.getByRole('button', { name: 'Show a code to scan' }).click();
    },
  },
  {
    name: 'pieces',
    hash: request,
    go: async (page) => {
      await settle(page);
      await page.getByRole('button', { name: 'Add to the pieces' }).click();
      await page.getByRole('link', { name: 'Pieces (1)' }).click();
      await page.getByRole('heading', { name: 'Pieces', level: 1 }).waitFor();
    },
  },
  { name: 'printers', hash: '#/printers' },
  { name: 'a template that is not there', hash: '#bandd?x=1' },
];

const windows = [
  ['a phone of 320 px by day', { width: 320, height: 640, light: 'light', touch: true }],
  ['an office machine by night', { width: 1280, height: 900, light: 'dark' }],
  ['a wall screen', { width: 3840, height: 2160, light: 'light' }],
] as const;

describe.each(windows)('on %s', (_, window) => {
  it.each(screens)('$name has no barrier, no small target and nothing cut off', async ({ hash, go }) => {
    const { page, errors } = await under.open(hash, window);
    await page.locator('main :is(h1, a)').first().waitFor();
    await go?.(page);
    expect(await findBarriers(page)).toEqual([]);
    expect(await findSmallTargets(page)).toEqual([]);
    expect(await isTooWide(page)).toBe(false);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});
