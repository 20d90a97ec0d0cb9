import { modulo } from './angle-units.ts';
import { leastSquares } from './least-squares.ts';

/** A diameter measured across a pipe through its center, at a station, radians. Lengths in any one unit. */
export interface DiameterReading {
  readonly station: number;
  readonly diameter: number;
}

/** An out-of-round section as an ellipse. */
export interface Ovality {
  readonly largest: number;
  readonly smallest: number;
  /** Station of the largest diameter, in [0, π), radians. */
  readonly station: number;
  /** Reading less the ellipse's own diameter there. */
  readonly residuals: readonly number[];
  /** Girth of the ellipse. */
  readonly girth: number;
}

/** Girth of an ellipse by its two diameters: Gauss's arithmetic-geometric mean (Abramowitz and Stegun, 17.6). */
export const ellipseGirth = (largest: number, smallest: number): number => {
  let [a, b] = [largest / 2, smallest / 2];
  let [sum, power] = [a * a - (a * a - b * b) / 2, 0.5];
  for (let i = 0; i < 40 && Math.abs(a - b) > 1e-15 * a; i++) {
    const half = (a - b) / 2;
    [a, b] = [(a + b) / 2, Math.sqrt(a * b)];
    power *= 2;
    sum -= power * half * half;
  }
  return (2 * Math.PI * sum) / a;
};

/** Diameter through the center of an ellipse at a station. */
export const ellipseDiameter = (
  { largest, smallest, station }: Pick<Ovality, 'largest' | 'smallest' | 'station'>,
  at: number,
): number => 1 / Math.hypot(Math.cos(at - station) / largest, Math.sin(at - station) / smallest);

const HALF_TURN = Math.PI;

const shaped = (
  p: number,
  q: number,
  r: number,
): Pick<Ovality, 'largest' | 'smallest' | 'station'> | undefined => {
  const swing = Math.hypot(q, r);
  if (!(p > swing)) return undefined;
  return {
    largest: 1 / Math.sqrt(p - swing),
    smallest: 1 / Math.sqrt(p + swing),
    station: swing === 0 ? 0 : modulo(Math.atan2(-r, -q) / 2, HALF_TURN),
  };
};

/**
 * The ellipse of diameters measured through the center: two at stations 90° apart are its own diameters; of three or more
 * it is the one with the least sum of squared differences. On an ellipse 1/d² = p + q cos 2φ + r sin 2φ, which gives the
 * start. Undefined where the readings do not fix an ellipse: fewer than three different stations, or two not square.
 */
export const fitOvality = (readings: readonly DiameterReading[]): Ovality | undefined => {
  const finish = (shape: Pick<Ovality, 'largest' | 'smallest' | 'station'>): Ovality => ({
    ...shape,
    residuals: readings.map(({ station, diameter }) => diameter - ellipseDiameter(shape, station)),
    girth: ellipseGirth(shape.largest, shape.smallest),
  });
  const [one, two, ...rest] = readings;
  if (!one || !two) return undefined;
  if (rest.length === 0) {
    if (Math.abs(modulo(one.station - two.station, HALF_TURN) - HALF_TURN / 2) > 1e-9) return undefined;
    const [most, least] = one.diameter >= two.diameter ? [one, two] : [two, one];
    return finish({
      largest: most.diameter,
      smallest: least.diameter,
      station: modulo(most.station, HALF_TURN),
    });
  }
  const stations = new Set(
    readings.map(({ station }) => Math.round((modulo(station, HALF_TURN) / HALF_TURN) * 3600) % 3600),
  );
  if (stations.size < 3) return undefined;
  // p, q and r are of the order 1/d²: measured in that unit all three unknowns are alike.
  const unit = 1 / (readings.reduce((sum, { diameter }) => sum + diameter, 0) / readings.length) ** 2;
  const scaled = { p: 1, q: 0, r: 0 };
  const { at } = leastSquares(
    {
      unknowns: 3,
      rows: ({ p, q, r }) =>
        readings.map(({ station, diameter }) => {
          const [c, s] = [Math.cos(2 * station), Math.sin(2 * station)];
          const inverse = Math.max(1e-6, p + q * c + r * s) * unit;
          const model = 1 / Math.sqrt(inverse);
          const slope = (model / inverse / 2) * unit;
          return { residual: diameter - model, slope: [slope, slope * c, slope * s] };
        }),
      step: ({ p, q, r }, [dp = 0, dq = 0, dr = 0]) => ({ p: p + dp, q: q + dq, r: r + dr }),
    },
    scaled,
  );
  const shape = shaped(at.p * unit, at.q * unit, at.r * unit);
  return shape && finish(shape);
};

/** Out-of-round by API 5L's older form, (Dmax − Dmin) / (Dmax + Dmin). */
export const ovalityOfSum = ({ largest, smallest }: Pick<Ovality, 'largest' | 'smallest'>): number =>
  (largest - smallest) / (largest + smallest);

/** Out-of-round over the mean diameter, (Dmax − Dmin) / ((Dmax + Dmin) / 2): twice the other. */
export const ovalityOfMean = (shape: Pick<Ovality, 'largest' | 'smallest'>): number =>
  2 * ovalityOfSum(shape);
