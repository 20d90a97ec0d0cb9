import { textWidth } from '../drawing/lettering.ts';
import type { Mark } from '../drawing/model.ts';
import { letter, NARROW, ruleLine } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';

const inch = 25.4;
/** Length of the longer check, 4 in, mm. */
export const checkLength = 4 * inch;
/** What a pair of checks takes across, mm. */
export const checkBreadth = 6.6;

/** Half the space between the two lines, and how far ticks stand out from them. */
const half = 0.6;
const ticks = { end: 2.2, minor: 1.2 } as const;
const lettering = 2.5;
/** From the end of the lines to their names. */
const nameGap = 1.2;

/** One side of the pair: its length, its divisions, its name. */
const sides = [
  { length: 100, every: 10, mid: 50, label: '100 mm', side: 1 },
  { length: checkLength, every: inch / 2, mid: 2 * inch, label: '4 in', side: -1 },
] as const;

/** A pair of checks with the names at its end, along. */
export const namedLength =
  checkLength + nameGap + Math.max(...sides.map(({ label }) => textWidth(label, lettering, false))) + 0.2;

/**
 * The pair of scale checks along one axis, like the two edges of a steel rule: 100 mm and 4 in, each one straight
 * stroke exactly that long, ticks outward, their names at the end. `zero` is the start of the pair's middle line.
 */
export const drawScaleCheck = (zero: Vec2, axis: 'x' | 'y'): Mark[] => {
  const at = (along: number, out: number): Vec2 =>
    axis === 'x' ? { x: zero.x + along, y: zero.y + out } : { x: zero.x - out, y: zero.y + along };
  return sides.flatMap(({ length, every, mid, label, side }) => {
    const count = Math.round(length / every);
    const divisions = Array.from({ length: count + 1 }, (_, i) => {
      const along = i === count ? length : i * every;
      const isMain = i === 0 || i === count || Math.abs(along - mid) < 1e-6;
      const reach = side * (half + (isMain ? ticks.end : ticks.minor));
      return ruleLine('scale', at(along, side * half), at(along, reach), NARROW);
    });
    const base = side > 0 ? 0.5 : -0.5 - lettering;
    const name = letter('scale', at(checkLength + nameGap, base), label, lettering, {
      angle: axis === 'x' ? 0 : Math.PI / 2,
    });
    return [ruleLine('scale', at(0, side * half), at(length, side * half), NARROW), ...divisions, name];
  });
};

/** The check across a narrow roll: 50 mm and 2 in. */
export const shortCheck = { length: 2 * inch } as const;

/** The pair of checks upright, 50 mm at the left and 2 in at the right, their names on either side. */
export const drawShortCheck = (zero: Vec2): { readonly width: number; readonly marks: Mark[] } => {
  const names = [
    { length: 50, every: 10, label: '50 mm', side: -1 },
    { length: shortCheck.length, every: inch / 2, label: '2 in', side: 1 },
  ] as const;
  const middle = zero.x + 4;
  const marks = names.flatMap(({ length, every, label, side }) => {
    const x = middle + side * half;
    const count = Math.round(length / every);
    const divisions = Array.from({ length: count + 1 }, (_, i) => {
      const y = zero.y + (i === count ? length : i * every);
      const reach = i === 0 || i === count ? ticks.end : ticks.minor;
      return ruleLine('scale', { x, y }, { x: middle + side * (half + reach), y }, NARROW);
    });
    const name = letter(
      'scale',
      { x: middle + side * (half + ticks.minor + 0.7) + (side > 0 ? lettering : 0), y: zero.y + every * 1.5 },
      label,
      lettering,
      { angle: Math.PI / 2 },
    );
    return [ruleLine('scale', { x, y: zero.y }, { x, y: zero.y + length }, NARROW), ...divisions, name];
  });
  return { width: 10, marks };
};
