import type { Sheet, Table } from '../../../drawing/model.ts';
import { braceCut } from '../../../geometry/compound.ts';
import { type Vec2 } from '../../../geometry/vector.ts';
import { CHECK_PRINT, describeStock } from '../../../sheets/band-words.ts';
import { stockMass } from '../../../sheets/bar-stock.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { sawSettings, type SawSettings } from '../../../sheets/saw-settings.ts';
import { stockSpan, type Stock } from '../../../stock/stock.ts';
import { lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { angleShown, fromSquareOf, layCards } from './compound-cards.ts';
import { writeAngle } from '../../../units/angle.ts';
import { bracePictures } from './compound-picture.ts';

/** A bar askew from an upright face, mm and radians; positive swing to the left, positive rise upward. */
export interface Brace {
  readonly swing: number;
  readonly rise: number;
  readonly width?: number;
  readonly depth?: number;
  /** In place of width and depth; its +x is up, its +y to the left seen along the bar away from the face. */
  readonly stock?: Stock;
  /** Along the center line, between parallel faces. */
  readonly length?: number;
  /** Radius of the cards. */
  readonly card: number;
}

const quarter = Math.PI / 2;

/** The cut plane in the bar's own frame, whose z runs out of the cut end toward the face. */
const slopeOf = ({ swing, rise }: Brace): Vec2 => {
  const { miter, tilt } = braceCut(swing, rise);
  return { x: -Math.tan(tilt) / Math.cos(miter), y: -Math.tan(miter) };
};

/** What follows from a bar's stock: its sizes, how it is laid on the saw, and what it takes. */
const stockFacts = (brace: Brace): SawSettings => {
  const { stock, length } = brace;
  if (!stock) return { facts: [], tables: [] };
  const slope = slopeOf(brace);
  const steepest = Math.hypot(slope.x, slope.y);
  const [low, high] =
    steepest < 1e-12
      ? [0, 0]
      : stockSpan(stock, { x: slope.x / steepest, y: slope.y / steepest }).map((reach) => reach * steepest);
  const back = (high ?? 0) - (low ?? 0);
  const saw = sawSettings(stock, slope);
  return {
    facts: [
      [say`Long to short point of one end`, lengthOf(back)],
      ...(length === undefined
        ? []
        : ([
            [say`Along every edge, from cut to cut`, lengthOf(length)],
            [say`Stock it takes, long point to long point`, lengthOf(length + back)],
          ] as const)),
      ...stockMass(stock, length),
      ...saw.facts,
    ],
    tables: saw.tables,
  };
};

/** How far the cut lies back from the longest corner, along each long edge of the bar. */
const cornerTable = (brace: Brace, width: number, depth: number): Table => {
  const { miter, tilt } = braceCut(brace.swing, brace.rise);
  const back = (left: number, up: number): number =>
    left * width * Math.tan(miter) + (up * depth * Math.tan(tilt)) / Math.cos(miter);
  const corners = [
    [say`lower right`, 0, 0],
    [say`lower left`, 1, 0],
    [say`upper left`, 1, 1],
    [say`upper right`, 0, 1],
  ] as const;
  const least = Math.min(...corners.map(([, left, up]) => back(left, up)));
  return {
    title: say`By tape: along each edge, back from a square line through the longest corner`,
    header: [say`Edge`, say`back`],
    rows: corners.map(([name, left, up]) => [name, lengthOf(back(left, up) - least)]),
  };
};

/** Both saw settings, the true angle and cards for a bar on an upright face. */
export const braceSheet = (brace: Brace, setting: Setting): Sheet => {
  const { swing, rise, width, depth, stock, card } = brace;
  const told = stockFacts(brace);
  const { miter, tilt, fromSquare } = braceCut(swing, rise);
  const both = (length: number): string => writeBoth(length, setting);
  const swingWords =
    Math.abs(swing) < 1e-9
      ? say`no swing`
      : swing > 0
        ? say`swings ${writeAngle(Math.abs(swing))} to the left`
        : say`swings ${writeAngle(Math.abs(swing))} to the right`;
  const riseWords =
    Math.abs(rise) < 1e-9
      ? say`level`
      : `${rise > 0 ? say`rises` : say`falls`} ${writeAngle(Math.abs(rise))}`;
  const cards = [
    { name: say`edge to cut`, angle: quarter - Math.abs(miter) },
    { name: say`table to blade`, angle: quarter - Math.abs(tilt) },
    { name: say`bar to face`, angle: quarter - fromSquare },
  ];
  const { angles, marks, cards: grounds } = layCards(cards, card);
  return plateSheet({
    name: 'compound',
    heading: say`Compound cut`,
    subject: [
      say`Bar from an upright face: ${swingWords}, ${riseWords}, seen along it away from the face`,
      say`Miter ${writeAngle(Math.abs(miter))} from square, blade tilted ${writeAngle(Math.abs(tilt))}`,
      ...(stock ? [describeStock(stock, setting)] : []),
      ...(width !== undefined && depth !== undefined
        ? [say`Bar ${both(width)} wide, ${both(depth)} deep`]
        : []),
    ],
    fit: fitFlat({ corners: cards.map(({ angle }) => ({ angle })) }),
    marks,
    cards: grounds,
    steps: [
      CHECK_PRINT(),
      say`Cut the cards out. Set a sliding bevel, or the saw itself, by their straight edges.`,
      say`Two sides of the bar stay upright, two run level across. Lay the bar on the saw on its lower side.`,
      Math.abs(miter) < 1e-9
        ? say`Miter: none, square across.`
        : swing > 0
          ? say`Miter: the right side ends in the long point, seen along the bar away from the face.`
          : say`Miter: the left side ends in the long point, seen along the bar away from the face.`,
      Math.abs(tilt) < 1e-9
        ? say`Tilt: none.`
        : rise > 0
          ? say`Tilt: the lower side stays the longer.`
          : say`Tilt: the upper side stays the longer.`,
      say`Cut a scrap first and hold its end flat to the face. The card “bar to face”, held square to the face, must fit along the bar’s nearest long edge.`,
      say`The far end on a face that is parallel: the same settings, the bar slid along without turning it.`,
    ],
    facts: [
      [say`Miter from square`, fromSquareOf(Math.abs(miter), angles[0])],
      [say`Blade tilt`, fromSquareOf(Math.abs(tilt), angles[1])],
      [say`Bar to face, least angle`, angleShown(quarter - fromSquare, angles[2])],
      [say`Bar from square to the face`, fromSquareOf(fromSquare, angles[2])],
      ...told.facts,
    ],
    tables: [
      ...told.tables,
      ...(width !== undefined && depth !== undefined ? [cornerTable(brace, width, depth)] : []),
    ],
    pictures: bracePictures(brace),
    cautions: [
      say`Saws count miter and tilt from square; the cards show what is left of 90°. Do not mix them up.`,
    ],
  });
};
