import type { Fact, Sheet, Table } from '../../../drawing/model.ts';
import { slopedCorner, type SawSetting } from '../../../geometry/compound.ts';
import { type Vec2 } from '../../../geometry/vector.ts';
import { CHECK_PRINT, describeStock } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { sawSettings, type SawSettings } from '../../../sheets/saw-settings.ts';
import { stockSpan, type Stock } from '../../../stock/stock.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { say } from '../../../words/say.ts';
import { angleShown, fromSquareOf, layCards, runsIn, type CardAngle } from './compound-cards.ts';
import { writeAngle } from '../../../units/angle.ts';
import { jointPicture, sidePicture, sidesPicture } from './compound-picture.ts';

/** Two sloping sides that meet at a corner, mm and radians. */
export interface SlopedSides {
  /** Angle between the level edges, seen from above. */
  readonly plan: number;
  readonly slope: number;
  readonly otherSlope: number;
  readonly sides?: number;
  readonly height?: number;
  /** What the sides are made of: its +x up the slope, its +y outward. */
  readonly stock?: Stock;
  /** The longest level edge of each side, from outside corner to outside corner; one for all. */
  readonly lengths: readonly number[];
  /** Radius of the cards. */
  readonly card: number;
}

const quarter = Math.PI / 2;

/** The cut of one side in words. */
const cutWords = ({ miter, tilt }: SawSetting): string =>
  say`miter ${writeAngle(Math.abs(miter))} from square${miter < -1e-9 ? say`, leaning outward` : ''}, blade tilted ${writeAngle(tilt)}`;

/** The cut plane of a side's end in its own frame: shorter up the slope by the miter, longer outward by the tilt. */
const slopeOf = ({ miter, tilt }: SawSetting): Vec2 => ({
  x: -Math.tan(miter),
  y: Math.tan(tilt) / Math.cos(miter),
});

/** What follows from the sides' stock: how each is laid on the saw, and the lengths of its edges. */
const stockFacts = (
  { stock, lengths }: SlopedSides,
  named: readonly (readonly [string, number, SawSetting])[],
): SawSettings => {
  if (!stock) return { facts: [], tables: [] };
  const told = named.map(([name, , saw], i): SawSettings => {
    const length = lengths[i] ?? lengths[0];
    const slope = slopeOf(saw);
    const settings = sawSettings(stock, slope, named.length > 1 ? name.toLowerCase() : '');
    const [bottom, top] = stockSpan(stock, { x: 1, y: 0 });
    const [inside, outside] = stockSpan(stock, { x: 0, y: 1 });
    // The outside edge of the longer side, up or down the slope, is as long as given; each end backs off the others.
    // Which is up is the work's: a hopper's long edge is, a hood's is not.
    const [longest, shortest] = slope.x < 0 ? [bottom, top] : [top, bottom];
    const edge = (x: number, y: number): number =>
      (length ?? 0) + 2 * (slope.x * (x - longest) + slope.y * (y - outside));
    return {
      facts: [
        ...(length === undefined
          ? []
          : ([
              [say`${name}, long edge outside`, lengthOf(edge(longest, outside))],
              [say`${name}, long edge inside`, lengthOf(edge(longest, inside))],
              [say`${name}, short edge outside`, lengthOf(edge(shortest, outside))],
              [say`${name}, short edge inside`, lengthOf(edge(shortest, inside))],
            ] as const)),
        ...settings.facts,
      ],
      tables: settings.tables,
    };
  });
  return { facts: told.flatMap(({ facts }) => facts), tables: told.flatMap(({ tables }) => tables) };
};

