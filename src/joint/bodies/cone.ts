import { coneSkin } from '../../geometry/cone-skin.ts';
import { halve } from '../../geometry/halving.ts';
import { itemAt } from '../../lists.ts';
import { along, type Mate } from '../../geometry/mate.ts';
import { coneMate, insetCone, type Cone } from '../../geometry/mates/cone.ts';
import { add3, dot3, length3, scale3, sub3 } from '../../geometry/vector.ts';
import { jointError } from '../../issue.ts';
import { parseReducer } from '../../stock/reducer.ts';
import { formatAngle } from '../../units/angle.ts';
import { told } from '../../units/format.ts';
import { parseLength } from '../../units/length.ts';
import type { Refusal } from '../../units/notation.ts';
import type { Reading } from '../../units/reading.ts';
import { writeBoth } from '../../units/writing.ts';
import { say, translate } from '../../words/say.ts';
import type { Solid } from '../solid.ts';
import { HERE, localAxes, type Body, type BodySpec, type OpeningGround } from './body.ts';
import { readMove } from './move.ts';
import { readPlaced, within } from './read-placed.ts';
import { AXIS_WORDS, axisAngle, axisLie, axisOffset, describeAxis, type AxisLie } from './straight.ts';

const HINT = () =>
  say`write reducer NPS 8 x 6, reducer DN 200 x 150 eccentric or cone OD 300mm to 200mm over 250mm, with wall if set in`;

/** Sizes of a cone's outside, mm. */
interface ConeSize {
  readonly designation: string;
  readonly large: number;
  readonly small: number;
  readonly length: number;
  readonly wall: number;
  readonly eccentric: boolean;
}

