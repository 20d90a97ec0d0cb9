import type { Said, Sheet } from '../drawing/model.ts';
import { describeInput, groupInputs, isRequired, listInputs } from '../fields/describe.ts';
import type { Field } from '../fields/field.ts';
import type { Layout } from '../fields/layout.ts';
import { nameRequest } from '../jobs/file-name.ts';
import { drawRequest, questionsOf, type Drawn } from '../jobs/draw-request.ts';
import { pageLimit } from '../paging/page-limit.ts';
import type { FindCalibration } from '../paging/printer.ts';
import { makeResults, makeSheets } from '../print.ts';
import { readRequest, type Request } from '../request.ts';
import { say, translate, translateSheet } from '../words/say.ts';
import { advisePrint, printCommand } from './advice.ts';
import { tellLine, type Command, type Given, type Option } from './command.ts';
import { planOutputs, writeOutputs } from './outputs.ts';
import { readRows } from './read-rows.ts';

const outputOptions: readonly Option[] = [
  {
    name: 'output',
    letter: 'o',
    group: 'Output',
    kind: 'text',
    help: 'FILE: where to write, .pdf, .svg, .dxf, .csv or .stl by its extension (may be repeated; left out, a .pdf named after the request)',
  },
  { name: 'json', group: 'Output', kind: 'flag', help: 'say what was made as JSON' },
  { name: 'yes', group: 'Output', kind: 'flag', help: `make more than ${pageLimit} pages` },
];

/** A field as an option under a heading of help. */
export const makeOption = (group: string, name: string, field: Field<unknown>): Option => ({
  name,
  group,
  help: describeInput(field),
  kind: field.kind === 'flag' ? 'flag' : 'text',
  choices: field.choices,
  aliases: field.aliases,
});

const toTexts = (given: Given): Given['texts'] => {
  const { output: _output, ...texts } = given.texts;
  const flags = [...given.flags].filter((flag) => !outputOptions.some((option) => option.name === flag));
  return { ...texts, ...Object.fromEntries(flags.map((flag) => [flag, 'yes'])) };
};

/** Pages in rising order, those that follow one another as a range: a sheet's notes may stand far behind it. */
const listPages = (pages: readonly number[]): string => {
  const runs: [first: number, last: number][] = [];
  for (const page of pages) {
    const run = runs.at(-1);
    if (run?.[1] === page - 1) run[1] = page;
    else runs.push([page, page]);
  }
  const ranges = runs
    .map(([first, last]) => (first === last ? String(first) : say`${first} to ${last}`))
    .join(', ');
  return pages.length === 1 ? say`page ${ranges}` : say`pages ${ranges}`;
};

/** Texts that name a CSV file where their input may stand in one, read from it. */
const readFiles = (layout: Layout, texts: Given['texts']): Given['texts'] => {
  const inputs = listInputs(layout);
  const read = (name: string, text: string): string => {
    const fromRows = inputs.get(name)?.fromRows;
    return fromRows !== undefined && /\.csv$/i.test(text) ? fromRows(readRows(text)) : text;
  };
  return Object.fromEntries(
    Object.entries(texts).map(([name, text]) => [
      name,
      typeof text === 'string' ? read(name, text) : text.map((part) => read(name, part)),
    ]),
  );
};

/** What looks wrong in what was asked: the sheets print it too. */
const tellQuestions = (sheets: readonly Sheet[]): void => {
  for (const question of questionsOf(sheets)) process.stderr.write(say`check: ${question}\n`);
};

/** What was made, for people. */
const tellMade = (
  files: readonly string[],
  { paging: { printer } }: Request,
  { book, identity }: Drawn,
): void => {
  const count = book.pages.length;
  for (const file of files) tellLine(say`Wrote ${file}`);
  tellLine(say`${book.title}: ${count} ${count === 1 ? say`page` : say`pages`}, identity ${identity}`);
  for (const { name, pages } of book.sheets) tellLine(`  ${translateSheet(name)}: ${listPages(pages)}`);
  const printed = files.find((file) => /\.pdf$/i.test(file));
  const [page] = book.pages;
  if (printed !== undefined && page !== undefined) advisePrint(printed, page, printer).forEach(tellLine);
};

