import type { Setting } from '../units/setting.ts';
import { writeBoth } from '../units/writing.ts';
import type { SeamValues } from './pattern-fields.ts';
import { say } from '../words/say.ts';

/** How a seam is closed, in the order of work. */
export const seamStep = ({ seamAllowance, join }: SeamValues, setting: Setting): string => {
  if (seamAllowance === 0) return say`Bring the seams together edge to edge and tack.`;
  const width = writeBoth(seamAllowance, setting);
  switch (join) {
    case 'lap':
      return say`Slide the right edge under the left one up to the lap line, ${width} in, and tack.`;
    case 'flange':
      return say`Turn both flanges out square on their lines, ${width} wide, bring them face to face and fasten.`;
    case 'weld':
      return say`Tack the seam with a root gap of ${width}: half of it is off each edge.`;
  }
};

/** The usual caution of work in plate. */
export const PLATE_CAUTION = (): string =>
  say`Edges of cut plate are sharp: wear gloves, and keep hands out of the brake and the rolls.`;
