import type { Units } from './length.ts';

/** What every layout gets beside its own values: how to write lengths, and the paper it will be wrapped with. */
export interface Setting {
  /** The reader's units, written first on the sheet. */
  readonly units: Units;
  /** Denominator of printed inch fractions. */
  readonly denominator: 16 | 32 | 64;
  /** Twelve inches and more as feet and inches. */
  readonly feet?: boolean;
  /** Thickness of the printed paper, mm; 0 for a file that goes to a cutter. */
  readonly paperThickness: number;
}

/** One mark of the reader's tape, mm: how far a careful reading may be off. */
export const tapeMark = ({ units }: Setting): number => (units === 'in' ? 25.4 / 16 : 1);

/** The next length, mm, that is printed without rounding: what is needed at least is never printed as less. */
export const roundedUp = (mm: number, { units, denominator }: Setting): number => {
  const step = units === 'in' ? 25.4 / denominator : 0.1;
  return Math.ceil(mm / step - 1e-9) * step;
};
