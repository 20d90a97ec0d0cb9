import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Mark, Sheet } from '../drawing/model.ts';
import { letter } from '../drawing/shape.ts';
import { type Block, type Corner, linesHeight, pitchOf, type Shape } from './block.ts';
import type { Drawn } from './title-block.ts';

/** Widths a running text may be set to, mm. */
const measures = [58, 72, 90, 112, 140, 180, 240] as const;

interface Item {
  readonly sign: string;
  readonly text: string;
}

const drawList = (title: string, items: readonly Item[], height: number, width: number): Drawn => {
  const indent = Math.max(...items.map(({ sign }) => textWidth(sign, height, true))) + height * 0.7;
  const lines = items.map(({ text }) => wrapText(text, height, false, width - indent));
  const count = lines.reduce((sum, item) => sum + item.length, 0);
  const titleHeight = pitchOf(height) * 1.15;
  const total = titleHeight + linesHeight(count, height);
  const marks: Mark[] = [letter('text', { x: 0, y: total - height * 1.15 }, title, height, { bold: true })];
  let y = total - titleHeight - height * 1.15;
  let used = textWidth(title, height, true);
  items.forEach(({ sign }, i) => {
    marks.push(letter('text', { x: 0, y }, sign, height, { bold: true }));
    for (const line of lines[i] ?? []) {
      marks.push(letter('text', { x: indent, y }, line, height));
      used = Math.max(used, indent + textWidth(line, height, false));
      y -= pitchOf(height);
    }
  });
  return { width: used, height: total, marks };
};

/** The same list at several widths; widths that break no line differently are left out. */
const listShapes = (title: string, items: readonly Item[], heights: readonly number[]): Shape[] =>
  heights.flatMap((height, small) => {
    const shapes: Shape[] = [];
    for (const measure of measures) {
      const drawn = drawList(title, items, height, measure);
      const last = shapes[shapes.length - 1];
      if (last && last.height === drawn.height) continue;
      // Long lines and tall narrow columns are both hard to read; about 45 letters a line is easiest.
      const strain = Math.abs(Math.log(drawn.width / (30 * height)));
      shapes.push({ ...drawn, cost: small * 0.6 + strain * 0.1 });
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

/** The work, step by step, numbered. */
export const stepsBlock = (steps: readonly string[], heights: readonly number[] = [3.5, 2.5]): Block =>
  listBlock(
    'steps',
    'top-left',
    'Do the work in this order',
    steps.map((text, i) => ({ sign: String(i + 1), text })),
    heights,
  );

/** What no sheet can know, told on every one. */
const generalCautions: readonly string[] = [
  'Geometry only: this sheet is no pressure, strength or weld design.',
  'The pipe decides, not the table: measure its girth and wall before you mark.',
  'Print at 100 %; never measure from the edge of the paper.',
  'Hot work only by the site’s permit. Lines and vessels that held anything flammable are first cleaned and tested safe. Local codes and qualified people decide.',
];

/** The sheet's own cautions, then the general ones. */
export const cautionsBlock = (cautions: readonly string[]): Block =>
  listBlock(
    'cautions',
    'bottom-left',
    'Take care',
    [...cautions, ...generalCautions].map((text) => ({ sign: '–', text })),
    [2.5],
  );

const drawFacts = (facts: Sheet['facts'], height: number, valueRoom: number): Drawn => {
  const labelWidth = Math.max(...facts.map(([label]) => textWidth(label, height, false)));
  const indent = labelWidth + height * 1.2;
  const values = facts.map(([, value]) => wrapText(value, height, true, valueRoom));
  const total = linesHeight(
    values.reduce((sum, lines) => sum + lines.length, 0),
    height,
  );
  const marks: Mark[] = [];
  let y = total - height * 1.15;
  let used = 0;
  facts.forEach(([label], i) => {
    marks.push(letter('text', { x: 0, y }, label, height));
    for (const line of values[i] ?? []) {
      marks.push(letter('text', { x: indent, y }, line, height, { bold: true }));
      used = Math.max(used, textWidth(line, height, true));
      y -= pitchOf(height);
    }
  });
  return { width: indent + used, height: total, marks };
};

/** Figures to check by tape: labels, and the values in bold. */
export const factsBlock = (facts: Sheet['facts'], heights: readonly number[] = [3.5, 2.5]): Block => ({
  kind: 'facts',
  corner: 'top-right',
  shapes: heights.flatMap((height, small) =>
    [200, 60, 36].map((room, narrow) => ({
      ...drawFacts(facts, height, room),
      cost: small * 0.5 + narrow * 0.15,
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

/** The largest words of a page and what they are for, wrapped to a width. */
export const drawHead = (sheet: Sheet, width: number, subjectHeight: number): Drawn => {
  const heading = wrapText(sheet.heading, 7, true, width);
  const subject = sheet.subject.flatMap((line) => wrapText(line, subjectHeight, false, width));
  const height = linesHeight(heading.length, 7) + linesHeight(subject.length, subjectHeight);
  const marks: Mark[] = [];
  let y = height - 7.6;
  for (const line of heading) {
    marks.push(letter('text', { x: 0, y }, line, 7, { bold: true }));
    y -= pitchOf(7);
  }
  y = height - linesHeight(heading.length, 7) - subjectHeight * 1.15;
  for (const line of subject) {
    marks.push(letter('text', { x: 0, y }, line, subjectHeight));
    y -= pitchOf(subjectHeight);
  }
  const widest = [
    ...heading.map((line) => textWidth(line, 7, true)),
    ...subject.map((line) => textWidth(line, subjectHeight, false)),
  ];
  return { width: Math.max(...widest), height, marks };
};
