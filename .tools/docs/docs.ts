/**
 * Writes what is made from the layouts' fields: the reference of all options, the page on job files and their JSON Schema.
 * Run: npm run docs
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import { jobSchema } from '../../src/jobs/job-shape.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { writeJobs, writeReference } from './reference.ts';

const root = join(import.meta.dirname, '../..');

const asFormatted = async (file: string, text: string): Promise<string> => {
  const path = join(root, file);
  return format(text, { ...(await resolveConfig(path)), filepath: path });
};

/** The files that are made, as they should be. */
export const writeDocs = async (): Promise<Readonly<Record<string, string>>> => ({
  'shared/docs/reference.md': await asFormatted(
    'shared/docs/reference.md',
    writeReference(layouts, join(root, 'templates')),
  ),
  'shared/docs/jobs.md': await asFormatted('shared/docs/jobs.md', writeJobs()),
  'shared/job.schema.json': await asFormatted('shared/job.schema.json', JSON.stringify(jobSchema(layouts))),
});

if (process.argv[1] === fileURLToPath(import.meta.url))
  for (const [file, text] of Object.entries(await writeDocs())) {
    writeFileSync(join(root, file), text);
    process.stdout.write(`Wrote ${file}\n`);
  }
