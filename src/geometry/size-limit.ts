import { jointError } from '../issue.ts';
import { say } from '../words/say.ts';

/** Longest drawing either way, mm: no shop tapes a longer one, and a slip in an angle or size soon asks for it. */
const longest = 50_000;

const inMetres = (mm: number): string => `${(mm / 1000).toFixed(mm < 10_000 ? 1 : 0)} m`;

/**
 * Refuses a drawing beyond any shop's size by its bounds, mm, before its lines are fitted and its marks drawn: there would be
 * millions of them. Throws a `joint` UserError.
 */
export const checkSize = (box: {
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}): void => {
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  if (Math.max(width, height) <= longest) return;
  throw jointError(
    '',
    'sheet-too-large',
    say`the sheet would be ${inMetres(width)} wide and ${inMetres(height)} high`,
    say`a sheet is at most ${inMetres(longest)} (164 ft) either way: check the angle and the sizes`,
  );
};
