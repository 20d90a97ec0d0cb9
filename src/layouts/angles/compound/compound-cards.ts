import { angleCard } from '../../../sheets/angle-card.ts';
import { markBounds } from '../../../drawing/extent.ts';
import type { Box, Mark, Sheet } from '../../../drawing/model.ts';
import { growBox, unionBox } from '../../../drawing/shape.ts';
import { vec2 } from '../../../geometry/vector.ts';
import { writeDegrees } from '../../../sheets/squaring.ts';

/** An angle to set, and what it is set on. */
export interface CardAngle {
  readonly name: string;
  readonly angle: number;
}

const GAP = 8;

/**
 * Cards side by side, as many in a row as fit on 185 mm, rows downward, each with its ground. The first card's corner is the
 * origin.
 */
export const layCards = (
  cards: readonly CardAngle[],
  radius: number,
): Required<Pick<Sheet, 'marks' | 'cards'>> => {
  const marks: Mark[] = [];
  const grounds: Box[] = [];
  let [x, top] = [-Infinity, Infinity];
  let row: Mark[] = [];
  let rowLeft = 0;
  for (const { name, angle } of cards) {
    const draw = (corner: { readonly x: number; readonly y: number }): Mark[] =>
      angleCard({ corner, angle, radius, name, value: writeDegrees(angle) });
    const box = unionBox(draw(vec2(0, 0)).map(markBounds));
    if (marks.length === 0 && row.length === 0) {
      row = draw(vec2(0, 0));
      grounds.push(box);
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
    const own = draw(vec2(x - box.minX, y));
    row.push(...own);
    grounds.push(unionBox(own.map(markBounds)));
    x += wide + GAP;
  }
  return { marks: [...marks, ...row], cards: grounds.map((box) => growBox(box, 0.5)) };
};
