import type { Mark } from '../drawing/model.ts';
import { FINE, letter, NARROW, ruleLine } from '../drawing/paths.ts';
import { add2, left2, scale2, unit2, type Vec2 } from '../geometry/vector.ts';
import { uprightAngle } from './flat-marks.ts';

/** A rule drawn along an edge, read from its start. Sheet mm. */
export interface EdgeRule {
  readonly start: Vec2;
  readonly along: Vec2;
  readonly length: number;
  /** Ticks stand to the left (1) or right (-1) of the direction. */
  readonly side: 1 | -1;
  readonly units: 'in' | 'mm';
  /** Ticks and numbers are drawn only where this many millimetres are free beside the edge. */
  readonly room?: (at: number) => number;
}

/** Tick distance, ticks to a long one, long ones to a number, mm in one unit of what is written. */
const divisions = {
  mm: { step: 1, middle: 5, long: 10, unit: 1 },
  in: { step: 25.4 / 8, middle: 4, long: 8, unit: 25.4 },
} as const;
const NUMBER_AT = 7.2;

/** Room a tick with its number takes beside the edge, mm. */
export const RULE_DEPTH = 10;

/** Ticks at every millimetre or eighth of an inch on layer `station`, numbers at every 10 mm or inch. */
export const edgeRule = ({
  start,
  along,
  length,
  side,
  units,
  room = () => RULE_DEPTH,
}: EdgeRule): Mark[] => {
  const { step, middle, long, unit } = divisions[units];
  const direction = unit2(along);
  const across = scale2(left2(direction), side);
  const angle = uprightAngle(direction);
  const point = (at: number, off: number): Vec2 =>
    add2(start, add2(scale2(direction, at), scale2(across, off)));
  const count = Math.floor(length / step + 1e-9);
  return Array.from({ length: count }, (_, i) => i + 1).flatMap((i): Mark[] => {
    const at = i * step;
    const [isLong, isMiddle] = [i % long === 0, i % middle === 0];
    const reach = isLong ? 5 : isMiddle ? 3.5 : 2;
    const free = room(at);
    if (free < reach + 1) return [];
    return [
      ruleLine('station', point(at, 0), point(at, reach), isLong ? NARROW : FINE),
      ...(isLong && free >= RULE_DEPTH
        ? [
            letter('text', point(at, NUMBER_AT), String(Math.round(at / unit)), 2.5, {
              align: 'centre',
              valign: 'middle',
              angle,
            }),
          ]
        : []),
    ];
  });
};
