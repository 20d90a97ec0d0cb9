import { expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf } from '../../src/index.ts';
import { proveFile } from '../../src/proof/prove.ts';
import { findMissed, pickBits } from '../support/bit-flips.ts';

/** A share of what `bit-flips.slow.test.ts` tries. */
it('a bit turned over anywhere in a print fails, or changes nothing seen or read', async () => {
  const bytes = await renderPdf(makeBook(readRequest('miter', { pipe: 'NPS 1 sch 40', cut: '22.5' })));
  const { missed } = await findMissed(bytes, pickBits(150, bytes.length, 7));
  expect(missed).toEqual([]);
});

// Other readers take such a reference for nothing (ISO 32000-1 §7.3.10), and show no page, or lettering they cannot read.
it('an object named with another generation than it has fails, wherever it is named', async () => {
  const bytes = await renderPdf(makeBook(readRequest('miter', { pipe: 'NPS 1 sch 40', cut: '22.5' })));
  const text = Buffer.from(bytes).toString('latin1');
  const places = [...text.matchAll(/\d+ 0 R/g)].map(({ index, 0: { length } }) => index + length - 3);
  expect(places.length).toBeGreaterThan(50);
  const passed = places.filter((place) => {
    const changed = Uint8Array.from(bytes);
    changed[place] = '1'.charCodeAt(0);
    return proveFile(changed).ok;
  });
  expect(passed).toEqual([]);
});

// JavaScript takes a no-break space (byte A0) for white space; PDF does not (ISO 32000-1 table 1).
it('a space of the document that becomes a no-break space fails', async () => {
  const bytes = await renderPdf(makeBook(readRequest('miter', { pipe: 'NPS 1 sch 40', cut: '22.5' })));
  const text = Buffer.from(bytes).toString('latin1');
  const places = [...text.matchAll(/\d+ 0 R/g)].flatMap(({ index, 0: { length } }) => [
    index + length - 4,
    index + length - 2,
  ]);
  expect(places.length).toBeGreaterThan(100);
  const passed = places.filter((place) => {
    const changed = Uint8Array.from(bytes);
    changed[place] = 0xa0;
    return proveFile(changed).ok;
  });
  expect(passed).toEqual([]);
});
