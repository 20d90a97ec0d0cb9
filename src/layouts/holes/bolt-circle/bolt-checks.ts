import { mustBeAtLeast, mustBeAtMost, mustBeLess, mustBeMore } from '../../../fields/among.ts';
import { circlePattern, type Hole, radialReach } from '../../../geometry/hole-pattern.ts';
import { itemAt } from '../../../lists.ts';
import { jointError } from '../../../issue.ts';
import { checkWebs } from '../../../sheets/holes.ts';
import type { Flange } from '../../../stock/flange.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

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
  mustBeAtLeast('slot', slot?.length, hole, say`over its ends is less than it is wide`, setting);
  const holes = circlePattern(count, circle, 0).map((at, i): Hole => {
    const angle = (2 * Math.PI * i) / count;
    const along = slot?.alongCircle ? angle + Math.PI / 2 : angle;
    return { at, diameter: hole, slot: slot && { length: slot.length, along } };
  });
  const chord = circle * Math.sin(Math.PI / Math.max(2, count));
  checkWebs(
    holes,
    slot ? 'slot' : 'hole',
    say`hole to hole is ${both(chord)}: make them smaller or fewer, or the circle larger`,
    setting,
  );
  const { near, far } = radialReach(itemAt(holes, 0));
  mustBeMore('outside', outside, 2 * far, say`leaves no rim around the holes`, setting);
  mustBeLess('bore', bore, 2 * near, say`runs into the holes`, setting);
  const [gasketOutside, gasketInside] = gasket;
  mustBeLess(
    'gasket',
    gasketInside,
    gasketOutside,
    say`inside is not smaller than its outside: give outside,inside`,
    setting,
  );
  for (const diameter of gasket) {
    mustBeAtMost('gasket', diameter, outside, say`is larger than the plate`, setting);
    if (diameter / 2 > near && diameter / 2 < far)
      throw jointError(
        'gasket',
        'gasket-cuts-holes',
        say`the gasket’s outline ⌀ ${both(diameter)} runs through the holes`,
        say`inside the holes it is at most ${both(2 * near)}, full face at least ${both(2 * far)}`,
      );
  }
};
