import { say } from '../words/say.ts';

/** One thing measured on a finished file. */
export interface Finding {
  /** What was measured, e.g. `cut line against what it meets`. */
  readonly check: string;
  /** Where: a sheet, a page, or the whole file. */
  readonly where: string;
  readonly measured: string;
  readonly allowed: string;
  readonly ok: boolean;
}

/** A length found against what is allowed to be lost of it, mm. */
export const lengthFinding = (
  check: string,
  where: string,
  measured: number,
  expected: number,
  tolerance: number,
): Finding => ({
  check,
  where,
  measured: `${measured.toFixed(3)} mm`,
  allowed: `${expected.toFixed(3)} ± ${tolerance} mm`,
  ok: Math.abs(measured - expected) <= tolerance,
});

/** The largest of some deviations against what is allowed, mm. */
export const deviationFinding = (
  check: string,
  where: string,
  deviation: number,
  tolerance: number,
): Finding => ({
  check,
  where,
  measured: Number.isFinite(deviation) ? say`${deviation.toFixed(4)} mm off` : say`nothing to measure`,
  allowed: say`at most ${tolerance} mm`,
  ok: deviation <= tolerance,
});

/** A plain yes or no. */
export const factFinding = (
  check: string,
  where: string,
  ok: boolean,
  measured: string,
  allowed: string,
): Finding => ({ check, where, measured, allowed, ok });
