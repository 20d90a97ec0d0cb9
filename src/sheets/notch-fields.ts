import { mustBeAtMost, mustBeLess } from '../fields/among.ts';
import type { Values } from '../fields/field.ts';
import { lengthField, numberField, textField } from '../fields/fields.ts';
import { contourOutline } from '../geometry/contour-outline.ts';
import { type Notch, solveNotch } from '../geometry/notch.ts';
import { requestError } from '../issue.ts';
import { type Hinge, hingesOf } from '../stock/hinges.ts';
import type { Stock } from '../stock/stock.ts';
import type { Setting } from '../units/setting.ts';
import { say } from '../words/say.ts';

/** Where a wall keeps its length in a bend: 0.64 t for a right angle in soft steel over π/2 (Machinery's Handbook, from memory). */
const K_FACTOR = '0.41';

/** Stock that is notched or folded. */
export const foldable = ['tube', 'angle', 'channel', 'flat'] as const;

/** Inputs of every notch. */
export const notchFields = {
  hinge: textField('which face stays whole and bends, such as face 3, leg 2, web, flange 1', {
    example: 'leg 2',
    optional: true,
  }),
  bendRadius: lengthField('inside radius of the bend; 0 folds sharp on the inside face', {
    default: '0mm',
    example: '6mm',
    max: 500,
  }),
  k: numberField(
    'where the wall keeps its length in the bend, as a part of its thickness from the inside; only with a bend radius',
    { default: K_FACTOR, example: '0.33', min: 0, max: 1 },
  ),
  relief: lengthField('diameter of a hole drilled where the notch ends; 0 for none', {
    default: '0mm',
    example: '6mm',
    max: 50,
  }),
  gap: lengthField('root gap between the closed sides', { default: '0mm', example: '2mm', max: 25 }),
} as const;

export type NotchValues = Values<typeof notchFields>;

/** The wall that bends: as asked, or the usual one. Throws where the stock has no such wall. */
export const chooseHinge = (stock: Stock, asked: string | undefined): Hinge => {
  const hinges = hingesOf(stock);
  const found =
    asked === undefined ? hinges[0] : hinges.find(({ face }) => face === asked.trim().toLowerCase());
  if (!found)
    throw requestError(
      'hinge',
      'unknown-face',
      say`${stock.designation} has no wall called ${asked ?? ''} that could bend`,
      say`choose ${hinges.map(({ face }) => face).join(', ')}`,
    );
  return found;
};

/** The notch for one turn. Throws where its hole finds no room. */
export const notchOf = (
  stock: Stock,
  hinge: Hinge,
  turn: number,
  { bendRadius, k, relief, gap }: NotchValues,
  setting: Setting,
): Notch => {
  const notch = solveNotch(contourOutline(stock.section), {
    hinge: hinge.face,
    thickness: hinge.thickness,
    turn,
    bendRadius,
    k,
    gap,
  });
  if (notch.farHeight > 1e-6) {
    mustBeAtMost('relief', relief, notch.farHeight, say`is deeper than the notch`, setting);
    mustBeAtMost('relief', relief, notch.farWidth, say`is wider than the notch`, setting);
    mustBeLess(
      'bend-radius',
      bendRadius,
      notch.farHeight,
      say`inside takes all that stands beside the hinge`,
      setting,
    );
  }
  return notch;
};
