import { requestError } from '../issue.ts';
import { formatBoth, formatExactMm } from '../units/format.ts';
import { defaultMargin, type PaperSize } from './options.ts';
import type { Paper } from './paper.ts';
import { say } from '../words/say.ts';

const inch = 25.4;
/** Ground at the paper's edges that a bar with its lettering takes, mm. */
export const barLane = 12;
/** Bars longer than a common steel rule cannot be read at both ends at once, mm and in. */
const longestBar = { mm: 1000, in: 36 * inch } as const;
const steps = { mm: 10, in: inch / 2 } as const;
/** A bar shorter than this says too little about the printer: half a millimetre in it is half a percent. */
const shortestBar = 100;

/** What is to be measured on a calibration sheet, mm; the same for a paper whoever asks, so that it need not be said again. */
export interface CalibrationBars {
  readonly units: 'mm' | 'in';
  readonly across: number;
  readonly along: number;
  /** The sheet itself, its bars upright along the longer side of the paper. */
  readonly size: PaperSize;
}

const isInches = (paper: Paper): boolean => {
  const sides = paper.kind === 'sheet' ? [paper.width, paper.height] : [paper.width];
  return sides.every((side) => Math.abs(side / 6.35 - Math.round(side / 6.35)) < 1e-3);
};

/** Papers of one size are one paper whatever they are called: `210 x 297 mm`, `roll 609.6 mm`. */
export const paperKey = (paper: Paper): string => {
  const write = (side: number): string => String(Number(side.toFixed(2)));
  return paper.kind === 'roll'
    ? say`roll ${write(paper.width)} mm`
    : `${write(paper.width)} x ${write(paper.height)} mm`;
};

/**
 * The longest round bars a paper has room for, up to 1 m or 36 in. Throws a `request` UserError where the paper is too
 * small to show anything.
 */
export const calibrationBars = (paper: Paper): CalibrationBars => {
  const units = isInches(paper) ? 'in' : 'mm';
  const step = steps[units];
  const roundDown = (room: number): number =>
    Math.min(longestBar[units], Math.floor(room / step + 1e-9) * step);
  const beside = 2 * defaultMargin.sides + 2;
  const over = 2 * (defaultMargin.ends + barLane) + 2;
  const height = paper.kind === 'sheet' ? paper.height : longestBar[units] + over;
  const bars = { across: roundDown(paper.width - beside), along: roundDown(height - over) };
  if (Math.min(bars.across, bars.along) >= shortestBar)
    return { units, ...bars, size: { width: paper.width, height } };
  throw requestError(
    'paper',
    'small-paper',
    say`paper "${paper.name}" is too small to calibrate a printer with`,
    say`take paper of at least ${shortestBar + beside} x ${shortestBar + over} mm`,
  );
};

/** A bar's length in words, as its paper's country reads it. */
export const tellBar = (length: number, { units }: Pick<CalibrationBars, 'units'>): string =>
  units === 'in' ? formatBoth(length, { units, denominator: 16, decimals: 1 }) : formatExactMm(length);
