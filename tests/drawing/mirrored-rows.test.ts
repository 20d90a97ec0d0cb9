import { describe, expect, it } from 'vitest';
import type { Table } from '../../src/drawing/model.ts';
import { foldMirrored } from '../../src/drawing/mirrored-rows.ts';
import { makeSheets } from '../../src/print.ts';
import { readRequest, type Texts } from '../../src/request.ts';
import { lengthOf } from '../../src/units/quantity.ts';

const tableOf = (layout: string, texts: Texts): Table => {
  const [table] = makeSheets(readRequest(layout, texts))[0]?.tables ?? [];
  if (table === undefined) throw new Error('no table');
  return table;
};

describe('rows that mirror each other', () => {
  it('a miter has 13 rows for its 24 stations, each with both of its stations and one way around', () => {
    const whole = tableOf('miter', { stock: 'NPS 6 sch 40', cut: '22.5' });
    const { header, rows, title } = foldMirrored(whole);
    expect([whole.rows.length, rows.length]).toEqual([24, 13]);
    expect(header).toEqual(['Stations', 'around', 'up']);
    expect(title).toMatch(/around both ways from 0°$/);
    expect(rows.map(([station]) => station)).toContain('15° · 345°');
    // Right of 0° as far as it says; left of it the same is what is missing to a whole turn.
    const around = (row: Table['rows'][number] | undefined): number =>
      typeof row?.[1] === 'object' && row[1].kind === 'length' ? row[1].mm : NaN;
    const girth = Math.PI * 168.275;
    const at = (name: string) => around(whole.rows.find(([station]) => station === name));
    expect(at('15°') + at('345°')).toBeCloseTo(girth, 6);
    expect(around(rows[1])).toBeCloseTo(girth / 24, 6);
  });

  it('leaves a table whole where one station differs or is named otherwise', () => {
    const offset = tableOf('branch', {
      branch: 'NPS 2 sch 40',
      header: 'NPS 6 sch 40',
      offset: '1in',
    });
    expect(foldMirrored(offset)).toBe(offset);
    const row = (name: string, around: number, up: number) => [name, lengthOf(around), lengthOf(up)];
    const table = (up: number): Table => ({
      title: 'x',
      goesAround: true,
      header: ['Station', 'around', 'up'],
      rows: [
        row('0°', 0, 9),
        row('60°', 10, 8),
        row('120°', 20, 7),
        row('180°', 30, 6),
        row('240°', 40, 7),
        row('300°', 50, up),
      ],
    });
    expect(foldMirrored(table(8)).rows).toHaveLength(4);
    expect(foldMirrored(table(8.1)).rows).toHaveLength(6);
    const [first = [], ...others] = table(8).rows;
    expect(foldMirrored({ ...table(8), rows: [['TDC', ...first.slice(1)], ...others] }).rows).toHaveLength(6);
  });
});
