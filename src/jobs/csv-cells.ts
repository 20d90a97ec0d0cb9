import { say } from '../words/say.ts';

/** One field of a row, and where it begins; lines and columns count from 1. */
export interface CsvField {
  readonly text: string;
  readonly line: number;
  readonly column: number;
}

/** What a CSV file holds, or where it cannot be understood. */
export type Csv =
  | { readonly kind: 'rows'; readonly rows: readonly (readonly CsvField[])[] }
  | { readonly kind: 'fault'; readonly line: number; readonly column: number; readonly message: string };

/** Separators that spreadsheets write, by the country they are set to. */
const separators = [',', ';', '\t'] as const;

/** A first line that tells office programs the separator, as `sep=;`: no row of the list. */
const saidSeparator = /^sep=([,;\t])(?:\r\n|\r|\n)/i;

/** The separator that the first row has most of, outside quotes. */
const findSeparator = (text: string): string => {
  const head = (/^(?:"[^"]*"|[^"\r\n])*/.exec(text)?.[0] ?? '').replace(/"[^"]*"/g, '');
  const counts = separators.map((sign) => head.split(sign).length);
  return separators[counts.indexOf(Math.max(...counts))] ?? ',';
};

/**
 * Reads CSV after RFC 4180: a field in quotes may hold separators, line ends and doubled quotes. Beyond the standard it
 * takes any line end, semicolons or tabs instead of commas, a byte order mark, and a quote within a field that does not
 * begin with one, since that is how inches are written by hand: `6-5/8"`. Blanks around a quoted field are not its own. Empty
 * lines are passed over, and a first line `sep=;`.
 */
export const readCsv = (source: string): Csv => {
  const text = source.replace(/^\ufeff/, '');
  const said = saidSeparator.exec(text);
  const separator = said?.[1] ?? findSeparator(text);
  const rows: CsvField[][] = [];
  let row: CsvField[] = [];
  let line = said === null ? 1 : 2;
  let lineStart = said?.[0].length ?? 0;
  let at = lineStart;
  const fault = (message: string, line: number, column: number): Csv => ({
    kind: 'fault',
    line,
    column,
    message,
  });
  const endRow = (): void => {
    if (row.some((field) => field.text.trim() !== '')) rows.push(row);
    row = [];
  };

  const passBlanks = (): void => {
    while (text[at] === ' ') at++;
  };

  while (at < text.length) {
    const fieldStart = at;
    passBlanks();
    if (text[at] !== '"') at = fieldStart;
    const start = { line, column: at - lineStart + 1 };
    let value = '';
    if (text[at] === '"') {
      for (;;) {
        const quote = text.indexOf('"', at + 1);
        if (quote < 0) return fault(say`a quote is not closed`, start.line, start.column);
        const part = text.slice(at + 1, quote);
        for (const end of part.matchAll(/\r\n|\r|\n/g)) {
          line++;
          lineStart = at + 1 + end.index + end[0].length;
        }
        value += part;
        at = quote + 1;
        if (text[at] !== '"') break;
        value += '"';
      }
      passBlanks();
      const next = text[at];
      if (next !== undefined && next !== separator && next !== '\r' && next !== '\n')
        return fault(say`text follows a closing quote`, line, at - lineStart + 1);
    } else {
      const begin = at;
      while (at < text.length && text[at] !== separator && text[at] !== '\r' && text[at] !== '\n') at++;
      value = text.slice(begin, at);
    }
    row.push({ text: value, ...start });
    const sign = text[at];
    if (sign === separator) {
      at++;
      // A line that ends in a separator has one more field, an empty one.
      if (at === text.length) row.push({ text: '', line, column: at - lineStart + 1 });
      continue;
    }
    at += sign === '\r' && text[at + 1] === '\n' ? 2 : 1;
    line++;
    lineStart = at;
    endRow();
  }
  endRow();
  return { kind: 'rows', rows };
};
