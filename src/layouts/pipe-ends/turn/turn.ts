import type { Sheet } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import {
  angleField,
  countField,
  flagField,
  lengthField,
  pipeField,
  stockField,
} from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { SAME_LENGTH } from '../../../geometry/tolerance.ts';
import { type Gore, halfGap, solveGores, type Turn } from '../../../geometry/turn.ts';
import { jointError, requestError } from '../../../issue.ts';
import { bandFields, type BandValues, pickBand } from '../../../sheets/band-fields.ts';
import { contactField, gapField } from '../../../sheets/contact.ts';
import { type Stock, stockSpan } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import { told } from '../../../units/format.ts';
import { say } from '../../../words/say.ts';
import { taperedScene, taperedSheets } from './tapered-sheets.ts';
import { goreSheet } from './turn-gore.ts';
import { nestSheet } from './turn-nest.ts';
import { canNest, type TurnRequest } from './turn-request.ts';
import { turnScene } from './turn-scene.ts';
const STEEPEST = 80 * DEGREE;

/** Angles that differ by less than this are the same angle, radians. */
const SAME_ANGLE = 1e-6;

/** A turn of several mitered pieces, each with its own band, and on demand all of them nested on one straight pipe. */
export const turn = defineLayout({
  id: 'turn',
  summary: 'mitered turn of several pieces: a band for each gore, or all of them nested on one pipe',
  family: 'pipe ends',
  words: ['elbow', 'mitered elbow', 'bend', 'lobster back', 'gore', 'segment', '90', '45'],
  fields: {
    stock: stockField('the pipe or other stock it is made of', {
      example: 'NPS 8 sch 40',
      aliases: ['pipe'],
    }),
    to: pipeField(
      'smaller pipe it reduces to: the gores are then cones, rolled from plate of the pipe’s wall',
      { example: 'NPS 6 sch 40', optional: true },
    ),
    angle: angleField('total change of direction', {
      default: '90',
      example: '90',
      above: 0,
      max: 360 * DEGREE,
    }),
    pieces: countField('number of pieces, end pieces counted', { example: '4', min: 2, max: 20 }),
    radius: lengthField('bend radius to the center line', { example: '12in', above: 0 }),
    cuts: angleField('cut angle from square at each joint, first to last; left out, all are equal', {
      example: '10',
      above: 0,
      max: STEEPEST,
      list: true,
      optional: true,
    }),
    tangent: lengthField('straight length beyond the bend: one for both ends, or start,end', {
      default: '0mm',
      example: '100mm',
      max: 5000,
      list: 'both',
    }),
    stagger: angleField('how far the seam moves around from each gore to the next', {
      default: '0',
      example: '180',
      min: -180 * DEGREE,
      max: 180 * DEGREE,
    }),
    nest: flagField(
      'also all gores nested on one straight pipe (or cone), full size, to cut them from one length',
    ),
    kerf: lengthField('width of the saw cut, square to the blade, where the gores are nested on one pipe', {
      default: '3mm',
      example: '3mm',
      max: 20,
    }),
    contact: contactField('od'),
    gap: gapField,
    ...bandFields,
  },
  sheets: ['gore N', 'nested gores'],
  examples: [
    'turn --stock "NPS 8 sch 40" --angle 90 --pieces 5 --radius 12in',
    'turn --stock "DN 150 sch 40" --angle 60 --pieces 3 --radius 230mm --tangent 50mm --paper a4',
    'turn --stock "NPS 6 sch 40" --angle 90 --pieces 4 --radius 9in --cuts 10,20,15 --nest -o turn.pdf',
    'turn --stock "NPS 8 sch 40" --to "NPS 6 sch 40" --angle 90 --pieces 4 --radius 12in',
    'turn --stock "OD 610mm wall 8mm" --pieces 5 --radius 36in --made-from plate --seam 90 --stagger 180',
  ],
  draw: (values, setting) => {
    const request = readTurn(values, pickBand(values));
    if (values.to) return taperedSheets(request, values.to, setting);
    checkNest(request);
    const [whole, ...inTurn] = scenePictures(turnScene(request, setting));
    return [
      ...request.gores.map((gore, i) => ({
        ...goreSheet(request, gore, inTurn[i], setting),
        ...turnedOver(request, gore),
      })),
      ...(request.nest ? [nestSheet(request, whole, setting)] : []),
    ];
  },
  scene: (values, setting) => {
    const request = readTurn(values, pickBand(values));
    return values.to ? taperedScene(request, values.to, setting) : turnScene(request, setting);
  },
});

