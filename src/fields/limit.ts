import { requestError } from '../issue.ts';
import { say } from '../words/say.ts';

/** The allowed range of a numeric field, in the field's inner unit (mm, radians, or a plain number). */
export interface Limit {
  /** Smallest allowed value. */
  readonly min?: number;
  /** Largest allowed value. */
  readonly max?: number;
  /** The value must be more than this. */
  readonly above?: number;
  /** The value must be less than this. */
  readonly below?: number;
}

type Write = (value: number) => string;

/** The range in words, e.g. `more than 0° and less than 90°`; undefined where there is none. */
export const describeLimit = (limit: Limit, write: Write): string | undefined => {
  if (limit.min !== undefined && limit.max !== undefined)
    return say`${write(limit.min)} to ${write(limit.max)}`;
  const parts = [
    limit.above === undefined ? '' : say`more than ${write(limit.above)}`,
    limit.min === undefined ? '' : say`at least ${write(limit.min)}`,
    limit.below === undefined ? '' : say`less than ${write(limit.below)}`,
    limit.max === undefined ? '' : say`at most ${write(limit.max)}`,
  ].filter((part) => part !== '');
  return parts.length === 0 ? undefined : parts.join(say` and `);
};

/** True where the value is a finite number inside the limit. */
const isWithin = (value: number, { min, max, above, below }: Limit): boolean =>
  Number.isFinite(value) &&
  (min === undefined || value >= min) &&
  (max === undefined || value <= max) &&
  (above === undefined || value > above) &&
  (below === undefined || value < below);

/** Returns the value, or throws a `request` error that states the limit as `write` writes it. */
export const checkLimit = (value: number, limit: Limit, text: string, path: string, write: Write): number => {
  if (isWithin(value, limit)) return value;
  const range = describeLimit(limit, write) ?? say`a finite number`;
  throw requestError(path, 'out-of-range', say`"${text}" is out of range`, say`give ${range}`);
};
