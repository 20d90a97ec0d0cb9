import type { SheetFigures } from '../../../drawing/fit-up.ts';
import type { Mark } from '../../../drawing/model.ts';
import { linearDimension } from '../../../sheets/flat-marks.ts';
import { centreLines } from '../../../sheets/flat-marks.ts';
import { drawTarget } from '../../../sheets/flat-marks.ts';
import { drawPunch } from '../../../sheets/flat-marks.ts';
import { drawOutline } from '../../../sheets/flat-marks.ts';
import { arcPath, FINE, letter, NARROW, polylinePath, ruleLine } from '../../../drawing/paths.ts';
import { riseAt } from '../../../geometry/chord.ts';
import { polar2, type Vec2 } from '../../../geometry/vector.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

/** An arc over its chord, mm. */
export interface Arc {
  readonly chord: number;
  /** More than the radius where the arc is more than half the circle. */
  readonly rise: number;
  readonly radius: number;
  /** Where a third mark stands on the arc, along from the chord's middle. */
  readonly third?: number;
}

/** The widest arc that is drawn whole, and the piece drawn of a wider one, mm. */
const WHOLE = 600;
const PIECE = 250;

/** Height of the cards above and below the arc. */
const CARD = 26;

const widthOf = ({ chord, rise, radius }: Arc): number => (rise > radius ? 2 * radius : chord);

/** Half the width of the piece to draw, or undefined for the whole arc. */
export const shownHalf = (arc: Arc, piece: number | undefined): number | undefined => {
  const width = widthOf(arc);
  if (piece === undefined) return width <= WHOLE ? undefined : PIECE / 2;
  return piece >= width ? undefined : piece / 2;
};

/** The arc's full-size lines; the origin is the chord's middle, the arc above it. */
export const chordMarks = (arc: Arc, half: number | undefined, setting: Setting): Mark[] =>
  half === undefined ? wholeArc(arc, setting) : pieceOfArc(arc, half, setting);

/** What the sheet of a chord must show: the arc and its chord with their punch marks, or the two cards of its middle. */
export const chordFigures = (
  { chord, rise, radius, third }: Arc,
  half: number | undefined,
): Partial<SheetFigures> => {
  const centre = { x: 0, y: rise - radius };
  const sweep = Math.asin(Math.min(1, (half ?? chord / 2) / radius));
  // More than half a circle where the chord lies below the center.
  const turn = half === undefined && rise > radius ? Math.PI - sweep : sweep;
  const arcs = [{ centre, radius, from: Math.PI / 2 - turn, sweep: 2 * turn }];
  if (half === undefined) {
    const ends = [-chord / 2, chord / 2].map((x) => ({ x, y: 0 }));
    const more = third === undefined ? [] : [{ x: third, y: riseAt(radius, rise, third) }];
    return { arcs, points: [{ x: 0, y: 0 }, ...ends, ...more] };
  }
  const end = riseAt(radius, rise, half);
  const [low, high] = [end - CARD, rise + CARD];
  const sides = [low, high].flatMap((y) => [
    { from: { x: -half, y }, to: { x: half, y } },
    ...[-half, half].map((x) => ({ from: { x, y: end }, to: { x, y } })),
  ]);
  return { arcs, lines: sides };
};

const wholeArc = (arc: Arc, setting: Setting): Mark[] => {
  const { chord, rise, radius } = arc;
  const centre: Vec2 = { x: 0, y: rise - radius };
  const start = Math.atan2(-centre.y, chord / 2);
  const path = arcPath(centre, radius, start, Math.PI - start);
  const ends: [Vec2, Vec2] = [
    { x: -chord / 2, y: 0 },
    { x: chord / 2, y: 0 },
  ];
  // A center farther off than this is not worth the paper: its place is given in figures.
  const shown = -centre.y <= Math.max(60, chord / 4);
  const low = Math.min(0, shown ? centre.y - 6 : 0);
  return [
    ruleLine('centre', { x: 0, y: low - 3 }, { x: 0, y: rise + 5 }, NARROW, 'long-dash-dot'),
    drawOutline({ ...path, segments: [...path.segments, { kind: 'line', to: path.start }], closed: true }),
    ...(shown ? [...centreLines(centre, 8, 0), ...drawTarget(centre)] : []),
    ...drawPunch({ x: 0, y: 0 }),
    ...ends.flatMap((end) => drawPunch(end)),
    ...(arc.third === undefined ? [] : drawPunch({ x: arc.third, y: riseAt(radius, rise, arc.third) })),
    ...linearDimension(ends[0], ends[1], low - 10, writeBoth(chord, setting)),
    ...(rise > 24 ? linearDimension({ x: 0, y: 0 }, { x: 0, y: rise }, 12, writeBoth(rise, setting)) : []),
    ...(rise > 12 ? [letter('text', { x: 3.5, y: 3 }, say`middle of the chord`, 2.5)] : []),
  ];
};

/** The middle of the arc as two cards with the arc between them: one for the inside of a ring, one for the outside. */
const pieceOfArc = ({ rise, radius }: Arc, half: number, setting: Setting): Mark[] => {
  const centre: Vec2 = { x: 0, y: rise - radius };
  const sweep = Math.asin(half / radius);
  const arc = arcPath(centre, radius, Math.PI / 2 - sweep, Math.PI / 2 + sweep);
  const end = riseAt(radius, rise, half);
  const [low, high] = [end - CARD, rise + CARD];
  const ticks = [-0.8, -0.4, 0.4, 0.8].map((share) => Math.PI / 2 + share * sweep);
  const text = say`radius ${writeBoth(radius, setting)}`;
  return [
    drawOutline({
      start: arc.start,
      segments: [
        ...arc.segments,
        { kind: 'line', to: { x: -half, y: low } },
        { kind: 'line', to: { x: half, y: low } },
        { kind: 'line', to: arc.start },
      ],
      closed: true,
    }),
    drawOutline(
      polylinePath([
        { x: half, y: end },
        { x: half, y: high },
        { x: -half, y: high },
        { x: -half, y: end },
      ]),
    ),
    ruleLine('centre', { x: 0, y: low }, { x: 0, y: high }, NARROW, 'long-dash-dot'),
    ...ticks.map((angle) => {
      const [a, b] = [polar2(radius + 4, angle), polar2(radius - 4, angle)];
      return ruleLine('station', { x: a.x, y: a.y + centre.y }, { x: b.x, y: b.y + centre.y }, FINE);
    }),
    letter('text', { x: 4, y: low + 10 }, text, 3.5, { bold: true }),
    letter('text', { x: 4, y: low + 5 }, say`try this card on the inside of a ring or hole`, 2.5),
    letter('text', { x: 4, y: high - 8 }, text, 3.5, { bold: true }),
    letter('text', { x: 4, y: high - 13 }, say`try this card on the outside of a disc`, 2.5),
  ];
};
