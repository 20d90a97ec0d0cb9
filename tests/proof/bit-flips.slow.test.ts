import { expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf, type Texts } from '../../src/index.ts';
import { countOf } from '../support/counts.ts';
import { findMissed, pickBits } from '../support/bit-flips.ts';

const bits = countOf(1000, 100);

const prints: readonly (readonly [string, Texts])[] = [
  ['miter', { pipe: 'NPS 1 sch 40', cut: '22.5' }],
  ['branch', { branch: 'DN 25 sch 40', header: 'DN 50 sch 40', angle: '60' }],
];

it.each(prints)(
  `${bits} bits of a %s turned over one by one fail, or change nothing seen or read`,
  async (layout, texts) => {
    const bytes = await renderPdf(makeBook(readRequest(layout, texts)));
    const { missed } = await findMissed(bytes, pickBits(bits, bytes.length, 11));
    expect(missed).toEqual([]);
  },
  1_200_000,
);
