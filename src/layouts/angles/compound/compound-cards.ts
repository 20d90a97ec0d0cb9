import { markBounds } from '../../../drawing/extent.ts';
import type { Measured } from '../../../drawing/measured.ts';
import type { Box, Figure, Mark, Sheet } from '../../../drawing/model.ts';
import { growBox, unionBox } from '../../../drawing/paths.ts';
import { add2, polar2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import { angleCard } from '../../../sheets/angle-card.ts';
import { angleOfEnds, shown, taken } from '../../../sheets/measured.ts';
import { writeAngle } from '../../../units/angle.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';

/** An angle to set, and what it is set on. */
export interface CardAngle {
  readonly name: string;
  readonly angle: number;
}

const GAP = 8;

/** Cards as they lie, and in their order how the angle of each is measured. */
interface LaidCards extends Required<Pick<Sheet, 'marks' | 'cards'>> {
  readonly angles: readonly Measured[];
}

/** An angle given from square, where the drawing shows the rest of 90°. */
export const fromSquareOf = (angle: number, measured: Measured | undefined): Figure =>
  angleShown(angle, measured && taken(measured, -1, Math.PI / 2));

/** An angle as a saw is set to it, where a card shows it. */
export const angleShown = (angle: number, measured: Measured | undefined): Figure =>
  shown(angleOf(angle, 3), measured);

/**
 * Cards side by side, as many in a row as fit on 185 mm, rows downward, each with its ground and how its angle is measured. The
 * first card's corner is the origin.
 */
export const layCards = (cards: readonly CardAngle[], radius: number): LaidCards => {
  const marks: Mark[] = [];
  const grounds: Box[] = [];
  const angles: Measured[] = [];
  let [x, top] = [-Infinity, Infinity];
  let row: Mark[] = [];
  let rowLeft = 0;
  for (const { name, angle } of cards) {
    const measure = (corner: Vec2): void => {
      const ends = [0, angle].map((turn) => add2(corner, polar2(radius, turn))) as [Vec2, Vec2];
      angles.push(angleOfEnds([corner, ends[0]], [corner, ends[1]]));
    };
    const draw = (corner: { readonly x: number; readonly y: number }): Mark[] =>
      angleCard({ corner, angle, radius, name, value: writeAngle(angle) });
    const box = unionBox(draw(vec2(0, 0)).map(markBounds));
    if (marks.length === 0 && row.length === 0) {
      row = draw(vec2(0, 0));
      grounds.push(box);
      measure(vec2(0, 0));
      [rowLeft, x, top] = [box.minX, box.maxX + GAP, box.maxY];
      continue;
    }
    const wide = box.maxX - box.minX;
    if (x + wide - rowLeft > 185) {
      const low = Math.min(...row.map((mark) => markBounds(mark).minY));
      marks.push(...row);
      top = low - GAP;
      row = [];
      x = rowLeft;
    }
    // A later row hangs its cards from its top; the first stands on the origin's level.
    const y = marks.length === 0 ? 0 : top - box.maxY;
    const corner = vec2(x - box.minX, y);
    const own = draw(corner);
    measure(corner);
    row.push(...own);
    grounds.push(unionBox(own.map(markBounds)));
    x += wide + GAP;
  }
  return { angles, marks: [...marks, ...row], cards: grounds.map((box) => growBox(box, 0.5)) };
};

/** How far a cut over a length runs in from square, mm, which the card of the angle it makes with the edge shows. */
export const runsIn = (length: number, long: number, measured: Measured | undefined): Figure =>
  shown(
    lengthOf(length),
    measured?.kind === 'angle' ? { ...measured, give: 'cotangent', times: long } : undefined,
  );
