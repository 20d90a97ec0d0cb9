import { HERE, movedFrame, type BodySpec } from './body.ts';
import type { Placed } from './read-placed.ts';

/**
 * Reads `roll` (turns the body about the branch's axis, from station 0 toward 90) and `ahead` (moves it along that axis,
 * away from the branch): with angle and offset they put a body anywhere.
 */
export const readMove = (placed: Placed): Pick<BodySpec, 'frame' | 'roll' | 'ahead' | 'moved' | 'lies'> => {
  const [roll, ahead] = [placed.angle('roll', 0), placed.length('ahead', 0)];
  const moved = placed.has('roll') || placed.has('ahead');
  return { frame: moved ? movedFrame(roll, ahead) : HERE, roll, ahead, moved, lies: placed.lies };
};
