import { expect, it } from 'vitest';
import type { Sheet } from '../../src/drawing/model.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { makeWrittenSheets } from '../../src/print.ts';
import { readRequest } from '../../src/request.ts';
import { readExample } from '../support/example.ts';

/** Stock and shapes that are called by millimeters, as `tube 40x40x3mm`. */
const NAMED = /"[a-z][^"]*mm/i;

const cases = layouts.flatMap(({ id, examples }) =>
  examples
    .filter((example) => {
      const { units } = readRequest(id, readExample(example)).setting;
      return units === 'in' || !NAMED.test(example);
    })
    .map((example) => [id, example] as const),
);

/** A length in millimeters that does not stand in parentheses behind its inches. */
const BARE = /(?<![(\d.,x×] ?)(?<!\([^)]*)\b\d[\d.]* ?mm\b/;

/** Sizes that are called so whatever the reader's units are. */
const CALLED = /100 mm|(?:OD|offset) \d+ ?mm/g;

const wordsOf = ({ subject, steps, facts, cautions }: Sheet): readonly string[] => [
  ...subject,
  ...steps,
  ...(cautions ?? []),
  ...facts.flatMap(([label, value]) => [label, typeof value === 'string' ? value : '']),
];

// Whoever types inches has a tape in inches: millimeters alone cannot be laid out with it.
it.each(cases)('%s: %s speaks of inches', (id, example) => {
  const sheets = makeWrittenSheets(readRequest(id, { ...readExample(example), units: 'in' }));
  expect(sheets.flatMap(wordsOf).filter((text) => BARE.test(text.replaceAll(CALLED, '')))).toEqual([]);
});
