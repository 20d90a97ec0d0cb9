import { requestError } from '../issue.ts';
import { formatSize } from '../units/format.ts';
import type { Calibration } from './calibration.ts';
import { checkFactor } from './calibration.ts';
import { calibrationBars, tellBar } from './calibration-bars.ts';
import type { Paper } from './paper.ts';
import { say, translate } from '../words/say.ts';

/** Two bars that should be one length may be read so far apart, mm; further apart the page is askew. */
const mostApart = 0.6;
/** A reading further off than this share of the bar is of another bar, or in other units. */
const mostOff = 0.15;

/** The printed share of one or two bars `drawn` mm long, as they were read. */
const readBars = (
  readings: readonly number[],
  drawn: number,
  units: 'mm' | 'in',
  which: 'across' | 'along',
) => {
  const [first = NaN, second = first, ...more] = readings;
  const told = tellBar(drawn, { units });
  const typed = (length: number): string =>
    units === 'in' ? `${(length / 25.4).toFixed(2)}in` : `${length.toFixed(1)}mm`;
  const hint = say`the bars marked ${translate(which)} are drawn ${told} long: give one reading or both, as in ${typed(drawn * 0.998)},${typed(drawn * 0.999)}`;
  if (more.length > 0 || Number.isNaN(first))
    throw requestError(which, 'bad-readings', say`${readings.length} readings of two bars are given`, hint);
  for (const reading of [first, second])
    if (!(Math.abs(reading / drawn - 1) <= mostOff))
      throw requestError(
        which,
        'not-the-bar',
        say`${formatSize(reading, units)} is not a reading of a bar of ${told}`,
        hint,
      );
  if (Math.abs(first - second) > mostApart)
    throw requestError(
      which,
      'askew',
      say`the two bars differ by ${formatSize(Math.abs(first - second), units)}`,
      say`read both again; if they really differ by more than ${formatSize(mostApart, units)} the paper slips or the printer pulls it crooked: no correction can fix that`,
    );
  const factor = (first + second) / 2 / drawn;
  checkFactor(factor, which, which);
  return factor;
};

/**
 * What a printer makes of a paper, from the lengths of a calibration sheet's bars as they were read, mm: one or two
 * `across` and one or two `along`. Throws a `request` UserError for readings that cannot be of those bars, that differ, or
 * that call for more correction than is safe.
 */
export const readCalibration = (
  paper: Paper,
  across: readonly number[],
  along: readonly number[],
  date: string,
): Calibration => {
  const bars = calibrationBars(paper);
  return {
    across: readBars(across, bars.across, bars.units, 'across'),
    along: readBars(along, bars.along, bars.units, 'along'),
    date,
  };
};
