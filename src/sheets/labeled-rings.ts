import { letteringBox } from '../drawing/lettering.ts';
import type { Box, Lettering, Mark } from '../drawing/model.ts';
import { letter } from '../drawing/paths.ts';
import { DEGREE } from '../geometry/angle-units.ts';
import { polar2 } from '../geometry/vector.ts';
import { findClear } from './flat-marks.ts';

/** A circle about the figure's center and what is written along it. */
export interface LabeledRing {
  readonly diameter: number;
  readonly text: string;
  /** The text stands outside the circle (1) or inside it (-1). */
  readonly side: 1 | -1;
}

/** Where along a ring a label is tried, degrees: on the upper half, where it reads upright, clear of the quarter lines. */
const places = [67.5, 112.5, 60, 120, 75, 105, 52.5, 127.5, 45, 135, 37.5, 142.5, 30, 150];

/** Boxes along two lines through the center, which labels keep clear of. */
export const axisBoxes = (reach: number): Box[] => [
  { minX: -reach, maxX: reach, minY: -0.3, maxY: 0.3 },
  { minX: -0.3, maxX: 0.3, minY: -reach, maxY: reach },
];

/**
 * Labels beside their circles, clear of the boxes taken, of each other and of the `circles` of other diameters. A ring with no room for its label is left
 * without: the sheet's words and tables name it.
 */
export const labelRings = (
  rings: readonly LabeledRing[],
  circles: readonly number[],
  taken: readonly Box[],
  height = 2.5,
): Mark[] => {
  const boxes = [...taken];
  const marks: Mark[] = [];
  for (const { diameter, text, side } of rings) {
    const radius = diameter / 2;
    const shortest = letteringBox(letter('text', { x: 0, y: 0 }, text, height));
    const half = (shortest.maxX - shortest.minX) / 2;
    if (radius < 1.4 * half + 3) continue;
    // The straight text must clear the curve under both its ends (outside) or its middle (inside).
    const sag = radius - Math.sqrt(radius * radius - half * half);
    const base = side === 1 ? radius + 1.2 : radius - 1.2 - height - sag;
    const candidates = places.map((place): Lettering =>
      letter('text', polar2(base, place * DEGREE), text, height, {
        align: 'centre',
        angle: (place - 90) * DEGREE,
      }),
    );
    const [nearest, furthest] = [base - 0.4, Math.hypot(base + height, half) + 0.4];
    const crossed = circles.some(
      (other) => Math.abs(other - diameter) > 1e-9 && other / 2 > nearest && other / 2 < furthest,
    );
    const placed = crossed ? undefined : findClear(candidates, boxes);
    if (!placed) continue;
    boxes.push(letteringBox(placed));
    marks.push(placed);
  }
  return marks;
};
