import { setText, textWidth, wrapText } from '../drawing/lettering.ts';
import type { Fact, Mark, Sheet } from '../drawing/model.ts';
import { once } from '../drawing/once.ts';
import { letter } from '../drawing/paths.ts';
import { inLanguage, type Language } from '../words/languages.ts';
import { type Block, type Fitted, linesHeight, makeBlock, pitchOf, type TextHeight } from './block.ts';
import type { Drawn } from './title-block.ts';
import { say } from '../words/say.ts';

interface Item {
  readonly sign: string;
  readonly text: string;
}

/** Words are broken only in columns of this width and more, mm: no trade word is longer. */
const breaksFrom = 50;
/** A text of more lines than this is not read in a column narrower than `leastColumn` lettering heights. */
const fewLines = 6;
const leastColumn = 9;

/** Undefined where the column is too narrow to be read with ease. */
const shapeList = (
  title: string,
  items: readonly Item[],
  height: number,
  width: number,
): Fitted | undefined => {
  const signs = Math.max(0, ...items.map(({ sign }) => textWidth(sign, height, true)));
  const indent = signs === 0 ? 0 : signs + height * 0.7;
  const texts = items.map(({ text }) => setText(text, height, false, width - indent));
  const heading = setText(title, height, true, width);
  if (width < breaksFrom && [heading, ...texts].some(({ isBroken }) => isBroken)) return undefined;
  if (width - indent < leastColumn * height && texts.some(({ count }) => count > fewLines)) return undefined;
  const titles = heading.lines();
  const titleHeight = pitchOf(height) * (titles.length + 0.15);
  const count = texts.reduce((sum, text) => sum + text.count, 0);
  const total = titleHeight + linesHeight(count, height);
  const draw = (): Mark[] => {
    let y = total - titleHeight - height * 1.15;
    return [
      ...titles.map((line, n) =>
        letter('text', { x: 0, y: total - height * 1.15 - n * pitchOf(height) }, line, height, {
          bold: true,
        }),
      ),
      ...items.flatMap(({ sign }, i) => {
        const first = sign === '' ? [] : [letter('text', { x: 0, y }, sign, height, { bold: true })];
        const body = (texts[i]?.lines() ?? []).map((line, n) =>
          letter('text', { x: indent, y: y - n * pitchOf(height) }, line, height),
        );
        y -= body.length * pitchOf(height);
        return [...first, ...body];
      }),
    ];
  };
  return {
    width: Math.max(
      ...titles.map((line) => textWidth(line, height, true)),
      ...texts.map((text) => indent + text.width),
    ),
    height: total,
    draw,
  };
};

/** A block of items that can be parted in two, as `shape` sets them; `most` is the largest lettering it is set in. */
const itemsBlock = <T extends Item>(
  kind: Block['kind'],
  items: readonly T[],
  most: TextHeight,
  shape: (items: readonly T[], isContinued: boolean, height: number, width: number) => Fitted | undefined,
  isContinued = false,
): Block => {
  const half = Math.ceil(items.length / 2);
  return makeBlock({
    kind,
    fit: (width, text) => {
      const fitted = shape(items, isContinued, Math.min(text, most), width);
      return fitted && fitted.width <= width + 1e-6 ? fitted : undefined;
    },
    split:
      items.length < 2
        ? undefined
        : () => [
            itemsBlock(kind, items.slice(0, half), most, shape, isContinued),
            itemsBlock(kind, items.slice(half), most, shape, true),
          ],
  });
};

const titleOf = (title: string, isContinued: boolean): string =>
  isContinued ? say`${title}, continued` : title;

/** A title with items under it. */
const listBlock = (
  kind: Block['kind'],
  title: string,
  items: readonly Item[],
  most: TextHeight = 3.5,
): Block =>
  itemsBlock(kind, items, most, (some, isContinued, height, width) =>
    shapeList(titleOf(title, isContinued), some, height, width),
  );

/** What the sheet is for, where a page's head has no room for all of it. */
export const subjectBlock = ({ subject }: Head): Block => {
  const [first = '', ...rest] = subject;
  return listBlock('subject', first, rest.length === 0 ? [] : [{ sign: '', text: rest.join(' · ') }], 2.5);
};

/** A title in the leading language and in the other. */
type Titles = readonly [string, string];

/** A list in two languages, item beside item; where a column is too narrow for that, item under item. */
interface Pair extends Item {
  readonly other: string;
}

