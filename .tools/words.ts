import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Makes the module of Spanish texts from `shared/words/es.json`, where they are written. The test tests/words says which are
 * missing.
 */
const root = join(import.meta.dirname, '..');
const texts = JSON.parse(readFileSync(join(root, 'shared/words/es.json'), 'utf8')) as Record<string, string>;

// One text a line, so that changes merge; a template literal may not hold its own signs.
const text = JSON.stringify(texts, null, 1).replaceAll('`', '\\u0060').replaceAll('${', '\\u0024{');
writeFileSync(
  join(root, 'src/words/es.ts'),
  `// Made by .tools/words.ts from shared/words/es.json; do not edit.

/** Spanish by the English of each text, as JSON. */
// prettier-ignore
export const es = String.raw\`${text}\`;
`,
);
