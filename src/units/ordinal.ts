import { say } from '../words/say.ts';

/** A whole number as the place in a row: `1st`, `2nd`, `3rd`, `4th`, `11th`. */
export const writeOrdinal = (n: number): string => {
  const isTeen = Math.floor(n / 10) % 10 === 1;
  if (!isTeen && n % 10 === 1) return say`${n}st`;
  if (!isTeen && n % 10 === 2) return say`${n}nd`;
  if (!isTeen && n % 10 === 3) return say`${n}rd`;
  return say`${n}th`;
};
