import type { Table } from '../../../drawing/model.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import type { Development } from '../../../geometry/development.ts';
import type { Contact } from '../../../geometry/reach.ts';
import { developGore, goreLengths, solveGores, type Gore, type Turn } from '../../../geometry/turn.ts';
import type { BandValues } from '../../../sheets/band-fields.ts';
import { describeHalfGap } from '../../../sheets/contact.ts';
import { isAlikeTurned, stockReach, type Stock } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import { lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

/** A turn and all that is asked of it. */
export interface TurnRequest {
  readonly stock: Stock;
  readonly angle: number;
  readonly shape: Turn;
  readonly gores: readonly Gore[];
  /** How far the seam moves round from each gore to the next, radians. */
  readonly stagger: number;
  /** Width of the saw cut square to the blade, mm. */
  readonly kerf: number;
  /** Whether the nest on one straight pipe, or on one cone, is drawn too. */
  readonly nest: boolean;
  readonly contact: Contact;
  /** Root gap of the finished joint, square to its faces, half of it off each piece, mm. */
  readonly gap: number;
  readonly making: BandValues;
}

/** Whether the gores may be cut from one straight length of the stock, every other one rotated 180°. */
export const canNest = ({ stock, making }: Pick<TurnRequest, 'stock' | 'making'>): boolean =>
  making.madeFrom === 'pipe' && isAlikeTurned(stock);

/** What every sheet of a turn says it is for. */
export const describeTurn = (
  { angle, gores, shape, gap }: TurnRequest,
  setting: Setting,
): { readonly about: readonly string[]; readonly cut: string } => {
  const [first = 0] = shape.cuts;
  const equal = shape.cuts.every((cut) => Math.abs(cut - first) < 1e-9);
  const cuts = equal ? formatAngle(first) : shape.cuts.map((cut) => formatAngle(cut)).join(', ');
  return {
    about: [
      say`${formatAngle(angle)} turn of ${gores.length} pieces`,
      say`Bend radius ${writeBoth(shape.radius, setting)} to the center line`,
      say`Cuts ${cuts} from square`,
    ],
    cut: describeHalfGap(gap, setting),
  };
};

/**
 * A piece along its heel, center line and throat from cut line to cut line, mm, as they are drawn: a contact through the
 * wall moves the lines off the plane of the cut. Over the mouth of open stock there is no line, and the planes count.
 */
export const drawnLengths = (
  { stock, contact, gap }: Pick<TurnRequest, 'stock' | 'contact' | 'gap'>,
  gore: Gore,
): Pick<Gore, 'heel' | 'centre' | 'throat'> => {
  const planes = goreLengths(gore, gap);
  if (contact === 'od') return planes;
  const { upper, lower } = developGore(stock.outline, gore, contact, gap, 0);
  const along = (side: 'heel' | 'throat'): number => {
    const [top, bottom] = [heightAt(stock, upper, side), heightAt(stock, lower, side)];
    return top === undefined || bottom === undefined ? planes[side] : top - bottom;
  };
  return { heel: along('heel'), centre: planes.centre, throat: along('throat') };
};

/** The height of a gore's cut line at its heel or throat, stock frame, mm; undefined over the mouth of open stock, where there is no line. */
export const heightAt = (
  { outline }: Stock,
  { ordinate }: Pick<Development, 'ordinate'>,
  side: 'heel' | 'throat',
): number | undefined => {
  const s = side === 'throat' ? 0 : outline.girth / 2;
  return outline.wallAt?.(s) === 0 ? undefined : ordinate(s);
};

/** Lengths of all the pieces. */
export const goreTable = (request: TurnRequest): Table => ({
  title: say`Lengths of the pieces, cut to cut`,
  header: [say`Gore`, say`heel`, say`center`, say`throat`],
  rows: request.gores.map((gore) => {
    const { heel, centre, throat } = drawnLengths(request, gore);
    return [String(gore.number), lengthOf(heel), lengthOf(centre), lengthOf(throat)];
  }),
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
export const turnAdvice = ({ stock, shape }: TurnRequest, setting: Setting): readonly Advice[] => {
  const steepest = Math.max(...shape.cuts);
  const outside = stockReach(stock);
  const mean = outside - stock.wall / 2;
  const leastRadius = wallTerm(stock.wall) / Math.tan(steepest) + outside;
  const ends = solveGores(shape);
  const straight = Math.min(ends[0]?.throat ?? 0, ends[ends.length - 1]?.throat ?? 0);
  const first = Math.max(shape.cuts[0] ?? 0, shape.cuts[shape.cuts.length - 1] ?? 0);
  const leastStraight = Math.max(2.5 * Math.sqrt(mean * stock.wall), Math.tan(first) * (shape.radius - mean));
  return [
    {
      what: say`Cut, at most`,
      limit: formatAngle(22.5 * DEGREE),
      here: formatAngle(steepest),
      kept: steepest <= 22.5 * DEGREE + 1e-9,
    },
    {
      what: say`Bend radius R1, at least`,
      limit: writeBoth(leastRadius, setting),
      here: writeBoth(shape.radius, setting),
      kept: shape.radius >= leastRadius - 1e-9,
    },
    {
      what: say`Straight M past the last weld, at least`,
      limit: writeBoth(leastStraight, setting),
      here: writeBoth(straight, setting),
      kept: straight >= leastStraight - 1e-9,
    },
  ];
};

/** The published limits beside this turn's own figures; none for stock that is not pipe. */
export const adviceTables = (request: TurnRequest, setting: Setting): readonly Table[] =>
  request.stock.kind !== 'pipe'
    ? []
    : [
        {
          title: say`ASME B31.3 304.2.3, quoted at second hand: advice, no rating`,
          header: [say`Limit`, say`published`, say`here`, ''],
          rows: turnAdvice(request, setting).map(({ what, limit, here, kept }) => [
            what,
            limit,
            here,
            kept ? say`kept` : say`NOT KEPT`,
          ]),
        },
      ];

/** What a turn's sheets warn of; the published limits are those of pipe. */
export const turnCautions = (request: TurnRequest, setting: Setting): readonly string[] => {
  if (request.stock.kind !== 'pipe') return [];
  const broken = turnAdvice(request, setting).filter(({ kept }) => !kept);
  return broken.length === 0
    ? []
    : [
        say`Outside published limits of ASME B31.3 304.2.3 (second hand): ${broken
          .map(({ what, limit }) => `${what.charAt(0).toLowerCase()}${what.slice(1)} ${limit}`)
          .join('; ')}. Have it designed by a qualified person where it holds pressure.`,
      ];
};