const readSize = (stock: string, reading: Reading, refuse: Refusal): ConeSize => {
  const eccentric = /(?<![a-z])eccentric(?![a-z])/.test(stock);
  const bare = stock
    .replace(/(?<![a-z])(?:ec|con)centric(?![a-z])/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  const [, body = bare, wallText] = /^(.*?) wall (.+)$/.exec(bare) ?? [];
  const wall = wallText === undefined ? 0 : parseLength(wallText, reading);
  const suffix = eccentric ? ' eccentric' : '';
  if (body.startsWith('reducer')) {
    const { designation, largeOd, smallOd, length } = parseReducer(body, reading);
    return { designation: designation + suffix, large: largeOd, small: smallOd, length, wall, eccentric };
  }
  const found = /^cone od (.+) to (.+) over (.+)$/.exec(body);
  if (!found) throw refuse('not-understood', say`"${stock}" is not a reducer or a cone`, HINT());
  const [large = 0, small = 0, length = 0] = found.slice(1).map((size) => parseLength(size, reading));
  if (!(large > small && small > 0 && length > 0))
    throw refuse('not-a-cone', say`the cone needs its large end first and a length above zero`, HINT());
  return { designation: body.replace('od', 'OD') + suffix, large, small, length, wall, eccentric };
};

/**
 * `reducer NPS 8 x 6 at 80mm`, `reducer DN 200 x 150 eccentric flat 180deg`, `cone OD 300mm to 200mm over 250mm square`.
 * The cone's axis is that of its large end and runs toward the small one, d = (sin angle, 0, cos angle): station 0 looks to
 * the small end. `at` is how far along it from the large end the branch's axis crosses (the middle when left out); `square`
 * stands the branch square to the cone's side instead of giving an angle; `flat` is where an eccentric cone's flat side lies, turned
 * round the axis from the side that faces the branch toward station 90 (180, the far side, when left out).
 */
export const readConeBody = (text: string, reading: Reading): BodySpec => {
  const placed = readPlaced(text, [...AXIS_WORDS, 'at', 'flat'], ['square'], reading);
  const size = readSize(placed.stock, reading, placed.refuse);
  const { designation, large, small, length, wall, eccentric } = size;
  const drop = (large - small) / 2;
  const given = { angle: placed.angle('angle', undefined), offset: placed.length('offset', undefined) };
  const at = placed.length('at', length / 2);
  const flat = placed.angle('flat', Math.PI);
  const square = placed.has('square');
  if (square && (given.angle !== undefined || eccentric))
    throw placed.refuse(
      'square-and-angle',
      eccentric ? say`square does not go with an eccentric reducer` : say`square and angle are both given`,
      say`give the angle between the axes alone`,
    );
  if (placed.has('flat') && !eccentric)
    throw placed.refuse('flat-alone', say`flat is given, but the reducer is not eccentric`, HINT());
  within(
    at,
    0,
    length,
    say`at ${told(at)} is beyond the cone`,
    say`give at from 0 mm to ${told(length)}`,
    placed.refuse,
  );

  const coneOf = (lie: AxisLie, place: number): Cone => {
    const side = add3(scale3(lie.u, Math.cos(flat)), scale3(lie.y, Math.sin(flat)));
    return {
      from: lie.at(-place, 0, 0),
      radiusFrom: large / 2,
      to: add3(lie.at(length - place, 0, 0), scale3(side, eccentric ? drop : 0)),
      radiusTo: small / 2,
      axis: lie.d,
    };
  };
  return {
    designation,
    ...readMove(placed),
    build: (ask, frame) => {
      const angle = square ? Math.PI / 2 + Math.atan(drop / length) : (given.angle ?? ask.angle);
      const offset = given.offset ?? ask.offset;
      checkCone(ask.radius, designation, at, offset, length, (place, off) =>
        coneOf(axisLie(angle, off, HERE), place),
      );
      const lie = axisLie(angle, offset, frame);
      const cone = coneOf(lie, at);
      const outside = coneSolid(cone);
      const inside = wall > 0 && !eccentric ? coneSolid(insetCone(cone, wall)) : undefined;
      return {
        designation,
        outside,
        inside,
        words: ['SMALL END · TDC', 'SIDE', 'LARGE END', 'SIDE'],
        placing: (setting) =>
          say`${square ? say`square to the cone’s side, ` : ''}${describeAxis(lie, setting)}, ${writeBoth(at, setting)} from the large end${
            eccentric ? say`, flat side ${formatAngle(flat)} round from the branch` : ''
          }`,
        datum: say`axis of the large end`,
        view: coneView(size, cone, lie, at, { outside, inside }),
        opening: (lift) => coneOpening(size, cone, lie, lift),
        cautions: [],
      };
    },
  };
};

/** What its picture shows: both ends' diameters, its axis, and how the branch leans. */
const coneView = (
  { large, small, length }: ConeSize,
  cone: Cone,
  lie: AxisLie,
  at: number,
  drawn: Body['view']['drawn'],
): Body['view'] => ({
  drawn,
  centers: [[lie.at(-at, 0, 0), lie.at(length - at, 0, 0)]],
  labels: [],
  lengths: [
    {
      from: lie.at(-at, -large / 2, 0),
      to: lie.at(-at, large / 2, 0),
      length: large,
      sign: '⌀',
      view: 'side',
    },
    {
      from: add3(cone.to, scale3(lie.u, -small / 2)),
      to: add3(cone.to, scale3(lie.u, small / 2)),
      length: small,
      sign: '⌀',
      view: 'side',
    },
    ...axisOffset(lie, large / 2),
  ],
  angles: [axisAngle(lie)],
  right: lie.d,
  up: lie.u,
});

/** The ground of its opening, on its skin rolled flat. */
const coneOpening = (
  { wall, eccentric }: ConeSize,
  cone: Cone,
  lie: AxisLie,
  lift: number,
): OpeningGround => {
  const facing = coneSkin(cone, lie.u, wall, 0, 0);
  const rise = facing.levelAt(0, lie.origin);
  const skin = coneSkin(cone, lie.u, wall, lift, rise);
  return {
    skin,
    local: HERE,
    facing: [-Math.PI / 2, Math.PI / 2],
    middle: 0,
    level: (s) => skin.levelAt(s, lie.origin),
    place: skin.flat,
    parallel: false,
    girth: undefined,
    facts: [
      [say`Square line up the side from the large end`, rise],
      [say`Side of the cone, end to end on the 0° line`, skin.slant(0)],
    ],
    strike: say`Strike the line along the cone’s side that faces the branch, and measure up it from the large end to the square line.`,
    name: say`the cone`,
    sheet: 'opening',
    ...(eccentric ? {} : { back: coneBack(cone, lie, lift) }),
  };
};

/** How a right cone's sheet is laid back on it. */
const coneBack = (
  { radiusFrom, radiusTo, from, to }: Cone,
  lie: AxisLie,
  lift: number,
): OpeningGround['back'] => {
  const height = length3(sub3(to, from));
  const narrowing = (radiusFrom - radiusTo) / height;
  return {
    lay: {
      kind: 'cone',
      radius: radiusFrom - narrowing * dot3(sub3(lie.origin, from), lie.d),
      halfAngle: Math.atan(narrowing),
      lift,
    },
    local: localAxes(lie.origin, lie.u, lie.y, lie.d),
  };
};

const coneSolid = ({ axis, ...cone }: Cone): Solid => ({ kind: 'cone', ...cone, along: axis });

const STATIONS = 72;

/** Throws where a station of the branch misses the cone or lands past its ends, with the limit of what moves it there. */
const checkCone = (
  radius: number,
  designation: string,
  at: number,
  offset: number,
  length: number,
  coneOf: (at: number, offset: number) => Cone,
): void => {
  const outcome = (place: number, off: number): 'sits' | 'side' | 'large end' | 'small end' => {
    const cone = coneOf(place, off);
    const mate: Mate = coneMate(cone);
    for (let i = 0; i < STATIONS; i++) {
      const a = (2 * Math.PI * i) / STATIONS;
      const line = {
        origin: { x: radius * Math.cos(a), y: radius * Math.sin(a), z: 0 },
        direction: { x: 0, y: 0, z: 1 },
      };
      const hit = mate.enter(line);
      if (!hit) return 'side';
      const height = dot3(sub3(along(line, hit.t), cone.from), cone.axis);
      if (height < -1e-9) return 'large end';
      if (height > length + 1e-9) return 'small end';
    }
    return 'sits';
  };
  const found = outcome(at, offset);
  if (found === 'sits') return;
  if (found === 'side') {
    const most = limitOf((off) => outcome(at, Math.sign(offset) * off) !== 'side', 0, Math.abs(offset));
    throw jointError(
      most === undefined ? 'branch' : 'offset',
      'branch-overhangs',
      say`the branch, ${told(2 * radius)} across${offset === 0 ? '' : say` at an offset of ${told(offset)}`}, hangs over the side of the ${designation}`,
      most === undefined
        ? say`choose a smaller branch, or put it nearer to the large end`
        : say`at this place it may be offset by at most ${told(most)}`,
    );
  }
  // Between the ends there may be room: the place nearest to the one asked for is the limit.
  const places = Array.from({ length: 101 }, (_, i) => (i * length) / 100);
  const sits = places.filter((place) => outcome(place, offset) === 'sits');
  const [low, high] = [sits[0], sits.at(-1)];
  const ends =
    low === undefined || high === undefined
      ? undefined
      : [
          low - (limitOf((d) => outcome(low - d, offset) === 'sits', 0, length / 100) ?? 0),
          high + (limitOf((d) => outcome(high + d, offset) === 'sits', 0, length / 100) ?? 0),
        ];
  throw jointError(
    'on',
    'branch-past-end',
    say`the branch, at ${told(at)} from the large end, runs past the ${translate(found)} of the ${designation}`,
    ends
      ? say`give at from ${told(Math.ceil(itemAt(ends, 0) * 100 - 1e-4) / 100)} to ${told(Math.floor(itemAt(ends, 1) * 100 + 1e-4) / 100)}`
      : say`choose a smaller branch or a longer cone`,
  );
};

/** The largest value in [good, bad] that is still good, by halving; undefined where `good` is not. */
const limitOf = (isGood: (value: number) => boolean, good: number, bad: number): number | undefined => {
  if (!isGood(good)) return undefined;
  return halve(isGood, good, bad, 40).low;
};
