import { DEGREE } from '../../geometry/angle-units.ts';
import type { Bend } from '../../geometry/mates/bend.ts';
import { SAME_LENGTH } from '../../geometry/tolerance.ts';
import { add3, scale3, vec3, type Vec3 } from '../../geometry/vector.ts';
import { jointError } from '../../issue.ts';
import { parseElbow } from '../../stock/elbow.ts';
import { parsePipe } from '../../stock/pipe.ts';
import { formatAngle } from '../../units/angle.ts';
import { told } from '../../units/format.ts';
import type { Reading } from '../../units/reading.ts';
import type { Setting } from '../../units/setting.ts';
import { say, translate } from '../../words/say.ts';
import { describeOffset } from '../offset-words.ts';
import { viewBend, type BendSize } from './bend-view.ts';
import { type Ask, type Body, type BodySpec, type Frame, type QuarterWords } from './body.ts';
import { readMove } from './move.ts';
import { readPlaced, takeAngle, within, type Placed } from './read-placed.ts';

const readSize = (placed: Placed, reading: Reading): BendSize => {
  const isElbow = placed.stock.startsWith('elbow');
  const [stock, turn = 90 * DEGREE] = takeAngle(placed.stock, reading);
  within(
    turn,
    5 * DEGREE,
    isElbow ? 180 * DEGREE - 0.1 : 150 * DEGREE,
    say`a turn of ${formatAngle(turn)} is out of range`,
    say`give a turn from 5° to ${isElbow ? '170' : '150'}°`,
    placed.refuse,
  );
  const named = (name: string): string =>
    Math.abs(turn - 90 * DEGREE) < 1e-12 ? name : `${name} ${formatAngle(turn)}`;
  if (isElbow) {
    const { designation, od, wall, bendRadius } = parseElbow(stock, reading);
    return { designation: named(designation), kind: 'elbow', radius: od / 2, wall, bendRadius, turn };
  }
  const pipe = parsePipe(stock.replace(/^miter /, ''), reading);
  const designation = named(`miter ${pipe.designation}`);
  return {
    designation,
    kind: 'miter',
    radius: pipe.girth / (2 * Math.PI),
    wall: pipe.wall,
    bendRadius: 0,
    turn,
  };
};

/** The side a branch stands on, as an angle round the bend's section from the heel (its extrados). */
const SIDES = {
  extrados: 0,
  heel: 0,
  side: 90 * DEGREE,
  intrados: 180 * DEGREE,
  throat: 180 * DEGREE,
} as const;
type Side = keyof typeof SIDES;

/**
 * `elbow NPS 8 LR heel`, `elbow DN 200 SR 45deg round 30deg at 20deg`, `elbow NPS 8 LR angle 0`,
 * `miter NPS 8 sch 40 45deg heel`: an elbow, or two pipes mitered to a turn, with the straight pipe at both ends.
 *
 * The branch stands square to the center line, on the `heel` (`extrados`), a `side` or the `throat`
 * (`intrados`), or `round` by any angle from the heel, `at` so far along the turn from the first leg (half way when left out). Its axis
 * crosses the center line; station 0 looks to the second leg. Or `angle` is given, from the first leg's axis toward the
 * second's: the branch's axis then passes through the point where the axes of the legs cross, 0 in line with the first leg.
 */
export const readBendBody = (text: string, reading: Reading): BodySpec => {
  const placed = readPlaced(text, ['angle', 'offset', 'at', 'round'], Object.keys(SIDES), reading);
  const size = readSize(placed, reading);
  const chosen = (Object.keys(SIDES) as Side[]).filter((side) => placed.has(side));
  const angle = placed.angle('angle', undefined);
  const ways = chosen.length + (placed.has('round') ? 1 : 0) + (angle === undefined ? 0 : 1);
  if (ways > 1)
    throw placed.refuse(
      'two-places',
      say`the branch is placed on the bend in more than one way`,
      say`give one of heel, side, throat, round or angle`,
    );
  const round = placed.angle('round', SIDES[chosen[0] ?? 'extrados']);
  const at = placed.angle('at', size.turn / 2);
  within(
    at,
    0,
    size.turn,
    say`at ${formatAngle(at)} is past the end of the turn`,
    say`give at from 0° to ${formatAngle(size.turn)}`,
    placed.refuse,
  );
  if (angle !== undefined) {
    const most = Math.PI - size.turn;
    within(
      angle,
      0,
      most + 1e-12,
      say`the angle ${formatAngle(angle)} is out of range for this bend`,
      say`give an angle from the first leg’s axis of 0° (in line with it) to ${formatAngle(most)} (in line with the second)`,
      placed.refuse,
    );
    if (placed.has('at'))
      throw placed.refuse(
        'at-and-angle',
        say`at and angle are both given`,
        say`leave out at: the axis passes through the corner`,
      );
  }
  const offset = placed.length('offset', undefined);
  const lie: Lie = { round, at, angle };
  return {
    designation: size.designation,
    ...readMove(placed),
    build: (ask, frame) => buildBend(size, lie, offset ?? ask.offset, ask, frame),
  };
};

interface Lie {
  readonly round: number;
  readonly at: number;
  readonly angle: number | undefined;
}

