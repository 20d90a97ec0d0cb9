import { textWidth } from '../drawing/lettering.ts';
import type { Mark } from '../drawing/model.ts';
import { FINE, letter, NARROW, QUARTER, ruleLine } from '../drawing/paths.ts';
import { DEGREE, modulo } from '../geometry/angle-units.ts';
import { add2, polar2, type Vec2 } from '../geometry/vector.ts';
import { onPaper } from './flat-marks.ts';
const steps = [1, 2, 5, 10, 15, 30, 45, 90] as const;

/** How a degree ring is divided. */
export interface DegreeRing {
  readonly centre: Vec2;
  /** Radius of the circle the ticks stand on. */
  readonly radius: number;
  /** Ticks and numbers stand outside the circle (1) or inside it (-1). */
  readonly side: 1 | -1;
  /** First and last degree, whole numbers; 0 and 360 for a whole ring, the last then not drawn twice. */
  readonly from?: number;
  readonly to?: number;
  /** The number written at a degree; left out, the degree itself from 0 to 359. */
  readonly label?: (degree: number) => string;
  /** Lengths of ticks at every tenth, fifth and single degree, mm. */
  readonly ticks?: readonly [long: number, middle: number, short: number];
  readonly height?: number;
}

/** The smallest whole step of degrees whose arc on `radius` is at least `length` mm. */
export const degreeStep = (radius: number, length: number): number =>
  steps.find((step) => step * DEGREE * radius >= length) ?? 90;

const wrap = (degree: number): number => modulo(degree, 360);

/**
 * Degree ticks along a circle, counter-clockwise from +x, on layer `station`, with upright numbers on white paper beside them: draw what they
 * must not hide after them. Ticks
 * are at least 0.9 mm apart, numbers as far as they need: a small ring has fewer of both.
 */
export const degreeRing = (ring: DegreeRing): Mark[] => {
  const { centre, radius, side, from = 0, to = 360, ticks = [5, 3.5, 2], height = 2.5 } = ring;
  const label = ring.label ?? ((degree: number) => `${wrap(degree)}`);
  const tickStep = degreeStep(radius, 0.9);
  const widest = textWidth('000', height, true);
  const tips = radius + side * (ticks[0] + 1);
  const numberStep = Math.max(10, degreeStep(Math.abs(tips + (side * height) / 2), widest + 1.6));
  const last = to - from >= 360 ? to - 1 : to;
  const marks: Mark[] = [];
  for (let degree = from; degree <= last; degree += 1) {
    const angle = degree * DEGREE;
    if (degree % tickStep === 0) {
      const [long, middle, short] = ticks;
      const length = degree % 10 === 0 || degree % 45 === 0 ? long : degree % 5 === 0 ? middle : short;
      const width = degree % 90 === 0 ? QUARTER : degree % 10 === 0 ? NARROW : FINE;
      const at = (r: number): Vec2 => add2(centre, polar2(r, angle));
      marks.push(ruleLine('station', at(radius), at(radius + side * length), width));
    }
    if (degree % numberStep !== 0) continue;
    const [text, bold] = [label(degree), degree % 90 === 0];
    // The number's near side stands clear of the ticks whichever way it lies.
    const room =
      (textWidth(text, height, bold) * Math.abs(Math.cos(angle)) + height * Math.abs(Math.sin(angle))) / 2;
    const at = add2(centre, polar2(tips + side * room, angle));
    marks.push(
      ...onPaper(letter('text', at, text, height, { align: 'centre', valign: 'middle', bold }), 0.3),
    );
  }
  return marks;
};
