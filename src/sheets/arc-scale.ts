import { keepClear } from '../drawing/clear.ts';
import { textWidth } from '../drawing/lettering.ts';
import type { Lettering, Mark } from '../drawing/model.ts';
import { FINE, letter, NARROW, QUARTER, ruleLine } from '../drawing/paths.ts';
import { lastOf } from '../lists.ts';
import { add2, polar2, type Vec2 } from '../geometry/vector.ts';

/** A scale of any quantity along a circle. Sheet mm and radians, counter-clockwise from +x. */
export interface ArcScale {
  readonly centre: Vec2;
  /** Radius of the circle the ticks stand on. */
  readonly radius: number;
  /** Ticks and numbers stand outside the circle (1) or inside it (-1). */
  readonly side: 1 | -1;
  /** Least and greatest value drawn. */
  readonly from: number;
  readonly to: number;
  /** Where a value lies on the circle; it must rise or fall steadily. */
  readonly angleOf: (value: number) => number;
  /** Possible tick distances in the scale's unit, fine to coarse, each a whole part of the next. */
  readonly steps: readonly [number, ...number[]];
  /** Possible distances of numbers, fine to coarse; each a multiple of a step. */
  readonly numberSteps: readonly [number, ...number[]];
  readonly write: (value: number) => string;
  /** The direction numbers read in at an angle on the circle; level where left out. */
  readonly reading?: (angle: number) => number;
  readonly height?: number;
  /** True where the tick's number is left out. */
  readonly isBare?: (value: number) => boolean;
  /** True where a number shall be bold. */
  readonly isMain?: (value: number) => boolean;
}

/** Lengths of ticks that bear a number, that stand at half of it, and of all others, mm. */
const TICKS = { long: 5, middle: 3.5, short: 2 } as const;
/** Ticks nearer than this run together, mm. */
export const NEAREST = 0.85;

/** Radial room a scale takes with its numbers, mm. */
export const scaleDepth = (height = 2.5): number => TICKS.long + 1 + 1.6 * height;

/** Distance from a scale's circle to the middle of its numbers, mm. */
export const numberOffset = (height = 2.5): number => TICKS.long + 1 + height * 0.8;

const isMultiple = (value: number, step: number): boolean =>
  Math.abs(value / step - Math.round(value / step)) < 1e-6;

/**
 * Ticks on layer `station` with numbers beside them. Where the scale closes up, ticks and numbers thin out to the next
 * coarser step, so that ticks stay 0.85 mm apart and numbers clear of each other.
 */
export const arcScale = (scale: ArcScale): Mark[] => {
  const { centre, radius, side, from, to, angleOf, steps, numberSteps, write, height = 2.5 } = scale;
  const numberRadius = radius + side * numberOffset(height);
  /** Distance on `r` from a value to the neighbor one step nearer to the scale's close end. */
  const spacing = (value: number, step: number, r: number): number =>
    Math.min(
      ...[value - step, value + step]
        .filter((other) => other >= from - 1e-9 && other <= to + 1e-9)
        .map((other) => Math.abs(angleOf(other) - angleOf(value)) * r),
    );
  const coarsest = <T>(list: readonly [T, ...T[]]): T => lastOf(list);
  const tickStep = (value: number): number =>
    steps.find((step) => spacing(value, step, radius) >= NEAREST) ?? coarsest(steps);
  const widest = Math.max(...[from, to].map((value) => textWidth(write(value), height, true)));
  const numberStep = (value: number): number =>
    numberSteps.find((step) => spacing(value, step, Math.min(radius, numberRadius)) >= widest + 1.4) ??
    coarsest(numberSteps);
  const finest = steps[0];
  const first = Math.ceil(from / finest - 1e-9);
  const last = Math.floor(to / finest + 1e-9);
  const marks = Array.from({ length: last - first + 1 }, (_, i) => (first + i) * finest).flatMap(
    (value): Mark[] => {
      const step = numberStep(value);
      const numbered = isMultiple(value, step);
      if (!numbered && !isMultiple(value, tickStep(value))) return [];
      const angle = angleOf(value);
      const at = (r: number): Vec2 => add2(centre, polar2(r, angle));
      const length = numbered ? TICKS.long : isMultiple(value, step / 2) ? TICKS.middle : TICKS.short;
      const main = scale.isMain?.(value) ?? false;
      return [
        ruleLine(
          'station',
          at(radius),
          at(radius + side * length),
          main ? QUARTER : numbered ? NARROW : FINE,
        ),
        ...(numbered && scale.isBare?.(value) !== true
          ? [
              letter('text', at(numberRadius), write(value), height, {
                align: 'centre',
                valign: 'middle',
                angle: scale.reading?.(angle) ?? 0,
                bold: main,
              }),
            ]
          : []),
      ];
    },
  );
  const coarseness = ({ text }: Lettering): number =>
    numberSteps.filter((step) => isMultiple(Number.parseFloat(text), step)).length;
  // Where numbers thin out, one of the coarser step may meet one of the finer: the coarser stays.
  const numbers = marks.flatMap((mark) => (mark.kind === 'text' ? [mark] : []));
  const clear = keepClear(
    [...numbers].sort((a, b) => coarseness(b) - coarseness(a)),
    0.4,
  );
  return [...marks.filter((mark) => mark.kind !== 'text'), ...clear];
};
