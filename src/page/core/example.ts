import { listInputs } from '../../fields/describe.ts';
import type { Layout } from '../../fields/layout.ts';
import type { Texts } from '../../request.ts';

/** The words of a command line as a shell parts them. */
const partWords = (line: string): readonly string[] =>
  [...line.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/g)].map(
    ([, double, single, plain]) => double ?? single ?? plain ?? '',
  );

/** What an example of a layout asks for; where it writes to is left out. */
export const readExample = (layout: Layout, line: string): Texts => {
  const inputs = listInputs(layout);
  const texts: Record<string, string | readonly string[]> = {};
  const [, ...words] = partWords(line);
  for (let i = 0; i < words.length; i += 1) {
    const name = /^--(.+)$/.exec(words[i] ?? '')?.[1];
    const field = name === undefined ? undefined : inputs.get(name);
    if (name === undefined || field === undefined) continue;
    const next = words[i + 1];
    const value =
      field.kind === 'flag' && (next === undefined || next.startsWith('-')) ? 'yes' : (next ?? '');
    texts[name] = field.many ? [...[texts[name] ?? []].flat(), value] : value;
  }
  return texts;
};
