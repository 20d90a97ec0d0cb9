import { fileError } from '../issue.ts';
import { readCsv } from '../jobs/csv-cells.ts';
import { readInput } from './read-file.ts';
import { say } from '../words/say.ts';

/**
 * The rows of a CSV file as the texts of their cells, without a first row of heads: one that holds no digit. Throws a `file`
 * UserError where it cannot be read or understood.
 */
export const readRows = (file: string): readonly (readonly string[])[] => {
  const csv = readCsv(new TextDecoder().decode(readInput(file)));
  if (csv.kind === 'fault')
    throw fileError(
      '',
      'bad-csv',
      say`${file}, line ${csv.line}, column ${csv.column}: ${csv.message}`,
      say`write one reading a row, with commas between the cells`,
    );
  const rows = csv.rows.map((row) => row.map(({ text }) => text.trim()));
  return rows.filter((row, i) => i > 0 || row.some((cell) => /\d/.test(cell)));
};
