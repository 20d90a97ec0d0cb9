import { fileShape } from '../../src/jobs/job-shape.ts';
import {
  describeInput,
  groupInputs,
  isRequired,
  listInputs,
  type InputGroup,
} from '../../src/fields/describe.ts';
import type { Layout } from '../../src/fields/layout.ts';

/** Text in a cell of a Markdown table. */
const cell = (text: string): string => text.replaceAll('|', '\\|').replace(/\s+/g, ' ');

const table = (header: readonly string[], rows: readonly (readonly string[])[]): string =>
  [header, header.map(() => '---'), ...rows].map((row) => `| ${row.map(cell).join(' | ')} |`).join('\n');

const code = (text: string): string => `\`${text}\``;

const optionRows = ({ inputs }: InputGroup): string[][] =>
  [...inputs].map(([name, field]) => [code(`--${name}`), describeInput(field)]);

const details = (summary: string, body: string): string =>
  `<details>\n<summary>${summary}</summary>\n\n${body}\n\n</details>`;

const writeLayouts = (layouts: readonly Layout[]): string => {
  const [any] = layouts;
  const groups = any === undefined ? [] : groupInputs(any).slice(1);
  return [
    table(
      ['template', 'what it makes', 'must be given'],
      layouts.map((layout) => [
        code(layout.id),
        layout.summary,
        [...listInputs(layout)]
          .filter(([, field]) => isRequired(field))
          .map(([name]) => code(`--${name}`))
          .join(', '),
      ]),
    ),
    ...layouts.map((layout) => {
      const [own] = groupInputs(layout);
      const examples = layout.examples.map((example) => `    npx soapstone ${example}`).join('\n');
      const rows = own === undefined ? [] : optionRows(own);
      return details(
        code(layout.id).replaceAll('`', ''),
        `${examples}\n\n${table(['option', 'what'], rows)}`,
      );
    }),
    details(
      'options of all templates',
      groups
        .map((group) => `**${group.heading}**\n\n${table(['option', 'what'], optionRows(group))}`)
        .join('\n\n'),
    ),
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
    pipe: NPS 6 sch 40
    cut: 22.5
\`\`\``;

const writeJobs = (): string =>
  [
    'A job file (YAML) lists pieces. The keys of a piece are the options of its layout, as they are written on the command line;',
    '`piece` is its mark and names its files. A key under `defaults` holds for every piece that does not give it itself.',
    'Faults are told with file, line and column; the other pieces are made all the same, unless you add `--strict`.',
    '',
    example,
    '',
    table(
      ['key', 'what'],
      Object.entries(fileShape.shape).map(([key, shape]) => [code(key), shape.meta()?.description ?? '']),
    ),
    '',
    'The comment in the first line lets an editor complete and check the file by the JSON Schema in `shared/job.schema.json`.',
    'A cut list from a spreadsheet, saved as CSV, is read as well: its first row names options (and `layout`), every other row',
    'is a piece, and a column whose head begins with `#` is a remark. Under `list` a job file gives it its defaults.',
    '',
    'A run can be stopped at any moment; the same command carries on, and makes nothing again that is done and unchanged.',
    '`--book NAME.pdf` makes one PDF of all pieces, with an index before them. `supersedes` and `superseded-by` tell which print',
    'takes the place of which; a print that is superseded says on every page not to cut by it.',
  ].join('\n');

/** Fills what stands between `<!-- begin NAME -->` and `<!-- end NAME -->`. Throws where the marks are missing. */
export const fillSection = (text: string, name: string, content: string): string => {
  const [begin, end] = [`<!-- begin ${name} -->`, `<!-- end ${name} -->`];
  const [from, to] = [text.indexOf(begin), text.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`README.md has no marks "${begin}" and "${end}"`);
  return `${text.slice(0, from + begin.length)}\n\n${content}\n\n${text.slice(to)}`;
};

/** The README with its tables made afresh from the layouts' fields. */
export const fillReadme = (text: string, layouts: readonly Layout[]): string =>
  fillSection(fillSection(text, 'layouts', writeLayouts(layouts)), 'jobs', writeJobs());
