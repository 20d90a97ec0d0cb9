import { expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf } from '../../src/index.ts';
import { readImage } from '../../src/proof/scan-image.ts';
import { measureScan } from '../../src/proof/scan.ts';
import { countOf } from '../support/counts.ts';
import { scanPage, toJpeg, toPng } from '../support/scan.ts';

/** Turns, scales and noise over the whole range promised, at every resolution. */
const all = [200, 300, 400, 600].flatMap((dpi) =>
  [-5, -2.5, 0, 1.3, 5].map((turn, i) => ({
    dpi,
    turn,
    x: 0.99 + 0.005 * i,
    y: 1.008 - 0.004 * i,
    skew: i === 2 ? 0.15 : 0,
    noise: 5 * i,
    seed: i + 1,
  })),
);

/** Spread over resolutions and turns alike. */
const scans = all.filter((_, i) => i % countOf(1, 6) === 0);

it.each(scans)('%j within 0.05 %%', async (scan) => {
  const bytes = await renderPdf(
    makeBook(readRequest('band', { pipe: 'DN 40 sch 40', paper: 'a5', piece: 'S12-3' })),
  );
  const picture = scanPage(bytes, scan);
  const read = measureScan(readImage(scan.turn === 0 ? toJpeg(picture) : toPng(picture)), scan.dpi);
  expect(Math.abs(read.x / scan.x - 1)).toBeLessThan(5e-4);
  expect(Math.abs(read.y / scan.y - 1)).toBeLessThan(5e-4);
});
