import { expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf } from '../../src/index.ts';
import { findMissed, pickBits } from '../support/bit-flips.ts';

/** A share of what `bit-flips.slow.test.ts` tries. */
it('a bit turned over anywhere in a print fails, or changes nothing seen or read', async () => {
  const bytes = await renderPdf(makeBook(readRequest('miter', { pipe: 'NPS 1 sch 40', cut: '22.5' })));
  const { missed } = await findMissed(bytes, pickBits(150, bytes.length, 7));
  expect(missed).toEqual([]);
});
