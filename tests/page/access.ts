import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

interface Found {
  readonly violations: readonly {
    readonly id: string;
    readonly help: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
  }[];
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe-core finds against WCAG 2.2 A and AA and its own good practice, one line a finding. */
export const findBarriers = async (page: Page): Promise<readonly string[]> => {
  await page.evaluate(axe);
  const { violations } = await page.evaluate<Found>(
    `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })`,
  );
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html, failureSummary = '' }) => `${id}: ${help}: ${html.slice(0, 160)}: ${failureSummary}`),
  );
};

/** Keys, fields and links smaller than a gloved finger: 44 CSS pixels either way. Links within running text are let pass. */
export const findSmallTargets = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const small: string[] = [];
    for (const one of document.querySelectorAll<HTMLElement>('a, button, input, summary, select')) {
      const label = one instanceof HTMLInputElement ? (one.closest('label') ?? one) : one;
      const { width, height } = label.getBoundingClientRect();
      if (width === 0 || height === 0 || one.closest('p') !== null) continue;
      if (width < 44 || height < 44)
        small.push(`${Math.round(width)} x ${Math.round(height)}: ${one.outerHTML.slice(0, 120)}`);
    }
    return small;
  });

/** Whether anything makes the page wider than its window. */
export const isTooWide = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
