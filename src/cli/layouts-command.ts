import { isRequired, listInputs } from '../fields/describe.ts';
import { families, type Layout } from '../fields/layout.ts';
import { searchLayouts } from '../fields/search.ts';
import { requestError } from '../issue.ts';
import { say, translate } from '../words/say.ts';
import { program, tellLine, type Command } from './command.ts';

const describeLayout = (layout: Layout) => ({
  layout: layout.id,
  summary: layout.summary,
  family: layout.family,
  words: layout.words,
  examples: layout.examples.map((example) => `${program} ${example}`),
  inputs: [...listInputs(layout)].map(([name, field]) => ({
    name,
    kind: field.kind,
    help: field.help,
    example: field.example,
    default: field.default,
    range: field.range?.(),
    choices: field.choices,
    required: isRequired(field),
    many: field.many,
  })),
});

/** Lists what can be made. */
export const layoutsCommand = (layouts: readonly Layout[]): Command => ({
  name: 'layouts',
  summary: 'list the templates there are, or those that a word of the trade finds',
  usage: 'layouts [WORD…] [--json]',
  examples: ['layouts', 'layouts elbow'],
  options: [
    { name: 'json', group: 'Output:', kind: 'flag', help: 'list them with all their inputs as JSON' },
  ],
  words: 8,
  run: ({ flags, words }) => {
    const found = words.length === 0 ? layouts : searchLayouts(words.join(' '), layouts);
    if (flags.has('json')) {
      tellLine(JSON.stringify(found.map(describeLayout), null, 2));
      return;
    }
    if (found.length === 0)
      throw requestError('', 'nothing-found', say`no template is called "${words.join(' ')}"`, say`try another word for it, or "soapstone layouts" for all there are`); // prettier-ignore
    const width = Math.max(...found.map(({ id }) => id.length));
    const list = (some: readonly Layout[]): void => {
      for (const { id, summary, examples } of some) {
        tellLine(`${id.padEnd(width)}  ${translate(summary)}`);
        tellLine(`${' '.repeat(width)}    ${program} ${examples[0] ?? id}`);
      }
    };
    if (words.length > 0) list(found);
    else
      for (const family of families) {
        const own = found.filter((layout) => layout.family === family);
        if (own.length === 0) continue;
        tellLine(`\n${translate(family).toUpperCase()}`);
        list(own);
      }
    tellLine(say`\n"${program} LAYOUT --help" lists what each one asks for.`);
  },
});
