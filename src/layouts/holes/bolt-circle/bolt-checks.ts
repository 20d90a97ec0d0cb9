import { circlePattern, radialReach, type Hole } from '../../../geometry/hole-pattern.ts';
import { jointError, requestError } from '../../../issue.ts';
import type { Flange } from '../../../stock/flange.ts';
import { checkWebs } from '../../../sheets/holes.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';

/** Holes on a circle and the outlines round them, mm and radians. */
export interface BoltCircle {
  readonly flange?: Flange;
  readonly count: number;
  /** Diameter of the bolt circle. */
  readonly circle: number;
  readonly hole: number;
  readonly straddles: boolean;
  /** Angle of the first hole, counter-clockwise from +x. */
  readonly first: number;
  readonly slot?: { readonly length: number; readonly alongCircle: boolean };
  readonly outside?: number;
  readonly bore?: number;
  /** Diameters of the gasket's outlines. */
  readonly gasket: readonly number[];
}

/** Throws where the holes overlap, leave the plate, or an outline runs into them or into another. */
export const checkBoltCircle = (bolts: BoltCircle, setting: Setting): void => {
  const { count, circle, hole, slot, outside, bore, gasket } = bolts;
  const both = (length: number): string => writeBoth(length, setting);
  if (slot && slot.length < hole)
    throw requestError(
      'slot',
      'slot-too-short',
      `the slot, ${both(slot.length)} long, is shorter than it is wide`,
      `a slot is longer than its hole, ${both(hole)}`,
    );
  const holes = circlePattern(count, circle, 0).map((at, i): Hole => {
    const angle = (2 * Math.PI * i) / count;
    const along = slot?.alongCircle ? angle + Math.PI / 2 : angle;
    return { at, diameter: hole, slot: slot && { length: slot.length, along } };
  });
  const chord = circle * Math.sin(Math.PI / Math.max(2, count));
  checkWebs(
    holes,
    slot ? 'slot' : 'hole',
    `hole to hole is ${both(chord)}: make them smaller or fewer, or the circle larger`,
    setting,
  );
  const { near, far } = radialReach(holes[0] as Hole);
  if (outside !== undefined && far >= outside / 2)
    throw jointError(
      'outside',
      'holes-leave-plate',
      `the holes reach out to ⌀ ${both(2 * far)}, over the rim at ⌀ ${both(outside)}`,
      `the outside must be more than ${both(2 * far)}`,
    );
  if (bore !== undefined && near <= bore / 2)
    throw jointError(
      'bore',
      'bore-meets-holes',
      `the bore ⌀ ${both(bore)} runs into the holes`,
      `the bore must be less than ${both(2 * near)}`,
    );
  const [gasketOutside, gasketInside] = gasket;
  if (gasketOutside !== undefined && gasketInside !== undefined && gasketInside >= gasketOutside)
    throw jointError(
      'gasket',
      'gasket-inside-out',
      `the gasket’s inside ⌀ ${both(gasketInside)} is not smaller than its outside ⌀ ${both(gasketOutside)}`,
      'give outside,inside',
    );
  for (const diameter of gasket) {
    if (outside !== undefined && diameter > outside)
      throw jointError(
        'gasket',
        'gasket-leaves-plate',
        `the gasket ⌀ ${both(diameter)} is larger than the plate ⌀ ${both(outside)}`,
        `its outside is at most ${both(outside)}`,
      );
    if (diameter / 2 > near && diameter / 2 < far)
      throw jointError(
        'gasket',
        'gasket-cuts-holes',
        `the gasket’s outline ⌀ ${both(diameter)} runs through the holes`,
        `inside the holes it is at most ${both(2 * near)}, full face at least ${both(2 * far)}`,
      );
  }
};
