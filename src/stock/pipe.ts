import { circleOutline } from '../geometry/outline.ts';
import { roundSection } from '../geometry/shapes.ts';
import { formatAsWritten, formatMm } from '../units/format.ts';
import { parseLength, type LengthOptions } from '../units/length.ts';
import { NUMBER, plainText, quoted, refusals, type Refusal } from '../units/notation.ts';
import { checkIsText } from '../words/wrong-type.ts';
import { say } from '../words/say.ts';
import { readClauses, tableRows, type Clauses } from './clauses.ts';
import { findPipeSizes, findRows, tableName, type SizeSystem } from './size.ts';
import { quarterLines, type Stock } from './stock.ts';
import { PIPE_EN10220 } from './tables/pipe-en10220.ts';

/** A round pipe. Lengths in mm. */
export interface Pipe extends Stock {
  readonly kind: 'pipe';
  /** Outside diameter: the table's, as given, or the measured girth over π. */
  readonly od: number;
  readonly round: number;
}

const HINT = () =>
  say`write NPS 6 sch 40, DN 150 sch 40S, EN DN 150 wall 4.5mm, OD 168.3mm wall 7.11mm or girth 530mm wall 7mm`;
const WORDS = ['nps', 'dn', 'en', 'od', 'girth', 'wall', 'sch', 'std', 'xs', 'xxs'];
/** Every word that a pipe's designation may have. */
export const pipeWords: readonly string[] = [...WORDS, 'schedule', 'sch.', 'xh', 'xxh'];
const SYNONYMS = { schedule: 'sch', 'sch.': 'sch', xh: 'xs', xxh: 'xxs' };
const WEIGHTS = ['std', 'xs', 'xxs'];

/** How far a measured girth may lie from its size's own: five times the 1 % that ASTM A53 allows (second-hand). */
const WORST_GIRTH = 0.05;
/** Largest outside diameter, mm: beyond the largest penstocks and tanks' shells that are rolled in a shop. */
const LARGEST = 10_000;
/** Smallest outside diameter, mm: instrument tubing; paper does not wrap tighter. */
const SMALLEST = 3;

/** Whether a designation is that of a pipe with its largest and smallest diameters, see `parseOvalPipe`. */
export const isOvalPipe = (text: string): boolean => /\S.*(?<![a-z])oval(?![a-z])/.test(plainText(text));

/** A size from a table, before its wall is known. */
interface Body {
  readonly name: string;
  readonly od: number;
  readonly source: string;
  /** The table's own wall, where the designation names a schedule. */
  readonly schedule?: { readonly name: string; readonly wall: number };
}

/**
 * Reads a pipe: `NPS 6 sch 40` (ASME inch tables), `DN 150 sch 40S` (ASME metric tables), `NPS 6 STD|XS|XXS`,
 * `EN DN 65 wall 3.2mm` (EN 10220 outside diameter), `OD 168.3mm wall 7.11mm`, `girth 530mm wall 7mm`; a table's size may
 * have `wall` in place of a schedule, and a measured `girth` besides, which then sets the diameter. Any order and case.
 * `units` is the unit of lengths without one. Throws a request error that lists sizes or schedules where one is unknown.
 */
