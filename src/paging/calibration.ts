import type { Vec2 } from '../geometry/vector.ts';
import { requestError } from '../issue.ts';
import { checkIsText } from '../words/wrong-type.ts';
import { say } from '../words/say.ts';
import type { Paper } from './paper.ts';

/**
 * How a printer prints on one paper: printed length over drawn length, along the paper's short side or a roll's width
 * (`across`) and square to it (`along`).
 */
export interface Calibration {
  readonly across: number;
  readonly along: number;
  /** The day it was measured: `2026-03-14`. */
  readonly date: string;
}

/** The most that is corrected, of the length; a healthy printer is within 1 %. */
export const mostCorrection = 0.02;

const isDay = (text: string): boolean => {
  const [year = 0, month = 0, day = 0] = text.split('-').map(Number);
  const date = new Date(Date.UTC(year, month - 1, day));
  return /^\d{4}-\d\d-\d\d$/.test(text) && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
};

/** The day as it was given. Throws a `request` UserError where it is none of the calendar. */
export const readDay = (text: string, path: string): string => {
  if (isDay(text)) return text;
  throw requestError(
    path,
    'bad-date',
    say`"${text}" is not a date`,
    say`write year-month-day, as in 2026-03-14`,
  );
};

/** A factor as a percentage in words. */
export const tellPercent = (factor: number, decimals: number): string =>
  `${(factor * 100).toFixed(decimals)} %`;

/** Refuses to correct what is no error of a printer. `which` is the direction in words: `across`. */
export const checkFactor = (factor: number, which: string, path: string): void => {
  if (Math.abs(factor - 1) <= mostCorrection + 1e-9) return;
  throw requestError(
    path,
    'beyond-correction',
    say`the printer prints ${tellPercent(factor, 2)} ${which}; more than ${mostCorrection * 100} % is not corrected`,
    say`something scales the page: switch off "fit to page" and "shrink" in the program and in the driver, set the right paper size, print the calibration sheet again`,
  );
};

/** Percentages to a thousandth: a hundredth of a millimetre in a metre, which no rule shows. */
const writePercent = (factor: number): string => `${Number((factor * 100).toFixed(3))}%`;

/** A calibration as one line of text, `99.3% across, 100.4% along, 2026-03-14`; `parseCalibration` reads it. */
export const formatCalibration = ({ across, along, date }: Calibration): string =>
  `${writePercent(across)} across, ${writePercent(along)} along, ${date}`;

const pattern = /^(\d+(?:\.\d+)?) ?% across, ?(\d+(?:\.\d+)?) ?% along, ?(\d{4}-\d\d-\d\d)$/;

/** Reads what `formatCalibration` writes. Throws a `request` UserError for anything else and for more than 2 %. */
export const parseCalibration = (text: string, path = 'calibration'): Calibration => {
  checkIsText(text, path, '99.3% across, 100.4% along, 2026-03-14');
  const [, across, along, date] = pattern.exec(text.trim()) ?? [];
  if (across === undefined || along === undefined || date === undefined)
    throw requestError(
      path,
      'bad-calibration',
      say`"${text}" is not a calibration`,
      say`write what the printer makes of 100 %, and when that was measured: "99.3% across, 100.4% along, 2026-03-14"`,
    );
  const read = { across: Number(across) / 100, along: Number(along) / 100, date: readDay(date, path) };
  checkFactor(read.across, 'across', path);
  checkFactor(read.along, 'along', path);
  return read;
};

/** A calibration with its factors as the text holds them, so that a print and its reprint are the same. */
export const roundCalibration = (calibration: Calibration): Calibration =>
  parseCalibration(formatCalibration(calibration));

/** True where the paper's short side (a roll's width) lies along x on a page of that size. */
const isUpright = (paper: Paper, { width, height }: { readonly width: number; readonly height: number }) =>
  paper.kind === 'sheet' ? width <= height : Math.abs(width - paper.width) < 1e-6;

/** What everything on a page is stretched by, so that the printer prints it true; 1 and 1 for no printer. */
export const stretchOf = (
  paper: Paper,
  size: { readonly width: number; readonly height: number },
  printer: Calibration | undefined,
): Vec2 => {
  if (printer === undefined) return { x: 1, y: 1 };
  const [across, along] = [1 / printer.across, 1 / printer.along];
  return isUpright(paper, size) ? { x: across, y: along } : { x: along, y: across };
};
