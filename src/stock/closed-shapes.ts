import { contourOutline } from '../geometry/contour-outline.ts';
import {
  ellipseSection,
  flatSection,
  halfRoundSection,
  ovalSection,
  tubeSection,
} from '../geometry/shapes.ts';
import { told } from '../units/format.ts';
import { say } from '../words/say.ts';
import { findHollow } from './hollow.ts';
import { FORMS, joinSizes, readClause, readSizes, type Read, type Reading } from './shaped-sizes.ts';

/** How much shorter the girth is than that of sharp corners, for each unit of corner radius. */
const CORNER_SAVING = 8 - 2 * Math.PI;

interface Walled {
  readonly x: number;
  readonly y: number;
  readonly wall: number;
}

/** The outside corner of a tube: as given, from the girth, or as the table or the trade takes it; and the inside one. */
const readCorner = (reading: Reading, { x, y, wall }: Walled, usual: readonly [number, number]) => {
  const { refuse } = reading;
  const [corner, girth] = [readClause(reading, 'corner'), readClause(reading, 'girth')];
  if (corner && girth)
    throw refuse(
      'two-corners',
      say`the tube has both a corner and a girth`,
      say`give one of them: each sets the other`,
    );
  const least = Math.min(x, y);
  if (wall >= least / 2)
    throw refuse(
      'wall-past-middle',
      say`the wall ${told(wall)} leaves no bore in a tube of ${told(least)}`,
      say`give a wall below ${told(least / 2)}`,
    );
  const sharp = 2 * (x + y);
  const radius = girth ? (sharp - girth.value) / CORNER_SAVING : (corner?.value ?? usual[0]);
  if (radius < 0 || radius > least / 2)
    throw girth
      ? refuse(
          'girth-off-size',
          say`the girth ${told(girth.value)} is not that of a tube ${told(x)} x ${told(y)}`,
          say`give a girth from ${told(sharp - (CORNER_SAVING * least) / 2)} (round corners) to ${told(sharp)} (sharp corners)`,
        )
      : refuse(
          'corner-off-size',
          say`the corner radius ${told(radius)} is more than half the tube's side of ${told(least)}`,
          say`give a corner from 0 to ${told(least / 2)}`,
        );
  if (corner && radius > 0 && wall > radius)
    throw refuse(
      'wall-past-corner',
      say`the wall ${told(wall)} is thicker than the corner radius ${told(radius)} allows`,
      say`give a corner of at least ${told(wall)}, or corner 0 for a sharp one`,
    );
  const inner = corner || girth ? Math.max(0, radius - wall) : usual[1];
  return { radius, inner, print: (corner ?? girth)?.print ?? '', measured: girth !== undefined };
};

/** The section of a tube of a measured girth is drawn to that girth exactly; its corner says so. */
export const readTube = (reading: Reading): Read => {
  const sizes = readSizes(reading, ['width', 'height', 'wall']);
  const [x = 0, y = 0, wall = 0] = sizes.map(({ value }) => value);
  return tubeOf(
    reading,
    `tube ${joinSizes(sizes, reading)}`,
    { x, y, wall },
    [2 * wall, wall],
    say`corner radius taken as 2 × wall`,
  );
};

export const readHollow = (reading: Reading): Read => {
  const standard = reading.head.toUpperCase();
  const hollow = findHollow(standard, reading.clauses.get(reading.head) ?? '', reading.refuse);
  const { width: x, height: y, wall, corner, innerCorner, designation, source } = hollow;
  return tubeOf(reading, designation, { x, y, wall }, [corner, innerCorner], source);
};

const tubeOf = (
  reading: Reading,
  name: string,
  walled: Walled,
  usual: readonly [number, number],
  source: string,
): Read => {
  const { x, y, wall } = walled;
  const corner = readCorner(reading, walled, usual);
  const given = reading.clauses.has('corner');
  return {
    kind: 'tube',
    designation: `${name}${corner.print}`,
    section: tubeSection(x, y, corner.radius, wall, corner.inner),
    measured: corner.measured,
    source: corner.measured ? say`measured girth` : given ? 'given' : source,
    sizes: [
      { label: say`width`, length: x },
      { label: say`height`, length: y },
      { label: say`wall`, length: wall },
      { label: say`outside corner`, length: corner.radius },
    ],
  };
};

