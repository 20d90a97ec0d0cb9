import type { FitLine } from '../../../drawing/fit-up.ts';
import type { Measured } from '../../../drawing/measured.ts';
import type { Figure, Picture, Sheet } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { TURN } from '../../../geometry/angle-units.ts';
import { developGore, goreEnds, goreLengths, halfGap, type Gore } from '../../../geometry/turn.ts';
import type { QuarterWords } from '../../../joint/bodies/body.ts';
import { bandSheet } from '../../../sheets/band-sheet.ts';
import { drawBand, seamPosition } from '../../../sheets/cut-band.ts';
import { endPicture } from '../../../sheets/end-picture.ts';
import { cutToCut, shown } from '../../../sheets/measured.ts';
import { stationOf } from '../../../stock/station.ts';
import { isOpen } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { nestPicture, sawCuts, tellNest } from './nest-plan.ts';
import {
  adviceTables,
  canNest,
  describeTurn,
  goreTable,
  turnCautions,
  type TurnRequest,
} from './turn-request.ts';
import { goreScene } from './turn-scene.ts';

/** Names of a gore's quarter lines 0, 90, 180 and 270. */
export const GORE_WORDS = (): QuarterWords => [say`THROAT`, say`SIDE`, say`HEEL`, say`SIDE`];

/** What joins a gore above and below, named over the heel. */
const joins = ({ gores }: TurnRequest, { number }: Gore) => ({
  station: Math.PI,
  below: number > 1 ? say`PREVIOUS GORE` : say`SQUARE END`,
  above: number < gores.length ? say`NEXT GORE` : say`SQUARE END`,
});

/** What the upper and the lower cut line of a gore must touch. */
export const goreLines = (
  { contact, gap }: Pick<TurnRequest, 'contact' | 'gap'>,
  gore: Gore,
): readonly [upper: FitLine, lower: FitLine] => {
  const { lower, upper } = goreEnds(gore);
  return [
    {
      which: 'upper',
      contact,
      gap: halfGap(gap, gore.upper),
      solids: [{ kind: 'plane', ...upper }],
    },
    {
      which: 'lower',
      contact,
      gap: -halfGap(gap, gore.lower),
      solids: [{ kind: 'plane', ...lower }],
    },
  ];
};

/** The sheet of one gore, with a picture of the whole turn that shows it: y = 0 at mid-length of its centre line, station 0 at the throat. */
export const goreSheet = (
  request: TurnRequest,
  gore: Gore,
  inTurn: Picture | undefined,
  setting: Setting,
): Sheet => {
  const { stock, gores, stagger, contact, gap, angle, shape } = request;
  const making = { ...request.making, seam: request.making.seam + (gore.number - 1) * stagger };
  const lines = developGore(stock.outline, gore, contact, gap, seamPosition(stock, making, setting));
  const band = drawBand(stock, { ...lines, beyond: joins(request, gore) }, making, GORE_WORDS(), setting);
  const lengths = goreLengths(gore, gap);
  /** A length from cut to cut along the line at a station; the band may begin a turn before it. */
  const acrossAt = (station: number, length: number): Figure => {
    const { from, girth, xAt, positionAt } = band.paper;
    const x = [-TURN, 0, TURN]
      .map((turn) => xAt(station + turn))
      .find((at) => at >= from - 1e-6 && at <= from + girth + 1e-6);
    // Over the mouth of open stock there is no steel, and no line.
    if (x === undefined || stock.outline.wallAt?.(positionAt(x)) === 0) return lengthOf(length);
    const [low, high] = [lines.lower, lines.upper].map(({ ordinate }) => ordinate(positionAt(x)));
    if (low === undefined || high === undefined) return lengthOf(length);
    // As drawn: a contact through the wall moves the lines.
    return shown(lengthOf(high - low), cutToCut(x, low, high));
  };
  // Lines through the wall do not lie in the plane of the cut.
  const tiltOf = (line: 'upper' | 'lower'): Measured | undefined =>
    contact === 'od' ? { kind: 'tilt', line } : undefined;
  // Where no nested sheet follows, the first gore has what is to be said of all, and how they may be nested.
  const isFirst = gore.number === 1 && !request.nest;
  // A saw cuts a plane, and only the outside's lines lie in one.
  const tellsNest = isFirst && contact === 'od' && canNest(request);
  return bandSheet(
    {
      name: `gore ${gore.number}`,
      heading: say`Gore ${gore.number} of ${gores.length}`,
      stock,
      band,
      making,
      ...describeTurn(request, setting),
      ...(tellsNest && { aboutMore: [tellNest(request, setting)] }),
      contact,
      lines: goreLines(request, gore),
      wrap: say`Wrap it printed side out, the arrow up toward the next gore, until the straight line at mid-length meets itself.`,
      line: say`cut lines above and below`,
      after: [
        ...(isOpen(stock)
          ? [say`On the inside faces lay a straightedge across the marks: each cut lies in one plane.`]
          : []),
        say`Cut on the lines, then bevel. Set throat to throat and heel to heel, station lines in one row, and tack.`,
        say`Check the whole turn before you weld: ${formatAngle(angle)}, and ${writeBoth(shape.radius, setting)} to the center line.`,
      ],
      facts: [
        [say`Heel, cut to cut`, acrossAt(Math.PI, lengths.heel)],
        [say`Center line, cut to cut`, acrossAt(Math.PI / 2, lengths.centre)],
        [say`Throat, cut to cut`, acrossAt(0, lengths.throat)],
        [say`Cut above, from square`, shown(angleOf(gore.upper), tiltOf('upper'))],
        [say`Cut below, from square`, shown(angleOf(gore.lower), tiltOf('lower'))],
        [say`Seam at station`, stationOf(making.seam)],
      ],
      tables: [
        band.table,
        ...(tellsNest ? [sawCuts(request)] : []),
        ...(isFirst ? [goreTable(request), ...adviceTables(request, setting)] : []),
      ],
      pictures: [
        ...(inTurn ? [inTurn] : []),
        ...(tellsNest ? [nestPicture(request, setting)] : []),
        ...scenePictures(goreScene(request, gore, setting)),
        endPicture(say`Facing the upper cut`, stock, [say`throat`, say`side`, say`heel`, say`side`]),
      ],
      cautions: turnCautions(request, setting),
    },
    setting,
  );
};
