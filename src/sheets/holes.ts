import { markBounds } from '../drawing/extent.ts';
import type { SheetFit } from '../drawing/fit-up.ts';
import { letteringBox, textWidth } from '../drawing/lettering.ts';
import type { Measured } from '../drawing/measured.ts';
import type { Box, Lettering, Mark, Table } from '../drawing/model.ts';
import { growBox, letter } from '../drawing/paths.ts';
import { lengthField } from '../fields/fields.ts';
import type { Contour } from '../geometry/contour.ts';
import { type Hole, holeEnds, narrowestWeb } from '../geometry/hole-pattern.ts';
import { add2, polar2, type Vec2 } from '../geometry/vector.ts';
import { jointError } from '../issue.ts';
import { formatLength } from '../units/format.ts';
import type { Setting } from '../units/setting.ts';
import { lengthOf } from '../units/quantity.ts';
import { writeBoth } from '../units/writing.ts';
import { contourFigures, fitFlat } from './fit-record.ts';
import { drawHole, drawOutline, drawPunch, onPaper, placeClear, slotPath } from './flat-marks.ts';
import { shown } from './measured.ts';
import { say } from '../words/say.ts';

/** Parts of every sheet with holes: their inputs, how they are drawn and checked, and how they are taped. */

/** Start mark of the tape, as inputs ask for it. */
export const tapeStartField = lengthField(
  'mark of the tape held on the first hole’s edge and taken off again; left out, 1 in or 100 mm',
  { example: '1in', max: 1000, optional: true },
);

/** The mark of the tape that is held on the first edge: as asked for, else 1 in or 100 mm. */
export const tapeStart = (asked: number | undefined, { units }: Setting): number =>
  asked ?? (units === 'in' ? 25.4 : 100);

/** A hole's or slot's outline on layer `cut`. */
export const holeOutline = (hole: Hole): Mark =>
  hole.slot
    ? drawOutline(slotPath(hole.at, hole.diameter, hole.slot.length, hole.slot.along))
    : drawHole(hole.at, hole.diameter);

/** Where a hole's number may stand: around the hole, toward the figure's center first. */
const numberPlaces = (hole: Hole, text: string, bold: boolean): [Lettering, ...Lettering[]] => {
  const height = bold ? 3.5 : 2.5;
  const box = markBounds(holeOutline(hole));
  const inward = Math.hypot(hole.at.x, hole.at.y) > 1e-6 ? Math.atan2(-hole.at.y, -hole.at.x) : -Math.PI / 4;
  const [halfW, halfH] = [
    Math.max(3.2, (box.maxX - box.minX) / 2 + 0.8) + textWidth(text, height, bold) / 2 + 0.4,
    Math.max(3.2, (box.maxY - box.minY) / 2 + 0.8) + height / 2 + 0.4,
  ];
  const at = (turn: number): Vec2 => {
    const d = polar2(1, inward + turn);
    // On the rounded box about hole and number, so that it clears slots as well.
    const k = 1 / Math.hypot(d.x / halfW, d.y / halfH);
    return add2(hole.at, { x: d.x * k, y: d.y * k });
  };
  const places = [0, 0.5, -0.5, 0.9, -0.9, 1.3, -1.3, Math.PI, Math.PI - 0.5, Math.PI + 0.5, 1.8, -1.8].map(
    (turn) => letter('text', at(turn), text, height, { align: 'centre', valign: 'middle', bold }),
  );
  return places as [Lettering, ...Lettering[]];
};

/**
 * Holes with their punch crosses and numbers, the first in bold. `taken` is what the numbers keep clear of beside the
 * holes themselves.
 */
