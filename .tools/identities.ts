/**
 * Records the identity of every standard template, with what it stands for, so that a change of a print is seen and the
 * difference says what changed. Run it when a print is meant to change, and look at every template it names: npm run identities
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Sheet } from '../src/drawing/model.ts';
import type { Role } from '../src/drawing/role.ts';
import { drawRequest, type Drawn } from '../src/jobs/draw-request.ts';
import { planJobs, type Work } from '../src/jobs/plan.ts';
import { readJob } from '../src/jobs/read-job.ts';
import type { Request } from '../src/request.ts';

/** A print's identity and all that it is made from: what was asked, and of each sheet the lines that reach the steel. */
interface Identified {
  readonly identity: string;
  readonly asked: string;
  readonly sheets: Readonly<Record<string, Readonly<Record<string, string>>>>;
}

/** Identities by job file and piece. */
export type Identities = Readonly<Record<string, Readonly<Record<string, Identified>>>>;

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

const round = (value: number): number => Number(value.toFixed(2)) + 0;

/** The lines of a layer in figures that a person can follow: how many, how long from node to node, and from where to where. */
const describeLines = ({ marks }: Sheet, role: Role): string | undefined => {
  const paths = marks.flatMap((mark) => (mark.kind === 'stroke' && mark.role === role ? [mark.path] : []));
  if (paths.length === 0) return undefined;
  const runs = paths.map(({ start, segments }) => [start, ...segments.map(({ to }) => to)]);
  const nodes = runs.flat();
  const [xs, ys] = [nodes.map(({ x }) => x), nodes.map(({ y }) => y)];
  const length = runs
    .flatMap((run) => run.slice(1).map((to, i) => Math.hypot(to.x - run[i]!.x, to.y - run[i]!.y)))
    .reduce((sum, part) => sum + part, 0);
  const corner = (pick: typeof Math.min): string => `${round(pick(...xs))},${round(pick(...ys))}`;
  return `${paths.length} lines, ${nodes.length} nodes, ${round(length)} mm, ${corner(Math.min)} to ${corner(Math.max)}`;
};

/** What was asked, as it is recorded. */
export const describeAsked = ({ spec }: Request): string =>
  Object.entries(spec)
    .map(([name, text]) => `${name} ${[text].flat().join(' ')}`)
    .join('; ');

/** A drawn request as it is recorded. */
export const describeIdentity = (request: Request, { identity, sheets }: Drawn): Identified => ({
  identity,
  asked: describeAsked(request),
  sheets: Object.fromEntries(
    sheets.map((sheet) => {
      const lines = (['cut', 'bend', 'punch'] as const).map((role) => [role, describeLines(sheet, role)]);
      return [sheet.name, Object.fromEntries(lines.filter(([, text]) => text !== undefined))];
    }),
  ),
});

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const before = readIdentities();
  const after: Record<string, Record<string, Identified>> = {};
  for (const name of templateNames) {
    const works = await readTemplate(name);
    after[name] = Object.fromEntries(
      works.map(({ name: piece, piece: { request } }) => [
        piece,
        describeIdentity(request, drawRequest(request, false)),
      ]),
    );
    for (const [piece, { identity }] of Object.entries(after[name])) {
      const known = before[name]?.[piece]?.identity;
      if (known !== identity) process.stdout.write(`${name}: ${piece}: ${known ?? 'new'} -> ${identity}\n`);
    }
  }
  writeFileSync(record, `${JSON.stringify(after, null, 2)}\n`);
}
