import { parseLength } from '../units/length.ts';
import { refusals } from '../units/notation.ts';
import { readClauses, tableRows } from './clauses.ts';
import { findRows, tableName, type SizeSystem } from './size.ts';
import { FLANGE_B16_5 } from './tables/flange-b16-5.ts';
import { say } from '../words/say.ts';

/** The drilling of a flange. Lengths in mm. */
export interface Flange {
  /** As printed; reads back as the same flange. */
  readonly designation: string;
  /** Number of bolt holes, a multiple of four. */
  readonly holes: number;
  readonly holeDiameter: number;
  readonly boltCircle: number;
  readonly outsideDiameter: number;
  /** Bolt size, `3/4″`. */
  readonly bolt: string;
  readonly source: string;
}

const HINT = () => say`write NPS 6 class 150 or DN 150 class 600`;

/** What the standard uses below the least size of a class (ASME B16.5, from memory). */
const SMALLER = (): ReadonlyMap<string, string> =>
  new Map(
    Object.entries({
      '400': say` (below NPS 4, DN 100, class 600 is used)`,
      '900': say` (below NPS 3, DN 80, class 1500 is used)`,
    }),
  );

/**
 * Reads an ASME B16.5 flange, `NPS 6 class 150` (inch table, exact) or `DN 150 class 600` (metric table, whose holes and
 * bolts are in inches too). Throws a request error that lists classes or sizes where one is unknown.
 */
export function parseFlange(text: string, { path = 'flange' }: { readonly path?: string } = {}): Flange {
  const refuse = refusals(path);
  const clauses = readClauses(text, ['flange', 'nps', 'dn', 'class'], refuse, HINT());
  const rating = clauses.get('class') ?? '';
  const system: SizeSystem = clauses.has('nps') ? 'NPS' : 'DN';
  const size = clauses.get(system.toLowerCase());
  if (size === undefined || (clauses.has('nps') && clauses.has('dn')) || clauses.get('flange')) {
    throw refuse('not-understood', say`a flange has one size, NPS or DN, and a class`, HINT());
  }
  const rows = tableRows(FLANGE_B16_5);
  const rated = rows.filter((row) => row[0] === rating);
  if (rated.length === 0) {
    const classes = [...new Set(rows.map((row) => row[0]))].join(', ');
    throw refuse(
      'unknown-class',
      rating ? say`class ${rating} is not held` : say`the flange has no class`,
      say`classes are ${classes}`,
    );
  }
  const what = say`ASME B16.5 class ${rating}${SMALLER().get(rating) ?? ''}`;
  const [row = []] = findRows(rated, { NPS: 1, DN: 2 }, system, size, what, refuse);
  const [, nps, dn, holes, hole = '', circleIn = '', odIn = '', bolt = '', circleMm = '', odMm = ''] = row;
  const length = (inches: string, mm?: string) =>
    system === 'NPS' || mm === undefined
      ? parseLength(inches, { units: 'in' })
      : parseLength(mm, { units: 'mm' });
  return {
    designation: `${system} ${system === 'NPS' ? nps : dn} class ${rating}`,
    holes: Number(holes),
    holeDiameter: length(hole),
    boltCircle: length(circleIn, circleMm),
    outsideDiameter: length(odIn, odMm),
    bolt: `${bolt}″`,
    // No open table of the higher classes in inches was at hand.
    source:
      system === 'NPS' && Number(rating) > 300
        ? say`ASME B16.5 ${tableName(system)}, outside diameter from memory`
        : `ASME B16.5 ${tableName(system)}`,
  };
}
