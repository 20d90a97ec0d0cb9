import type { Mark, Picture, Table } from '../drawing/model.ts';
import { arrowhead, FINE, polylinePath, WIDE } from '../drawing/paths.ts';
import { once } from '../drawing/worded.ts';
import { makePicture, viewDimension, viewPath, viewRule, viewText } from '../drawing/view.ts';
import { rackOfDifference } from '../geometry/right-angle.ts';
import { add2, scale2, sub2, vec2, type Vec2 } from '../geometry/vector.ts';
import { angleOf, fineOf } from '../units/quantity.ts';
import type { Setting } from '../units/setting.ts';
import { say } from '../words/say.ts';

/** What every sheet says that squares a frame by its diagonals. */

const differences = {
  mm: [1, 2, 3, 5, 10, 20],
  in: [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1].map((inches) => inches * 25.4),
} as const;

/** Difference of diagonals to out of square: the corner's angle, square over the long side, slide along the long sides. */
export const differenceTable = (length: number, width: number, { units }: Setting): Table => ({
  title: say`When the diagonals differ (sides as given)`,
  header: [say`differ by`, say`corners off`, say`out of square at the far end`, say`slide`],
  rows: differences[units]
    .filter((difference) => difference <= Math.min(length, width) / 4)
    .map((difference) => {
      const rack = rackOfDifference(length, width, difference);
      return [
        once(fineOf(difference, 0)),
        angleOf(rack.lean, 3),
        fineOf(rack.overLength),
        fineOf(rack.overWidth),
      ];
    }),
});

/** How a frame is squared by its diagonals, in the order of work. */
export const diagonalSteps = (diagonal: string): readonly string[] => [
  say`Tape all four sides first. Opposite sides must be equal: only then do equal diagonals mean square corners.`,
  say`Tape both diagonals, same edge to same edge, same pull. Both ${diagonal}: square.`,
  say`They differ: the corners at the ends of the longer one are sharper than 90°. Hold one long side, slide the other along by the table until they are equal, tape both again, then tack.`,
];

/** A racked frame seen from above: which diagonal is long, which corners are sharp, which way to slide. */
export const rackPicture = (length: number, width: number, text: string, firstLonger = true): Picture => {
  const ratio = Math.min(0.75, Math.max(0.35, Math.min(length, width) / Math.max(length, width)));
  const [l, w] = [40, 40 * ratio];
  const lean = firstLonger ? 6 : -6;
  const [a, b, c, d] = [vec2(0, 0), vec2(l, 0), vec2(l + lean, w), vec2(lean, w)] as const;
  const corner = (at: Vec2, name: string): Mark[] => viewText(at, name, 'centre', true);
  const toward = vec2(-Math.sign(lean), 0);
  const middle = vec2(l / 2 + lean, w + 4);
  const [tail, tip] = [sub2(middle, scale2(toward, 7)), add2(middle, scale2(toward, 7))];
  const [long, sharp] = firstLonger ? ['A–C', say`A and C`] : ['B–D', say`B and D`];
  const marks: Mark[] = [
    viewPath(polylinePath([a, b, vec2(l, w), vec2(0, w)], true), FINE, 'dashed'),
    viewPath(polylinePath([a, b, c, d], true)),
    viewRule(a, c, firstLonger ? WIDE : FINE),
    viewRule(b, d, firstLonger ? FINE : WIDE),
    ...corner(vec2(-3, -1.5), 'A'),
    ...corner(vec2(l + 3, -1.5), 'B'),
    ...corner(vec2(c.x + 3, w + 1.5), 'C'),
    ...corner(vec2(d.x - 3, w + 1.5), 'D'),
    viewRule(tail, tip),
    arrowhead('dimension', tip, toward),
    ...viewText(vec2(middle.x, middle.y + 3.6), say`slide`),
    ...viewDimension(b, a, 4.5, text),
    ...viewText(vec2(l / 2, -13.5), say`${long} longer: ${sharp} are sharp`),
  ];
  return makePicture(say`Out of square, seen from above`, marks);
};