/** The first gore that this one is when it is turned end for end, where there is one before it. */
const turnedOver = (
  { stock, gores, stagger, making }: TurnRequest,
  gore: Gore,
): Pick<Sheet, 'sameAs'> | undefined => {
  const seamOf = ({ number }: Gore): number => making.seam + (number - 1) * stagger;
  const isTurned = (other: Gore): boolean =>
    Math.abs(other.upper - gore.lower) < SAME_ANGLE &&
    Math.abs(other.lower - gore.upper) < SAME_ANGLE &&
    Math.abs(other.centre - gore.centre) < SAME_LENGTH &&
    // Turned end for end a seam lies on the other side; on pipe it is only the paper's.
    (making.madeFrom === 'pipe' || Math.cos(seamOf(other) + seamOf(gore)) > 1 - SAME_ANGLE);
  const twin = stock.round === undefined ? undefined : gores.slice(0, gore.number - 1).find(isTurned);
  if (twin === undefined || Math.abs(gore.upper - gore.lower) < SAME_ANGLE) return undefined;
  return {
    sameAs: {
      sheet: `gore ${twin.number}`,
      how: say`turned end for end: its 90° and 270° lines change places`,
    },
  };
};

/** Throws a `request` UserError where a nest is asked for and the gores are not cut from one straight length. */
const checkNest = (request: TurnRequest): void => {
  if (!request.nest || canNest(request)) return;
  throw requestError(
    'nest',
    'no-nest',
    request.making.madeFrom === 'plate'
      ? say`gores rolled from plate are not cut from one pipe`
      : say`${request.stock.designation} is not the same rotated 180°, so its gores do not nest`,
    say`leave nest out: each gore has a sheet of its own`,
  );
};

type Asked = Pick<TurnRequest, 'stock' | 'angle' | 'stagger' | 'nest' | 'kerf' | 'contact' | 'gap'> & {
  readonly pieces: number;
  readonly radius: number;
  readonly cuts: readonly number[] | undefined;
  readonly tangent: readonly [number, number];
};

/** The pieces of a turn as it is asked for. Throws where they cannot be made. */
const readTurn = (asked: Asked, making: BandValues): TurnRequest => {
  const { stock, angle, pieces, radius, cuts, tangent, stagger, nest, kerf, contact, gap } = asked;
  const [toHeel, toThroat] = stockSpan(stock, { x: 1, y: 0 });
  const shape: Turn = {
    throat: toThroat,
    heel: -toHeel,
    radius,
    cuts: readCuts(cuts, angle, pieces),
    tangents: tangent,
  };
  const gores = solveGores(shape);
  for (const gore of gores) checkThroat(stock, shape, gore, gap);
  return { stock, angle, shape, gores, stagger, nest, kerf, contact, gap, making };
};

const readCuts = (given: readonly number[] | undefined, angle: number, pieces: number): readonly number[] => {
  const joints = pieces - 1;
  const cuts = given ?? Array.from({ length: joints }, () => angle / (2 * joints));
  if (cuts.length !== joints)
    throw requestError(
      'cuts',
      'number-of-cuts',
      say`${cuts.length} cuts are given for ${pieces} pieces`,
      say`give ${joints}, one for each joint, or leave them out`,
    );
  const total = 2 * cuts.reduce((sum, cut) => sum + cut, 0);
  if (Math.abs(total - angle) > SAME_ANGLE)
    throw requestError(
      'cuts',
      'cuts-off-total',
      say`the cuts turn ${formatAngle(total)} in all, not ${formatAngle(angle)}`,
      say`each joint turns twice its cut: make the cuts add up to ${formatAngle(angle / 2)}`,
    );
  const steep = cuts.find((cut) => cut > STEEPEST);
  if (steep !== undefined)
    throw jointError(
      'pieces',
      'cut-too-steep',
      say`${pieces} pieces would need cuts of ${formatAngle(steep)} from square`,
      say`give at least ${Math.ceil(angle / (2 * STEEPEST) - 1e-9) + 1} pieces: a cut may be at most ${formatAngle(STEEPEST)}`,
    );
  return cuts;
};

/** Throws a `joint` UserError where nothing is left of a piece at its throat. */
const checkThroat = (stock: Stock, { throat, radius }: Turn, gore: Gore, gap: number): void => {
  const gaps = halfGap(gap, gore.lower) + halfGap(gap, gore.upper);
  const left = gore.throat - gaps;
  if (left > 0.5) return;
  const slope = Math.tan(gore.lower) + Math.tan(gore.upper);
  const straight = gore.throat - (radius - throat) * slope;
  const least = throat + (0.5 + gaps - straight) / slope;
  throw jointError(
    'radius',
    'no-throat',
    say`the throat of gore ${gore.number} is ${told(left)} long with a bend radius of ${told(radius)} on ${stock.designation}`,
    say`give a radius of more than ${told(Math.ceil(least * 10 + 1e-9) / 10)}${
      gore.lower > 0 && gore.upper > 0 ? '' : say`, or a longer tangent`
    }`,
  );
};
