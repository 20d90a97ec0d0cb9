import type { LengthFormat } from '../units/format.ts';
import { type Length, writeCell, writeOnce, writeQuantity } from '../units/quantity.ts';
import type { Figure, Said, Sheet, Table, WrittenSheet } from './model.ts';

const isLength = (said: Said | undefined): said is Length =>
  typeof said === 'object' && said.kind === 'length';

/** The units of the two columns that a column of lengths becomes, the reader's first. */
const unitsInOrder = ({ units }: LengthFormat): readonly ['in' | 'mm', 'in' | 'mm'] =>
  units === 'in' ? ['in', 'mm'] : ['mm', 'in'];

/** What is said, in words: values as `write` writes them. */
const inWords = (said: Said, write: (figure: Figure) => string): string => {
  if (typeof said === 'string') return said;
  if (said.kind !== 'words') return write(said);
  return said.parts.map((part) => (typeof part === 'string' ? part : write(part))).join('');
};

const holdsLengths = ({ header, rows }: Table): readonly boolean[] =>
  header.map((_, column) => rows.some((row) => isLength(row[column])));

/** The printed columns that each column of a table becomes: a column of lengths becomes two. */
export const columnsOf = (table: Table): readonly (readonly number[])[] => {
  let next = 0;
  return holdsLengths(table).map((isDouble) => (isDouble ? [next++, next++] : [next++]));
};

/** A fact's value as it is printed, a quantity in both units. */
export const writeFact = (said: Said, format: LengthFormat): string =>
  inWords(said, (figure) => writeQuantity(figure, format));

/** What a cell shows where there is no value; a column of lengths shows it in both units. */
export const NONE = '—';

/** Decimals of a number as it is written, with or without its inch mark. */
const DECIMALS = /^-?\d*(?:\.(\d+))?(?=″?$)/;

/** Sizes under one another with as many decimals each, so that their points stand in line. */
const alignPoints = (cells: readonly string[]): readonly string[] => {
  const most = Math.max(...cells.map((cell) => DECIMALS.exec(cell)?.[1]?.length ?? 0));
  if (most === 0) return cells;
  return cells.map((cell) =>
    /\d/.test(cell)
      ? cell.replace(
          DECIMALS,
          (number, decimals = '') =>
            `${number}${decimals === '' ? '.' : ''}${'0'.repeat(most - String(decimals).length)}`,
        )
      : cell,
  );
};

/**
 * A table with its values written out. A column with lengths becomes two, the reader's unit first; words among them stand
 * in the first.
 */
export const writeTable = (table: Table, format: LengthFormat): Table<string> => {
  const written = writeCells(table, format);
  const sizes = columnsOf(table).flatMap((printed, column) =>
    table.rows.some((row) => isSize(row[column])) ? printed : [],
  );
  if (sizes.length === 0) return written;
  const aligned = new Map(
    sizes.map((column) => [column, alignPoints(written.rows.map((row) => row[column] ?? ''))] as const),
  );
  return {
    ...written,
    rows: written.rows.map((row, i) => row.map((cell, column) => aligned.get(column)?.[i] ?? cell)),
  };
};

const isSize = (said: Said | undefined): boolean => isLength(said) && said.form?.as === 'size';

const writeCells = (table: Table, format: LengthFormat): Table<string> => {
  const { header, rows, ...rest } = table;
  const lengths = holdsLengths(table);
  const units = unitsInOrder(format);
  return {
    ...rest,
    header: header.flatMap((head, column) =>
      lengths[column] === true ? units.map((unit) => `${head} ${unit}`.trim()) : [head],
    ),
    rows: rows.map((row) =>
      row.flatMap((cell, column) => {
        if (isLength(cell)) return units.map((unit) => writeCell(cell, unit, format));
        const text = inWords(cell, (figure) => writeOnce(figure, format));
        if (lengths[column] !== true) return [text];
        return [text, text === NONE ? NONE : ''];
      }),
    ),
  };
};

/** A sheet with every value written in the reader's units, both units in facts. */
export const writeSheet = (sheet: Sheet, format: LengthFormat): WrittenSheet => ({
  ...sheet,
  facts: sheet.facts.map(([label, said]) => [label, writeFact(said, format)]),
  tables: sheet.tables.map((table) => writeTable(table, format)),
});