/** Two columns of fewer signs than these are hard to read, in lettering heights. */
const narrowPair = 30;

const shapePairs = (
  titles: Titles,
  items: readonly Pair[],
  height: number,
  width: number,
): Fitted | undefined => {
  if (width < narrowPair * height) {
    const stacked = items.flatMap(({ sign, text, other }) => [
      { sign, text },
      { sign: '', text: other },
    ]);
    return shapeList(titles.join(' · '), stacked, height, width);
  }
  const indent = Math.max(...items.map(({ sign }) => textWidth(sign, height, true))) + height * 0.7;
  const between = height * 1.6;
  const column = (width - indent - between) / 2;
  const leftOf = (c: number): number => indent + c * (column + between);
  const rows = items.map(({ sign, text, other }) => {
    const [left, right] = [text, other].map((words) => wrapText(words, height, false, column));
    return { sign, columns: [left ?? [], right ?? []] as const };
  });
  const pitch = pitchOf(height);
  const countOf = ({ columns }: (typeof rows)[number]): number =>
    Math.max(...columns.map((lines) => lines.length));
  const heads = titles.map((title) => wrapText(title, height, true, column));
  const titleHeight = pitch * (Math.max(...heads.map((lines) => lines.length)) + 0.15);
  // A little air between the rows shows which lines belong together.
  const air = height * 0.3;
  const total = titleHeight + rows.reduce((sum, row) => sum + countOf(row) * pitch + air, 0);
  const draw = (): Mark[] => {
    let y = total - titleHeight - height * 1.15;
    return [
      ...heads.flatMap((lines, c) =>
        lines.map((line, n) =>
          letter('text', { x: leftOf(c), y: total - height * 1.15 - n * pitch }, line, height, {
            bold: true,
          }),
        ),
      ),
      ...rows.flatMap((row) => {
        const marks = row.columns.flatMap((lines, c) =>
          lines.map((line, n) => letter('text', { x: leftOf(c), y: y - n * pitch }, line, height)),
        );
        const first = letter('text', { x: 0, y }, row.sign, height, { bold: true });
        y -= countOf(row) * pitch + air;
        return [first, ...marks];
      }),
    ];
  };
  return { width, height: total, draw };
};

const pairBlock = (
  kind: Block['kind'],
  [title, other]: Titles,
  items: readonly Pair[],
  most: TextHeight = 3.5,
): Block =>
  itemsBlock(kind, items, most, (some, isContinued, height, width) =>
    shapePairs([titleOf(title, isContinued), other], some, height, width),
  );

/** The same in another language, where a print has two. */
export interface Also {
  readonly language: Language;
  readonly texts: readonly string[];
}

/** A text in the leading language and in the other. */
const inBoth = (text: () => string, { language }: Also): Titles => [text(), inLanguage(language, text)];

/** The work, step by step, numbered. */
export const stepsBlock = (steps: readonly string[], also?: Also): Block => {
  const title = (): string => say`Do the work in this order`;
  const items = steps.map((text, i) => ({ sign: String(i + 1), text, other: also?.texts[i] ?? '' }));
  return also === undefined
    ? listBlock('steps', title(), items)
    : pairBlock('steps', inBoth(title, also), items);
};

/** What no sheet can know, in one line on every one. */
const sharedCaution = (): string =>
  say`The steel decides, not the paper: measure it before you mark. Geometry only, no pressure, strength or weld design. Hot work by the site’s permit, on lines cleaned and tested safe. Local codes and qualified people decide.`;

/** Cautions in one list. */
export const careBlock = (lines: readonly string[]): Block => ({
  ...listBlock(
    'cautions',
    say`Take care`,
    lines.map((text) => ({ sign: '–', text })),
    2.5,
  ),
  lines,
});

/** The sheet's own cautions, then the shared line. */
export const cautionsBlock = (cautions: readonly string[], also?: Also): Block => {
  const title = (): string => say`Take care`;
  if (also === undefined) return careBlock([...cautions, sharedCaution()]);
  const others = [...also.texts, inLanguage(also.language, sharedCaution)];
  const items = [...cautions, sharedCaution()].map((text, i) => ({
    sign: '–',
    text,
    other: others[i] ?? '',
  }));
  return pairBlock('cautions', inBoth(title, also), items, 2.5);
};

