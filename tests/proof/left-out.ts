import type { Said, Sheet } from '../../src/drawing/model.ts';

const isShown = (said: Said): boolean =>
  typeof said !== 'string' && (said.kind === 'words' || said.measured !== undefined);

/** True for what is printed with a figure in it: a value, or words with a number and its unit. */
const hasFigure = (said: Said): boolean => typeof said !== 'string' || /\d(?: mm|″|′|°|$)/.test(said);

/** The labels of printed figures that are not measured on their sheet, and of table columns with no measured cell. */
export const leftOut = (sheets: readonly Sheet[]): readonly string[] =>
  sheets.flatMap(({ facts, tables }) => [
    ...facts.filter(([, said]) => hasFigure(said) && !isShown(said)).map(([label]) => label),
    ...tables.flatMap(({ title, header, rows }) =>
      header
        .filter((_, column) => {
          const cells = rows.flatMap((row) => row[column] ?? []);
          return column > 0 && cells.some(hasFigure) && !cells.some(isShown);
        })
        .map((head) => `${title} | ${head}`),
    ),
  ]);
