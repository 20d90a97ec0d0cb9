import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  angleOfChord,
  chordOfRise,
  circumradius,
  radiusOfChord,
  riseAt,
  riseOfChord,
} from '../../src/geometry/chord.ts';

const length = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('chord and rise against published figures', () => {
  /** Machinery's Handbook, 31st ed., p. 79: two worked examples. */
  it('chord 16, rise 6: radius 8 1/3', () => expect(radiusOfChord(16, 6)).toBeCloseTo(25 / 3, 12));
  it('radius 60, rise 8: chord 59.86', () => {
    expect(Math.trunc(chordOfRise(60, 8) * 100) / 100).toBe(59.86);
    expect(chordOfRise(60, 8)).toBeCloseTo(Math.sqrt(3584), 12);
  });

  /** Short form for a flat arc, r = c²/8h: Building Trades Pocketbook, International Correspondence Schools. */
  it('nears c²/8h for a flat arc', () => {
    const [chord, rise] = [1000, 1];
    expect(radiusOfChord(chord, rise) / ((chord * chord) / (8 * rise))).toBeCloseTo(1, 5);
  });

  /** Chord factors of a circle of diameter 1 in n parts: shopswarf.orcon.net.nz/spacing.html. */
  it.each([
    [3, 0.866],
    [4, 0.7071],
    [5, 0.5878],
    [6, 0.5],
    [8, 0.3827],
    [12, 0.2588],
    [16, 0.1951],
    [20, 0.1564],
    [24, 0.1305],
  ])('%d parts: %f', (n, factor) => {
    // The chord whose angle at the center is one part of the turn.
    expect(angleOfChord(0.5, factor)).toBeCloseTo((2 * Math.PI) / n, 3);
    const rise = 0.5 * (1 - Math.cos(Math.PI / n));
    expect(chordOfRise(0.5, rise)).toBeCloseTo(factor, 4);
  });

  it('a 3-4-5 triangle stands on its diameter 5 (Thales)', () =>
    expect(circumradius(3, 4, 5)).toBeCloseTo(2.5, 14));
  it('an equal-sided triangle of 1: radius 1/√3', () =>
    expect(circumradius(1, 1, 1)).toBeCloseTo(1 / Math.sqrt(3), 14));
});

describe('chord and rise, whatever the size', () => {
  it('come back from each other', () => {
    fc.assert(
      fc.property(length(1, 1e5), length(1e-3, 1), (radius, share) => {
        const chord = 2 * radius * share;
        const rise = riseOfChord(radius, chord);
        expect(Math.abs(radiusOfChord(chord, rise) / radius - 1)).toBeLessThan(1e-9);
        expect(Math.abs(chordOfRise(radius, rise) / chord - 1)).toBeLessThan(1e-9);
      }),
    );
  });

  it('puts every point of the arc on the circle', () => {
    fc.assert(
      fc.property(length(1, 1e5), length(0.01, 1.99), length(-1, 1), (radius, share, along) => {
        const rise = radius * share;
        const x = radius * along;
        const y = riseAt(radius, rise, x);
        expect(Math.abs(Math.hypot(x, y - (rise - radius)) - radius)).toBeLessThan(1e-9 * radius);
      }),
    );
  });

  it('finds the circle through three points of it', () => {
    fc.assert(
      fc.property(
        length(1, 1e4),
        fc.uniqueArray(fc.integer({ min: 0, max: 359 }), { minLength: 3, maxLength: 3 }),
        (radius, turns) => {
          const [p, q, r] = turns.map((turn) => ({
            x: radius * Math.cos((turn * Math.PI) / 180),
            y: radius * Math.sin((turn * Math.PI) / 180),
          })) as [{ x: number; y: number }, { x: number; y: number }, { x: number; y: number }];
          const side = (a: typeof p, b: typeof p) => Math.hypot(a.x - b.x, a.y - b.y);
          expect(Math.abs(circumradius(side(p, q), side(q, r), side(r, p)) / radius - 1)).toBeLessThan(1e-8);
        },
      ),
    );
  });
});
