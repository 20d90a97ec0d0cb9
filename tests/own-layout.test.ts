import { expect, it } from 'vitest';
import { makeBook, makeSheets, readRequest, renderPdf } from '../src/index.ts';
import { proveFile } from '../src/proof/prove.ts';
import { wallEnd } from '../shared/docs/own-layout.ts';

it('the worked example of a layout of one’s own prints, and proves', async () => {
  const request = readRequest('wall-end', { stock: { od: 114.3, wall: 6.02 }, slope: Math.PI / 12 }, [
    wallEnd,
  ]);
  const [sheet] = makeSheets(request);
  // The bore alone would be cut back (114.3 − 2 × 6.02) tan 15°, the outside 114.3 tan 15°: the touch lies between.
  const [, cutback] = sheet?.facts.find(([label]) => label.startsWith('Cutback')) ?? [];
  const mm = typeof cutback === 'object' && cutback.kind === 'length' ? cutback.mm : NaN;
  expect(mm).toBeLessThanOrEqual(114.3 * Math.tan(Math.PI / 12) + 1e-6);
  expect(mm).toBeGreaterThan((114.3 - 2 * 6.02) * Math.tan(Math.PI / 12) - 1e-6);
  const failed = proveFile(await renderPdf(makeBook(request))).findings.filter(({ ok }) => !ok);
  expect(failed).toEqual([]);
});
