import { lengthField } from '../../fields/fields.ts';
import { requestError } from '../../issue.ts';
import { paperKey } from '../../paging/calibration-bars.ts';
import { readCalibration } from '../../paging/calibration-reading.ts';
import { formatCalibration, parseCalibration, readDay } from '../../paging/calibration.ts';
import { parsePaper } from '../../paging/paper.ts';
import { type FindCalibration, readPrinterName } from '../../paging/printer.ts';
import type { Units } from '../../units/length.ts';
import { say } from '../../words/say.ts';

/** What each printer of this device makes of 100 %, as text: by the printer's name, then by the paper's size. */
export type Profiles = Readonly<Record<string, Readonly<Record<string, string>>>>;

/** Looks printers up in the profiles of this device. */
export const findIn =
  (profiles: Profiles): FindCalibration =>
  (printer, paper) => {
    const name = Object.keys(profiles).find((known) => known.toLowerCase() === printer.toLowerCase());
    const text = name === undefined ? undefined : profiles[name]?.[paperKey(paper)];
    if (text !== undefined) return parseCalibration(text);
    throw requestError(
      'printer',
      'not-calibrated',
      say`printer "${printer}" is not calibrated here on paper ${paper.name}`,
      say`print its calibration sheet and type in the readings, under Printers`,
    );
  };

/** Readings of a calibration sheet's bars, as they are typed. */
export interface Readings {
  readonly printer: string;
  readonly paper: string;
  readonly units: Units;
  readonly across: string;
  readonly along: string;
  readonly date: string;
}

/** What one printer makes of one paper, as it is kept. */
export interface Profile {
  readonly printer: string;
  /** The paper's size, which its profile is kept under. */
  readonly paper: string;
  readonly calibration: string;
}

const reading = lengthField('what bars were read as', { example: '189.4mm,189.5mm', min: 1, list: true });

/** A printer's profile out of its readings. Throws a `request` UserError for readings that cannot be right. */
export const takeReadings = ({ printer, paper, units, across, along, date }: Readings): Profile => {
  const size = parsePaper(paper);
  const read = (text: string, path: string): readonly number[] =>
    reading.parse(text, { units, path }) as readonly number[];
  const calibration = readCalibration(
    size,
    read(across, 'across'),
    read(along, 'along'),
    readDay(date, 'date'),
  );
  return {
    printer: readPrinterName(printer),
    paper: paperKey(size),
    calibration: formatCalibration(calibration),
  };
};
