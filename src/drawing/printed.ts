import type { LengthFormat } from '../units/format.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Measured } from './measured.ts';
import type { Said, Sheet, Table } from './model.ts';
import { valuesOf } from './worded.ts';
import { columnsOf, writeFact, writeTable } from './written.ts';

/** How the drawing shows a figure, and its value as a plain number: mm, mm², radians or a count. */
export interface PrintedFigure {
  readonly value?: number;
  readonly unit?: 'mm' | 'mm2' | 'rad' | 'n';
  readonly measured: Measured;
}

/** Everything a sheet prints that its own drawing shows: what `soapstone.json` carries for those who check it. */
export interface PrintedFigures {
  readonly facts: readonly {
    readonly label: string;
    readonly text: string;
    /** In the order they stand in the text. */
    readonly figures: readonly PrintedFigure[];
  }[];
  readonly tables: readonly {
    readonly title: string;
    /** As they are printed. */
    readonly rows: readonly (readonly string[])[];
    /** Which of their cells are measured: by row, and by the columns a value takes, one for each unit. */
    readonly cells: readonly {
      readonly row: number;
      readonly columns: readonly number[];
      readonly figures: readonly PrintedFigure[];
    }[];
  }[];
}

const valueOf = (quantity: Quantity): Pick<PrintedFigure, 'value' | 'unit'> | undefined => {
  switch (quantity.kind) {
    case 'length':
      return { value: quantity.mm, unit: 'mm' };
    case 'angle':
      return { value: quantity.radians, unit: 'rad' };
    case 'area':
      return { value: quantity.mm2, unit: 'mm2' };
    case 'count':
      return { value: quantity.n, unit: 'n' };
    case 'volume':
    case 'mass':
    case 'share':
      return undefined;
  }
};

/**
 * The figures in a fact or a cell, to be checked against the drawing. A text is checked figure by figure, in order: where the drawing does not
 * show one of them, none is checked.
 */
const figuresOf = (said: Said): readonly PrintedFigure[] => {
  const values = valuesOf(said);
  const figures = values.flatMap(({ measured, ...quantity }) =>
    measured === undefined ? [] : [{ ...valueOf(quantity), measured }],
  );
  return figures.length === values.length ? figures : [];
};

const printedTable = (table: Table, format: LengthFormat): PrintedFigures['tables'][number] => {
  const columns = columnsOf(table);
  return {
    title: table.title,
    rows: writeTable(table, format).rows,
    cells: table.rows.flatMap((cells, row) =>
      cells
        .map((cell, c) => ({ row, columns: columns[c] ?? [], figures: figuresOf(cell) }))
        .filter(({ figures }) => figures.length > 0),
    ),
  };
};

/** The figures of a sheet that its drawing shows, as they are printed; undefined where it shows none. */
export const printedFigures = (
  { facts, tables }: Sheet,
  format: LengthFormat,
): PrintedFigures | undefined => {
  const printed = {
    facts: facts
      .map(([label, said]) => ({ label, text: writeFact(said, format), figures: figuresOf(said) }))
      .filter(({ figures }) => figures.length > 0),
    tables: tables.map((table) => printedTable(table, format)).filter(({ cells }) => cells.length > 0),
  };
  return printed.facts.length + printed.tables.length === 0 ? undefined : printed;
};
