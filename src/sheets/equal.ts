import type { Mark, Sheet } from '../drawing/model.ts';
import { translateName } from '../words/say.ts';

/** Lines closer than this are one, mm: they are found by searches that end within less. */
const near = 2e-3;

/** A drawing as its words and kinds of lines, and all its numbers. */
interface Drawn {
  readonly shape: string;
  readonly numbers: readonly number[];
}

const readDrawing = (marks: readonly Mark[]): Drawn => {
  const numbers: number[] = [];
  const shape = JSON.stringify(marks, (_, value: unknown) => {
    if (typeof value !== 'number') return value;
    numbers.push(value);
    return 0;
  });
  return { shape, numbers };
};

/** True where two drawings are one, lettering included: two that differ in a number that is written are two. */
const isSame = (a: Drawn, b: Drawn): boolean =>
  a.shape === b.shape && a.numbers.every((value, i) => Math.abs(value - (b.numbers[i] ?? NaN)) < near);

/**
 * Sheets that are drawn alike printed once: the first of them, with how many are made from it and the names of the others in
 * its words. A sheet without a drawing stays as it is.
 */
export const mergeEqual = (sheets: readonly Sheet[]): readonly Sheet[] => {
  if (sheets.length < 2) return sheets;
  const groups: { readonly drawing: Drawn; readonly sheets: Sheet[] }[] = [];
  for (const sheet of sheets) {
    const drawing = readDrawing(sheet.marks);
    const known =
      sheet.marks.length === 0 ? undefined : groups.find((group) => isSame(group.drawing, drawing));
    if (known) known.sheets.push(sheet);
    else groups.push({ drawing, sheets: [sheet] });
  }
  return groups.flatMap(({ sheets: [first, ...others] }): Sheet[] => {
    if (first === undefined || others.length === 0) return first === undefined ? [] : [first];
    const [what = '', ...more] = first.subject;
    return [
      {
        ...first,
        make: [first, ...others].reduce((sum, { make = 1 }) => sum + make, 0),
        subject: [what, `The same for ${others.map(({ name }) => translateName(name)).join(', ')}`, ...more],
      },
    ];
  });
};
