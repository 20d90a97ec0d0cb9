import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus } from 'node:os';
import { join } from 'node:path';

/** One line of a table: something measured, held against its limit. */
interface Row {
  readonly what: string;
  readonly measured: string;
  readonly ratio: string;
  readonly limit: string;
  readonly isGood: boolean;
}

/** What was measured, each against its limit. */
export interface Table {
  /** Notes a figure that must be at most, or at least, its limit. `measured` says it, or the two it is the ratio of, in words. */
  readonly note: (
    what: string,
    measured: string,
    figure: number,
    limit: number,
    wants: 'most' | 'least',
  ) => void;
  /** Prints the table, writes it into DEVELOPERS.md where `isRecorded`, and makes the run fail where a limit was not met. */
  readonly finish: (name: string, isRecorded: boolean) => void;
}

const papers = join(import.meta.dirname, '../../DEVELOPERS.md');

/** Puts a table between its marks in DEVELOPERS.md, in place of the one before. */
const record = (name: string, table: string): void => {
  const [begin, end] = [`<!-- ${name} -->`, `<!-- end of ${name} -->`];
  const text = readFileSync(papers, 'utf8');
  const [from, to] = [text.indexOf(begin), text.indexOf(end)];
  if (from < 0 || to < from) throw new Error(`DEVELOPERS.md has no place marked ${begin}`);
  writeFileSync(papers, `${text.slice(0, from)}${begin}\n\n${table}\n${text.slice(to)}`);
  execFileSync('npx', ['prettier', '--write', '--log-level', 'warn', papers], { stdio: 'inherit' });
};

/** An empty table. Rows are told on the way, since a run takes minutes. */
export const makeTable = (): Table => {
  const rows: Row[] = [];
  return {
    note: (what, measured, figure, limit, wants) => {
      const isGood = wants === 'most' ? figure <= limit : figure >= limit;
      const row = {
        what,
        measured,
        ratio: figure < 100 ? figure.toFixed(2) : figure.toFixed(0),
        limit: `${wants === 'most' ? '≤' : '≥'} ${limit}`,
        isGood,
      };
      rows.push(row);
      process.stderr.write(`${what}: ${measured}: ${row.ratio} (${row.limit})${isGood ? '' : ' NOT MET'}\n`);
    },
    finish: (name, isRecorded) => {
      const machine = `${cpus()[0]?.model ?? 'unknown processor'}, ${availableParallelism()} cores, Node ${process.version}`;
      const lines = rows.map(
        ({ what, measured, ratio, limit, isGood }) =>
          `| ${what} | ${measured} | ${ratio} | ${limit} | ${isGood ? 'met' : '**not met**'} |`,
      );
      const table = [
        `Measured on ${new Date().toISOString().slice(0, 10)}: ${machine}.`,
        '',
        '| what | measured | figure | limit | |',
        '| --- | --- | --- | --- | --- |',
        ...lines,
        '',
      ].join('\n');
      process.stdout.write(`\n${table}`);
      if (isRecorded) record(name, table);
      if (rows.some(({ isGood }) => !isGood)) process.exitCode = 1;
    },
  };
};
