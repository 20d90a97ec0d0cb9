import { say } from '../words/say.ts';
import { checkAreKind } from '../words/wrong-type.ts';
import type { Sheet } from './model.ts';

/** Sees to it that sheets are such. Throws a `request` UserError where a program without types hands over something else. */
export const checkAreSheets = (sheets: readonly Sheet[]): void =>
  checkAreKind(
    sheets,
    ['name', 'marks', 'bounds', 'tables'],
    'sheets',
    say`give what ${'makeSheets'} returns`,
  );
