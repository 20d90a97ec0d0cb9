import { textWidth } from '../drawing/lettering.ts';
import type { Mark } from '../drawing/model.ts';
import { boxPath, letter, NARROW, QUARTER, ruleLine, stroke } from '../drawing/paths.ts';
import { boxAt } from './box.ts';
import type { PaperSize } from './options.ts';
import type { Drawn } from './title-block.ts';

/** Height of a field that is filled in by hand, mm. */
const rowHeight = 9.5;

const labelHeight = 2.5;
const labelInset = 1.6;

/** The least width of a field that takes every label, mm. */
export const widestLabel = (labels: readonly string[]): number =>
  2 * labelInset + Math.max(...labels.map((label) => textWidth(label, labelHeight, false)));

/** The ground of a form. */
export const sizeForm = (labels: readonly string[], columns: number, width: number): PaperSize => ({
  width: columns * width,
  height: Math.ceil(labels.length / columns) * rowHeight,
});

/** Empty fields to be filled in by hand, in rows of `columns`; each is `width` mm wide. */
export const drawForm = (labels: readonly string[], columns: number, width: number): Drawn => {
  const rows = Math.ceil(labels.length / columns);
  const { width: wide, height } = sizeForm(labels, columns, width);
  const marks: Mark[] = [stroke('page', boxPath(boxAt(0, 0, wide, height)), QUARTER)];
  for (let row = 1; row < rows; row += 1) {
    const y = row * rowHeight;
    marks.push(ruleLine('page', { x: 0, y }, { x: wide, y }, NARROW));
  }
  labels.forEach((label, i) => {
    const [column, top] = [i % columns, height - Math.floor(i / columns) * rowHeight];
    const x = column * width;
    if (column > 0) marks.push(ruleLine('page', { x, y: top - rowHeight }, { x, y: top }, NARROW));
    marks.push(letter('page', { x: x + labelInset, y: top - 3.4 }, label, labelHeight));
  });
  return { width: wide, height, marks };
};
