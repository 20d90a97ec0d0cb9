/** An exact fraction: lowest terms, `d` above zero. */
export interface Rational {
  readonly n: bigint;
  readonly d: bigint;
}

const magnitude = (a: bigint): bigint => (a < 0n ? -a : a);

function gcd(a: bigint, b: bigint): bigint {
  while (b !== 0n) [a, b] = [b, a % b];
  return a;
}

/** The fraction n/d in lowest terms. Throws a RangeError where d is zero. */
export function rational(n: bigint, d = 1n): Rational {
  if (d === 0n) throw new RangeError('zero denominator');
  const divisor = gcd(magnitude(n), magnitude(d)) * (d < 0n ? -1n : 1n);
  return { n: n / divisor, d: d / divisor };
}

export const add = (a: Rational, b: Rational): Rational => rational(a.n * b.d + b.n * a.d, a.d * b.d);

export const multiply = (a: Rational, b: Rational): Rational => rational(a.n * b.n, a.d * b.d);

/** a/b. Throws a RangeError where b is zero. */
export const divide = (a: Rational, b: Rational): Rational => rational(a.n * b.d, a.d * b.n);

export const negate = (a: Rational): Rational => ({ n: -a.n, d: a.d });

/** Below zero where a < b, zero where equal, above zero where a > b. */
export const compare = (a: Rational, b: Rational): number => {
  const difference = a.n * b.d - b.n * a.d;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
};

/** An unsigned decimal such as `12`, `0.5` or `.5`, read exactly. */
export function fromDecimal(text: string): Rational {
  const [whole = '', decimals = ''] = text.split('.');
  return rational(BigInt(whole + decimals), 10n ** BigInt(decimals.length));
}

/** The exact value of a finite double. Throws a RangeError for any other. */
export function fromNumber(value: number): Rational {
  let exponent = 0;
  while (!Number.isInteger(value)) {
    if (!Number.isFinite(value)) throw new RangeError(`${value} is not finite`);
    value *= 2;
    exponent += 1;
  }
  return rational(BigInt(value), 2n ** BigInt(exponent));
}

/** The nearest integer, halves away from zero. */
export function round({ n, d }: Rational): bigint {
  const nearest = (2n * magnitude(n) + d) / (2n * d);
  return n < 0n ? -nearest : nearest;
}

/** Smallest power of two beyond what a double's integers hold, squared: leaves room to round once. */
const ROOM = 2n ** 108n;

/** The nearest double; between two, the even one. */
export function toNumber({ n, d }: Rational): number {
  if (magnitude(n) <= Number.MAX_SAFE_INTEGER && d <= Number.MAX_SAFE_INTEGER) return Number(n) / Number(d);
  let scaled = magnitude(n);
  let halvings = 0;
  while (scaled / d < ROOM) {
    scaled *= ROOM;
    halvings += 108;
  }
  // A last bit that says whether anything was cut off keeps a half from being rounded as if it were exact.
  const quotient = (scaled / d) | (scaled % d === 0n ? 0n : 1n);
  // In two steps, as 2 to the whole power may be below the smallest double.
  const value = Number(quotient) * 2 ** (-halvings / 2) * 2 ** (-halvings / 2);
  return n < 0n ? -value : value;
}
