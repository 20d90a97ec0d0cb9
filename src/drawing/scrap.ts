import { cubicAt, type Cubic } from '../geometry/cubic.ts';
import { add2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { textWidth } from './lettering.ts';
import type { Box, Mark } from './model.ts';
import { FINE, knockout, letter, ruleLine } from './paths.ts';

/** Short strokes on the scrap side of a cut line, clear of the line itself. `side` 1 is left of its direction. */
export const hatchScrap = (cut: readonly Cubic[], side: 1 | -1, spacing = 4, length = 3): Mark[] => {
  const marks: Mark[] = [];
  let next = spacing / 2;
  let run = 0;
  for (const cubic of cut) {
    let last = cubic.start;
    for (let i = 1; i <= 200; i++) {
      const p = cubicAt(cubic, i / 200);
      const step = sub2(p, last);
      const size = Math.hypot(step.x, step.y);
      while (size > 0 && run + size >= next) {
        const foot = add2(last, scale2(step, (next - run) / size));
        const outward = scale2(left2(unit2(step)), side);
        const lean = unit2(add2(outward, scale2(unit2(step), 0.8)));
        marks.push(
          ruleLine('dimension', add2(foot, scale2(lean, 0.9)), add2(foot, scale2(lean, 0.9 + length)), FINE),
        );
        next += spacing;
      }
      run += size;
      last = p;
    }
  }
  return marks;
};

/** The white paper behind a big word centred on `at`. */
export const bigWordBox = (at: Vec2, text: string, height: number): Box => {
  const half = textWidth(text, height, true) / 2 + 1;
  return {
    minX: at.x - half,
    maxX: at.x + half,
    minY: at.y - height * 0.5 - 1,
    maxY: at.y + height * 0.5 + 1,
  };
};

/** A big word with white paper behind it, centred on `at`. */
export const bigWord = (at: Vec2, text: string, height: number): Mark[] => [
  knockout('text', bigWordBox(at, text, height)),
  letter('text', at, text, height, { align: 'centre', valign: 'middle', bold: true }),
];
