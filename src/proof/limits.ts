import { say } from '../words/say.ts';

/**
 * What a file may cost its reader. The program's own prints set the measure: a page of theirs holds some 3 to 60 kB before
 * compression, shrinks to a fifth, nests its values five deep, and names each of its pages, fonts and sheets once. Every limit
 * below lies several times above that, and all but the first grow with the size of the file itself, so that a small file can
 * never ask for much time or memory.
 */
export const limits = {
  /** Longest file, bytes: a book of some 10,000 pages. */
  file: 160e6,
  /** Bytes that may come out of the filters: so many for the file, and so many for each of its own bytes. */
  decoded: 4e6,
  decodedPerByte: 40,
  /** Depth of arrays and dictionaries in each other, and of steps from the catalog down to any value. */
  nesting: 32,
  /** Numbers, names and lists in one setting of the document. */
  values: 20_000,
  /** Values looked at in the account of the whole document: some 60 for a page. */
  accounted: 4_000_000,
  /** Cross-reference sections: each time a file is saved with changes adds one. */
  sections: 64,
  /** Painting operators on a page. */
  marksPerPage: 200_000,
  /** Solids a line may meet, lines a sheet may have, figures of one kind on it. */
  solids: 64,
  lines: 400,
  figures: 40_000,
  /** Printed figures, rows and columns of one table, tables of one sheet. */
  printed: 4000,
  /** Length of all lines on the layers that reach the steel of a page, mm for each mm² of its paper, and in all. */
  inkPerArea: 2.5,
  ink: 400_000,
  /** Pairs of things held against each other in one check: lines and fills, circles and lines, chords of two pages. */
  pairs: 3e7,
  /** Distances from a point to a body, for one line: an oblique cone's counts for a hundred. */
  distances: 4e7,
} as const;

/** A file that asks for more than any print: nothing more is measured on it. */
export class BeyondLimit extends Error {}

/** How much more may come out of a file's filters. */
export interface Budget {
  decoded: number;
}

/** The budget of a file of `size` bytes. */
export const openBudget = (size: number): Budget => {
  if (size > limits.file)
    throw new BeyondLimit(
      say`the file has ${Math.round(size / 1e6)} MB; no print has over ${limits.file / 1e6}`,
    );
  return { decoded: limits.decoded + limits.decodedPerByte * size };
};

/** Refuses a check that would hold more things against each other than any print needs. */
export const needPairs = (pairs: number, what: string): void => {
  if (pairs > limits.pairs) throw new BeyondLimit(say`more ${what} than in any print`);
};

/** Takes so many bytes from the budget. */
export const spend = (budget: Budget, bytes: number): void => {
  budget.decoded -= bytes;
  if (budget.decoded < 0) throw new BeyondLimit(say`what the file holds packed is far larger than any print`);
};
