import type { FuzzRequest } from './requests.ts';
import { isDefect, type Outcome } from './try-in-process.ts';

interface Row {
  printed: number;
  refused: number;
  defects: number;
  /** Most processor time of one request, ms. */
  ms: number;
  /** Most memory of the process that tried one, MB. */
  megabytes: number;
}

const emptyRow = (): Row => ({ printed: 0, refused: 0, defects: 0, ms: 0, megabytes: 0 });

const addUp = (rows: readonly Row[]): Row =>
  rows.reduce(
    (sum, row) => ({
      printed: sum.printed + row.printed,
      refused: sum.refused + row.refused,
      defects: sum.defects + row.defects,
      ms: Math.max(sum.ms, row.ms),
      megabytes: Math.max(sum.megabytes, row.megabytes),
    }),
    emptyRow(),
  );

/** What requests came to, by layout. */
export class Tally {
  private readonly rows = new Map<string, Row>();
  private typed = 0;

  count({ layout }: FuzzRequest, outcome: Outcome, isTyped: boolean, isTypedWrong: boolean): void {
    const row = this.rows.get(layout) ?? emptyRow();
    this.rows.set(layout, row);
    if (isDefect(outcome) || isTypedWrong) row.defects++;
    else row[outcome.what as 'printed' | 'refused']++;
    if (isTyped) this.typed++;
    row.ms = Math.max(row.ms, outcome.ms);
    row.megabytes = Math.max(row.megabytes, outcome.megabytes);
  }

  get defects(): number {
    return addUp([...this.rows.values()]).defects;
  }

  /** The table of a run in Markdown. */
  report(title: string): string {
    const line = (name: string, { printed, refused, defects, ms, megabytes }: Row): string =>
      `| ${[name, printed, refused, defects, Math.round(ms), Math.round(megabytes)].join(' | ')} |`;
    const all = addUp([...this.rows.values()]);
    const count = all.printed + all.refused + all.defects;
    return `${[
      `## ${title}: ${count} requests, ${this.typed} of them through the command line too`,
      '',
      '| layout | printed and proved | refused in words | defects | most processor time, ms | most memory, MB |',
      '| --- | --- | --- | --- | --- | --- |',
      ...[...this.rows].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, row]) => line(name, row)),
      line('all', all),
    ].join('\n')}\n`;
  }
}
