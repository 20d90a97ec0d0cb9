import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseTube } from '../../src/stock/tube.ts';
import { refusalOf } from '../units/refusal.ts';

describe('tubes that are read', () => {
  /** Girths from 2(W + H) − (8 − 2π)R, worked by hand for ASTM A500 tube at R = 2t and R = 3t. */
  it.each([
    ['tube 100x100x5mm', 10, 382.83],
    ['tube 100x100x5mm corner 15mm', 15, 374.25],
    ['tube 150x100x6mm', 12, 479.4],
  ])('%s: corner %f mm, girth %f mm', (text, corner, girth) => {
    const tube = parseTube(text);
    expect(tube.cornerRadius).toBe(corner);
    expect(Math.abs(tube.girth - girth)).toBeLessThan(0.005);
  });

  /** The girth is four flats and one full circle of corners: walked here piece by piece. */
  it('girth is flats and corners', () => {
    const { width, height, cornerRadius, girth } = parseTube('tube 4x3x1/4in corner 1/2in');
    const flats = 2 * (width - 2 * cornerRadius) + 2 * (height - 2 * cornerRadius);
    expect(girth).toBeCloseTo(flats + 4 * (Math.PI / 2) * cornerRadius, 10);
    expect({ width, height, cornerRadius }).toEqual({ width: 101.6, height: 76.2, cornerRadius: 12.7 });
  });

  it('says where the corner comes from', () => {
    expect(parseTube('tube 100x100x6mm').source).toBe('corner radius taken as 2 × wall');
    expect(parseTube('tube 100x100x6mm corner 12mm')).toMatchObject({ source: 'given', measured: false });
    expect(parseTube('tube 100x100x6mm girth 380mm')).toMatchObject({
      source: 'measured girth',
      measured: true,
    });
  });

  it.each([
    ['tube 100x50x6mm', 100, 50, 6],
    ['TUBE 100 x 50 x 6 mm', 100, 50, 6],
    ['tube 100mm × 50mm × 6mm', 100, 50, 6],
    ['tube 4x3x1/4in', 101.6, 76.2, 6.35],
    ['tube 4" x 3" x 1/4"', 101.6, 76.2, 6.35],
    ['tube 3-1/2 x 2 1/2 x 3/16"', 88.9, 63.5, 4.7625],
    ['tube 4in x 100mm x 6mm', 101.6, 100, 6],
  ])('%s', (text, width, height, wall) => {
    expect(parseTube(text)).toMatchObject({ width, height, wall });
  });

  it('units that are set serve sides without one', () => {
    expect(parseTube('tube 100x50x6', { units: 'mm' })).toEqual(parseTube('tube 100x50x6mm'));
  });

  it('a measured girth gives the corner back, and every tube reads back from its own designation', () => {
    const side = fc.integer({ min: 200, max: 5000 });
    fc.assert(
      fc.property(
        side,
        side,
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.constantFrom('mm', 'in'),
        (w, h, share, unit) => {
          const radius = ((share * Math.min(w, h)) / 20).toFixed(3);
          const sides = `tube ${w / 10}x${h / 10}x${2.5}${unit}`;
          const tube = parseTube(`${sides} corner ${radius}${unit}`);
          expect(parseTube(tube.designation)).toEqual(tube);
          const again = parseTube(`${sides} girth ${tube.girth.toFixed(9)}mm`);
          expect(Math.abs(again.cornerRadius - tube.cornerRadius)).toBeLessThan(1e-5);
          expect(parseTube(again.designation)).toEqual(again);
        },
      ),
    );
  });
});

describe('tubes that are refused', () => {
  it.each([
    ['', 'empty', /nothing/],
    ['100x100x6mm', 'not-understood', /100x100x6mm/],
    ['tube 100x6mm', 'not-understood', /width x height x wall/],
    ['tube 100x100x6x6mm', 'not-understood', /width x height x wall/],
    ['tube 100xx6mm', 'not-understood', /width x height x wall/],
    ['tube 100x100x6', 'bare-number', /no unit/],
    ['tube 100x100x50mm', 'wall-past-middle', /50\.00 mm/],
    ['tube 100x100x0mm', 'size-not-positive', /above zero/],
    ['tube -100x100x6mm', 'size-not-positive', /above zero/],
    ['tube 100x100x6mm corner 51mm', 'corner-off-size', /51\.00 mm/],
    ['tube 100x100x6mm corner -1mm', 'corner-off-size', /-1\.00 mm/],
    ['tube 100x100x30mm', 'corner-off-size', /60\.00 mm/],
    ['tube 100x100x6mm girth 401mm', 'girth-off-size', /401\.00 mm/],
    ['tube 100x100x6mm girth 314mm', 'girth-off-size', /314\.00 mm/],
    ['tube 100x100x6mm girth 380mm corner 9mm', 'two-corners', /both/],
  ])('%s: %s', (text, code, message) => {
    const issue = refusalOf(() => parseTube(text, { path: 'on' }));
    expect(issue).toMatchObject({ code, path: 'on' });
    expect(issue.message).toMatch(message);
  });
});
