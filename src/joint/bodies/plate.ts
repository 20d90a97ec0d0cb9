import type { Outline } from '../../geometry/outline.ts';
import { stockSkin } from '../../geometry/skin.ts';
import { SAME_LENGTH } from '../../geometry/tolerance.ts';
import { add3, scale3 } from '../../geometry/vector.ts';
import { jointError } from '../../issue.ts';
import { told } from '../../units/format.ts';
import { parseLength } from '../../units/length.ts';
import type { Reading } from '../../units/reading.ts';
import { say } from '../../words/say.ts';
import type { Solid } from '../solid.ts';
import { localAxes, nameBody, type Ask, type BodySpec, type OpeningGround } from './body.ts';
import { readMove } from './move.ts';
import { readPlaced } from './read-placed.ts';
import {
  AXIS_WORDS,
  axisAngle,
  axisLabel,
  axisOffset,
  axisWords,
  describeAxis,
  readAxisLie,
  type AxisLie,
} from './straight.ts';

/** A flat face as an outline: x is out of it, positions run along y. */
const flatOutline = (thickness: number): Outline => ({
  girth: Infinity,
  wall: thickness,
  at: (s, depth) => ({ x: -depth, y: s }),
  joints: [],
});

const HINT = () => say`write plate, plate 12mm, or plate 300x200x12mm as length x width x thickness`;

/**
 * `plate angle 60`, `plate 12mm`, `plate 300x200x12mm`: a plate whose face passes through the work point. Without a size
 * it is wide enough; with one, its length runs along its slope and the work point is the middle of its face, or off that
 * by `offset` across it.
 */
export const readPlateBody = (text: string, reading: Reading): BodySpec => {
  const placed = readPlaced(text, AXIS_WORDS, [], reading);
  const sizes = placed.stock.replace(/^plate ?/, '');
  const parts = sizes === '' ? [] : sizes.split(/ ?[x×] ?/);
  if (parts.length === 2 || parts.length > 3 || parts.includes(''))
    throw placed.refuse('not-understood', say`"${sizes}" is not a plate's size`, HINT());
  const unit = /(?:[a-z]+\.?|["'])$/.exec(parts.at(-1) ?? '')?.[0] ?? '';
  const [first = 0, width = 0, third = 0] = parts.map((part) =>
    parseLength(/[a-z"']/.test(part) ? part : `${part}${unit}`, reading),
  );
  const [length, thickness] = parts.length === 3 ? [first, third] : [0, first];
  if (parts.length > 0 && [first, ...(parts.length === 3 ? [width, third] : [])].some((size) => size <= 0))
    throw placed.refuse('size-not-positive', say`the plate's sizes are not all above zero`, HINT());
  const lieOf = readAxisLie(placed, reading);
  const designation = placed.stock === '' ? 'plate' : placed.stock;
  return {
    designation,
    ...readMove(placed),
    build: (ask, frame) => {
      const lie = lieOf(ask, frame);
      if (length > 0) checkRoom(ask, lie, length, width);
      // Room for the hole, which leans through the plate.
      const leans = thickness * Math.abs(Math.cos(lie.angle));
      const half = length > 0 ? length / 2 : (1.8 * ask.drawn + leans) / Math.sin(lie.angle);
      const side = length > 0 ? width / 2 : 1.8 * ask.drawn;
      const depth = thickness > 0 ? thickness : 0.2 * ask.drawn;
      const inner = add3(lie.origin, scale3(lie.u, -thickness));
      const slab: Solid = {
        kind: 'bar',
        through: add3(lie.origin, scale3(lie.u, -depth / 2)),
        along: lie.d,
        across: lie.y,
        width: 2 * side,
        depth,
        corner: 0,
        length: 2 * half,
      };
      return {
        designation: nameBody(designation),
        outside: length > 0 ? slab : { kind: 'plane', through: lie.origin, normal: lie.u },
        inside: thickness > 0 ? { kind: 'plane', through: inner, normal: lie.u } : undefined,
        words: axisWords(lie),
        placing: (setting) =>
          describeAxis(lie, setting, false).replace('between the axes', 'between axis and plate'),
        datum: say`face of the plate`,
        view: {
          drawn: { outside: slab },
          centers: [],
          labels: [axisLabel(lie, [-half, half], depth, designation, ask.main)],
          lengths: axisOffset(lie, depth),
          angles: [axisAngle(lie)],
          right: lie.d,
          up: lie.u,
        },
        opening: () => plateOpening(ask, lie, thickness),
        cautions: [],
      };
    },
  };
};

/** Throws where the branch hangs over the plate's side or end. */
const checkRoom = (ask: Ask, lie: AxisLie, length: number, width: number): void => {
  const reach = ask.radius / Math.sin(lie.angle);
  const [from, to] = ask.across;
  const room = 2 * Math.max(to - lie.offset, lie.offset - from);
  if (room > width + SAME_LENGTH)
    throw jointError(
      'on',
      'branch-overhangs',
      say`the branch, ${told(to - from)} across at an offset of ${told(lie.offset)}, hangs over the side of the plate, which is ${told(width)} wide`,
      say`give a plate at least ${told(room)} wide`,
    );
  if (reach > length / 2 + SAME_LENGTH)
    throw jointError(
      'on',
      'branch-overhangs',
      say`the branch takes ${told(2 * reach)} along the plate, which is ${told(length)} long`,
      say`give a plate at least ${told(2 * reach)} long`,
    );
};

/** The ground of its opening: the face, flat as it is. */
const plateOpening = (ask: Ask, lie: AxisLie, thickness: number): OpeningGround => {
  const local = localAxes(lie.origin, lie.u, lie.y, lie.d);
  return {
    skin: stockSkin(flatOutline(thickness)),
    local,
    facing: [-4 * ask.drawn - Math.abs(lie.offset), 4 * ask.drawn + Math.abs(lie.offset)],
    middle: 0,
    level: () => 0,
    place: (s, t) => ({ x: s, y: t }),
    parallel: true,
    girth: undefined,
    facts: [],
    strike: say`Strike two square lines on the plate that cross at the work point, one along the way the branch leans.`,
    name: say`the plate`,
    sheet: 'opening',
    back: { lay: { kind: 'flat' }, local },
  };
};
