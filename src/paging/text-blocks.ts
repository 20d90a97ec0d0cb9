import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Fact, Mark, LaidOn, Sheet } from '../drawing/model.ts';
import { letter } from '../drawing/shape.ts';
import { type Block, type Corner, linesHeight, pitchOf, type Shape } from './block.ts';
import type { Drawn } from './title-block.ts';

/** Widths a running text may be set to, mm. */
const measures = [58, 72, 90, 112, 140, 180, 240] as const;

interface Item {
  readonly sign: string;
  readonly text: string;
}

const shapeList = (
  title: string,
  items: readonly Item[],
  height: number,
  width: number,
): Omit<Shape, 'cost' | 'isSmall'> => {
  const signs = Math.max(...items.map(({ sign }) => textWidth(sign, height, true)));
  const indent = signs === 0 ? 0 : signs + height * 0.7;
  const lines = items.map(({ text }) => wrapText(text, height, false, width - indent));
  const titleHeight = pitchOf(height) * 1.15;
  const total = titleHeight + linesHeight(lines.flat().length, height);
  const draw = (): Mark[] => {
    let y = total - titleHeight - height * 1.15;
    return [
      letter('text', { x: 0, y: total - height * 1.15 }, title, height, { bold: true }),
      ...items.flatMap(({ sign }, i) => {
        const first = sign === '' ? [] : [letter('text', { x: 0, y }, sign, height, { bold: true })];
        const body = (lines[i] ?? []).map((line, n) =>
          letter('text', { x: indent, y: y - n * pitchOf(height) }, line, height),
        );
        y -= body.length * pitchOf(height);
        return [...first, ...body];
      }),
    ];
  };
  return {
    width: Math.max(
      textWidth(title, height, true),
      ...lines.flat().map((line) => indent + textWidth(line, height, false)),
    ),
    height: total,
    draw,
  };
};

/** The same list at several widths; widths that break no line differently are left out. */
const listShapes = (title: string, items: readonly Item[], heights: readonly number[]): Shape[] =>
  heights.flatMap((height, small) => {
    const shapes: Shape[] = [];
    for (const measure of measures) {
      const shape = shapeList(title, items, height, measure);
      const last = shapes[shapes.length - 1];
      if (last?.height === shape.height) continue;
      // Long lines and tall narrow columns are both hard to read; about 45 letters a line is easiest.
      const strain = Math.abs(Math.log(shape.width / (30 * height)));
      shapes.push({ ...shape, cost: small * 0.6 + strain * 0.1, isSmall: height === 2.5 });
    }
    return shapes;
  });

const listBlock = (
  kind: Block['kind'],
  corner: Corner,
  title: string,
  items: readonly Item[],
  heights: readonly number[],
): Block => ({
  kind,
  corner,
  shapes: listShapes(title, items, heights),
  split:
    items.length < 2
      ? undefined
      : () => {
          const half = Math.ceil(items.length / 2);
          return [
            listBlock(kind, corner, title, items.slice(0, half), heights),
            listBlock(kind, corner, `${title}, continued`, items.slice(half), heights),
          ];
        },
});

/** What the sheet is for, where a page's head has no room for all of it. */
export const subjectBlock = ({ subject }: Sheet): Block => {
  const [first = '', ...rest] = subject;
  return listBlock('subject', 'top-left', first, [{ sign: '', text: rest.join(' · ') }], [2.5]);
};

/** The work, step by step, numbered. */
export const stepsBlock = (steps: readonly string[], heights: readonly number[] = [3.5, 2.5]): Block =>
  listBlock(
    'steps',
    'top-left',
    'Do the work in this order',
    steps.map((text, i) => ({ sign: String(i + 1), text })),
    heights,
  );

/** What is to be measured before anything is marked. */
const stockCautions: Readonly<Record<LaidOn, string>> = {
  pipe: 'The pipe decides, not the table: measure its girth and wall before you mark.',
  plate:
    'The steel decides, not the drawing: measure it, and see that the edge you work from is straight, before you mark.',
};

/** What no sheet can know, told on every one. */
const generalCautions = (stock: LaidOn): readonly string[] => [
  'Geometry only: this sheet is no pressure, strength or weld design.',
  stockCautions[stock],
  'Print at 100 %; never measure from the edge of the paper.',
  'Hot work only by the site’s permit. Lines and vessels that held anything flammable are first cleaned and tested safe. Local codes and qualified people decide.',
];

/** The sheet's own cautions, then the general ones. */
export const cautionsBlock = (cautions: readonly string[], stock: LaidOn): Block =>
  listBlock(
    'cautions',
    'bottom-left',
    'Take care',
    [...cautions, ...generalCautions(stock)].map((text) => ({ sign: '–', text })),
    [2.5],
  );

/** A value that is given twice, as `189.5 mm (7 15/32″)`, may be broken before the second; never within either. */
const breakValue = (value: string, height: number, room: number): string[] => {
  if (textWidth(value, height, true) <= room) return [value];
  const second = value.indexOf(' (');
  return second < 0 ? [value] : [value.slice(0, second), value.slice(second + 1)];
};

const shapeFacts = (
  facts: readonly Fact<string>[],
  height: number,
  valueRoom: number,
): Omit<Shape, 'cost' | 'isSmall'> => {
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
export const factsBlock = (
  facts: readonly Fact<string>[],
  heights: readonly number[] = [3.5, 2.5],
): Block => ({
  kind: 'facts',
  corner: 'top-left',
  shapes: heights.flatMap((height, small) =>
    [Infinity, 30].map((room, narrow) => ({
      ...shapeFacts(facts, height, room),
      cost: small * 0.5 + narrow * 0.15,
      isSmall: height === 2.5,
    })),
  ),
  split:
    facts.length < 2
      ? undefined
      : () => {
          const half = Math.ceil(facts.length / 2);
          return [factsBlock(facts.slice(0, half), heights), factsBlock(facts.slice(half), heights)];
        },
});

/**
 * The head of a page: the heading largest, the first line of the subject under it, and the rest of the subject as
 * running text, wrapped to a width.
 */
export const drawHead = (sheet: Pick<Sheet, 'heading' | 'subject'>, width: number): Drawn => {
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