export const drawHoles = (holes: readonly Hole[], taken: readonly Box[] = [], numbered = true): Mark[] => {
  const outlines = holes.map(holeOutline);
  const boxes = [...taken, ...outlines.map((mark) => growBox(markBounds(mark), -0.3))];
  const numbers = (numbered ? holes : []).map((hole, i) => {
    const placed = placeClear(numberPlaces(hole, `${i + 1}`, i === 0), boxes, 0.3);
    boxes.push(letteringBox(placed));
    return placed;
  });
  return [...outlines, ...numbers.flatMap((number) => onPaper(number, 0.4)), ...holes.flatMap(punchHole)];
};

const isSlot = ({ slot, diameter }: Hole): boolean => slot !== undefined && slot.length > diameter;

/** Crosses on a hole's center, and on the centers of a slot's round ends, where its drill goes. */
const punchHole = (hole: Hole): Mark[] => {
  const reach = Math.min(2.5, Math.max(1.2, hole.diameter / 3));
  const ends = isSlot(hole) ? holeEnds(hole) : [];
  return [...drawPunch(hole.at, reach), ...ends.flatMap((end) => drawPunch(end, reach / 2))];
};

/** What a sheet with holes carries for those who prove the finished file; `rings` are diameters about the origin, `outline` the part's own. */
export const fitHoles = (
  holes: readonly Hole[],
  rings: readonly number[] = [],
  outline: Contour = [],
): SheetFit =>
  fitFlat({
    ...contourFigures(outline),
    circles: [
      ...rings.map((diameter) => ({ centre: { x: 0, y: 0 }, radius: diameter / 2 })),
      ...holes
        .filter((hole) => !isSlot(hole))
        .map(({ at, diameter }) => ({ centre: at, radius: diameter / 2 })),
    ],
    points: holes.flatMap((hole) => [hole.at, ...(isSlot(hole) ? holeEnds(hole) : [])]),
  });

/** Throws a `joint` UserError where two holes of a pattern overlap or touch; `limit` says what would be right. */
export const checkWebs = (holes: readonly Hole[], path: string, limit: string, setting: Setting): void => {
  const least = narrowestWeb(holes);
  if (!least || least.web > 1e-6) return;
  const by = least.web > -1e-6 ? say`touch` : say`overlap by ${writeBoth(-least.web, setting)}`;
  throw jointError(path, 'holes-overlap', say`holes ${least.a + 1} and ${least.b + 1} ${by}`, limit);
};

/** The tape's reading on the same edge of the next hole, when `start` lies on the first one's. */
export const tapeReading = (apart: number, start: number, { units, denominator }: Setting): string =>
  formatLength(apart + start, { units, denominator });

/** The start mark as a tape shows it: `1″`, `100 mm`. */
const tapeMark = (start: number, setting: Setting): string =>
  tapeReading(0, start, setting).replace(/\.0(?= mm$)/, '');

/** A distance from hole to hole. */
export interface HoleDistance {
  readonly label: string;
  readonly apart: number;
  readonly measured?: Measured;
}

/** Distances as a tape reads them: center to center, which is edge to same edge, and the reading from the start mark. */
export const tapeTable = (
  title: string,
  first: string,
  distances: readonly HoleDistance[],
  start: number,
  setting: Setting,
): Table => ({
  title,
  header: [first, say`apart`, say`tape from ${tapeMark(start, setting)}`],
  rows: distances.map(({ label, apart, measured }) => [
    label,
    shown(lengthOf(apart), measured),
    tapeReading(apart, start, setting),
  ]),
});

/** How a slot is cut, where holes are slots. */
export const slotSteps = (isSlotted: boolean): readonly string[] =>
  isSlotted ? [say`A slot: drill its two ends on the small crosses first, then cut out between them.`] : [];

/** How holes are taped without guessing at a center, in words. */
export const tapeSteps = (start: number, setting: Setting): readonly string[] => {
  const mark = tapeMark(start, setting);
  return [
    say`Check with a tape: hold its ${mark} mark on the left edge of one hole, read at the left edge of the other, subtract ${mark}. For equal holes that is center to center.`,
    say`Unequal holes: tape from near edge to near edge and from far edge to far edge; half the sum is center to center.`,
  ];
};
