import { setText, textWidth } from '../drawing/lettering.ts';
import type { Mark, Table } from '../drawing/model.ts';
import { FINE, letter, QUARTER, ruleLine } from '../drawing/paths.ts';
import { type Block, type Fitted, makeBlock, pitchOf, type TextHeight } from './block.ts';
import { once } from '../drawing/once.ts';
import { say } from '../words/say.ts';

/** Space between columns, and between the groups a long table is folded into, in lettering heights. */
const columnGap = 1.6;
const groupGap = 3;

/** What stands over a column, on two lines where that makes it narrower: `up` over `in` and `mm`. */
interface Heading {
  readonly top: string;
  readonly bottom: string;
  /** How many columns the upper line stands over; 0 where the column before has it. */
  readonly span: 0 | 1 | 2;
}

interface Columns {
  readonly widths: readonly number[];
  /** Figures stand under each other at the right. */
  readonly isRight: readonly boolean[];
  readonly headings: readonly Heading[];
}

/** A heading on two lines, as even as its words let it be. */
const foldHeading = (head: string, height: number): Heading => {
  const words = head.split(' ');
  const ways = words.slice(1).map((_, i) => ({
    top: words.slice(0, i + 1).join(' '),
    bottom: words.slice(i + 1).join(' '),
  }));
  const widthOf = ({ top, bottom }: { top: string; bottom: string }): number =>
    Math.max(textWidth(top, height, true), textWidth(bottom, height, true));
  const best = ways.reduce((a, b) => (widthOf(b) < widthOf(a) ? b : a), { top: '', bottom: head });
  return { ...best, span: 1 };
};

/** The name and unit of a column of lengths, which is one of a pair. */
const readUnit = (head: string | undefined): readonly [name: string, unit: string] | undefined => {
  const [, name, unit] = /^(.+) (in|mm)$/.exec(head ?? '') ?? [];
  return name !== undefined && unit !== undefined ? [name, unit] : undefined;
};

const headingsOf = (header: readonly string[], values: readonly number[], height: number): Heading[] =>
  header.map((head, c): Heading => {
    const [own, before, after] = [head, header[c - 1], header[c + 1]].map(readUnit);
    if (own && own[0] === after?.[0]) return { top: own[0], bottom: own[1], span: 2 };
    if (own && own[0] === before?.[0]) return { top: '', bottom: own[1], span: 0 };
    return textWidth(head, height, true) <= (values[c] ?? 0)
      ? { top: '', bottom: head, span: 1 }
      : foldHeading(head, height);
  });

/** True of a column of figures, a word among them or not; the first one, which names the rows, has nothing else. */
const areFigures = (column: readonly string[], c: number): boolean => {
  const said = column.filter((value) => value !== '');
  const figures = said.filter((value) => /^[-−+±]?[\d.]/.test(value));
  return c === 0 ? figures.length === said.length : figures.length >= said.length / 2;
};

const measureColumns = ({ header, rows }: Table<string>, height: number): Columns => {
  const cells = header.map((_, c) => rows.map((row) => row[c] ?? ''));
  const values = cells.map((column) => Math.max(...column.map((value) => textWidth(value, height, false))));
  const headings = headingsOf(header, values, height);
  const widths = headings.map(({ top, bottom, span }, c) =>
    Math.max(
      values[c] ?? 0,
      textWidth(bottom, height, true),
      // Over two columns the second takes what it needs first.
      textWidth(top, height, true) - (span === 2 ? (values[c + 1] ?? 0) + columnGap * height : 0),
    ),
  );
  return {
    widths,
    headings,
    isRight: cells.map(areFigures),
  };
};

const isDeep = ({ headings }: Columns): boolean => headings.some(({ top }) => top !== '');

