import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import {
  add,
  compare,
  divide,
  fromDecimal,
  fromNumber,
  multiply,
  negate,
  rational,
  round,
  toNumber,
} from '../../src/units/rational.ts';

const integer = fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n });
const ratio = fc.tuple(
  integer,
  integer.filter((d) => d !== 0n),
);
const same = (ours: { n: bigint; d: bigint }, theirs: Fraction) =>
  ours.n === theirs.s * theirs.n && ours.d === theirs.d;

describe('rational arithmetic, against fraction.js', () => {
  it('adds, multiplies, divides, negates and compares in lowest terms', () => {
    fc.assert(
      fc.property(ratio, ratio, ([an, ad], [bn, bd]) => {
        const [a, b] = [rational(an, ad), rational(bn, bd)];
        const [x, y] = [new Fraction(an, ad), new Fraction(bn, bd)];
        expect(same(add(a, b), x.add(y))).toBe(true);
        expect(same(multiply(a, b), x.mul(y))).toBe(true);
        expect(same(negate(a), x.neg())).toBe(true);
        expect(compare(a, b)).toBe(x.compare(y));
        if (bn !== 0n) expect(same(divide(a, b), x.div(y))).toBe(true);
      }),
    );
  });

  it('rounds to the nearest integer, halves away from zero', () => {
    const cases = [
      [1n, 2n, 1n],
      [-1n, 2n, -1n],
      [3n, 2n, 2n],
      [1n, 3n, 0n],
      [-2n, 3n, -1n],
      [0n, 5n, 0n],
    ] as const;
    for (const [n, d, nearest] of cases) expect(round(rational(n, d))).toBe(nearest);
  });

  it('refuses a zero denominator and what is not finite', () => {
    expect(() => rational(1n, 0n)).toThrow(RangeError);
    expect(() => divide(rational(1n), rational(0n))).toThrow(RangeError);
    for (const value of [NaN, Infinity, -Infinity]) expect(() => fromNumber(value)).toThrow(RangeError);
  });
});

describe('rationals and doubles', () => {
  it('a double goes there and back unchanged', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(toNumber(fromNumber(value)) + 0).toBe(value + 0);
      }),
    );
  });

  it('a decimal reads as the double that the language itself reads', () => {
    const digits = fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(digits, digits, (whole, decimals) => {
        expect(toNumber(fromDecimal(`${whole}.${decimals}`))).toBe(Number(`${whole}.${decimals}`));
      }),
    );
  });

  it('rounds once, to even, beside the half-way point between two doubles', () => {
    const half = 2n ** 53n + 1n;
    const fine = 10n ** 60n;
    expect(toNumber(rational(half * fine, fine))).toBe(2 ** 53);
    expect(toNumber(rational(half * fine + 1n, fine))).toBe(2 ** 53 + 2);
    expect(toNumber(rational(-half * fine - 1n, fine))).toBe(-(2 ** 53) - 2);
  });
});
