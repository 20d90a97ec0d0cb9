import type { Sheet } from '../drawing/model.ts';
import { once } from '../drawing/once.ts';
import { say, translateSheet } from '../words/say.ts';

/** Lines closer than this are one, mm: they are found by searches that end within less. */
const near = 2e-3;

/** A drawing and the figures that go with it, as words and kinds of lines, and all numbers. */
interface Drawn {
  readonly shape: string;
  readonly numbers: readonly number[];
}

/** The figures in a text, each with its unit. */
const figuresIn = (text: string): readonly string[] => text.match(/[\d][\d ./′-]*(?:″| mm|°)/g) ?? [];

/**
 * What a piece is made by: its drawing, the values of its figures and tables, and the figures in its steps. Labels may differ: legs
 * name each other.
 */
const readDrawing = ({ marks, facts, tables, steps }: Sheet): Drawn => {
  const numbers: number[] = [];
  const made = [
    marks,
    facts.map(([, said]) => said),
    tables.map(({ rows }) => rows),
    steps.flatMap(figuresIn),
  ];
  const shape = JSON.stringify(made, (key, value: unknown) => {
    // How a figure is measured follows from the drawing.
    if (key === 'measured') return undefined;
    if (typeof value !== 'number') return value;
    numbers.push(value);
    return 0;
  });
  return { shape, numbers };
};

/** How much there is of each: most sheets differ in that already, long before they need be compared line by line. */
const countsOf = ({ marks, facts, tables, steps }: Sheet): string =>
  [marks, facts, tables, steps].map(({ length }) => length).join(' ');

/** True where two pieces are one, lettering included: two that differ in a number that is written are two. */
const isSame = (a: Drawn, b: Drawn): boolean =>
  a.shape === b.shape && a.numbers.every((value, i) => Math.abs(value - (b.numbers[i] ?? NaN)) < near);

/** A sheet in a group, and how its piece is turned where it is not drawn alike. */
interface Member {
  readonly sheet: Sheet;
  readonly how?: string | undefined;
}

/** The other sheets of a group as they are named on the one that is printed. */
const nameOthers = (others: readonly Member[]): string[] => {
  const ways = new Map<string, string[]>();
  for (const { sheet, how } of others) {
    const turned = how === undefined ? '' : `, ${how}`;
    ways.set(turned, [...(ways.get(turned) ?? []), translateSheet(sheet.name)]);
  }
  return [...ways].map(([turned, names]) => say`The same for ${names.join(', ')}${turned}`);
};

/**
 * Sheets that are drawn and made alike, or whose pieces are the same, printed once: the first of them, with how many are made from it
 * and the names of the others in its words. A sheet without a drawing stays as it is.
 */
export const mergeEqual = (sheets: readonly Sheet[]): readonly Sheet[] => {
  if (sheets.length < 2) return sheets;
  const groups: { readonly counts: string; readonly drawing: () => Drawn; readonly members: Member[] }[] = [];
  for (const sheet of sheets) {
    const counts = countsOf(sheet);
    const drawing = once(() => readDrawing(sheet));
    const { sameAs } = sheet;
    const isDrawn = sheet.marks.length > 0;
    const alike = isDrawn
      ? groups.find((group) => group.counts === counts && isSame(group.drawing(), drawing()))
      : undefined;
    const turned =
      isDrawn && sameAs !== undefined
        ? groups.find(({ members }) => members.some((member) => member.sheet.name === sameAs.sheet))
        : undefined;
    if (alike) alike.members.push({ sheet });
    else if (turned) turned.members.push({ sheet, how: sameAs?.how });
    else groups.push({ counts, drawing, members: [{ sheet }] });
  }
  return groups.flatMap(({ members: [first, ...others] }): Sheet[] => {
    if (first === undefined) return [];
    if (others.length === 0) return [first.sheet];
    const [what = '', ...more] = first.sheet.subject;
    return [
      {
        ...first.sheet,
        make: [first, ...others].reduce((sum, { sheet: { make = 1 } }) => sum + make, 0),
        subject: [what, ...nameOthers(others), ...more],
      },
    ];
  });
};
