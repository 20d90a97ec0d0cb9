import { expect, it } from 'vitest';
import { writeTable } from '../../src/drawing/written.ts';
import { lengthOf, sizeOf } from '../../src/units/quantity.ts';

it('sizes in a column have their points in line, tape lengths stay as the tape shows them', () => {
  const table = {
    title: 'From the left end by tape',
    header: ['Bend', 'begins', 'by tape'],
    rows: [
      ['1', sizeOf(44), lengthOf(44)],
      ['2', sizeOf(138.81), lengthOf(138.81)],
      ['3', sizeOf(-50.8), lengthOf(50.8)],
      ['end', '', ''],
    ],
  };
  expect(writeTable(table, { units: 'mm', denominator: 16 }).rows).toEqual([
    ['1', '44.00', '1.732″', '44.0', '1 3/4″'],
    ['2', '138.81', '5.465″', '138.8', '5 7/16″'],
    ['3', '-50.80', '-2.000″', '50.8', '2″'],
    ['end', '', '', '', ''],
  ]);
  const round = { ...table, rows: [['1', sizeOf(44), ''] as const, ['2', sizeOf(50), ''] as const] };
  expect(writeTable(round, { units: 'mm' }).rows.map((row) => row[1])).toEqual(['44', '50']);
});
