import { halve } from '../../geometry/halving.ts';
import { torisphericalFigures } from '../../geometry/mates/head.ts';
import { circleOutline } from '../../geometry/outline.ts';
import { reachAt } from '../../geometry/reach.ts';
import { SAME_LENGTH } from '../../geometry/tolerance.ts';
import { add3, cross3, scale3, vec3, type Vec3 } from '../../geometry/vector.ts';
import { jointError } from '../../issue.ts';
import { readClauses } from '../../stock/clauses.ts';
import { formatAngle, writeAngle } from '../../units/angle.ts';
import { told } from '../../units/format.ts';
import { parseLength } from '../../units/length.ts';
import type { Reading } from '../../units/reading.ts';
import { writeBoth } from '../../units/writing.ts';
import { say, translate } from '../../words/say.ts';
import { solidMate } from '../solid-mate.ts';
import type { Solid } from '../solid.ts';
import { type Ask, type Body, type BodySpec, type Frame } from './body.ts';
import { readMove } from './move.ts';
import { readPlaced, within } from './read-placed.ts';

/** A dished surface round an axis, by the distance from that axis, mm. */
interface Dish {
  readonly designation: string;
  readonly name: 'sphere' | 'head';
  /** Radius at the tangent line. */
  readonly radius: number;
  readonly depth: number;
  /** Height over the tangent line (the sphere's center) at a distance from the axis. */
  readonly height: (distance: number) => number;
  /** Lean of the outside's normal away from the axis there, radians. */
  readonly lean: (distance: number) => number;
  readonly outside: (tangent: Vec3, axis: Vec3) => Solid;
  readonly inside: ((tangent: Vec3, axis: Vec3) => Solid) | undefined;
}

const HINT = () =>
  say`write sphere OD 1200mm, head ellipsoidal OD 1000mm or head torispherical OD 1000mm crown 1000mm knuckle 100mm, with wall if set in`;

const readDish = (stock: string, reading: Reading, refuse: ReturnType<typeof readPlaced>['refuse']): Dish => {
  const words = ['sphere', 'head', 'ellipsoidal', 'torispherical', 'od', 'crown', 'knuckle', 'wall'];
  const clauses = readClauses(stock, words, refuse, HINT());
  const length = (word: string): number => {
    const text = clauses.get(word);
    if (text === undefined || text === '')
      throw refuse('no-size', say`the ${word === 'od' ? say`outside diameter` : word} is missing`, HINT());
    const value = parseLength(text, reading);
    if (value <= 0) throw refuse('size-not-positive', say`${word} is not above zero`, HINT());
    return value;
  };
  const radius = length('od') / 2;
  const wall = clauses.has('wall') ? length('wall') : 0;
  if (wall >= radius)
    throw refuse(
      'wall-past-radius',
      say`a wall of ${told(wall)} leaves no bore`,
      say`give a wall below ${told(radius)}`,
    );
  const designation = stock.replace('od', 'OD');
  if (clauses.has('sphere')) return sphereDish(designation, radius, wall);
  if (!clauses.has('head') || clauses.has('ellipsoidal') === clauses.has('torispherical'))
    throw refuse('not-understood', say`"${stock}" is not a head`, HINT());
  if (clauses.has('ellipsoidal')) return ellipsoidalDish(designation, radius);
  const [crown, knuckle] = [length('crown'), length('knuckle')];
  if (crown < radius)
    throw refuse(
      'crown-too-small',
      say`the crown ${told(crown)} is less than the head’s radius`,
      say`give a crown radius of at least ${told(radius)}`,
    );
  if (knuckle > radius)
    throw refuse(
      'knuckle-too-large',
      say`the knuckle ${told(knuckle)} is more than the head’s radius`,
      say`give a knuckle radius of at most ${told(radius)}`,
    );
  if (wall >= knuckle)
    throw refuse(
      'wall-past-knuckle',
      say`the wall ${told(wall)} is more than the knuckle`,
      say`give a wall below ${told(knuckle)}`,
    );
  return torisphericalDish(designation, radius, wall, crown, knuckle);
};

/** Height of a ball of this radius over its middle at a distance from its axis. */
const ballHeight = (radius: number, distance: number): number =>
  Math.sqrt(Math.max(0, (radius - distance) * (radius + distance)));

