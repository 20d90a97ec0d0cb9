import type { LengthFormat } from '../units/format.ts';
import { type Quantity, writeCell, writeOnce, writeQuantity } from '../units/quantity.ts';
import type { Said, Sheet, Table, WrittenSheet } from './model.ts';

type Length = Quantity & { readonly kind: 'length' };

const isLength = (said: Said | undefined): said is Length =>
  typeof said === 'object' && said.kind === 'length';

/** The units of the two columns that a column of lengths becomes, the reader's first. */
const unitsInOrder = ({ units }: LengthFormat): readonly ['in' | 'mm', 'in' | 'mm'] =>
  units === 'in' ? ['in', 'mm'] : ['mm', 'in'];

/**
 * A table with its values written out. A column with lengths becomes two, the reader's unit first; words among them stand
 * in the first.
 */
export const writeTable = ({ title, header, rows }: Table, format: LengthFormat): Table<string> => {
  const lengths = header.map((_, column) => rows.some((row) => isLength(row[column])));
  const units = unitsInOrder(format);
  return {
    title,
    header: header.flatMap((head, column) =>
      lengths[column] === true ? units.map((unit) => `${head} ${unit}`.trim()) : [head],
    ),
    rows: rows.map((row) =>
      row.flatMap((cell, column) => {
        if (isLength(cell)) return units.map((unit) => writeCell(cell, unit, format));
        const text = typeof cell === 'string' ? cell : writeOnce(cell, format);
        return lengths[column] === true ? [text, ''] : [text];
      }),
    ),
  };
};

/** A sheet with every value written in the reader's units, both units in facts. */
export const writeSheet = (sheet: Sheet, format: LengthFormat): WrittenSheet => ({
  ...sheet,
  facts: sheet.facts.map(([label, said]) => [
    label,
    typeof said === 'string' ? said : writeQuantity(said, format),
  ]),
  tables: sheet.tables.map((table) => writeTable(table, format)),
});
