import { textWidth } from '../drawing/lettering.ts';
import type { Mark } from '../drawing/model.ts';
import { FINE, letter, NARROW, QUARTER, ruleLine } from '../drawing/paths.ts';
import { add2, left2, polar2, scale2, type Vec2 } from '../geometry/vector.ts';
import { uprightAngle } from './flat-marks.ts';

/** A rule printed along an edge. */
export interface ScaleEdge {
  /** Where it reads zero. */
  readonly zero: Vec2;
  /** Which way it runs, radians. */
  readonly along: number;
  readonly length: number;
  /** Its ticks stand to the left of that direction (1) or to the right (-1). */
  readonly side: 1 | -1;
  readonly units: 'in' | 'mm';
  /** Numbers from here on only, mm; left out, from one on. */
  readonly from?: number;
  /** Lines across the rule, mm along it: a number that one would run through is left out. */
  readonly crossed?: readonly number[];
}

/** Tick lengths at wholes, halves and less, mm. */
const lengths = [6, 4, 2.2, 1.4] as const;

/** The rule's ticks on layer `station` and its numbers, in mm (every 10) or inches (every 1, parts to 1/16). */
export const drawScaleEdge = ({
  zero,
  along,
  length,
  side,
  units,
  from = 0,
  crossed = [],
}: ScaleEdge): Mark[] => {
  const pitch = units === 'in' ? 25.4 / 16 : 1;
  const rank = (i: number): 0 | 1 | 2 | 3 =>
    units === 'in'
      ? i % 16 === 0
        ? 0
        : i % 8 === 0
          ? 1
          : i % 4 === 0
            ? 2
            : 3
      : i % 10 === 0
        ? 0
        : i % 5 === 0
          ? 1
          : 3;
  const direction = polar2(1, along);
  const inward = scale2(left2(direction), side);
  const angle = uprightAngle(direction);
  const marks: Mark[] = [];
  for (let i = 0; i * pitch <= length + 1e-9; i += 1) {
    const foot = add2(zero, scale2(direction, i * pitch));
    const level = rank(i);
    const width = level === 0 ? QUARTER : level === 1 ? NARROW : FINE;
    marks.push(ruleLine('station', foot, add2(foot, scale2(inward, lengths[level])), width));
    const text = units === 'in' ? `${i / 16}` : `${i}`;
    const half = textWidth(text, 2.5, false) / 2;
    const fits =
      i * pitch + half <= length && crossed.every((place) => Math.abs(place - i * pitch) > half + 0.4);
    if (level !== 0 || i === 0 || i * pitch < from - 1e-9 || !fits) continue;
    marks.push(
      letter('text', add2(foot, scale2(inward, lengths[0] + 2.2)), text, 2.5, {
        align: 'centre',
        valign: 'middle',
        angle,
      }),
    );
  }
  return marks;
};