const sphereDish = (designation: string, radius: number, wall: number): Dish => ({
  designation,
  name: 'sphere',
  radius,
  depth: radius,
  height: (a) => ballHeight(radius, a),
  lean: (a) => Math.asin(Math.min(1, a / radius)),
  outside: (centre) => ({ kind: 'sphere', centre, radius }),
  inside: wall > 0 ? (centre) => ({ kind: 'sphere', centre, radius: radius - wall }) : undefined,
});

/** A head half as deep as its radius. */
const ellipsoidalDish = (designation: string, radius: number): Dish => {
  const depth = radius / 2;
  return {
    designation,
    name: 'head',
    radius,
    depth,
    height: (a) => (depth / radius) * ballHeight(radius, a),
    lean: (a) => Math.atan2(a * depth, radius * ballHeight(radius, a)),
    outside: (tangent, axis) => ({ kind: 'ellipsoidal head', tangent, axis, radius, depth }),
    inside: undefined,
  };
};

const torisphericalDish = (
  designation: string,
  radius: number,
  wall: number,
  crown: number,
  knuckle: number,
): Dish => {
  const { across, back, turn, depth } = torisphericalFigures(radius, crown, knuckle);
  const join = crown * Math.sin(turn);
  const headOf =
    (off: number) =>
    (tangent: Vec3, axis: Vec3): Solid => ({
      kind: 'torispherical head',
      tangent,
      axis,
      radius: radius - off,
      crown: crown - off,
      knuckle: knuckle - off,
    });
  return {
    designation,
    name: 'head',
    radius,
    depth,
    height: (a) =>
      a <= join
        ? Math.sqrt((crown - a) * (crown + a)) - back
        : Math.sqrt(Math.max(0, knuckle ** 2 - (a - across) ** 2)),
    lean: (a) => (a <= join ? Math.asin(a / crown) : Math.asin(Math.min(1, (a - across) / knuckle))),
    outside: headOf(0),
    inside: wall > 0 ? headOf(wall) : undefined,
  };
};

/**
 * `sphere OD 1200mm offset 200mm`, `head ellipsoidal OD 1000mm offset 300mm`, `head torispherical OD 1000mm crown 1000mm
 * knuckle 100mm offset 250mm square`. `offset` is how far from the center line of the sphere or head the branch's axis meets the outside; the
 * branch stands parallel to that center line, or leans outward from it by `angle`, or stands `square` to the surface. Station 0 looks away from the center
 * line. The work point is where the branch's axis meets the outside.
 */
export const readRoundBody = (text: string, reading: Reading): BodySpec => {
  const placed = readPlaced(text, ['offset', 'angle'], ['square'], reading);
  const dish = readDish(placed.stock, reading, placed.refuse);
  const given = placed.length('offset', undefined);
  const angle = placed.angle('angle', 0);
  const square = placed.has('square');
  if (square && placed.has('angle'))
    throw placed.refuse('square-and-angle', say`square and angle are both given`, say`give one of them`);
  within(
    angle,
    -1.4,
    1.4,
    say`the angle ${formatAngle(angle)} is out of range`,
    say`give an angle from the center line of -80° to 80°`,
    placed.refuse,
  );
  return {
    designation: dish.designation,
    ...readMove(placed),
    build: (ask, frame) => buildDish(dish, given ?? ask.offset, square ? undefined : angle, ask, frame),
  };
};

/** Tangent point and axis of the head in the branch's frame, for an offset and a lean outward from its center line. */
const lieOf = (dish: Dish, offset: number, lean: number) => {
  const axis = vec3(-Math.sin(lean), 0, -Math.cos(lean));
  const outward = vec3(Math.cos(lean), 0, -Math.sin(lean));
  const tangent = add3(scale3(outward, -offset), scale3(axis, -dish.height(offset)));
  return { axis, outward, tangent };
};

const STATIONS = 72;

/** True where every station of the branch meets the dish, short of its edge. */
const sits = (dish: Dish, offset: number, lean: number, radius: number): boolean => {
  const { axis, tangent } = lieOf(dish, offset, lean);
  const mate = solidMate(dish.outside(tangent, axis));
  const outline = circleOutline(radius, 0);
  for (let i = 0; i < STATIONS; i++) {
    const found = reachAt(outline, mate, 'od', (outline.girth * i) / STATIONS);
    if (!found || found.label.startsWith('flange')) return false;
  }
  return true;
};

