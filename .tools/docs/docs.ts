/**
 * Writes what is made from the layouts' fields: the tables of README.md and the JSON Schema of job files.
 * Run: npm run docs
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import { jobSchema } from '../../src/jobs/job-shape.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { fillReadme } from './readme.ts';

const root = join(import.meta.dirname, '../..');

const asFormatted = async (file: string, text: string): Promise<string> => {
  const path = join(root, file);
  return format(text, { ...(await resolveConfig(path)), filepath: path });
};

/** The files that are made, as they should be. */
export const writeDocs = async (): Promise<Readonly<Record<string, string>>> => ({
  'README.md': await asFormatted(
    'README.md',
    fillReadme(readFileSync(join(root, 'README.md'), 'utf8'), layouts),
  ),
  'shared/job.schema.json': await asFormatted('shared/job.schema.json', JSON.stringify(jobSchema(layouts))),
});

if (process.argv[1] === fileURLToPath(import.meta.url))
  for (const [file, text] of Object.entries(await writeDocs())) {
    writeFileSync(join(root, file), text);
    process.stdout.write(`Wrote ${file}\n`);
  }