const round = (length: number): number => Number(length.toFixed(3));

/** What a value carries for the print alone: how the drawing shows it, and how it is written. */
const onPaper: ReadonlySet<string> = new Set(['measured', 'form', 'decimals']);

/** A value without what only a print carries. */
const plainValue = (said: Said): unknown => {
  if (typeof said === 'string') return said;
  if (said.kind === 'words') return { kind: 'words', parts: said.parts.map(plainValue) };
  return Object.fromEntries(Object.entries(said).filter(([key]) => !onPaper.has(key)));
};

/** What was made, for programs. */
const tellJson = (files: readonly string[], request: Request, { sheets, book, identity }: Drawn): void => {
  const [page] = book.pages;
  // Programs know figures by their English names, whatever the print is written in.
  const english = request.language === 'en' ? sheets : makeSheets({ ...request, language: 'en' });
  const facts = new Map(
    english.map(({ name, facts: list }) => [
      name,
      Object.fromEntries(list.map(([label, said]) => [label, plainValue(said)])),
    ]),
  );
  const summary = {
    files,
    identity,
    pages: book.pages.length,
    paper:
      page === undefined ? undefined : { width: round(page.width), height: round(page.height), unit: 'mm' },
    sheets: book.sheets.map(({ name, pages }) => ({ name, pages, facts: facts.get(name) })),
    print: files.filter((file) => /\.pdf$/i.test(file)).map((file) => (page ? printCommand(file, page) : '')),
    ...makeResults(request),
    spec: request.spec,
  };
  tellLine(JSON.stringify(summary, null, 2));
};

/** The profiles of this machine's printers, read only where a printer is asked for. */
const knowPrinters = async ({ texts }: Given): Promise<FindCalibration | undefined> =>
  texts.printer === undefined ? undefined : (await import('../jobs/printer-profiles.ts')).findCalibration;

const run = async (layout: Layout, given: Given): Promise<void> => {
  const named = given.texts.output;
  const planned = planOutputs(named === undefined ? [] : [named].flat());
  const request = readRequest(
    layout.id,
    readFiles(layout, toTexts(given)),
    [layout],
    await knowPrinters(given),
  );
  const outputs = planned.length > 0 ? planned : planOutputs([`${nameRequest(request)}.pdf`]);
  const made = drawRequest(request, given.flags.has('yes'));
  await writeOutputs(outputs, made);
  const files = outputs.map((output) => output.file);
  tellQuestions(made.sheets);
  if (given.flags.has('json')) tellJson(files, request, made);
  else tellMade(files, request, made);
};

/** The option that picks sheets, with the names that a layout's sheets bear. */
const nameSheets = ({ sheets }: Layout, option: Option): Option =>
  option.name === 'sheets' && sheets
    ? { ...option, help: `${option.help}; here: ${sheets.join(', ')}` }
    : option;

const listOptions = (layout: Layout): readonly Option[] => [
  ...groupInputs(layout).flatMap(({ heading, inputs }) =>
    [...inputs].map(([name, field]) => nameSheets(layout, makeOption(`${translate(heading)}:`, name, field))),
  ),
  ...outputOptions.map((option) => ({ ...option, group: `${translate(option.group)}:` })),
];

/** The command of a layout: its options are its fields, those all layouts share, and where to write. */
export const layoutCommand = (layout: Layout): Command => {
  // Described only where they are asked for: a run uses those of one command among all.
  let options: readonly Option[] | undefined;
  const required = [...listInputs(layout)].filter(([, field]) => isRequired(field));
  return {
    name: layout.id,
    known: layout.words,
    summary: layout.summary,
    usage: [
      layout.id,
      ...required.map(([name, { symbol }]) => `--${name} ${symbol}`),
      `[${say`options`}] [-o FILE]…`,
    ].join(' '),
    examples: layout.examples,
    get options() {
      return (options ??= listOptions(layout));
    },
    words: 0,
    run: (given) => run(layout, given),
  };
};
