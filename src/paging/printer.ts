import { requestError } from '../issue.ts';
import { type Calibration, parseCalibration, roundCalibration, tellPercent } from './calibration.ts';
import type { Paper } from './paper.ts';
import { say } from '../words/say.ts';

/** A printer that a print is corrected for. */
export interface Printer extends Calibration {
  readonly name: string;
}

/** Wider than any name a shop gives a printer. */
const longestName = 40;

/** A printer's name. Throws a `request` UserError for one too long for a line of a page, and for `none`. */
export const readPrinterName = (text: string, path = 'printer'): string => {
  const name = text.trim().replace(/\s+/g, ' ');
  const hint = say`give a name of 1 to ${longestName} letters, as in "shop laser"`;
  if (name === '' || [...name].length > longestName || /\p{C}/u.test(name))
    throw requestError(path, 'bad-printer', say`"${name.slice(0, longestName)}" cannot name a printer`, hint);
  if (name.toLowerCase() === noPrinter)
    throw requestError(path, 'bad-printer', say`"${name}" stands for no printer`, hint);
  return name;
};

/** Given as a printer's name, it asks for no correction. */
export const noPrinter = 'none';

/** Looks up what a printer makes of a paper. Throws a `request` UserError where that was not measured. */
export type FindCalibration = (printer: string, paper: Paper) => Calibration;

/** Knows no printer: then a calibration must be given with the printer's name. */
export const knowNoPrinter: FindCalibration = (printer) => {
  throw requestError(
    'printer',
    'not-calibrated',
    say`what printer "${printer}" makes of 100 % is not known here`,
    say`give calibration too, as in "99.3% across, 100.4% along, 2026-03-14"`,
  );
};

/** The printer to correct for, with the calibration that was given or else the one that is found. */
export const readPrinter = (
  name: string | undefined,
  calibration: string | undefined,
  paper: Paper,
  find: FindCalibration,
): Printer | undefined => {
  if (name?.toLowerCase() === noPrinter) return undefined;
  if (name !== undefined) {
    const printer = readPrinterName(name);
    const found =
      calibration === undefined ? roundCalibration(find(printer, paper)) : parseCalibration(calibration);
    return { name: printer, ...found };
  }
  if (calibration === undefined) return undefined;
  throw requestError(
    'calibration',
    'no-printer',
    say`a calibration is given, but not whose`,
    say`give printer too, the name of the printer that was calibrated`,
  );
};

/** What every page of a corrected print says of it. */
export const tellPrinter = ({ name, across, along, date }: Printer): string =>
  say`True on printer "${name}" only, calibrated ${date}: drawn ${tellPercent(1 / across, 2)} across and ${tellPercent(1 / along, 2)} along the paper.`;
