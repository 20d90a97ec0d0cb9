import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ellipseDiameter,
  ellipseGirth,
  fitOvality,
  ovalityOfMean,
  ovalityOfSum,
} from '../../src/geometry/ellipse-fit.ts';
import { tiltOf } from '../../src/geometry/tilt.ts';

const DEGREE = Math.PI / 180;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('tilt of a face', () => {
  /** Worked by hand: top 152, left 149, bottom 148.5, right 151.5 on 280: .7162°, −.5116°, in all .8801°; sums 300.5. */
  it('four readings', () => {
    const tilt = tiltOf({ at0: 152, at90: 149, at180: 148.5, at270: 151.5 }, 280);
    expect(tilt.across0 / DEGREE).toBeCloseTo(0.7162, 4);
    expect(tilt.across90 / DEGREE).toBeCloseTo(-0.5116, 4);
    expect(tilt.total / DEGREE).toBeCloseTo(0.8801, 4);
    expect(tilt.closure).toBe(0);
    expect(tilt.station / DEGREE).toBeCloseTo(360 - 35.5377, 4);
  });

  it('readings made from a plane give its tilt and its lowest station back', () => {
    fc.assert(
      fc.property(number(0.001, 0.8), number(0, 2 * Math.PI), number(20, 2000), (lean, station, diameter) => {
        const read = (at: number) => 500 + (diameter / 2) * Math.tan(lean) * Math.cos(at - station);
        const tilt = tiltOf(
          { at0: read(0), at90: read(Math.PI / 2), at180: read(Math.PI), at270: read(1.5 * Math.PI) },
          diameter,
        );
        expect(tilt.total).toBeCloseTo(lean, 9);
        expect(Math.cos(tilt.station - station)).toBeCloseTo(1, 9);
        expect(Math.abs(tilt.closure)).toBeLessThan(1e-9);
      }),
    );
  });
});

describe('out-of-round', () => {
  /** Girth of an ellipse of diameters 2 and 1: 4.84422411 (Abramowitz and Stegun, table 17.1 by E(m = 0.75) = 1.211056). */
  it('girth of an ellipse', () => {
    expect(ellipseGirth(2, 1)).toBeCloseTo(4 * 1.2110560275684594, 12);
    expect(ellipseGirth(3, 3)).toBeCloseTo(3 * Math.PI, 12);
  });

  /** An ellipse of ovality f over the mean has girth only f²/16 above π times the mean diameter (series of the girth). */
  it('8 % out of round lengthens the girth by 0.04 %', () => {
    const [largest, smallest] = [104, 96];
    expect(ovalityOfMean({ largest, smallest })).toBeCloseTo(0.08, 12);
    expect(ovalityOfSum({ largest, smallest })).toBeCloseTo(0.04, 12);
    expect(ellipseGirth(largest, smallest) / (100 * Math.PI) - 1).toBeCloseTo(0.08 ** 2 / 16, 6);
  });

  it('diameters of an ellipse give it back', () => {
    fc.assert(
      fc.property(
        number(50, 2000),
        number(0.001, 0.2),
        number(0, Math.PI),
        fc.integer({ min: 3, max: 12 }),
        (size, f, station, n) => {
          const shape = { largest: size * (1 + f / 2), smallest: size * (1 - f / 2), station };
          const readings = Array.from({ length: n }, (_, i) => {
            const at = (Math.PI * i) / n;
            return { station: at, diameter: ellipseDiameter(shape, at) };
          });
          const found = fitOvality(readings)!;
          expect(found.largest).toBeCloseTo(shape.largest, 6);
          expect(found.smallest).toBeCloseTo(shape.smallest, 6);
          expect(Math.cos(2 * (found.station - station))).toBeCloseTo(1, 8);
        },
      ),
    );
  });

  it('two diameters square to each other are the ellipse’s own; anything less is nothing', () => {
    expect(
      fitOvality([
        { station: 0.3, diameter: 99 },
        { station: 0.3 + Math.PI / 2, diameter: 101 },
      ]),
    ).toMatchObject({ largest: 101, smallest: 99 });
    expect(
      fitOvality([
        { station: 0, diameter: 99 },
        { station: 1, diameter: 101 },
      ]),
    ).toBeUndefined();
    expect(fitOvality([0, 0, 0].map((station) => ({ station, diameter: 100 })))).toBeUndefined();
  });
});
