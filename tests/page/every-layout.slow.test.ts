import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { layouts } from '../../src/layouts/registry.ts';
import { readExample } from '../../src/page/core/example.ts';
import { captionOf } from '../../src/words/captions.ts';
import { runInside } from '../support/command-line.ts';
import { preparePage, settle, takeFile, type PageUnderTest } from './open-page.ts';
import { expectSameDxf, expectSamePdf } from './same-file.ts';

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

it.each(layouts.map((layout) => [layout.id, layout] as const))(
  '%s, filled by keyboard, is the print and the cutter file of the command line',
  async (id, layout) => {
    const { page, requests, errors } = await under.open(`#${id}`);
    await settle(page);
    const texts = readExample(layout, layout.examples[0] ?? '');
    const [first = ''] = Object.keys(texts);
    // The first answer is typed anew, by keyboard, over what stood there.
    const typed = [texts[first] ?? ''].flat()[0] ?? '';
    const field = page.locator(`#in-${first}`);
    if ((await field.getAttribute('type')) === 'text') {
      await field.focus();
      await page.keyboard.press('ControlOrMeta+A');
      await page.keyboard.press('Delete');
      await page.keyboard.type(typed);
      await settle(page);
    }
    expect(await page.locator('h1').textContent()).toBe(captionOf(id));
    const words = Object.entries(texts).flatMap(([name, text]) =>
      [text].flat().flatMap((one) => [`--${name}`, one]),
    );
    // A flag stands alone on the command line.
    const given = words.filter((word, i) => !(word === 'yes' && words[i - 1]?.startsWith('--') === true));
    const ran = await runInside(folder, [id, ...given, '-o', 'x.pdf', '-o', 'x.dxf']);
    expect(ran.stderr).toBe('');
    const dxf = await takeFile(page, 'Save DXF');
    expectSameDxf(dxf.bytes.toString('utf8'), readFileSync(join(folder, 'x.dxf'), 'utf8'));
    const pdf = await takeFile(page, 'Save PDF');
    expectSamePdf(pdf.bytes, readFileSync(join(folder, 'x.pdf')));
    expect({ requests, errors }).toEqual({ requests: [], errors: [] });
    await page.context().close();
  },
);
