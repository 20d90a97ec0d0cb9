import { quoted, refusals } from '../units/notation.ts';
import { readClauses } from './clauses.ts';
import { findFitting } from './fitting.ts';
import { findPipeSizes, SPOKEN_SIZE, tableName, type SizeSystem } from './size.ts';
import { say } from '../words/say.ts';

/** A butt-welding reducer, concentric or eccentric. Lengths in mm. */
export interface Reducer {
  /** As printed; reads back as the same reducer. */
  readonly designation: string;
  readonly largeOd: number;
  readonly smallOd: number;
  /** End to end. */
  readonly length: number;
  readonly source: string;
}

const HINT = () => say`write NPS 6 x 4 or DN 150 x 100`;

/** Two bare sizes, or sizes with inch marks, are NPS: `6"x4"`, `6in x 4in`, `6 x 4`. */
const nameSystem = (text: string): string => {
  const bare = new RegExp(`^ *(reducer)? *${SPOKEN_SIZE} ?[x×] ?${SPOKEN_SIZE} *$`, 'i').exec(text);
  return bare === null ? text : `${bare[1] ?? ''} NPS ${bare[2]} x ${bare[3]}`.trim();
};

/**
 * Reads an ASME B16.9 reducer, large end first: `NPS 6 x 4`, `6"x4"`, `reducer DN 150 x 100`. The large end sets its length. The
 * standard makes only some pairs of sizes; any smaller second size is taken here. Throws a request error for anything else.
 */
export function parseReducer(text: string, { path = 'reducer' }: { readonly path?: string } = {}): Reducer {
  const refuse = refusals(path);
  const clauses = readClauses(nameSystem(text), ['reducer', 'nps', 'dn'], refuse, HINT());
  const system: SizeSystem = clauses.has('nps') ? 'NPS' : 'DN';
  const ends = (clauses.get(system.toLowerCase()) ?? '').split(/ ?[x×] ?/);
  const [large, small] = ends;
  if (
    !large ||
    !small ||
    ends.length > 2 ||
    clauses.get('reducer') ||
    (clauses.has('nps') && clauses.has('dn'))
  ) {
    throw refuse('not-understood', say`${quoted(text)} is not two sizes of a reducer`, HINT());
  }
  if (/[a-z]/.test(small.replace(/ ?(in|inch)$/, '')))
    throw refuse(
      'not-understood',
      say`a reducer goes by its two sizes alone, not by ${quoted(small)}`,
      HINT(),
    );
  const { reducer, ...fitting } = findFitting(system, large, refuse);
  const [from, to] = [large, small].map((size) => findPipeSizes(system, size, refuse)[0]);
  if (!from || !to) throw new Error('a size without rows');
  const name = (size: { readonly nps: string; readonly dn: string }) =>
    system === 'NPS' ? size.nps : size.dn;
  if (to.od >= from.od) {
    throw refuse(
      'not-smaller',
      say`${system} ${name(to)} is not smaller than ${system} ${name(from)}`,
      say`give the large end first`,
    );
  }
  if (reducer === undefined) {
    throw refuse(
      'no-reducer',
      say`ASME B16.9 has no reducer from ${system} ${name(fitting)}`,
      say`give a larger large end`,
    );
  }
  return {
    designation: `reducer ${system} ${name(from)} x ${name(to)}`,
    largeOd: from.od,
    smallOd: to.od,
    length: reducer,
    source: `ASME B16.9 ${tableName(system)}`,
  };
}
