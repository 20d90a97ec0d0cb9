import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  describeInput,
  groupInputs,
  isRequired,
  listInputs,
  type InputGroup,
} from '../../src/fields/describe.ts';
import type { Field } from '../../src/fields/field.ts';
import { families, type Layout } from '../../src/fields/layout.ts';
import { fileShape } from '../../src/jobs/job-shape.ts';
import { bodyKinds } from '../../src/joint/bodies/read-bodies.ts';
import { tellBodies } from '../../src/sheets/bodies-field.ts';

/** Text in a cell of a Markdown table. */
const cell = (text: string): string => text.replaceAll('|', '\\|').replace(/\s+/g, ' ');

const table = (header: readonly string[], rows: readonly (readonly string[])[]): string =>
  [header, header.map(() => '---'), ...rows].map((row) => `| ${row.map(cell).join(' | ')} |`).join('\n');

const code = (text: string): string => `\`${text}\``;

/** An option whose value takes long to tell says where that is told. */
const describeOption = (field: Field<unknown>): string => {
  const { notation, ...rest } = field;
  return notation
    ? `${describeInput(rest)}; [how a body is written](#how-a-body-is-written)`
    : describeInput(field);
};

const optionTable = ({ inputs }: InputGroup): string =>
  table(
    ['option', 'what'],
    [...inputs].map(([name, field]) => [code(`--${name}`), describeOption(field)]),
  );

const writeBodies = (): string => {
  const told = tellBodies();
  return [
    `BODY is ${told}. For example \`pipe NPS 6 sch 40 angle 60\`, \`elbow NPS 8 LR heel\`.`,
    table(
      ['body', 'how it lies'],
      bodyKinds().map(({ words, lies }) => [words.join(', '), lies]),
    ),
  ].join('\n\n');
};

const writeLayout = (layout: Layout): string => {
  const [own] = groupInputs(layout);
  return [
    `### ${layout.id}`,
    `${layout.summary.charAt(0).toUpperCase()}${layout.summary.slice(1)}.`,
    layout.examples.map((example) => `    npx soapstone ${example}`).join('\n'),
    ...(layout.sheets ? [`Sheets: ${layout.sheets.map(code).join(', ')}.`] : []),
    ...(own ? [optionTable(own)] : []),
  ].join('\n\n');
};

const summaryTable = (layouts: readonly Layout[]): string =>
  table(
    ['template', 'what it makes', 'must be given'],
    layouts.map((layout) => [
      `[${layout.id}](#${layout.id})`,
      layout.summary,
      [...listInputs(layout)]
        .filter(([, field]) => isRequired(field))
        .map(([name]) => code(`--${name}`))
        .join(', '),
    ]),
  );

/** What the standard job files are for, from their own first remark. */
const writeTemplates = (folder: string): string =>
  table(
    ['job file', 'what it prints'],
    readdirSync(folder)
      .filter((file) => file.endsWith('.yaml'))
      .sort()
      .map((file) => {
        const remarks = readFileSync(join(folder, file), 'utf8')
          .split('\n')
          .filter((line) => line.startsWith('#') && !line.includes('$schema'));
        return [code(`templates/${file}`), (remarks[0] ?? '').replace(/^# ?/, '')];
      }),
  );

/** Every option of every layout, and the standard job files. */
export const writeReference = (layouts: readonly Layout[], templates: string): string => {
  const [any] = layouts;
  const shared = any === undefined ? [] : groupInputs(any).slice(1);
  const inFamily = families.map((family) => ({
    family,
    own: layouts.filter((layout) => layout.family === family),
  }));
  return [
    '# Reference',
    'Made from the declarations of the layouts by `npm run docs`; `soapstone LAYOUT --help` says the same.',
    ...inFamily
      .filter(({ own }) => own.length > 0)
      .flatMap(({ family, own }) => [
        `## ${family.charAt(0).toUpperCase()}${family.slice(1)}`,
        summaryTable(own),
        ...own.map(writeLayout),
      ]),
    '## How a body is written',
    writeBodies(),
    '## Options of all templates',
    ...shared.map((group) => `**${group.heading}**\n\n${optionTable(group)}`),
    '## Standard job files',
    writeTemplates(templates),
  ].join('\n\n');
};

const example = `\`\`\`yaml
# yaml-language-server: $schema=shared/job.schema.json
defaults:
  job: Pump house
  revision: B
  units: in
  paper: letter
formats: [pdf, dxf]
pieces:
  - piece: L1
    layout: branch
    branch: NPS 2 sch 40
    header: NPS 4 sch 40
    angle: 60
    quantity: 2
  - piece: M1
    layout: miter
    stock: NPS 6 sch 40
    cut: 22.5
\`\`\``;

/** How job files and cut lists are written. */
export const writeJobs = (): string =>
  [
    '# Job files and cut lists',
    'A job file (YAML) lists pieces. The keys of a piece are the options of its layout, as they are written on the command line; `piece` is its mark and names its files. A key under `defaults` holds for every piece that does not give it itself. Every mistake is reported with file, line and column; the other pieces are still made, unless you add `--strict`.',
    example,
    table(
      ['key', 'what'],
      Object.entries(fileShape.shape).map(([key, shape]) => [code(key), shape.meta()?.description ?? '']),
    ),
    'The comment in the first line lets an editor complete and check the file by the JSON Schema in `shared/job.schema.json`. A cut list from a spreadsheet, saved as CSV, is read as well: its first row names options (and `layout`), every other row is a piece, and a column whose heading begins with `#` is a remark. So is a line before the first row that holds nothing but a text with `#` before it, and one among the pieces where the first column is `layout`. A CSV file named under `list` gets the defaults of the job file.',
    'You can stop a run at any moment. The same command picks it up again and skips what is done and unchanged. `--jobs N` uses N cores, `--shard I/N` makes share I of N equal shares. `--book NAME.pdf` makes one PDF of all pieces, with an index before them. On rolls and on paper of 400 mm and more across, whole pieces share a page, each in a frame of its own with its mark, identity and code: cut along the frames. `supersedes` and `superseded-by` say which print replaces which; a superseded print says on every page not to cut by it.',
  ].join('\n\n');