const checkDish = (dish: Dish, offset: number, lean: (offset: number) => number, radius: number): void => {
  const { designation, name } = dish;
  const edge =
    name === 'head' ? say`the head’s edge, where its straight flange begins` : say`the side of the sphere`;
  if (offset < 0 || offset > dish.radius)
    throw jointError(
      'on',
      'branch-misses',
      say`with an offset of ${told(offset)} the branch misses the ${designation}`,
      say`give an offset from 0 mm to less than ${told(dish.radius)}`,
    );
  if (sits(dish, offset, lean(offset), radius)) return;
  if (Math.abs(lean(offset)) < 1e-9 && offset + radius <= dish.radius + SAME_LENGTH) return;
  const canSit = sits(dish, 0, lean(0), radius);
  const { low } = halve((off) => canSit && sits(dish, off, lean(off), radius), 0, offset, 40);
  throw jointError(
    canSit ? 'on' : 'branch',
    'branch-past-edge',
    say`the branch, ${told(2 * radius)} across at an offset of ${told(offset)}, runs past ${edge}`,
    canSit
      ? say`this branch may be offset by at most ${told(Math.floor(low * 100 + 1e-4) / 100)}`
      : say`choose a branch of less than ${told(2 * dish.radius)} across`,
  );
};

const buildDish = (dish: Dish, offset: number, angle: number | undefined, ask: Ask, frame: Frame): Body => {
  const leanAt = (a: number): number => angle ?? dish.lean(Math.min(dish.radius, Math.max(0, a)));
  checkDish(dish, offset, leanAt, ask.radius);
  const lean = leanAt(offset);
  const here = lieOf(dish, offset, lean);
  const axis = frame.direction(here.axis);
  const tangent = frame.point(here.tangent);
  const parallel = Math.abs(lean) < 1e-9;
  const central = offset < SAME_LENGTH && parallel;
  const above = dish.height(offset);
  return {
    designation: dish.designation,
    outside: dish.outside(tangent, axis),
    inside: dish.inside?.(tangent, axis),
    words: central
      ? [say`TDC`, say`SIDE`, say`SIDE`, say`SIDE`]
      : [say`OUTER · TDC`, say`SIDE`, say`INNER`, say`SIDE`],
    placing: (setting) => {
      const where =
        offset < SAME_LENGTH
          ? say`on the center line`
          : say`${writeBoth(offset, setting)} off the center line`;
      const way =
        angle === undefined
          ? say`square to the surface (${writeAngle(lean)} off the center line)`
          : parallel
            ? say`parallel to it`
            : say`leaning ${formatAngle(lean)} outward`;
      const height =
        dish.name === 'head'
          ? say`; there the outside is ${writeBoth(above, setting)} over the tangent line`
          : '';
      return `${where}, ${way}${height}`;
    },
    datum: say`point where the axis meets the ${translate(dish.name)}`,
    view: viewDish(dish, tangent, axis, frame),
    opening: say`A ${translate(dish.name)} curves both ways and does not lie flat, so no opening sheet would be true on it`,
    cautions:
      dish.name === 'head'
        ? [
            say`A nozzle on a head takes strength from it: a qualified person checks the reinforcement it needs.`,
          ]
        : [],
  };
};

const viewDish = (dish: Dish, tangent: Vec3, axis: Vec3, frame: Frame): Body['view'] => {
  const skirt = 0.25 * dish.radius;
  const top = add3(tangent, scale3(axis, dish.depth));
  const isHead = dish.name === 'head';
  const low = add3(tangent, scale3(axis, isHead ? -skirt : -dish.radius));
  const out = cross3(axis, frame.direction(vec3(0, 1, 0)));
  return {
    drawn: {
      outside: dish.outside(tangent, axis),
      inside: dish.inside?.(tangent, axis),
      reach: [-skirt, 0],
    },
    centers: [[top, add3(tangent, scale3(axis, isHead ? -skirt : -dish.radius))]],
    labels: isHead
      ? [
          {
            at: add3(tangent, scale3(out, -dish.radius)),
            toward: scale3(out, -1),
            text: say`tangent line`,
            view: 'side',
          },
        ]
      : [],
    lengths: [
      {
        from: add3(low, scale3(out, -dish.radius)),
        to: add3(low, scale3(out, dish.radius)),
        length: 2 * dish.radius,
        sign: '⌀',
        view: 'side',
      },
    ],
    angles: [],
    right: frame.direction(vec3(1, 0, 0)),
    up: frame.direction(vec3(0, 0, -1)),
  };
};