/** A value may be broken before what stands in brackets, as in `189.5 mm (7 15/32″)`, and after a comma; never within a figure. */
const breakValue = (value: string, height: number, room: number): string[] => {
  const lines: string[] = [];
  for (const part of value.split(/ (?=\()|(?<=[,;]) /)) {
    const longer = `${lines[lines.length - 1] ?? ''} ${part}`;
    if (lines.length > 0 && textWidth(longer, height, true) <= room) lines[lines.length - 1] = longer;
    else lines.push(part);
  }
  return lines;
};

/** A figure with its label, in one language or one under the other. */
interface Figure {
  readonly labels: readonly string[];
  readonly value: string;
}

const shapeFacts = (facts: readonly Figure[], height: number, valueRoom: number): Fitted => {
  const labelWidth = Math.max(
    ...facts.flatMap(({ labels }) => labels.map((label) => textWidth(label, height, false))),
  );
  const indent = labelWidth + height * 1.2;
  const values = facts.map(({ value }) => breakValue(value, height, valueRoom));
  const counts = facts.map(({ labels }, i) => Math.max(labels.length, values[i]?.length ?? 0));
  const total = linesHeight(
    counts.reduce((sum, count) => sum + count, 0),
    height,
  );
  const draw = (): Mark[] => {
    let y = total - height * 1.15;
    return facts.flatMap(({ labels }, i) => {
      const [first = [], ...others] = labels.map((label, n) => [
        letter('text', { x: 0, y: y - n * pitchOf(height) }, label, height),
      ]);
      const body = (values[i] ?? []).map((line, n) =>
        letter('text', { x: indent, y: y - n * pitchOf(height) }, line, height, { bold: true }),
      );
      y -= (counts[i] ?? 1) * pitchOf(height);
      // A value follows its leading label, where the proof looks for it.
      return [...first, ...body, ...others.flat()];
    });
  };
  return {
    width: indent + Math.max(...values.flat().map((line) => textWidth(line, height, true))),
    height: total,
    strain: 8 * values.filter((lines, i) => lines.length > 1 && (facts[i]?.value.length ?? 0) < 26).length,
    draw,
  };
};

/** Figures to check by tape: labels, in one language or in two, and the values in bold. */
export const factsBlock = (facts: readonly Fact<string>[], others?: readonly string[]): Block =>
  figuresBlock(
    facts.map(([label, value], i) => {
      const other = others?.[i] ?? label;
      return { labels: other === label ? [label] : [label, other], value };
    }),
  );

const figuresBlock = (facts: readonly Figure[]): Block => {
  const ways = (text: TextHeight) =>
    [Infinity, 70, 50, 30].map((valueRoom) => once(() => shapeFacts(facts, text, valueRoom)));
  const shapes = { 2.5: ways(2.5), 3.5: ways(3.5) };
  return makeBlock({
    kind: 'facts',
    fit: (width, text) => shapes[text].find((shape) => shape().width <= width + 1e-6)?.(),
    split:
      facts.length < 2
        ? undefined
        : () => {
            const half = Math.ceil(facts.length / 2);
            return [figuresBlock(facts.slice(0, half)), figuresBlock(facts.slice(half))];
          },
  });
};

/** What the head of a page says. */
export type Head = Pick<Sheet, 'heading' | 'subject'>;

/**
 * The head of a page: the heading largest, the first line of the subject under it, and the rest of the subject as
 * running text, wrapped to a width.
 */
export const drawHead = (sheet: Head, width: number): Drawn => {
  const [first, ...rest] = sheet.subject;
  const parts = [
    ...wrapText(sheet.heading, 7, true, width).map((text) => ({ text, height: 7, bold: true })),
    ...wrapText(first ?? '', 3.5, false, width).map((text) => ({ text, height: 3.5, bold: false })),
    ...wrapText(rest.join(' · '), 2.5, false, width).map((text) => ({ text, height: 2.5, bold: false })),
  ];
  const height = parts.reduce((sum, part) => sum + pitchOf(part.height), 0);
  let y = height;
  const marks = parts.map((part) => {
    const mark = letter('text', { x: 0, y: y - part.height * 1.15 }, part.text, part.height, {
      bold: part.bold,
    });
    y -= pitchOf(part.height);
    return mark;
  });
  return {
    width: Math.max(...parts.map((part) => textWidth(part.text, part.height, part.bold))),
    height,
    marks,
  };
};
