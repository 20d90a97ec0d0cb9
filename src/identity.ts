import { sha256 } from '@noble/hashes/sha2.js';
import { checkAreSheets } from './drawing/check-sheets.ts';
import type { Sheet } from './drawing/model.ts';

/** Crockford's base 32: no I, L, O or U, so that a smudged print still reads one way. */
const alphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

/** Lines that reach the steel; lettering may be redrawn without making a print stale. */
const reachesSteel = new Set(['cut', 'bend', 'punch']);

/**
 * What was understood as plain data, the same for every way to write it: stock and bodies by their designation and figures,
 * without their functions and without words, which hang on the language.
 */
export const plainOf = (value: unknown): unknown => {
  if (value instanceof Map) return plainOf([...value]);
  if (Array.isArray(value)) return value.map(plainOf);
  if (typeof value === 'function') return undefined;
  if (typeof value !== 'object' || value === null) return value;
  const parts = Object.entries(value);
  if (!('designation' in value)) return Object.fromEntries(parts.map(([name, one]) => [name, plainOf(one)]));
  const isFigure = (one: unknown): boolean => typeof one === 'number' || typeof one === 'boolean';
  return Object.fromEntries(
    parts.filter(([name, one]) => name === 'designation' || name === 'lies' || isFigure(one)),
  );
};

/** The same data with lengths to the micrometre, so that the last bits of a double do not change the identity. */
const rounded = (value: unknown): unknown => {
  if (typeof value === 'number') return Math.round(value * 1000) / 1000 + 0;
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== 'object' || value === null) return value;
  const copy: Record<string, unknown> = {};
  for (const [name, one] of Object.entries(value)) copy[name] = rounded(one);
  return copy;
};

/** The last print's: it is asked for by several that know the print by the same request and sheets. */
let last:
  { readonly asked: unknown; readonly sheets: readonly Sheet[]; readonly identity: string } | undefined;

/**
 * The identity printed on every page, `7F3K-29QD`: 40 bits of the SHA-256 of what was asked, as plain data, and of every line
 * that reaches the steel, so that a print from another request, or from a program that drew the part differently, is known
 * from this one.
 */
export const identify = (asked: unknown, sheets: readonly Sheet[]): string => {
  checkAreSheets(sheets);
  if (last !== undefined && last.asked === asked && last.sheets === sheets) return last.identity;
  last = { asked, sheets, identity: hashShape(asked, sheets) };
  return last.identity;
};

const hashShape = (asked: unknown, sheets: readonly Sheet[]): string => {
  const shaped = sheets.map(({ name, marks }) => ({
    name,
    lines: marks.filter((mark) => reachesSteel.has(mark.role) && mark.kind === 'stroke'),
  }));
  const text = JSON.stringify(rounded([asked, shaped]));
  const hash = sha256(new TextEncoder().encode(text));
  const bits = hash.slice(0, 5).reduce((sum, byte) => sum * 256 + byte, 0);
  const letters = Array.from({ length: 8 }, (_, i) => alphabet[Math.floor(bits / 32 ** (7 - i)) % 32] ?? '');
  return `${letters.slice(0, 4).join('')}-${letters.slice(4).join('')}`;
};
