import { TURN, modulo } from '../geometry/angle-units.ts';
import { contourOutline } from '../geometry/contour-outline.ts';
import type { Section } from '../geometry/section.ts';
import { ellipseSection } from '../geometry/shapes.ts';
import { formatAngle, parseAngle } from '../units/angle.ts';
import { formatAsWritten, told } from '../units/format.ts';
import { parseLength, type LengthOptions } from '../units/length.ts';
import { refusals } from '../units/notation.ts';
import { say } from '../words/say.ts';
import { readClauses } from './clauses.ts';
import { nameSize, parsePipe, pipeWords } from './pipe.ts';
import { FORMS, joinSizes, readSizes, type Reading } from './shaped-sizes.ts';
import { quarterLines, type Stock } from './stock.ts';
/** How its designation is written, as `FORMS` knows it. */
const HEAD = () => say`oval pipe`;
/** How far the girth of the measured diameters may lie from the pipe's own: further off it is another pipe or a misread tape. */
const WORST_GIRTH = 0.05;

/** An ellipse with its largest diameter at a station: at that share of the girth counter-clockwise from +x. */
const ellipseAt = (largest: number, smallest: number, wall: number, station: number): Section => {
  const { girth, at } = contourOutline(ellipseSection(largest, smallest, wall));
  const lead = modulo(station / TURN, 1);
  // Where station 0 lies when the largest diameter lies on +x; the ellipse is turned back by as much.
  const { x, y } = at((1 - lead) * girth, 0);
  return ellipseSection(largest, smallest, wall, -Math.atan2(y, x));
};

/**
 * Reads a pipe that is out of round: `NPS 6 sch 40 oval 170.1x166.4mm at 30deg`, a pipe as `parsePipe` reads it with its
 * largest and smallest outside diameters, and the station of the largest (0 where `at` is left out). It is an
 * ellipse with a wall of even thickness; where a girth is given as well, the ellipse is scaled to it. Throws a request error
 * that names what is wrong.
 */
export const parseOvalPipe = (text: string, options: LengthOptions = {}): Stock => {
  const { units, path = 'stock' } = options;
  const refuse = refusals(path);
  const hint = say`write ${FORMS().get(HEAD()) ?? ''}`;
  const clauses = readClauses(nameSize(text), [...pipeWords, 'oval', 'at'], refuse, hint);
  const pipeText = [...clauses].flatMap(([word, value]) =>
    word === 'oval' || word === 'at' ? [] : [`${word} ${value}`],
  );
  const pipe = parsePipe(pipeText.join(' '), options);
  const reading: Reading = {
    head: HEAD(),
    sizes: (clauses.get('oval') ?? '').split(/ ?[x×] ?/),
    clauses,
    options,
    refuse,
    length: (value) => parseLength(value, { ...options, path }),
    written: (value, as) => formatAsWritten(value, as, units),
  };
  const sizes = readSizes(reading, [say`largest diameter`, say`smallest diameter`]);
  const [largest = 0, smallest = 0] = sizes.map(({ value }) => value);
  const { wall } = pipe;
  if (smallest > largest)
    throw refuse(
      'largest-first',
      say`the smallest diameter ${told(smallest)} is more than the largest, ${told(largest)}`,
      say`give the largest first`,
    );
  const tightest = (smallest * smallest) / (2 * largest);
  if (wall >= tightest)
    throw refuse(
      'wall-past-curve',
      say`the wall ${told(wall)} is more than the ellipse's tightest radius ${told(tightest)}`,
      say`give a wall below ${told(tightest)}`,
    );
  const station = clauses.has('at') ? parseAngle(clauses.get('at') ?? '', { path }) : 0;
  const own = contourOutline(ellipseSection(largest, smallest, wall)).girth;
  if (Math.abs(own / pipe.girth - 1) > WORST_GIRTH)
    throw refuse(
      'girth-off-size',
      say`the girth of the two diameters, ${told(own)}, is not that of ${pipe.designation}, which is ${told(pipe.girth)}`,
      say`measure again`,
    );
  const scale = pipe.measured ? pipe.girth / own : 1;
  const section = ellipseAt(largest * scale, smallest * scale, wall, station);
  const outline = contourOutline(section);
  const at = clauses.has('at') ? ` at ${formatAngle(station)}` : '';
  return {
    kind: 'pipe',
    designation: `${pipe.designation} oval ${joinSizes(sizes, reading)}${at}`,
    section,
    outline,
    wall,
    girth: outline.girth,
    measured: pipe.measured,
    tableGirth: pipe.tableGirth ?? pipe.girth,
    source: pipe.measured ? say`measured girth and diameters` : say`measured diameters`,
    sizes: [
      { label: say`largest outside`, length: largest * scale },
      { label: say`smallest outside`, length: smallest * scale },
      { label: say`wall`, length: wall },
    ],
    lines: quarterLines(outline.girth),
  };
};
