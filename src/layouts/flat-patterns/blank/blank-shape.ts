import {
  bendAllowance,
  developBlank,
  setback,
  type Bend,
  type BendRule,
  type BlankPart,
  type Measure,
} from '../../../geometry/bend-allowance.ts';
import type { Hole } from '../../../geometry/hole-pattern.ts';
import { itemAt, lastOf } from '../../../lists.ts';
import { vec2 } from '../../../geometry/vector.ts';
import { jointError, requestError } from '../../../issue.ts';
import { checkWebs } from '../../../sheets/holes.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { LegHole } from './blank-hole.ts';

/** A folded strip as it was asked for, mm and radians; negative angles bend down. */
export interface BlankAsked {
  readonly legs: readonly number[];
  readonly angles: readonly number[];
  readonly thickness: number;
  readonly radius: readonly number[];
  readonly rule: BendRule;
  readonly measure: Measure;
  readonly width: number | undefined;
  readonly hole: readonly LegHole[];
  readonly density: number;
}

/** One bend with its figures. */
export interface SolvedBend extends Bend {
  readonly up: boolean;
  readonly setback: number;
  readonly allowance: number;
  /** What the flat is shorter than the two legs together; endless where faces never meet. */
  readonly deduction: number;
  /** Where the bend begins, and its middle, from the blank's left end. */
  readonly from: number;
  readonly middle: number;
  readonly to: number;
}

export interface SolvedBlank {
  readonly parts: readonly BlankPart[];
  readonly bends: readonly SolvedBend[];
  readonly length: number;
  readonly holes: readonly Hole[];
}

const FOLDED = Math.PI - 1e-9;

const readBends = ({ legs, angles, thickness, radius, measure }: BlankAsked): readonly Bend[] => {
  if (angles.length !== legs.length - 1)
    throw requestError(
      'angles',
      'number-of-angles',
      say`${angles.length} angles are given for ${legs.length} legs`,
      say`give ${Math.max(1, legs.length - 1)}, one between each two legs`,
    );
  if (radius.length !== 1 && radius.length !== angles.length)
    throw requestError(
      'radius',
      'number-of-radii',
      say`${radius.length} radii are given for ${angles.length} bends`,
      say`give one for all bends, or one for each`,
    );
  return angles.map((angle, i) => {
    const size = Math.abs(angle);
    if (size < 1e-9)
      throw requestError(
        'angles',
        'no-bend',
        say`bend ${i + 1} has no angle`,
        say`join its two legs into one`,
      );
    if (measure === 'mold-line' && size > FOLDED)
      throw requestError(
        'measure',
        'no-mold-line',
        say`the faces of bend ${i + 1} are parallel and never meet`,
        say`measure the legs over the outside or the inside`,
      );
    return { angle: size, radius: radius[i] ?? itemAt(radius, 0), thickness };
  });
};

/** The blank. Throws where a leg is too short for its bends, or a hole lies in a bend or off the blank. */
export const solveBlank = (asked: BlankAsked, setting: Setting): SolvedBlank => {
  const { legs, angles, rule, measure } = asked;
  const bends = readBends(asked);
  const parts = developBlank(legs, bends, rule, measure);
  const flats = parts.filter(({ kind }) => kind === 'flat');
  const short = flats.findIndex(({ from, to }) => to - from < -1e-9);
  if (short >= 0) {
    const flat = itemAt(flats, short);
    throw jointError(
      'legs',
      'leg-too-short',
      say`leg ${short + 1}, ${writeBoth(itemAt(legs, short), setting)} long, is too short for its bends`,
      say`give at least ${writeBoth(itemAt(legs, short) - (flat.to - flat.from), setting)}, or a smaller radius`,
    );
  }
  const arcs = parts.filter(({ kind }) => kind === 'bend');
  const solved = bends.map((bend, i): SolvedBend => {
    const { from, to } = itemAt(arcs, i);
    const back = setback(bend, measure);
    const allowance = bendAllowance(bend, rule);
    return {
      ...bend,
      up: itemAt(angles, i) > 0,
      setback: back,
      allowance,
      deduction: 2 * back - allowance,
      from,
      middle: (from + to) / 2,
      to,
    };
  });
  const length = lastOf(parts).to;
  return { parts, bends: solved, length, holes: placeHoles(asked, flats, solved, setting) };
};

const placeHoles = (
  { hole, legs, width = 0 }: BlankAsked,
  flats: readonly BlankPart[],
  bends: readonly SolvedBend[],
  setting: Setting,
): readonly Hole[] => {
  const holes = hole.map(({ leg, along, across, diameter }) => {
    const flat = flats[leg - 1];
    if (!flat)
      throw requestError(
        'hole',
        'no-such-leg',
        say`there is no leg ${leg}`,
        say`legs are numbered from 1 to ${legs.length}`,
      );
    const at = vec2(flat.from - (bends[leg - 2]?.setback ?? 0) + along, across);
    const half = diameter / 2;
    if (at.x - half < flat.from - 1e-9 || at.x + half > flat.to + 1e-9)
      throw jointError(
        'hole',
        'hole-off-flat',
        say`the hole at ${writeBoth(along, setting)} in leg ${leg} runs into a bend or off the end`,
        diameter > flat.to - flat.from
          ? say`the flat of leg ${leg} is only ${writeBoth(flat.to - flat.from, setting)} long: give a smaller hole or a longer leg`
          : say`the flat of leg ${leg} lets a hole of ${writeBoth(diameter, setting)} stand from ${writeBoth(flat.from - at.x + along + half, setting)} to ${writeBoth(flat.to - at.x + along - half, setting)}`,
      );
    if (across - half <= 0 || across + half >= width)
      throw jointError(
        'hole',
        'hole-off-blank',
        say`the hole at ${writeBoth(across, setting)} across runs off the blank, which is ${writeBoth(width, setting)} wide`,
        say`give between ${writeBoth(half, setting)} and ${writeBoth(width - half, setting)}`,
      );
    return { at, diameter };
  });
  checkWebs(holes, 'hole', say`make them smaller, or set them further apart`, setting);
  return holes;
};

/** How a bend is called: `up 90°`. */
export const bendWords = ({ up, angle }: SolvedBend): string =>
  `${up ? say`up` : say`down`} ${formatAngle(angle)}`;
