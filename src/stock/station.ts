import { QUARTER_TURN, TURN, modulo } from '../geometry/angle-units.ts';
import { itemAt } from '../lists.ts';
import { angleOf, type Quantity } from '../units/quantity.ts';
import { formatAngle } from '../units/angle.ts';

/** A station's number in [0, 360), written as degrees to so many places: what rounds to 360° is 0°. */
export const stationNumber = (angle: number, places?: number): string => {
  const text = formatAngle(modulo(angle, TURN), places);
  return text === '360°' ? '0°' : text;
};

/** A station's angle in [0, 360), as a value written to so many places: what rounds to 360° is 0°. */
export const stationOf = (angle: number, places = 4): Quantity => {
  const around = modulo(angle, TURN);
  return angleOf(stationNumber(around, places) === '0°' ? 0 : around, places);
};

/** True on the quarter lines: stations 0, 90, 180 and 270. */
export const isQuarter = (angle: number): boolean =>
  Math.abs(angle / QUARTER_TURN - Math.round(angle / QUARTER_TURN)) < 1e-9;

/** The stations from seam to seam, radians: whole steps from station 0, the quarter lines, and the seam twice. */
export const listStations = (count: number, seam: number): readonly number[] => {
  const end = seam + TURN;
  const inside = (angle: number): boolean => angle > seam + 1e-9 && angle < end - 1e-9;
  const steps = Array.from({ length: 2 * count + 1 }, (_, i) => ((i - count) * TURN) / count);
  const quarters = Array.from({ length: 13 }, (_, i) => (i - 4) * QUARTER_TURN);
  const all = [seam, ...[...steps, ...quarters, ...steps.map((a) => a + TURN)].filter(inside), end].sort(
    (a, b) => a - b,
  );
  return all.filter((angle, i) => i === 0 || angle - itemAt(all, i - 1) > 1e-9);
};
