import type { LaidOn, Sheet } from '../drawing/model.ts';
import type { Block, Shape } from './block.ts';
import { drawForm } from './form.ts';

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
const labels = ['Girth measured', 'Heat number', 'Checked by', 'Date'];

const shapeForm = (columns: number, width: number, cost: number): Shape => {
  const form = drawForm(labels, columns, width);
  return { width: form.width, height: form.height, cost, isSmall: true, draw: () => form.marks };
};

/** The line that is signed before the pipe is cut, near the title block. */
export const signOffBlock: Block = {
  kind: 'sign-off',
  corner: 'bottom-right',
  shapes: [
    shapeForm(4, 36, 0),
    shapeForm(4, 28, 0.05),
    shapeForm(2, 40, 0.1),
    shapeForm(2, 28, 0.15),
    shapeForm(1, 40, 0.2),
    shapeForm(1, 28, 0.25),
  ],
};
