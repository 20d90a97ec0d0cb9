import type { LaidOn, Sheet } from '../drawing/model.ts';
import { say } from '../words/say.ts';
import type { Block } from './block.ts';
import { drawForm, sizeForm, widestLabel } from './form.ts';

/** What the work is done on. A pattern shorter than the girth is that of the mean diameter: plate to be rolled. */
export const laidOnOf = ({ laidOn, fit }: Pick<Sheet, 'laidOn' | 'fit'>): LaidOn => {
  if (laidOn !== undefined) return laidOn;
  if (fit === undefined || fit.lay.kind === 'flat' || fit.lay.kind === 'bar') return 'plate';
  if (fit.lay.kind !== 'round') return 'pipe';
  return fit.lay.sheetGirth < Math.PI * fit.lay.od - 1e-6 ? 'plate' : 'pipe';
};

/** True for a sheet by which pipe is cut. */
export const isSignedOff = (sheet: Pick<Sheet, 'laidOn' | 'fit'>): boolean =>
  sheet.fit?.lay.kind === 'round' && laidOnOf(sheet) === 'pipe';

/** Filled in by hand when the pipe is marked: what was measured on it, what it is, and who checked. */
const labels = () => [say`Girth measured`, say`Heat number`, say`Checked by`, say`Date`];

/** The line that is signed before the pipe is cut. */
export const signOffBlock: Block = {
  kind: 'sign-off',
  fit: (width) => {
    const least = Math.max(28, widestLabel(labels()));
    const columns = [4, 2, 1].find((count) => width / count >= least);
    if (columns === undefined) return undefined;
    const field = Math.min(44, width / columns);
    return { ...sizeForm(labels(), columns, field), draw: () => drawForm(labels(), columns, field).marks };
  },
};
