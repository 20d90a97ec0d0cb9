import { expect } from 'vitest';
import { unpack } from '../support/external.ts';

/**
 * A PDF's objects with their streams inflated, as text: lengths of the packed streams and the file identifiers follow from the
 * compressor and are left out.
 */
const objectsOf = (bytes: Uint8Array): string =>
  unpack(bytes)
    .toString('latin1')
    .replace(/\/ID \[.*?\]/s, '/ID')
    .replace(/\nxref\n.*$/s, '');

const number = /-?\d+\.\d+/g;
const digests = /\/CheckSum \([^]*?[^\\]\)|"content": "[0-9a-f]{16}"/g;

/** One unit of the last digit that content streams are written with, in points: 0.4 nm. */
const lastDigit = 1.001e-6;

/**
 * Holds two PDFs against each other object by object. The engines' sines and cosines differ in their last bits, which may
 * turn the last digit of a number; the digests of a file where one did differ as well, and nothing else may.
 */
export const expectSamePdf = (made: Uint8Array, own: Uint8Array): void => {
  const [a, b] = [objectsOf(made), objectsOf(own)];
  if (a === b) return;
  const bare = (text: string): string => text.replace(digests, '').replace(number, '#');
  expect(bare(a)).toBe(bare(b));
  const numbers = (text: string): number[] =>
    [...text.replace(digests, '').matchAll(number)].map(([digits]) => Number(digits));
  const [ours, theirs] = [numbers(a), numbers(b)];
  const off = ours.map((one, i) => Math.abs(one - (theirs[i] ?? NaN)));
  expect(Math.max(...off)).toBeLessThanOrEqual(lastDigit);
};
