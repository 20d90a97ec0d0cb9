/**
 * Records the identity of every standard template, so that a change of a print is seen. Run it when a print is meant to
 * change, and look at every template it names: npm run identities
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { drawRequest } from '../src/jobs/make.ts';
import { planJobs, type Work } from '../src/jobs/plan.ts';
import { readJob } from '../src/jobs/read-job.ts';

/** Identities by job file and piece. */
export type Identities = Readonly<Record<string, Readonly<Record<string, string>>>>;

const folder = join(import.meta.dirname, '../templates');
const record = join(folder, 'identities.json');

/** The standard job files, by name without extension. */
export const templateNames: readonly string[] = readdirSync(folder)
  .filter((file) => file.endsWith('.yaml'))
  .map((file) => basename(file, '.yaml'))
  .sort();

/** The path of a standard job file. */
export const templateFile = (name: string): string => join(folder, `${name}.yaml`);

/** The recorded identities. */
export const readIdentities = (): Identities => JSON.parse(readFileSync(record, 'utf8')) as Identities;

/** The pieces of a standard job file. Throws where the file has a fault. */
export const readTemplate = async (name: string): Promise<readonly Work[]> => {
  const job = await readJob(templateFile(name));
  const { works, issues } = planJobs([job], { folder: '.', only: [] });
  const [issue] = [...job.issues, ...issues];
  if (issue !== undefined) throw new Error(issue.message);
  return works;
};

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const before = readIdentities();
  const after: Record<string, Record<string, string>> = {};
  for (const name of templateNames) {
    const works = await readTemplate(name);
    after[name] = Object.fromEntries(
      works.map((work) => [work.name, drawRequest(work.piece.request, false).identity]),
    );
    for (const [piece, identity] of Object.entries(after[name]))
      if (before[name]?.[piece] !== identity)
        process.stdout.write(`${name}: ${piece}: ${before[name]?.[piece] ?? 'new'} -> ${identity}\n`);
  }
  writeFileSync(record, `${JSON.stringify(after, null, 2)}\n`);
}
