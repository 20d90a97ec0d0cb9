import { contourOutline } from '../geometry/contour-outline.ts';
import { halve } from '../geometry/halving.ts';
import { positionNear } from '../geometry/outline.ts';
import { add3, cross3, dot3, scale3, sub3, unit3, vec2, type Vec3 } from '../geometry/vector.ts';
import type { Solid } from '../joint/solid.ts';

type Prism = Extract<Solid, { kind: 'prism' }>;

/** A stretch of positions from `from` to `to`. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Places at which a stretch of girth is looked at. */
const LOOKS = 480;

/** The stretches of [from, to] where `isEven` fails, their ends found by halving. */
export const unevenStretches = (
  isEven: (s: number) => boolean,
  { from, to }: Stretch,
): readonly Stretch[] => {
  const at = (i: number): number => from + ((to - from) * i) / LOOKS;
  const even = Array.from({ length: LOOKS + 1 }, (_, i) => isEven(at(i)));
  const edge = (i: number): number => halve((s) => isEven(s) === even[i], at(i), at(i + 1), 50).middle;
  const stretches: Stretch[] = [];
  let begun = even[0] ? undefined : from;
  for (let i = 0; i < LOOKS; i++) {
    if (even[i] === even[i + 1]) continue;
    if (begun === undefined) begun = edge(i);
    else {
      stretches.push({ from: begun, to: edge(i) });
      begun = undefined;
    }
  }
  return begun === undefined ? stretches : [...stretches, { from: begun, to }];
};

/**
 * Stretches where a hole's wall turns around a corner of hollow stock. Square lines from both sides of a corner would cross each
 * other; a torch turns from the one to the other as it comes around. It begins to turn as far before the stretch where square
 * lines cross as half of that stretch is long.
 */
export const turningStretches = (uneven: readonly Stretch[]): readonly Stretch[] =>
  uneven.map(({ from, to }, i) => {
    const half = (to - from) / 2;
    const [before, after] = [uneven[i - 1]?.to ?? -Infinity, uneven[i + 1]?.from ?? Infinity];
    return {
      from: from - Math.min(half, (from - before) / 2),
      to: to + Math.min(half, (after - to) / 2),
    };
  });

/**
 * The inside of hollow stock opposite a turning stretch: even parts of the outside's length lie over even parts of the inside's.
 * @param square the square line's end on the inside at the two ends of the stretch
 * @returns the inside's place for a position and the outside's place there
 */
export const insideAround = (
  inside: Prism,
  { from, to }: Stretch,
  square: (s: number) => Vec3,
): ((s: number, outer: Vec3) => Vec3) => {
  const { through, across } = inside;
  const along = unit3(inside.along);
  const up = cross3(along, across);
  const contour = contourOutline({ outside: inside.section.outside, thickness: 1 });
  const positionAt = (p: Vec3): number => {
    const off = sub3(p, through);
    return positionNear(contour, vec2(dot3(off, across), dot3(off, up)));
  };
  const [begin, end] = [positionAt(square(from)), positionAt(square(to))];
  const length = (end - begin + contour.girth) % contour.girth;
  return (s, outer) => {
    const { x, y } = contour.at(begin + (length * (s - from)) / (to - from), 0);
    const level = dot3(sub3(outer, through), along);
    return add3(add3(through, scale3(along, level)), add3(scale3(across, x), scale3(up, y)));
  };
};
