import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Mark } from '../drawing/model.ts';
import { boxPath, letter, NARROW, QUARTER, ruleLine, stroke } from '../drawing/shape.ts';
import { boxAt } from './box.ts';
import type { TitleFields } from './options.ts';

/** One field of the title block. */
export interface Cell {
  readonly label: string;
  readonly value: string;
  /** The longest label and value the field may get on another page, so that every page has the same block. */
  readonly room?: { readonly label: string; readonly value: string };
}

/** A thing drawn in its own box, whose lower left corner is (0, 0). */
export interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** Labels of the fields, in the order they stand; a block on narrow paper has only the first ones. */
const labels: readonly (readonly [keyof TitleFields, string])[] = [
  ['title', 'Title'],
  ['piece', 'Piece mark'],
  ['quantity', 'Quantity'],
  ['job', 'Job'],
  ['order', 'Order'],
  ['number', 'Drawing number'],
  ['revision', 'Revision'],
  ['date', 'Date of issue'],
  ['supersedes', 'Supersedes'],
  ['documentType', 'Document type'],
  ['owner', 'Legal owner'],
  ['drawn', 'Drawn'],
  ['checked', 'Checked'],
  ['approved', 'Approved'],
];
/** How many of them are drawn: all, on a tile, and on the smallest paper. */
export const fieldCounts = { all: labels.length, tile: 9, least: 2 } as const;

/** The filled ones of the first `count` fields, after ISO 7200. `heading` is the title where none is given. */
export const titleCells = (fields: TitleFields, heading: string, count: number): Cell[] =>
  labels.slice(0, count).flatMap(([key, label]) => {
    const value = (fields[key] ?? (key === 'title' ? heading : '')).trim();
    return value === '' ? [] : [{ label, value }];
  });

const pad = 1.6;
const size = { label: 2.5, value: 3.5 } as const;
const labelHeight = 0.9 + size.label;
/** Line pitch of a value; a row has as many lines as its longest value. */
const valuePitch = 5.4;
const rowHeight = (lines: number): number => labelHeight + 1.2 + size.value + 1.7 + (lines - 1) * valuePitch;

interface Placed {
  readonly label: string;
  readonly lines: readonly string[];
  readonly width: number;
}

const measure = ({ label, value, room }: Cell, widest: number): Placed => {
  const lines = wrapText(value, size.value, false, widest - 2 * pad);
  const text = Math.max(
    ...lines.map((line) => textWidth(line, size.value, false)),
    textWidth(room?.value ?? '', size.value, false),
    textWidth(room?.label ?? '', size.label, false),
  );
  return {
    label,
    lines,
    width: Math.min(widest, Math.max(text, textWidth(label, size.label, false)) + 2 * pad),
  };
};

const flow = (cells: readonly Placed[], width: number): Placed[][] => {
  const rows: Placed[][] = [];
  let used = Infinity;
  for (const cell of cells) {
    if (used + cell.width > width + 1e-9) {
      rows.push([]);
      used = 0;
    }
    rows[rows.length - 1]?.push(cell);
    used += cell.width;
  }
  return rows;
};

/**
 * A title block at most `widest` mm wide, of as few rows as that allows but at least `leastRows`; it is then as narrow
 * as those rows allow, and every row fills it.
 */
export const drawTitleBlock = (cells: readonly Cell[], widest: number, leastRows: number): Drawn => {
  const placed = cells.map((cell) => measure(cell, widest));
  const count = Math.max(flow(placed, widest).length, Math.min(leastRows, cells.length));
  let width = Math.max(...placed.map((cell) => cell.width));
  while (flow(placed, width).length > count && width < widest) width = Math.min(widest, width + 1);
  const rows = flow(placed, width);
  const heights = rows.map((row) => rowHeight(Math.max(...row.map((cell) => cell.lines.length))));
  const height = heights.reduce((sum, h) => sum + h, 0);
  const marks: Mark[] = [stroke('page', boxPath(boxAt(0, 0, width, height)), QUARTER)];
  let top = height;
  rows.forEach((row, r) => {
    const bottom = top - (heights[r] ?? 0);
    if (r > 0) marks.push(ruleLine('page', { x: 0, y: top }, { x: width, y: top }, NARROW));
    const spare = (width - row.reduce((sum, cell) => sum + cell.width, 0)) / row.length;
    let x = 0;
    row.forEach((cell, c) => {
      if (c > 0) marks.push(ruleLine('page', { x, y: bottom }, { x, y: top }, NARROW));
      marks.push(letter('page', { x: x + pad, y: top - labelHeight }, cell.label, size.label));
      cell.lines.forEach((line, i) => {
        const y = top - labelHeight - 1.2 - size.value - i * valuePitch;
        marks.push(letter('page', { x: x + pad, y }, line, size.value, { bold: false }));
      });
      x += cell.width + spare;
    });
    top = bottom;
  });
  return { width, height, marks };
};