/** Both saw settings, the check angle and cards for sloping sides. */
export const sidesSheet = (asked: SlopedSides, setting: Setting): Sheet => {
  const { plan, slope, otherSlope, sides, height, card } = asked;
  const corner = slopedCorner(plan, slope, otherSlope);
  const equal = Math.abs(slope - otherSlope) < 1e-12;
  const cards: readonly CardAngle[] = [
    { name: equal ? say`edge to cut` : say`side 1: edge to cut`, angle: quarter - corner.first.miter },
    ...(equal ? [] : [{ name: say`side 2: edge to cut`, angle: quarter - corner.second.miter }]),
    { name: say`table to blade`, angle: quarter - corner.first.tilt },
    { name: say`inside, face to face`, angle: corner.between },
  ];
  const named: readonly (readonly [string, number, SawSetting])[] = equal
    ? [[say`Every side`, slope, corner.first]]
    : [
        [say`Side 1`, slope, corner.first],
        [say`Side 2`, otherSlope, corner.second],
      ];
  const told = stockFacts(asked, named);
  const { angles, marks, cards: grounds } = layCards(cards, card);
  const [tilt, between] = angles.slice(-2);
  return plateSheet({
    name: 'compound',
    heading: say`Compound cut`,
    subject: [
      say`${sides === undefined ? say`Sides` : say`${sides} sides`} sloping ${equal ? writeAngle(slope) : say`${writeAngle(slope)} and ${writeAngle(otherSlope)}`} from level, corner ${writeAngle(plan)} seen from above`,
      ...named.map(([name, , saw]) => `${name}: ${cutWords(saw)}`),
      ...(asked.stock ? [describeStock(asked.stock, setting)] : []),
    ],
    marks,
    cards: grounds,
    fit: fitFlat({ corners: cards.map(({ angle }) => ({ angle })) }),
    steps: [
      CHECK_PRINT(),
      say`Cut the cards out. Set a sliding bevel, or the saw itself, by their straight edges.`,
      say`Miter: plate flat, level edge on the fence. The card “edge to cut” is the plate’s corner at that edge.`,
      say`Tilt: set the blade to the table by the card “table to blade”. The inside face of the plate comes out the smaller.`,
      say`Other end, other hand: turn the plate end for end, same face up, and swing the miter to the other side.`,
      say`Try two scraps first: the card “inside, face to face” must fit into their corner, square to the joint.`,
      ...(equal
        ? [
            say`No tilting saw: prop the plate on the fence at its own slope, blade upright, miter as for the corner seen from above.`,
          ]
        : []),
    ],
    facts: [
      ...named.flatMap(([name, , saw], i): readonly Fact[] => [
        [say`${name}, miter from square`, fromSquareOf(saw.miter, angles[i])],
        [say`${name}, blade tilt`, fromSquareOf(saw.tilt, tilt)],
      ]),
      [say`Inside angle, face to face`, angleShown(corner.between, between)],
      [say`Joint line, from level`, angleOf(corner.jointSlope, 3)],
      ...(equal ? ([[say`Propped, miter alone`, angleOf(quarter - plan / 2, 3)]] as const) : []),
      ...(height === undefined
        ? []
        : named.flatMap(([name, own, saw], i): readonly Fact[] => {
            const long = height / Math.sin(own);
            return [
              [say`${name}, length up the slope`, lengthOf(long)],
              [say`${name}, runs in at each end`, runsIn(long * Math.tan(saw.miter), long, angles[i])],
            ];
          })),
      ...told.facts,
    ],
    tables: [...told.tables, ...(equal ? [sidesTable(slope)] : [])],
    pictures: [
      sidesPicture(asked),
      sidePicture(corner.first, equal ? say`A side` : say`Side 1`),
      jointPicture(corner),
    ],
    cautions: [
      say`Saws count miter and tilt from square; the cards show what is left of 90°.`,
      say`Angles are for faces that meet edge to edge. Plates that meet on their inside corners need the miter alone.`,
    ],
  });
};

const sidesTable = (slope: number): Table => ({
  title: say`Sides at ${writeAngle(slope)} from level, by their number`,
  header: [say`Sides`, say`corner`, say`miter`, say`tilt`, say`face to face`],
  ifRoom: true,
  rows: [3, 4, 5, 6, 8, 10, 12].map((sides) => {
    const plan = Math.PI - (2 * Math.PI) / sides;
    const { first, between } = slopedCorner(plan, slope, slope);
    return [`${sides}`, ...[plan, first.miter, first.tilt, between].map((angle) => angleOf(angle))];
  }),
});
