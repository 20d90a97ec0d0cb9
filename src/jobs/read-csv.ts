import type { Issue } from '../issue.ts';
import { listAliases, listInputs } from '../fields/describe.ts';
import { layouts } from '../layouts/registry.ts';
import { findNearMiss } from '../near-miss.ts';
import { limits, type Entry, type Listing } from './entry.ts';
import { readCsv, type CsvField } from './csv-cells.ts';
import { makeIssue, type Place } from './place.ts';
import { say } from '../words/say.ts';

/** A column's head as an input's name: `Paper thickness` is `paper-thickness`. A head that begins with # is a remark. */
const nameColumn = (head: string): string | undefined => {
  const name = head
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  return name === '' || name.startsWith('#') ? undefined : name;
};

const readRow = (
  names: readonly (string | undefined)[],
  row: readonly CsvField[],
  placeField: (field: CsvField) => Place,
): Entry => {
  const texts: Record<string, string | readonly string[]> = Object.create(null) as Record<string, string>;
  const places = new Map<string, Place>();
  names.forEach((name, i) => {
    const field = row[i];
    if (name === undefined || field === undefined || field.text.trim() === '') return;
    const before = texts[name];
    texts[name] = before === undefined ? field.text : [before, field.text].flat();
    if (!places.has(name)) places.set(name, placeField(field));
  });
  const { layout, ...inputs } = texts;
  const place = placeField(row[0] ?? { text: '', line: 1, column: 1 });
  return {
    layout: typeof layout === 'string' ? layout.trim() : undefined,
    texts: inputs,
    place,
    placeOf: (input) => places.get(input) ?? place,
  };
};

/** What shop lists call inputs. */
const shopWords = new Map([
  ['qty', 'quantity'],
  ['pcs', 'quantity'],
  ['tag', 'piece'],
  ['item', 'piece'],
]);

/** Lines before the first row, and among the pieces where the first column names layouts, that hold one remark and nothing else. */
const dropRemarks = (rows: readonly (readonly CsvField[])[]): readonly (readonly CsvField[])[] => {
  const isRemark = (row: readonly CsvField[]): boolean =>
    row.every(({ text }, i) => (i === 0 ? text.trim().startsWith('#') : text.trim() === ''));
  const from = rows.findIndex((row) => !isRemark(row));
  const [head, ...pieces] = from < 0 ? [] : rows.slice(from);
  if (head === undefined) return [];
  const isLayoutFirst = nameColumn(head[0]?.text ?? '') === 'layout';
  return [head, ...pieces.filter((row) => !isLayoutFirst || !isRemark(row))];
};

/** Heads that no layout has as an input: reported once, at the head, not again for every row. */
const checkHeads = (
  names: readonly (string | undefined)[],
  head: readonly CsvField[],
  placeField: (field: CsvField) => Place,
): Issue[] => {
  const known = new Set([
    'layout',
    ...layouts.flatMap((layout) => [...listInputs(layout).keys(), ...listAliases(layout)]),
  ]);
  return names.flatMap((name, i) => {
    const field = head[i];
    if (name === undefined || field === undefined || known.has(name)) return [];
    const near = shopWords.get(name) ?? findNearMiss(name, [...known]);
    const hint =
      near === undefined
        ? say`name an input, or begin the head with # where the column is a remark`
        : say`did you mean ${near}? Begin the head with # where the column is a remark`;
    const message = say`no layout has an input "${field.text.trim()}"`;
    return [makeIssue(placeField(field), 'unknown-head', message, hint)];
  });
};

/**
 * Reads a cut list: the first row names inputs (and `layout`), every other row is a piece, an empty field is an input left
 * out, two columns of the same name are an input given twice. `file` is the list's name as places give it.
 */
export const readCsvList = (text: string, file: string): Listing => {
  const csv = readCsv(text);
  const empty = { defaults: undefined, entries: [], formats: [], book: undefined, list: undefined };
  const start: Place = { file, line: 1, column: 1 };
  const refuse = (issue: Issue): Listing => ({ ...empty, issues: [issue] });
  if (csv.kind === 'fault')
    return refuse(
      makeIssue(
        { file, ...csv },
        'bad-csv',
        csv.message,
        say`double the quotes within a quoted field, and close it`,
      ),
    );
  const [head, ...rows] = dropRemarks(csv.rows);
  if (head === undefined)
    return refuse(makeIssue(start, 'empty-list', say`the list is empty`, say`the first row names inputs`));
  if (rows.length > limits.pieces)
    return refuse(
      makeIssue(start, 'many-pieces', say`more than ${limits.pieces} pieces`, say`split the list`),
    );
  const placeField = ({ line, column }: CsvField): Place => ({ file, line, column });
  const names = head.map((field) => nameColumn(field.text));
  // A longer row has most likely come apart at a comma, so that its texts stand under the wrong heads.
  const strayIn = (row: readonly CsvField[]): CsvField | undefined =>
    row.slice(head.length).find((field) => field.text.trim() !== '');
  const unknown = checkHeads(names, head, placeField);
  // Without the column the pieces would be others than were meant.
  if (unknown.length > 0) return { ...empty, issues: unknown };
  return {
    ...empty,
    entries: rows.filter((row) => strayIn(row) === undefined).map((row) => readRow(names, row, placeField)),
    issues: rows.flatMap((row) => {
      const stray = strayIn(row);
      if (stray === undefined) return [];
      const message = say`the row is longer than the first, which names ${head.length} columns`;
      return [
        makeIssue(placeField(stray), 'stray-field', message, say`put texts that hold commas in quotes`),
      ];
    }),
  };
};