const drawGroup = (
  rows: Table<string>['rows'],
  columns: Columns,
  height: number,
  left: number,
  top: number,
): Mark[] => {
  const { widths, isRight, headings } = columns;
  const pitch = pitchOf(height);
  const gap = columnGap * height;
  const lefts = widths.map((_, c) => left + widths.slice(0, c).reduce((sum, w) => sum + w + gap, 0));
  const write = (text: string, c: number, baseline: number, bold: boolean): Mark[] => {
    const [x = 0, width = 0] = [lefts[c], widths[c]];
    if (text === '') return [];
    const align = isRight[c] ? 'right' : 'left';
    return [letter('text', { x: isRight[c] ? x + width : x, y: baseline }, text, height, { align, bold })];
  };
  const deep = isDeep(columns) ? pitch : 0;
  const width = widths.reduce((sum, w) => sum + w, 0) + gap * (widths.length - 1);
  const under = top - pitch - deep - 0.4;
  const end = under - 0.6 - rows.length * pitch - 0.2;
  return [
    ...headings.flatMap(({ top: upper, bottom, span }, c) => {
      const baseline = top - height * 1.15;
      const both = (widths[c] ?? 0) + gap + (widths[c + 1] ?? 0);
      const middle = (lefts[c] ?? 0) + both / 2;
      const name =
        span === 2
          ? [letter('text', { x: middle, y: baseline }, upper, height, { align: 'centre', bold: true })]
          : write(upper, c, baseline, true);
      return [...name, ...write(bottom, c, baseline - deep, true)];
    }),
    ruleLine('text', { x: left, y: under }, { x: left + width, y: under }, QUARTER),
    ...rows.flatMap((row, r) =>
      row.flatMap((text, c) => write(text, c, under - 0.6 - height * 1.15 - r * pitch, false)),
    ),
    ruleLine('text', { x: left, y: end }, { x: left + width, y: end }, FINE),
  ];
};

const shapeTable = (table: Table<string>, columns: Columns, height: number, groups: number): Fitted => {
  const perGroup = Math.ceil(table.rows.length / groups);
  const groupWidth =
    columns.widths.reduce((sum, w) => sum + w, 0) + columnGap * height * (columns.widths.length - 1);
  const width = groups * groupWidth + (groups - 1) * groupGap * height;
  const titleText = setText(table.title, height, true, Math.max(width, 18 * height));
  const title = pitchOf(height) * (titleText.count + 0.15);
  const total = title + pitchOf(height) * (perGroup + (isDeep(columns) ? 2 : 1)) + 1.5;
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
        return drawGroup(rows, columns, height, g * (groupWidth + groupGap * height), total - title);
      }).flat(),
    ],
  };
};

/** Heads with their values, units after them and both units of a length together: "width 76 mm (2.992″)". */
const sayOnce = (same: readonly { readonly head: string; readonly value: string }[]): string => {
  const byName = new Map<string, string[]>();
  for (const { head, value } of same) {
    const [, name = head, unit] = /^(.*) (mm|in)$/.exec(head) ?? [];
    byName.set(name, [...(byName.get(name) ?? []), unit === 'mm' ? `${value} mm` : value]);
  }
  return [...byName]
    .map(([name, [first, second]]) => `${name} ${first}${second === undefined ? '' : ` (${second})`}`)
    .join(', ');
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
    return isKept[c] === true || value === '' ? [] : [{ head, value }];
  });
  const keep = (cells: readonly string[]): string[] => cells.filter((_, c) => isKept[c]);
  return {
    title: same.length === 0 ? title : say`${title}; every row: ${sayOnce(same)}`,
    header: keep(header),
    rows: rows.map(keep),
  };
};

/** A table, folded into as many groups side by side as the width takes. */
export const tableBlock = (table: Table<string>): Block => foldingBlock(dropConstant(table));

const foldingBlock = (table: Table<string>): Block => {
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
  const more = say`${title}, continued`;
  // Both parts keep the columns that name the rows: the second too where the first leaves some without a name.
  const names = rows.some(([name]) => (name ?? '') === '') ? 2 : 1;
  const isWide = header.length > names + 1;
  if (rows.length < 2 && !isWide) return undefined;
  const setWidth = once(() => shapeTable(table, measureColumns(table, 2.5), 2.5, 1).width);
  return (width) => {
    if (isWide && (setWidth() > width || rows.length < 2)) {
      // A pair of columns for two units stays together.
      const others = header.length - names;
      const middle = names + (others === 2 ? 1 : 2 * Math.ceil(others / 4));
      const [left, right] = [
        (cells: readonly string[]) => cells.slice(0, middle),
        (cells: readonly string[]) => [...cells.slice(0, names), ...cells.slice(middle)],
      ];
      return [
        foldingBlock({ title, header: left(header), rows: rows.map(left) }),
        foldingBlock({ title: more, header: right(header), rows: rows.map(right) }),
      ];
    }
    const half = Math.ceil(rows.length / 2);
    return [
      foldingBlock({ ...table, rows: rows.slice(0, half) }),
      foldingBlock({ ...table, title: more, rows: rows.slice(half) }),
    ];
  };
};
