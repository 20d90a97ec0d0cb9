import { setText, textWidth } from '../drawing/lettering.ts';
import type { Mark, Table } from '../drawing/model.ts';
import { FINE, letter, QUARTER, ruleLine } from '../drawing/shape.ts';
import { type Block, type Fitted, makeBlock, pitchOf, type TextHeight } from './block.ts';
import { once } from './once.ts';

/** Space between columns, and between the groups a long table is folded into, in lettering heights. */
const columnGap = 1.6;
const groupGap = 3;

interface Columns {
  readonly widths: readonly number[];
  /** Figures stand under each other at the right. */
  readonly isRight: readonly boolean[];
}

const measureColumns = ({ header, rows }: Table<string>, height: number): Columns => {
  const cells = header.map((head, c) => ({ head, values: rows.map((row) => row[c] ?? '') }));
  return {
    widths: cells.map(({ head, values }) =>
      Math.max(textWidth(head, height, true), ...values.map((value) => textWidth(value, height, false))),
    ),
    isRight: cells.map(({ values }) => values.every((value) => value === '' || /^[-−+±]?[\d.]/.test(value))),
  };
};

const drawGroup = (
  table: Table<string>,
  rows: Table<string>['rows'],
  { widths, isRight }: Columns,
  height: number,
  left: number,
  top: number,
): Mark[] => {
  const pitch = pitchOf(height);
  const marks: Mark[] = [];
  const write = (row: readonly string[], baseline: number, bold: boolean): void => {
    let x = left;
    row.forEach((text, c) => {
      const width = widths[c] ?? 0;
      if (text !== '') {
        const align = isRight[c] ? 'right' : 'left';
        marks.push(
          letter('text', { x: isRight[c] ? x + width : x, y: baseline }, text, height, { align, bold }),
        );
      }
      x += width + columnGap * height;
    });
  };
  write(table.header, top - height * 1.15, true);
  const width = widths.reduce((sum, w) => sum + w, 0) + columnGap * height * (widths.length - 1);
  const under = top - pitch - 0.4;
  marks.push(ruleLine('text', { x: left, y: under }, { x: left + width, y: under }, QUARTER));
  rows.forEach((row, r) => write(row, under - 0.6 - height * 1.15 - r * pitch, false));
  const end = under - 0.6 - rows.length * pitch - 0.2;
  marks.push(ruleLine('text', { x: left, y: end }, { x: left + width, y: end }, FINE));
  return marks;
};

const shapeTable = (table: Table<string>, columns: Columns, height: number, groups: number): Fitted => {
  const perGroup = Math.ceil(table.rows.length / groups);
  const groupWidth =
    columns.widths.reduce((sum, w) => sum + w, 0) + columnGap * height * (columns.widths.length - 1);
  const width = groups * groupWidth + (groups - 1) * groupGap * height;
  const titleText = setText(table.title, height, true, Math.max(width, 18 * height));
  const title = pitchOf(height) * (titleText.count + 0.15);
  const total = title + pitchOf(height) * (perGroup + 1) + 1.5;
  return {
    width: Math.max(width, titleText.width),
    height: total,
    draw: () => [
      ...titleText.lines().map((line, i) =>
        letter('text', { x: 0, y: total - height * 1.15 - i * pitchOf(height) }, line, height, {
          bold: true,
        }),
      ),
      ...Array.from({ length: groups }, (_, g) => {
        const rows = table.rows.slice(g * perGroup, (g + 1) * perGroup);
        return drawGroup(table, rows, columns, height, g * (groupWidth + groupGap * height), total - title);
      }).flat(),
    ],
  };
};

/**
 * A table without its columns that say the same in every row; its title says it instead. The first column names the rows
 * and stays.
 */
const dropConstant = (table: Table<string>): Table<string> => {
  const { title, header, rows } = table;
  const [first] = rows;
  if (!first || rows.length < 3) return table;
  const isKept = header.map((_, c) => c === 0 || rows.some((row) => row[c] !== first[c]));
  if (isKept.every(Boolean) || isKept.filter(Boolean).length < 2) return table;
  const same = header.flatMap((head, c) => {
    const value = first[c] ?? '';
    return isKept[c] === true || value === '' ? [] : [`${head} ${value}`];
  });
  const keep = (cells: readonly string[]): string[] => cells.filter((_, c) => isKept[c]);
  return {
    title: same.length === 0 ? title : `${title}; in every row ${same.join(', ')}`,
    header: keep(header),
    rows: rows.map(keep),
  };
};

/** A table, folded into as many groups side by side as the width takes. */
export const tableBlock = (whole: Table<string>): Block => {
  const table = dropConstant(whole);
  const count = table.rows.length;
  const folds = [1, 2, 3, 4, 5, 6, 8, 10].filter((groups, i, all) => {
    // A fold that leaves a group empty or the rows as they were is no new shape.
    const perGroup = Math.ceil(count / groups);
    const before = all[i - 1];
    return (
      groups === 1 ||
      (perGroup * (groups - 1) < count && perGroup > 1 && perGroup !== Math.ceil(count / (before ?? 1)))
    );
  });
  const shape = (text: TextHeight): readonly Fitted[] => {
    const columns = measureColumns(table, text);
    return folds.map((groups) => shapeTable(table, columns, text, groups));
  };
  const shapes = { 2.5: once(() => shape(2.5)), 3.5: once(() => shape(3.5)) };
  return makeBlock({
    kind: 'table',
    fit: (width, text) => shapes[text]().findLast((shape) => shape.width <= width + 1e-6),
    split: splitTable(table),
  });
};

/** A table in two: by columns where it is too wide for the page, else by rows; undefined where it is neither. */
const splitTable = (table: Table<string>): Block['split'] => {
  const { title, header, rows } = table;
  const more = `${title}, continued`;
  if (rows.length < 2 && header.length < 3) return undefined;
  const setWidth = once(() => shapeTable(table, measureColumns(table, 2.5), 2.5, 1).width);
  return (width) => {
    if (header.length > 2 && (setWidth() > width || rows.length < 2)) {
      // Both parts keep the first column, which names the rows; a pair of columns for two units stays together.
      const middle = header.length === 3 ? 2 : 1 + 2 * Math.ceil((header.length - 1) / 4);
      const [left, right] = [
        (cells: readonly string[]) => cells.slice(0, middle),
        (cells: readonly string[]) => [...cells.slice(0, 1), ...cells.slice(middle)],
      ];
      return [
        tableBlock({ title, header: left(header), rows: rows.map(left) }),
        tableBlock({ title: more, header: right(header), rows: rows.map(right) }),
      ];
    }
    const half = Math.ceil(rows.length / 2);
    return [
      tableBlock({ ...table, rows: rows.slice(0, half) }),
      tableBlock({ ...table, title: more, rows: rows.slice(half) }),
    ];
  };
};
