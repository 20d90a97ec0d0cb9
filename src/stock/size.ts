import { parseLength } from '../units/length.ts';
import { NUMBER, readNumber, type Refusal } from '../units/notation.ts';
import { tableRows } from './clauses.ts';
import { PIPE_B36_INCH } from './tables/pipe-b36-inch.ts';
import { PIPE_B36_MM } from './tables/pipe-b36-mm.ts';
import { say } from '../words/say.ts';

/** `NPS` reads the inch tables, `DN` the metric ones: they round differently and neither converts into the other. */
export type SizeSystem = 'NPS' | 'DN';

/** One size of pipe in one standard. */
export interface PipeSize {
  /** `ASME B36.10M` or `ASME B36.19M`. */
  readonly standard: string;
  readonly nps: string;
  readonly dn: string;
  readonly od: number;
  /** Wall by schedule name, in the table's order. */
  readonly schedules: ReadonlyMap<string, number>;
}

/** A size as it is spoken, its number as a group: `6`, `6"`, `1-1/2 in`. */
export const SPOKEN_SIZE = '((?:\\d+[- ])?\\d+(?:/\\d+)?) ?(?:"|″|in\\.?|inch)?';

/** Name of the table that a size system reads, for `source`. */
export const tableName = (system: SizeSystem): string =>
  system === 'NPS' ? say`inch table` : say`metric table`;

/** The size as its table writes it: `1-1/2`, `1.5` and `1½"` are all `1 1/2`. Text that is no size comes back as it is. */
export function sizeLabel(system: SizeSystem, text: string, refuse: Refusal): string {
  if (system === 'DN') return text;
  const number = new RegExp(`^(${NUMBER}) ?(?:"|in|inch)?$`).exec(text)?.[1];
  if (number === undefined) return text;
  const { n, d } = readNumber(number, `NPS ${text}`, refuse);
  const whole = n / d;
  const part = n % d;
  return [whole > 0n ? `${whole}` : '', part > 0n ? `${part}/${d}` : ''].filter(Boolean).join(' ') || '0';
}

/** The row of a table, with columns for NPS and DN, that has the size; refuses a size that is not there and lists those that are. */
export function findRows(
  rows: readonly string[][],
  columns: Readonly<Record<SizeSystem, number>>,
  system: SizeSystem,
  text: string,
  what: string,
  refuse: Refusal,
): string[][] {
  const column = columns[system];
  const label = sizeLabel(system, text, refuse);
  const found = rows.filter((row) => row[column] === label);
  if (found.length === 0) {
    const sizes = [...new Set(rows.map((row) => row[column]))];
    const order = (a = '', b = '') => parseLength(a, { units: 'in' }) - parseLength(b, { units: 'in' });
    throw refuse(
      'unknown-size',
      text === '' ? say`${system} has no size after it` : say`${system} ${text} is not a size of ${what}`,
      say`${system} sizes are ${sizes.sort(order).join(', ')}`,
    );
  }
  return found;
}

/** The pipe of one size, B36.10M before B36.19M. Refuses a size in neither, listing the sizes there are. */
export function findPipeSizes(system: SizeSystem, text: string, refuse: Refusal): readonly PipeSize[] {
  const units = system === 'NPS' ? 'in' : 'mm';
  const rows = tableRows(system === 'NPS' ? PIPE_B36_INCH : PIPE_B36_MM);
  return findRows(rows, { NPS: 1, DN: 2 }, system, text, say`ASME B36.10M or B36.19M pipe`, refuse).map(
    ([standard = '', nps = '', dn = '', od = '', schedules = '']) => ({
      standard: `ASME ${standard}`,
      nps,
      dn,
      od: parseLength(od, { units }),
      schedules: new Map(
        schedules.split(' ').map((entry) => {
          const [name = '', wall = ''] = entry.split('=');
          return [name, parseLength(wall, { units })];
        }),
      ),
    }),
  );
}