/** Legs and corner in the stock frame, before it is moved. */
const legsOf = ({ turn, bendRadius }: BendSize, { round, at, angle }: Lie, offset: number) => {
  const x = vec3(1, 0, 0);
  const z = vec3(0, 0, 1);
  const middle = vec3(0, offset, 0);
  const turned = (a: Vec3, b: Vec3, by: number): Vec3 =>
    add3(scale3(a, Math.cos(by)), scale3(b, Math.sin(by)));
  if (angle !== undefined) {
    const rest = Math.PI - turn - angle;
    return { corner: middle, legs: [turned(z, x, -angle), turned(z, x, rest)] as const };
  }
  // The center line runs along x; `out` points from the bend's center to it.
  const out = vec3(0, -Math.sin(round), -Math.cos(round));
  const start = turned(x, out, at);
  const startOut = turned(out, x, -at);
  const centre = add3(middle, scale3(out, -bendRadius));
  const corner = add3(
    add3(centre, scale3(startOut, bendRadius)),
    scale3(start, bendRadius * Math.tan(turn / 2)),
  );
  return { corner, legs: [scale3(start, -1), turned(start, startOut, -turn)] as const };
};

const buildBend = (size: BendSize, lie: Lie, offset: number, ask: Ask, frame: Frame): Body => {
  const { designation, kind, radius, bendRadius, wall } = size;
  const name = kind === 'elbow' ? say`elbow` : say`pipe`;
  if (ask.radius > radius + SAME_LENGTH)
    throw jointError(
      'branch',
      'branch-too-large',
      say`the branch, ${told(2 * ask.radius)} across, is wider than its ${name} (${designation}, outside ${told(2 * radius)})`,
      say`choose a branch of at most ${told(2 * radius)}`,
    );
  if (Math.abs(offset) + ask.radius > radius + SAME_LENGTH)
    throw jointError(
      'offset',
      'branch-overhangs',
      say`with an offset of ${told(offset)} the branch hangs over the side of the ${name}`,
      say`this branch may be offset by at most ${told(radius - ask.radius)}`,
    );
  const { corner, legs } = legsOf(size, lie, offset);
  const bend: Bend = {
    corner: frame.point(corner),
    legs: [frame.direction(legs[0]), frame.direction(legs[1])],
    bendRadius,
    radius,
  };
  return {
    designation,
    outside: { kind: 'bend', ...bend },
    inside: wall === undefined ? undefined : { kind: 'bend', ...bend, radius: radius - wall },
    words: bendWords(lie),
    placing: (setting) => describeLie(size, lie, offset, setting),
    datum:
      lie.angle === undefined
        ? say`center line of the ${translate(kind)}`
        : say`corner where the center lines of the legs cross`,
    view: viewBend(bend, size, frame, ask.drawn),
    opening:
      kind === 'elbow'
        ? say`An elbow curves both ways and does not lie flat, so no opening sheet would be true on it`
        : say`The opening lies on two pipes and does not lie flat in one piece across their seam`,
    cautions: [
      say`A branch or support on a bend is outside the simple rules of the piping codes: have it designed.`,
    ],
  };
};

/** Names of the branch's quarter lines: on the side of a bend one of them looks to its throat. */
const bendWords = ({ round, angle }: Lie): QuarterWords => {
  const throat = angle === undefined ? Math.sin(round) : 0;
  const [right, left] =
    Math.abs(throat) < 1e-9
      ? [say`SIDE`, say`SIDE`]
      : throat > 0
        ? [say`THROAT SIDE`, say`HEEL SIDE`]
        : [say`HEEL SIDE`, say`THROAT SIDE`];
  return [say`LEG 2 · TDC`, right, say`LEG 1`, left];
};

const describeLie = (
  { kind, turn }: BendSize,
  { round, at, angle }: Lie,
  offset: number,
  setting: Setting,
): string => {
  const aside = Math.abs(offset) < SAME_LENGTH ? '' : `, ${describeOffset(offset, true, setting)}`;
  if (angle !== undefined) {
    const inLine =
      angle < 1e-9
        ? say` (in line with it)`
        : angle > Math.PI - turn - 1e-9
          ? say` (in line with the second)`
          : '';
    return say`${formatAngle(angle)} from the first leg’s axis${inLine}, through the corner of the legs${aside}`;
  }
  const sides: readonly [number, string][] =
    kind === 'elbow'
      ? [
          [0, say`on the heel (back)`],
          [90, say`on the side`],
          [180, say`in the throat`],
        ]
      : [
          [0, say`on the heel`],
          [90, say`on the side`],
          [180, say`in the throat`],
        ];
  const found = sides.find(([degrees]) => Math.abs(round - degrees * DEGREE) < 1e-9);
  const where = found ? found[1] : say`${formatAngle(round)} around from the heel (back)`;
  const throat = Math.sin(round);
  const looks = Math.abs(throat) < 1e-9 ? '' : say`; ${throat > 0 ? '90°' : '270°'} looks to the throat`;
  const place = bendPlace(kind, at, turn);
  return say`square to the center line ${where}, ${place}${looks}${aside}`;
};

const bendPlace = (kind: BendSize['kind'], at: number, turn: number): string =>
  Math.abs(at - turn / 2) < 1e-9
    ? kind === 'elbow'
      ? say`halfway around the turn`
      : say`at the seam`
    : say`${formatAngle(at)} of ${formatAngle(turn)} around the turn from the first leg`;
