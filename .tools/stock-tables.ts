import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The data files of `shared/` that `src/stock/tables/` carries, so that nothing is read from disk at run time. */
export const STOCK_TABLES = [
  'pipe-b36-inch',
  'pipe-b36-mm',
  'pipe-en10220',
  'flange-b16.5',
  'flange-b16.5-lengths',
  'fitting-b16.9',
  'tee-cap-b16.9',
  'beams-us-inch',
  'channels-us-inch',
  'angles-us-inch',
  'sections-eu-mm',
  'tube-hss-inch',
  'tube-en10219-mm',
  'tube-en10210-mm',
];

const file = (path: string) => fileURLToPath(new URL(`../${path}`, import.meta.url));

/** Where the module of a data file lies. */
export const tableModule = (name: string): string => file(`src/stock/tables/${name.replaceAll('.', '-')}.ts`);

/** The text of the TypeScript module that carries one data file. */
export function tableSource(name: string): string {
  const lines = readFileSync(file(`shared/${name}.csv`), 'utf8')
    .trimEnd()
    .split('\n');
  const notes = lines.filter((line) => line.startsWith('#')).map((line) => line.slice(2));
  const [columns, ...rows] = lines.filter((line) => !line.startsWith('#'));
  const constant = name.toUpperCase().replaceAll(/[-.]/g, '_');
  return `// Made by .tools/stock-tables.ts from shared/${name}.csv: change that file and run the tool again.

/**
 * ${notes.join('\n * ')}
 *
 * Columns: ${columns}
 */
export const ${constant} = \`
${rows.join('\n')}
\`;
`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const name of STOCK_TABLES) writeFileSync(tableModule(name), tableSource(name));
}
