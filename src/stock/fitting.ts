import { parseLength } from '../units/length.ts';
import type { Refusal } from '../units/notation.ts';
import { tableRows } from './clauses.ts';
import { findRows, type SizeSystem } from './size.ts';
import { FITTING_B16_9 } from './tables/fitting-b16-9.ts';

/** One row of ASME B16.9: centre to end of elbows and length of reducers, mm; undefined where the standard has none. */
export interface FittingSize {
  readonly nps: string;
  readonly dn: string;
  readonly longRadius90: number;
  readonly longRadius45: number;
  readonly shortRadius90: number | undefined;
  readonly reducer: number | undefined;
}

/** The row of a size, in the inch table for `NPS` and the metric one for `DN`. Refuses an unknown size, listing those there are. */
export function findFitting(system: SizeSystem, text: string, refuse: Refusal): FittingSize {
  const [row = []] = findRows(
    tableRows(FITTING_B16_9),
    { NPS: 0, DN: 1 },
    system,
    text,
    'ASME B16.9',
    refuse,
  );
  const [nps = '', dn = '', ...lengths] = row;
  const units = system === 'NPS' ? 'in' : 'mm';
  const read = (cell = '') => (cell === '' ? undefined : parseLength(cell, { units }));
  const [lr90, lr45, sr90, reducer] = (system === 'NPS' ? lengths.slice(0, 4) : lengths.slice(4)).map(read);
  if (lr90 === undefined || lr45 === undefined) throw new Error(`no long-radius elbow at NPS ${nps}`);
  return { nps, dn, longRadius90: lr90, longRadius45: lr45, shortRadius90: sr90, reducer };
}
