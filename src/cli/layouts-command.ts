import { isRequired, listInputs } from '../fields/describe.ts';
import type { Layout } from '../fields/layout.ts';
import { program, say, type Command } from './command.ts';

const describeLayout = (layout: Layout) => ({
  layout: layout.id,
  summary: layout.summary,
  examples: layout.examples.map((example) => `${program} ${example}`),
  inputs: [...listInputs(layout)].map(([name, field]) => ({
    name,
    kind: field.kind,
    help: field.help,
    example: field.example,
    default: field.default,
    range: field.range,
    choices: field.choices,
    required: isRequired(field),
    many: field.many,
  })),
});

/** Lists what can be made. */
export const layoutsCommand = (layouts: readonly Layout[]): Command => ({
  name: 'layouts',
  summary: 'list the templates there are',
  usage: 'layouts [--json]',
  examples: ['layouts'],
  options: [
    { name: 'json', group: 'Output:', kind: 'flag', help: 'list them with all their inputs as JSON' },
  ],
  words: 0,
  run: ({ flags }) => {
    if (flags.has('json')) {
      say(JSON.stringify(layouts.map(describeLayout), null, 2));
      return;
    }
    const width = Math.max(...layouts.map(({ id }) => id.length));
    for (const { id, summary, examples } of layouts) {
      say(`${id.padEnd(width)}  ${summary}`);
      say(`${' '.repeat(width)}    ${program} ${examples[0] ?? id}`);
    }
    say(`\n"${program} LAYOUT --help" tells what each one asks for.`);
  },
});
