import { expect, it } from 'vitest';
import { writeGiven } from '../../src/units/writing.ts';

const IN = 25.4;

// 25.4 mm an inch (international agreement of 1959), 12 in a foot; binary fractions of an inch as on a tape.
it.each([
  [0.84 * IN, 'in', true, '0.84″ (21.34 mm)'],
  [24 * IN, 'in', true, '2′-0″ (609.60 mm)'],
  [762.396875, 'in', true, '2′-6 1/64″ (762.40 mm)'],
  [10.75 * IN, 'in', true, '10 3/4″ (273.05 mm)'],
  [12.71 * IN, 'in', true, '12.71″ (322.83 mm)'],
  [24 * IN, 'in', false, '24″ (609.60 mm)'],
  [2000, 'mm', true, '2000 mm (6′-6 3/4″)'],
  [2000, 'mm', false, '2000 mm (78 3/4″)'],
  [168.3, 'mm', true, '168.3 mm (6 5/8″)'],
] as const)('%f mm for a reader of %s, feet %s: %s', (length, units, feet, text) => {
  expect(writeGiven(length, { units, feet, denominator: 16, paperThickness: 0 })).toBe(text);
});
