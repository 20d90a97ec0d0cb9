import { expect } from 'vitest';
import { readPdf, type PdfPage } from '../../src/proof/pdf-reader.ts';
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

/** One unit of the last digit that content streams are written with, in points: 0.4 nm. */
const lastDigit = 1.001e-6;

/** The first place where two values of the same shape differ by more than the last digit; nothing where none does. */
const differ = (a: unknown, b: unknown, at = ''): string | undefined => {
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= lastDigit ? undefined : `${at}: ${a} and ${b}`;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null)
    return a === b ? undefined : `${at}: ${JSON.stringify(a)} and ${JSON.stringify(b)}`;
  const [own, other] = [Object.entries(a), Object.entries(b)];
  if (own.length !== other.length) return `${at}: ${own.length} and ${other.length} entries`;
  for (const [key, value] of own) {
    const found = differ(value, (b as Record<string, unknown>)[key], `${at}.${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
};

/** Everything of a page but the lines of small views of the joint, which are not to scale. */
const scaled = ({ strokes, fills, label, mediaBox, viewports }: PdfPage) => ({
  strokes: strokes.filter(({ layer }) => layer !== 'dimension'),
  fills: fills.filter(({ layer }) => layer !== 'dimension'),
  label,
  mediaBox,
  viewports,
});

const lettering = (objects: string): readonly string[] =>
  [...objects.matchAll(/Tf .*?<([0-9A-Fa-f]*)> Tj/g)].map(([, codes]) => codes ?? '');

/**
 * Holds two PDFs against each other. They are the same object by object, but for the last bits of the two engines' sines and
 * cosines: those may turn the last digit of a number, and in a small view decide at which of two points a line is thought to
 * begin. Then every full-size line and all lettering are held against each other instead.
 */
export const expectSamePdf = (made: Uint8Array, own: Uint8Array): void => {
  const [a, b] = [objectsOf(made), objectsOf(own)];
  if (a === b) return;
  const [ours, theirs] = [readPdf(made), readPdf(own)];
  expect(ours.pages.length).toBe(theirs.pages.length);
  expect(differ(ours.pages.map(scaled), theirs.pages.map(scaled))).toBeUndefined();
  expect(lettering(a)).toEqual(lettering(b));
  expect(differ(ours.record?.spec, theirs.record?.spec)).toBeUndefined();
  expect(differ(ours.record?.sheets, theirs.record?.sheets)).toBeUndefined();
};

/** Holds two DXF files against each other, line by line: numbers may differ in the last digit that is written. */
export const expectSameDxf = (made: string, own: string): void => {
  const [ours, theirs] = [made.split('\n'), own.split('\n')];
  expect(ours.length).toBe(theirs.length);
  const isNumber = (line: string): boolean => /^-?\d+\.\d+$/.test(line);
  const odd = ours.flatMap((line, i) => {
    const other = theirs[i] ?? '';
    const isSame =
      isNumber(line) && isNumber(other)
        ? Math.abs(Number(line) - Number(other)) <= lastDigit
        : line === other;
    return isSame ? [] : [`line ${i + 1}: ${line} and ${other}`];
  });
  expect(odd).toEqual([]);
};
