import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import jsqr from 'jsqr';
import { describe, expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf, type Texts } from '../../src/index.ts';
import { paginate } from '../../src/paging/paginate.ts';
import { runTool, withFile } from '../support/external.ts';
import { bandSheet, optionsFor, ringSheet } from './fixtures.ts';
import { codeOf, findCodeFaults } from './page-checks.ts';

/** Its types speak of a default export, which it is itself. */
const decodeCode = jsqr as unknown as typeof jsqr.default;

/** A page as poppler paints it, grey, as a scanner sees it. */
const paintPage = (bytes: Uint8Array, page: number) =>
  withFile(bytes, (file, folder) => {
    const { status, stderr } = runTool('pdftoppm', [
      ...['-gray', '-r', '300', '-f', String(page), '-l', String(page), '-singlefile'],
      file,
      join(folder, 'page'),
    ]);
    if (status !== 0) throw new Error(stderr);
    const image = readFileSync(join(folder, 'page.pgm'));
    const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(image.subarray(0, 60).toString('latin1'));
    const [width, height] = [Number(head?.[1]), Number(head?.[2])];
    return { width, height, grey: image.subarray(head?.[0].length) };
  });

/** What a reader other than ours (jsQR) reads in a square of a page, mm from its lower left corner. */
const readCode = (bytes: Uint8Array, page: number, box: { minX: number; maxY: number; maxX: number }) => {
  const { width, height, grey } = paintPage(bytes, page);
  const dots = 300 / 25.4;
  const quiet = 2;
  const side = Math.round((box.maxX - box.minX + 2 * quiet) * dots);
  const [left, top] = [Math.round((box.minX - quiet) * dots), height - Math.round((box.maxY + quiet) * dots)];
  const pixels = new Uint8ClampedArray(4 * side * side).fill(255);
  for (let y = 0; y < side; y += 1)
    for (let x = 0; x < side; x += 1) {
      const value = grey[(top + y) * width + left + x] ?? 255;
      pixels.fill(value, 4 * (y * side + x), 4 * (y * side + x) + 3);
    }
  return decodeCode(pixels, side, side)?.data;
};

describe('the code on the first page', () => {
  it.each<[string, Texts, string]>([
    ['band', { pipe: 'DN 50 sch 40', piece: 'S12-3', revision: 'B' }, 'S12-3 rev B '],
    ['band', { pipe: 'NPS 10 sch 40', piece: 'S12-3', revision: 'B', paper: 'letter' }, 'S12-3 rev B '],
    ['band', { pipe: 'NPS 2 sch 40', paper: '160x200mm', piece: 'P1' }, 'P1 '],
    ['miter', { pipe: 'DN 100 sch 40', cut: '30' }, ''],
    ['band', { pipe: 'DN 50 sch 40', piece: 'ø½″ – Kühlwasser, Strang 12, oben links', revision: 'B' }, 'ø½″ – Kühlwasser, Strang 12, oben links rev B '], // prettier-ignore
    ['band', { pipe: 'DN 50 sch 40', piece: 'ł'.repeat(80), revision: 'B' }, `${'ł'.repeat(40)}… rev B `],
    ['band', { pipe: 'DN 50 sch 40', piece: 'S1', printer: 'laser', calibration: '98.2% across, 101.3% along, 2026-03-14' }, 'S1 '], // prettier-ignore
  ])('is read by another program: %s %j', async (layout, texts, head) => {
    const book = makeBook(readRequest(layout, texts));
    const box = codeOf(book.pages[0]!);
    expect(box).toBeDefined();
    expect(readCode(await renderPdf(book), 1, box!)).toMatch(
      new RegExp(`^${head}[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$`, 'u'),
    );
  });

  it('keeps its quiet zone on any paper, with any words, and stands on no other page', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('letter', 'a4', 'a3', 'tabloid', '24in-roll', '150x190mm', '200x150mm'),
        fc.constantFrom('auto', 'portrait', 'landscape'),
        fc.integer({ min: 60, max: 1900 }),
        fc.boolean(),
        fc.option(fc.constant('rev D'), { nil: undefined }),
        (paper, orientation, girth, isRing, supersededBy) => {
          const options = optionsFor(paper, { orientation });
          const sheet = isRing ? ringSheet(girth / 2) : bandSheet(girth, 90);
          let paged;
          try {
            paged = paginate([sheet], { ...options, title: { ...options.title, supersededBy } });
          } catch (error) {
            // Small paper held the wrong way has no room for its scale checks.
            if (/leaves \d+ x \d+ mm inside its margins/.test(String(error))) return;
            throw error;
          }
          expect(paged.pages.flatMap((page, i) => findCodeFaults(page, i === 0))).toEqual([]);
        },
      ),
      { numRuns: 40 },
    );
  });
});
