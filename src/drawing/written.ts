import type { LengthFormat } from '../units/format.ts';
import { type Quantity, writeCell, writeOnce, writeQuantity } from '../units/quantity.ts';
import type { Figure, Said, Sheet, Table, WrittenSheet } from './model.ts';

type Length = Quantity & { readonly kind: 'length' };

const isLength = (said: Said | undefined): said is Length =>
  typeof said === 'object' && said.kind === 'length';

/** The units of the two columns that a column of lengths becomes, the reader's first. */
const unitsInOrder = ({ units }: LengthFormat): readonly ['in' | 'mm', 'in' | 'mm'] =>
  units === 'in' ? ['in', 'mm'] : ['mm', 'in'];

/** What is said, in words: a value as `write` writes it. */
const inWords = (said: Said, write: (figure: Figure) => string): string =>
  typeof said === 'string' ? said : said.kind === 'words' ? said.text : write(said);

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

/**
 * A table with its values written out. A column with lengths becomes two, the reader's unit first; words among them stand
 * in the first.
 */
export const writeTable = (table: Table, format: LengthFormat): Table<string> => {
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
        return lengths[column] === true ? [text, ''] : [text];
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
