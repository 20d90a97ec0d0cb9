import { expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf, type Texts } from '../../src/index.ts';
import { proveFile } from '../../src/proof/prove.ts';

const print = (layout: string, texts: Texts): Promise<Uint8Array> =>
  renderPdf(makeBook(readRequest(layout, texts)));

it('a later print of the same run still says what its signs are: ′ after a print that has ″ alone', async () => {
  await print('miter', { stock: 'NPS 1 sch 40', cut: '10' });
  const second = await print('makeup', { run: "12' 4in", start: 'elbow NPS 4 LR', finish: 'elbow NPS 4 LR' });
  const failed = proveFile(second).findings.filter(({ ok }) => !ok);
  expect(failed).toEqual([]);
});
