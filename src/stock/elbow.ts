import type { LengthOptions } from '../units/length.ts';
import { plainText, quoted, refusals } from '../units/notation.ts';
import { readClauses } from './clauses.ts';
import { findFitting } from './fitting.ts';
import { parsePipe } from './pipe.ts';
import { findPipeSizes, SPOKEN_SIZE, tableName, type SizeSystem } from './size.ts';
import { say } from '../words/say.ts';

/** A butt-welding elbow. Lengths in mm. */
export interface Elbow {
  /** As printed; reads back as the same elbow. */
  readonly designation: string;
  readonly od: number;
  /** Where a schedule or wall is given. */
  readonly wall: number | undefined;
  /** Radius of the centre line: the nominal size times 1.5 (long) or 1 (short); 1 1/2″ for long-radius NPS 1/2 and 3/4. */
  readonly bendRadius: number;
  /** Centre to end of the 90° elbow. */
  readonly takeOff90: number;
  /** Centre to end of the 45° elbow; short-radius elbows have none. */
  readonly takeOff45: number | undefined;
  readonly source: string;
}

/** An elbow as it is called in the language in force: `elbow NPS 8 LR` is `codo NPS 8 LR`. */
export const nameElbow = ({ designation }: Elbow): string => designation.replace(/^elbow/, say`elbow`);

/** Words of a wall, which the pipe's own reader understands. */
const WALL_WORDS = ['sch', 'schedule', 'std', 'xs', 'xxs', 'xh', 'xxh', 'wall'];

const HINT = () => say`write NPS 6 LR, DN 150 SR or NPS 6 LR sch 40`;

/** A bare size, or one with inch marks, before LR or SR is NPS: `6" LR`, `elbow 6in LR`, `8 SR`. */
const SPOKEN = new RegExp(`^ *(elbow)? *${SPOKEN_SIZE} +(?=[ls]r(?![a-z]))`, 'i');

/** True of an elbow by its size and radius, not by a length that was measured on it. */
export const isElbowSize = (text: string): boolean => SPOKEN.test(text);

/**
 * Reads an ASME B16.9 elbow, long radius or short: `NPS 6 LR`, `DN 150 SR`, `elbow NPS 6 LR sch 40`, `6" LR`. NPS reads the inch
 * table, DN the metric one, which rounds to whole millimetres; the bend radius is nominal in both. Throws a request error
 * that lists sizes or schedules where one is unknown.
 */
export function parseElbow(text: string, { units, path = 'elbow' }: LengthOptions = {}): Elbow {
  const refuse = refusals(path);
  const named = text.replace(
    SPOKEN,
    (_, word: string | undefined, size: string) => `${word ?? ''} NPS ${size} `,
  );
  const clauses = readClauses(
    named.trim(),
    ['elbow', 'nps', 'dn', 'lr', 'sr', ...WALL_WORDS],
    refuse,
    HINT(),
  );
  const system: SizeSystem = clauses.has('nps') ? 'NPS' : 'DN';
  const size = clauses.get(system.toLowerCase());
  const long = clauses.has('lr');
  const stray =
    ['elbow', 'lr', 'sr'].some((word) => clauses.get(word)) || (clauses.has('nps') && clauses.has('dn'));
  if (size === undefined || long === clauses.has('sr') || stray) {
    throw refuse('not-understood', say`${quoted(text)} is not an elbow's size and LR or SR`, HINT());
  }
  const fitting = findFitting(system, size, refuse);
  const takeOff90 = long ? fitting.longRadius90 : fitting.shortRadius90;
  const name = `${system} ${system === 'NPS' ? fitting.nps : fitting.dn}`;
  if (takeOff90 === undefined) {
    throw refuse(
      'no-short-radius',
      say`ASME B16.9 has no short-radius elbow of ${name}`,
      say`write ${name} LR`,
    );
  }
  const stock = plainText(text).replace(/(?<![a-z])(elbow|lr|sr)(?![a-z])/g, ' ');
  const walled = WALL_WORDS.some((word) => clauses.has(word));
  const pipe = walled ? parsePipe(stock, { units, path }) : undefined;
  const od = pipe?.od ?? findPipeSizes(system, size, refuse)[0]?.od;
  // In inches centre to end is the nominal radius itself; the metric table rounds it.
  const nominal = findFitting('NPS', fitting.nps, refuse);
  const bendRadius = long ? nominal.longRadius90 : nominal.shortRadius90;
  if (od === undefined || bendRadius === undefined)
    throw new Error(`no pipe or radius for an elbow of ${name}`);
  return {
    designation: `elbow ${name} ${long ? 'LR' : 'SR'}${pipe ? pipe.designation.slice(name.length) : ''}`,
    od,
    wall: pipe?.wall,
    bendRadius,
    takeOff90,
    takeOff45: long ? fitting.longRadius45 : undefined,
    source: `ASME B16.9 ${tableName(system)}`,
  };
}
