import { sha256 } from '@noble/hashes/sha2.js';
import type { Sheet } from './drawing/model.ts';

/** Crockford's base 32: no I, L, O or U, so that a smudged print still reads one way. */
const alphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

/** Lines that reach the steel; lettering may be redrawn without making a print stale. */
const reachesSteel = new Set(['cut', 'bend', 'punch']);

/**
 * What does not change the piece: the printer a print is made true on, that it is no longer to be used, and the language it is
 * written in. Prints of one template bear one identity whichever printer they come from, in any language, and still when it is
 * called out of use.
 */
const apart = new Set(['printer', 'calibration', 'superseded-by', 'language']);

const shapeOf = (spec: unknown): unknown =>
  typeof spec === 'object' && spec !== null && !Array.isArray(spec)
    ? Object.fromEntries(Object.entries(spec).filter(([name]) => !apart.has(name)))
    : spec;

/** The same data with lengths to the micrometre, so that the last bits of a double do not change the identity. */
const rounded = (value: unknown): unknown => {
  if (typeof value === 'number') return Math.round(value * 1000) / 1000 + 0;
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== 'object' || value === null) return value;
  const copy: Record<string, unknown> = {};
  for (const [name, one] of Object.entries(value)) copy[name] = rounded(one);
  return copy;
};

/** A print's identity is asked for by several that know it by the same request and sheets. */
const identified = new WeakMap<readonly Sheet[], { readonly spec: unknown; readonly identity: string }>();

/**
 * The identity printed on every page, `7F3K-29QD`: 40 bits of the SHA-256 of the specification and of every line that
 * reaches the steel, so that a print from another request, or from a program that drew the part differently, is known
 * from this one.
 */
export const identify = (spec: unknown, sheets: readonly Sheet[]): string => {
  const known = identified.get(sheets);
  if (known && known.spec === spec) return known.identity;
  const identity = hashShape(spec, sheets);
  identified.set(sheets, { spec, identity });
  return identity;
};

const hashShape = (spec: unknown, sheets: readonly Sheet[]): string => {
  const shaped = sheets.map(({ name, marks }) => ({
    name,
    lines: marks.filter((mark) => reachesSteel.has(mark.role) && mark.kind === 'stroke'),
  }));
  const text = JSON.stringify(rounded([shapeOf(spec), shaped]));
  const hash = sha256(new TextEncoder().encode(text));
  const bits = hash.slice(0, 5).reduce((sum, byte) => sum * 256 + byte, 0);
  const letters = Array.from({ length: 8 }, (_, i) => alphabet[Math.floor(bits / 32 ** (7 - i)) % 32] ?? '');
  return `${letters.slice(0, 4).join('')}-${letters.slice(4).join('')}`;
};