export function parsePipe(text: string, { units, path = 'pipe' }: LengthOptions = {}): Pipe {
  checkIsText(text, path, 'NPS 6 sch 40');
  const refuse = refusals(path);
  if (isOvalPipe(text))
    throw refuse(
      'out-of-round',
      say`${quoted(text)} is a pipe out of round`,
      say`give a round pipe, such as NPS 6 sch 40`,
    );
  const clauses = readClauses(nameSize(text), WORDS, refuse, HINT(), SYNONYMS);
  const length = (word: string) => parseLength(clauses.get(word) ?? '', { units, path });
  const written = (word: string) => formatAsWritten(length(word), clauses.get(word) ?? '', units);

  const body = readBody(clauses, length, written, refuse);
  const wall = body.schedule?.wall ?? length('wall');
  const wallName = body.schedule?.name ?? `wall ${written('wall')}`;
  const measured = clauses.has('girth');
  const girth = measured ? length('girth') : Math.PI * body.od;
  const od = measured ? girth / Math.PI : body.od;
  const inches = /["″]/.test(clauses.has('wall') ? written('wall') : '');
  checkSize(
    { od, wall, girth },
    body,
    inches ? (value) => `${(value / 25.4).toFixed(3)}″` : (value) => formatMm(value, 2),
    refuse,
  );
  const besides = measured && (clauses.has('nps') || clauses.has('dn')) ? ` girth ${written('girth')}` : '';
  return {
    ...roundStock(girth / (2 * Math.PI), wall),
    kind: 'pipe',
    designation: `${body.name} ${wallName}${besides}`,
    od,
    wall,
    girth,
    sizes: [
      { label: say`outside`, length: od },
      { label: say`wall`, length: wall },
    ],
    source: measured ? say`measured girth` : body.source,
    measured,
    ...(besides !== '' && { tableGirth: Math.PI * body.od }),
  };
}

/** What follows from a round stock's outside radius and wall, mm. */
const roundStock = (radius: number, wall: number): Pick<Pipe, 'round' | 'outline' | 'section' | 'lines'> => ({
  round: radius,
  outline: circleOutline(radius, wall),
  section: roundSection(radius, wall),
  lines: quarterLines(2 * Math.PI * radius),
});

const SCHEDULE = '(?:sch(?:edule|\\.)? ?[a-z0-9]+|std|xs|xh|xxs|xxh)';
const SIZE = `(${NUMBER}) ?(?:"|in|inch)?`;

/** A size without its word, as it is said in the shop: `6 sch40`, `6" sch 40`, `sch40 6`, `6`. It can only be NPS. */
export const nameSize = (text: string): string => {
  const plain = plainText(text);
  const [, first, after] = new RegExp(`^${SIZE} ?(${SCHEDULE})$`).exec(plain) ?? [];
  if (first !== undefined) return `nps ${first} ${after}`;
  const [, before, last] = new RegExp(`^(${SCHEDULE}) ${SIZE}$`).exec(plain) ?? [];
  if (last !== undefined) return `nps ${last} ${before}`;
  const [, alone] = new RegExp(`^${SIZE}$`).exec(plain) ?? [];
  return alone === undefined ? text : `nps ${alone}`;
};

function readBody(
  clauses: Clauses,
  length: (word: string) => number,
  written: (word: string) => string,
  refuse: Refusal,
): Body {
  const sizes = ['nps', 'dn', 'od'].filter((word) => clauses.has(word));
  if (sizes.length > 1 || (clauses.has('od') && clauses.has('girth'))) {
    throw refuse('two-sizes', say`the pipe has more than one size`, HINT());
  }
  const stray = WEIGHTS.find((word) => clauses.get(word));
  if (stray)
    throw refuse(
      'not-understood',
      say`${clauses.get(stray)} after ${stray.toUpperCase()} is not understood`,
      HINT(),
    );
  const names = scheduleNames(clauses);
  const walls = names.length + (clauses.has('wall') ? 1 : 0);
  if (walls > 1)
    throw refuse('two-walls', say`the pipe has more than one wall`, say`give one schedule or one wall`);
  const [size] = sizes;
  if (clauses.has('en')) return readEnSize(clauses, names, refuse);
  if (size === 'nps' || size === 'dn')
    return readAsmeSize(size === 'nps' ? 'NPS' : 'DN', clauses, names[0], refuse);
  if (names[0] !== undefined) {
    throw refuse(
      'schedule-without-size',
      say`sch ${names[0]} needs an NPS or DN size`,
      say`write the wall, such as wall 7.11mm`,
    );
  }
  if (size === undefined && !clauses.has('girth')) throw refuse('no-size', say`the pipe has no size`, HINT());
  if (walls === 0) throw refuse('no-wall', say`the pipe has no wall`, say`add its wall, such as wall 7.11mm`);
  if (size === 'od') return { name: `OD ${written('od')}`, od: length('od'), source: 'given' };
  return { name: `girth ${written('girth')}`, od: length('girth') / Math.PI, source: say`measured girth` };
}

/** Schedule names in the designation, upper case; `sch STD` is `STD`. */
const scheduleNames = (clauses: Clauses): string[] => {
  const weights = WEIGHTS.filter((word) => clauses.has(word)).map((word) => word.toUpperCase());
  const schedule = clauses.get('sch')?.replaceAll(' ', '').toUpperCase();
  return schedule === undefined || (schedule === '' && weights.length > 0) ? weights : [schedule, ...weights];
};

function readAsmeSize(
  system: SizeSystem,
  clauses: Clauses,
  schedule: string | undefined,
  refuse: Refusal,
): Body {
  const sizes = findPipeSizes(system, clauses.get(system.toLowerCase()) ?? '', refuse);
  const [main] = sizes;
  if (!main) throw new Error('a size without rows');
  const name = `${system} ${system === 'NPS' ? main.nps : main.dn}`;
  const lists = say`${name} has ${sizes.flatMap((size) => [...size.schedules.keys()].map(scheduleText)).join(', ')}`;
  if (schedule === undefined) {
    if (!clauses.has('wall')) throw refuse('no-wall', say`${name} has no schedule or wall`, lists);
    return { name, od: main.od, source: `${main.standard} ${tableName(system)}` };
  }
  const size = sizes.find((candidate) => candidate.schedules.has(schedule));
  const wall = size?.schedules.get(schedule);
  if (!size || wall === undefined) {
    throw refuse(
      'unknown-schedule',
      say`${name} has no schedule${schedule ? ` ${schedule}` : say` after sch`}`,
      lists,
    );
  }
  const source = `${size.standard} ${tableName(system)}`;
  return { name, od: size.od, source, schedule: { name: scheduleText(schedule), wall } };
}

const scheduleText = (name: string): string => (WEIGHTS.includes(name.toLowerCase()) ? name : `sch ${name}`);

function readEnSize(clauses: Clauses, schedules: readonly string[], refuse: Refusal): Body {
  const standard = clauses.get('en') ?? '';
  const size = clauses.get('dn');
  const hint = say`write EN DN 65 wall 3.2mm`;
  if ((standard !== '' && standard !== '10220') || size === undefined) {
    throw refuse('not-understood', say`EN stands for the outside diameters of EN 10220, by DN`, hint);
  }
  const [row] = findRows(tableRows(PIPE_EN10220), { NPS: 0, DN: 0 }, 'DN', size, say`EN 10220 pipe`, refuse);
  if (schedules.length > 0) throw refuse('no-schedules', say`EN 10220 has no schedules`, hint);
  if (!clauses.has('wall')) throw refuse('no-wall', say`EN DN ${size} has no wall`, hint);
  const od = parseLength(row?.[1] ?? '', { units: 'mm' });
  return { name: `EN 10220 DN ${size}`, od, source: say`EN 10220 outside diameter` };
}

function checkSize(
  { od, wall, girth }: Pick<Pipe, 'od' | 'wall' | 'girth'>,
  body: Body,
  show: (length: number) => string,
  refuse: Refusal,
): void {
  if (od <= 0) throw refuse('size-not-positive', say`the pipe's size ${show(od)} is not above zero`, HINT());
  if (wall <= 0)
    throw refuse(
      'wall-not-positive',
      say`the wall ${show(wall)} is not above zero`,
      say`give a wall above zero`,
    );
  if (wall >= od / 2) {
    throw refuse(
      'wall-past-radius',
      say`the wall ${show(wall)} leaves no bore in a pipe of ${show(od)} outside`,
      say`give a wall below ${show(od / 2)}`,
    );
  }
  if (od < SMALLEST)
    throw refuse(
      'too-small',
      say`the pipe's size ${show(od)} is less than ${show(SMALLEST)}, too thin to lay anything out on`,
      say`check the size and its unit`,
    );
  if (od > LARGEST)
    throw refuse(
      'too-large',
      say`the pipe's size ${show(od)} is more than ${show(LARGEST)}`,
      say`check the size and its unit`,
    );
  const own = Math.PI * body.od;
  if (Math.abs(girth / own - 1) > WORST_GIRTH) {
    throw refuse(
      'girth-off-size',
      say`the girth ${show(girth)} is not that of ${body.name}, which is ${show(own)}`,
      say`measure again, or leave out the size and give girth and wall alone`,
    );
  }
}
