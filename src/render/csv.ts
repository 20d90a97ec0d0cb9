import { checkAreSheets } from '../drawing/check-sheets.ts';
import type { Sheet } from '../drawing/model.ts';
import { writeTable } from '../drawing/written.ts';
import type { LengthFormat } from '../units/format.ts';

const lineEnd = '\r\n';

/**
 * All tables of the sheets as comma-separated values (RFC 4180: lines end in CR LF, a field that needs it stands in
 * double quotes). Each table begins with a row of its sheet's and its own title, then its column heads; an empty line parts
 * it from the next. Lengths are written in both units, the reader's first, as on the sheet. Text that a spreadsheet would take for a formula is given a leading apostrophe.
 */
export const renderCsv = (sheets: readonly Sheet[], format: LengthFormat = { units: 'mm' }): string => {
  checkAreSheets(sheets);
  return sheets
    .flatMap(({ heading, tables }) =>
      tables
        .map((table) => writeTable(table, format))
        .map(({ title, header, rows }) => [[`${heading}: ${title}`], header, ...rows]),
    )
    .map((rows) => rows.map((row) => row.map(writeField).join(',') + lineEnd).join(''))
    .join(lineEnd);
};

/** A cut list as comma-separated values: a row of input names, then a row for each piece. */
export const renderCutList = (pieces: readonly Readonly<Record<string, string>>[]): string => {
  const names = [...new Set(pieces.flatMap((piece) => Object.keys(piece)))];
  return [names, ...pieces.map((piece) => names.map((name) => piece[name] ?? ''))]
    .map((row) => row.map(writeField).join(',') + lineEnd)
    .join('');
};

/** What a spreadsheet might run: text led by one of these, blanks before it or not. */
const formulaStart = /^\s*[=+\-@＝＋－＠\t\r]/;

/** A signed number or a length in inches or feet and inches, which begin as a formula does: `-12.5`, `-1 1/2"`, `+3 mm`. */
const signedFigure =
  /^[+-](?:\d+['′][- ]?)?(?:\d+(?:\.\d+)?(?:e[+-]?\d+)?|\d+[ -]\d+\/\d+|\d+\/\d+)?\s?(?:mm|in|["″'′°])?$/;

/** The minus sign a figure is printed with, which a spreadsheet does not read as one. */
const printedMinus = /^−(?=\d|\.\d)/;

const writeField = (said: string): string => {
  const text = said.replace(printedMinus, '-');
  const safe = formulaStart.test(text) && !(/\d/.test(text) && signedFigure.test(text)) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};