export const readFlat = (reading: Reading): Read => {
  const sizes = readSizes(reading, ['width', 'thickness']);
  const [x = 0, y = 0] = sizes.map(({ value }) => value);
  return {
    kind: 'flat',
    designation: `flat ${joinSizes(sizes, reading)}`,
    section: flatSection(x, y),
    source: 'given',
    sizes: [
      { label: say`width`, length: x },
      { label: say`thickness`, length: y },
    ],
  };
};

/** How far a measured girth may lie from that of the sizes. */
const WORST_GIRTH = 0.05;

/** A wall after its word, and how much a measured girth stretches the outside that its sizes give. */
const readWalled = (reading: Reading, least: number, girthOf: () => number) => {
  const { refuse, head } = reading;
  const [wall, girth] = [readClause(reading, 'wall'), readClause(reading, 'girth')];
  if (!wall || wall.value === 0)
    throw refuse('no-wall', say`the ${head} has no wall`, say`add its wall: ${FORMS().get(head) ?? head}`);
  if (wall.value >= least / 2)
    throw refuse(
      'wall-past-middle',
      say`the wall ${told(wall.value)} leaves no bore in ${told(least)}`,
      say`give a wall below ${told(least / 2)}`,
    );
  const own = girthOf();
  const stretch = girth ? girth.value / own : 1;
  if (Math.abs(stretch - 1) > WORST_GIRTH)
    throw refuse(
      'girth-off-size',
      say`the girth ${told(girth?.value ?? 0)} is not that of its sizes, which is ${told(own)}`,
      say`measure again, or give the sizes as measured`,
    );
  return {
    wall: wall.value,
    stretch,
    print: `${wall.print}${girth?.print ?? ''}`,
    measured: girth !== undefined,
    source: girth ? say`measured girth` : 'given',
  };
};

export const readRounded = (reading: Reading): Read => {
  const kind = reading.head === 'oval' ? 'oval' : 'ellipse';
  const sizes = readSizes(reading, ['width', 'height']);
  const [x = 0, y = 0] = sizes.map(({ value }) => value);
  const make = kind === 'oval' ? ovalSection : ellipseSection;
  const [least, most] = [Math.min(x, y), Math.max(x, y)];
  const { wall, stretch, print, measured, source } = readWalled(
    reading,
    least,
    () => contourOutline(make(x, y, least / 4)).girth,
  );
  // Inside an ellipse's tightest curve a wall of even thickness would cross itself.
  const tightest = kind === 'ellipse' ? (least * least) / (2 * most) : least / 2;
  if (wall >= tightest)
    throw reading.refuse(
      'wall-past-curve',
      say`the wall ${told(wall)} is more than the ellipse's tightest radius ${told(tightest)}`,
      say`give a wall below ${told(tightest)}`,
    );
  return {
    kind,
    designation: `${kind} ${joinSizes(sizes, reading)}${print}`,
    section: make(x * stretch, y * stretch, wall),
    measured,
    source,
    sizes: [
      { label: say`width`, length: x },
      { label: say`height`, length: y },
      { label: say`wall`, length: wall },
    ],
  };
};

export const readHalfRound = (reading: Reading): Read => {
  const sizes = readSizes(reading, ['diameter']);
  const [diameter = 0] = sizes.map(({ value }) => value);
  const { wall, stretch, print, measured, source } = readWalled(
    reading,
    diameter / 2,
    () => (Math.PI / 2 + 1) * diameter,
  );
  return {
    kind: 'half-round',
    designation: `half-round ${joinSizes(sizes, reading)}${print}`,
    section: halfRoundSection(diameter * stretch, wall),
    measured,
    source,
    sizes: [
      { label: say`diameter`, length: diameter },
      { label: say`wall`, length: wall },
    ],
  };
};
