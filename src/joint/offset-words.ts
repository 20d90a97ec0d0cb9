import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Setting } from '../units/setting.ts';
import { writeBoth } from '../units/writing.ts';
import { say } from '../words/say.ts';

/**
 * An offset of the axes in words that can be checked on the pipe: a branch that sits off the center of a round body is
 * longer on the side away from the center. `offset` is positive where the body's center lies toward station 90.
 */
export const describeOffset = (offset: number, round: boolean, setting: Setting): string => {
  if (Math.abs(offset) < SAME_LENGTH) return say`no offset`;
  const side = say`${offset > 0 ? 270 : 90}° side`;
  return say`sits ${writeBoth(Math.abs(offset), setting)} off center${round ? say`; its ${side} is the long side` : say`, toward its ${side}`}`;
};
