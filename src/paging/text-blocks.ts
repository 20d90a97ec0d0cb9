import { setText, textWidth, wrapText } from '../drawing/lettering.ts';
import type { Fact, LaidOn, Mark, Sheet } from '../drawing/model.ts';
import { letter } from '../drawing/shape.ts';
import { type Block, type Fitted, linesHeight, makeBlock, pitchOf, type TextHeight } from './block.ts';
import { once } from './once.ts';
import type { Drawn } from './title-block.ts';

interface Item {
  readonly sign: string;
  readonly text: string;
}

const shapeList = (title: string, items: readonly Item[], height: number, width: number): Fitted => {
  const signs = Math.max(...items.map(({ sign }) => textWidth(sign, height, true)));
  const indent = signs === 0 ? 0 : signs + height * 0.7;
  const texts = items.map(({ text }) => setText(text, height, false, width - indent));
  const titleHeight = pitchOf(height) * 1.15;
  const count = texts.reduce((sum, text) => sum + text.count, 0);
  const total = titleHeight + linesHeight(count, height);
  const draw = (): Mark[] => {
    let y = total - titleHeight - height * 1.15;
    return [
      letter('text', { x: 0, y: total - height * 1.15 }, title, height, { bold: true }),
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
    width: Math.max(textWidth(title, height, true), ...texts.map((text) => indent + text.width)),
    height: total,
    draw,
  };
};

/** A title with items under it; `most` is the largest lettering it is set in. */
const listBlock = (
  kind: Block['kind'],
  title: string,
  items: readonly Item[],
  most: TextHeight = 3.5,
): Block =>
  makeBlock({
    kind,
    fit: (width, text) => {
      const shape = shapeList(title, items, Math.min(text, most), width);
      return shape.width <= width + 1e-6 ? shape : undefined;
    },
    split:
      items.length < 2
        ? undefined
        : () => {
            const half = Math.ceil(items.length / 2);
            return [
              listBlock(kind, title, items.slice(0, half), most),
              listBlock(kind, `${title}, continued`, items.slice(half), most),
            ];
          },
  });

/** What the sheet is for, where a page's head has no room for all of it. */
export const subjectBlock = ({ subject }: Head): Block => {
  const [first = '', ...rest] = subject;
  return listBlock('subject', first, [{ sign: '', text: rest.join(' · ') }], 2.5);
};

/** The work, step by step, numbered. */
export const stepsBlock = (steps: readonly string[]): Block =>
  listBlock(
    'steps',
    'Do the work in this order',
    steps.map((text, i) => ({ sign: String(i + 1), text })),
  );

/** What is to be measured before anything is marked. */
const stockCautions: Readonly<Record<LaidOn, string>> = {
  pipe: 'The pipe decides, not the table: measure it before you mark.',
  plate: 'The steel decides, not the drawing: measure it before you mark.',
};

/** What no sheet can know, in one line on every one. */
const sharedCaution = (stock: LaidOn): string =>
  `${stockCautions[stock]} Geometry only, no pressure, strength or weld design. Hot work by the site’s permit, on lines cleaned and tested safe. Local codes and qualified people decide.`;

/** The sheet's own cautions, then the shared line. */
export const cautionsBlock = (cautions: readonly string[], stock: LaidOn): Block =>
  listBlock(
    'cautions',
    'Take care',
    [...cautions, sharedCaution(stock)].map((text) => ({ sign: '–', text })),
    2.5,
  );

/** A value that is given twice, as `189.5 mm (7 15/32″)`, may be broken before the second; never within either. */
const breakValue = (value: string, height: number, room: number): string[] => {
  if (textWidth(value, height, true) <= room) return [value];
  const second = value.indexOf(' (');
  return second < 0 ? [value] : [value.slice(0, second), value.slice(second + 1)];
};

const shapeFacts = (facts: readonly Fact<string>[], height: number, valueRoom: number): Fitted => {
  const labelWidth = Math.max(...facts.map(([label]) => textWidth(label, height, false)));
  const indent = labelWidth + height * 1.2;
  const values = facts.map(([, value]) => breakValue(value, height, valueRoom));
  const total = linesHeight(values.flat().length, height);
  const draw = (): Mark[] => {
    let y = total - height * 1.15;
    return facts.flatMap(([label], i) => {
      const first = letter('text', { x: 0, y }, label, height);
      const body = (values[i] ?? []).map((line, n) =>
        letter('text', { x: indent, y: y - n * pitchOf(height) }, line, height, { bold: true }),
      );
      y -= body.length * pitchOf(height);
      return [first, ...body];
    });
  };
  return {
    width: indent + Math.max(...values.flat().map((line) => textWidth(line, height, true))),
    height: total,
    draw,
  };
};

/** Figures to check by tape: labels, and the values in bold. */
export const factsBlock = (facts: readonly Fact<string>[]): Block => {
  const ways = (text: TextHeight) =>
    [Infinity, 30].map((valueRoom) => once(() => shapeFacts(facts, text, valueRoom)));
  const shapes = { 2.5: ways(2.5), 3.5: ways(3.5) };
  return makeBlock({
    kind: 'facts',
    fit: (width, text) => shapes[text].find((shape) => shape().width <= width + 1e-6)?.(),
    split:
      facts.length < 2
        ? undefined
        : () => {
            const half = Math.ceil(facts.length / 2);
            return [factsBlock(facts.slice(0, half)), factsBlock(facts.slice(half))];
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
