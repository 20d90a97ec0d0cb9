import type { Sheet } from '../drawing/model.ts';
import { say } from '../words/say.ts';
import type { Block } from './block.ts';
import { drawForm, sizeForm, widestLabel } from './write-in-form.ts';

/** True for a sheet by which pipe is cut. A pattern shorter than the girth is that of the mean diameter: plate to be rolled. */
export const isSignedOff = ({ fit }: Pick<Sheet, 'fit'>): boolean =>
  fit?.lay.kind === 'round' && fit.lay.sheetGirth >= Math.PI * fit.lay.od - 1e-6;

/** Filled in by hand when the pipe is marked: what was measured on it, what it is, and who checked. */
const labels = () => [say`Girth measured`, say`Heat number`, say`Checked by`, say`Date`];

/** The line that is signed before the pipe is cut. */
export const signOffBlock = (): Block => {
  const texts = labels();
  const least = Math.max(28, widestLabel(texts));
  return {
    kind: 'sign-off',
    fit: (width) => {
      const columns = [4, 2, 1].find((count) => width / count >= least);
      if (columns === undefined) return undefined;
      const field = Math.min(44, width / columns);
      return { ...sizeForm(texts, columns, field), draw: () => drawForm(texts, columns, field).marks };
    },
  };
};
