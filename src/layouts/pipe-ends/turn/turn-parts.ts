import { solveGores, type Gore, type Turn } from '../../../geometry/turn.ts';
import type { Table } from '../../../drawing/model.ts';
import type { Contact } from '../../../geometry/reach.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { WrapValues } from '../../../sheets/band-fields.ts';
import { describeContact } from '../../../sheets/contact.ts';
import type { Setting } from '../../../units/setting.ts';
import { describePaper, describePipe, describeSource } from '../../../sheets/band-paper.ts';
import { lengthCells } from '../../../units/writing.ts';
import { lengthColumns } from '../../../units/writing.ts';
import { writeBoth } from '../../../units/writing.ts';

const DEGREE = Math.PI / 180;

/** A turn and all that is asked of it. */
export interface TurnRequest {
  readonly pipe: Pipe;
  readonly angle: number;
  readonly shape: Turn;
  readonly gores: readonly Gore[];
  /** How far the seam moves round from each gore to the next, radians. */
  readonly stagger: number;
  /** Width of the saw cut square to the blade, mm. */
  readonly kerf: number;
  readonly contact: Contact;
  /** Root gap along the axis at each joint, half of it off each piece, mm. */
  readonly gap: number;
  readonly wrap: WrapValues;
}

/** What every sheet of a turn says it is for. */
export const describeTurn = (
  { pipe, angle, gores, shape, contact, gap, wrap }: TurnRequest,
  setting: Setting,
): readonly string[] => {
  const equal = shape.cuts.every((cut) => Math.abs(cut - (shape.cuts[0] ?? 0)) < 1e-9);
  const cuts = equal
    ? `${formatAngle(shape.cuts[0] ?? 0)} from square`
    : `${shape.cuts.map((cut) => formatAngle(cut)).join(', ')} from square`;
  return [
    `${formatAngle(angle)} turn of ${gores.length} pieces, bend radius ${writeBoth(shape.radius, setting)} to the center line`,
    describePipe(pipe, setting),
    `Cuts ${cuts}. ${describeContact(contact)}; ${
      gap > 0 ? `root gap ${writeBoth(gap, setting)}, half off each piece` : 'no root gap'
    }`,
    `${describeSource(pipe)}. ${describePaper(setting, wrap)}`,
  ];
};

/** Lengths of all the pieces. */
export const goreTable = ({ gores }: TurnRequest, setting: Setting): Table => ({
  title: 'Lengths of the pieces, cut to cut',
  header: [
    'Gore',
    ...lengthColumns('heel', setting),
    ...lengthColumns('center', setting),
    ...lengthColumns('throat', setting),
  ],
  rows: gores.map(({ number, heel, centre, throat }) => [
    String(number),
    ...lengthCells(heel, setting),
    ...lengthCells(centre, setting),
    ...lengthCells(throat, setting),
  ]),
});

/**
 * The term A of the least bend radius, mm, by wall: 25 mm up to 13 mm of wall, twice the wall up to 22 mm, 2/3 of it
 * and 30 mm above (ASME B31.3 304.2.3 as quoted at second hand; the last step from memory).
 */
const wallTerm = (wall: number): number => (wall <= 13 ? 25 : wall < 22 ? 2 * wall : (2 * wall) / 3 + 30);

interface Advice {
  readonly what: string;
  readonly here: string;
  readonly limit: string;
  readonly kept: boolean;
}

/**
 * The published limits on a multiple miter bend: cut at most 22.5°, effective radius R1 at least A / tan cut + D/2, and
 * a straight M beyond the last weld of at least the larger of 2.5 sqrt(r2 T) and tan cut (R1 - r2), r2 the mean radius.
 * ASME B31.3 304.2.3 as quoted at second hand; the whole wall is taken, without corrosion allowance.
 */
export const turnAdvice = ({ pipe, shape }: TurnRequest, setting: Setting): readonly Advice[] => {
  const steepest = Math.max(...shape.cuts);
  const mean = (pipe.od - pipe.wall) / 2;
  const leastRadius = wallTerm(pipe.wall) / Math.tan(steepest) + pipe.od / 2;
  const ends = solveGores(shape);
  const straight = Math.min(ends[0]?.throat ?? 0, ends[ends.length - 1]?.throat ?? 0);
  const first = Math.max(shape.cuts[0] ?? 0, shape.cuts[shape.cuts.length - 1] ?? 0);
  const leastStraight = Math.max(2.5 * Math.sqrt(mean * pipe.wall), Math.tan(first) * (shape.radius - mean));
  return [
    {
      what: 'Cut, at most',
      limit: formatAngle(22.5 * DEGREE),
      here: formatAngle(steepest),
      kept: steepest <= 22.5 * DEGREE + 1e-9,
    },
    {
      what: 'Bend radius R1, at least',
      limit: writeBoth(leastRadius, setting),
      here: writeBoth(shape.radius, setting),
      kept: shape.radius >= leastRadius - 1e-9,
    },
    {
      what: 'Straight M past the last weld, at least',
      limit: writeBoth(leastStraight, setting),
      here: writeBoth(straight, setting),
      kept: straight >= leastStraight - 1e-9,
    },
  ];
};

/** The published limits beside this turn's own figures. */
export const adviceTable = (request: TurnRequest, setting: Setting): Table => ({
  title: 'ASME B31.3 304.2.3, quoted at second hand: advice, no rating',
  header: ['Limit', 'published', 'here', ''],
  rows: turnAdvice(request, setting).map(({ what, limit, here, kept }) => [
    what,
    limit,
    here,
    kept ? 'kept' : 'NOT KEPT',
  ]),
});

/** What a turn's sheets warn of. */
export const turnCautions = (request: TurnRequest, setting: Setting): readonly string[] => {
  const broken = turnAdvice(request, setting).filter(({ kept }) => !kept);
  return broken.length === 0
    ? []
    : [
        `Outside published limits of ASME B31.3 304.2.3 (second hand): ${broken
          .map(({ what, limit }) => `${what.charAt(0).toLowerCase()}${what.slice(1)} ${limit}`)
          .join('; ')}. Have it designed by a qualified person where it holds pressure.`,
      ];
};
