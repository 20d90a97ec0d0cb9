import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findFitting } from '../../src/stock/fitting.ts';
import { findPipeSizes, type PipeSize } from '../../src/stock/size.ts';
import { tableRows } from '../../src/stock/clauses.ts';
import { PIPE_B36_INCH } from '../../src/stock/tables/pipe-b36-inch.ts';
import { PIPE_B36_MM } from '../../src/stock/tables/pipe-b36-mm.ts';
import { FITTING_B16_9 } from '../../src/stock/tables/fitting-b16-9.ts';
import { FLANGE_B16_5 } from '../../src/stock/tables/flange-b16-5.ts';
import { refusals } from '../../src/units/notation.ts';
import { STOCK_TABLES, tableModule, tableSource } from '../../.tools/stock-tables.ts';

const refuse = refusals('size');
const sizes = [...new Set(tableRows(PIPE_B36_INCH).map((row) => row[1] ?? ''))];
const dnOf = new Map(tableRows(PIPE_B36_INCH).map((row) => [row[1], row[2] ?? '']));

describe('the data files and the modules that carry them', () => {
  it.each(STOCK_TABLES)('%s: the module is what the file makes it', (name) => {
    expect(readFileSync(tableModule(name), 'utf8')).toBe(tableSource(name));
  });
});

describe('pipe: two tables from unlike sources', () => {
  it('hold the sizes NPS 1/8 to 48 under the same names', () => {
    expect(sizes).toHaveLength(36);
    const pairs = (table: string) =>
      tableRows(table).map(([standard, nps, dn]) => `${standard} ${nps} ${dn}`);
    expect(pairs(PIPE_B36_INCH)).toEqual(pairs(PIPE_B36_MM));
  });

  it('agree: outside diameters within 0.5 mm, walls of a shared schedule within 0.035 mm', () => {
    let shared = 0;
    for (const nps of sizes) {
      const inch = findPipeSizes('NPS', nps, refuse);
      const metric = findPipeSizes('DN', dnOf.get(nps) ?? '', refuse);
      expect(inch.map((size) => size.standard)).toEqual(metric.map((size) => size.standard));
      for (const [i, size] of inch.entries()) {
        const other = metric[i] as PipeSize;
        expect(Math.abs(size.od - other.od), `NPS ${nps} outside`).toBeLessThan(0.5);
        for (const [schedule, wall] of other.schedules) {
          const own = size.schedules.get(schedule);
          expect(own, `NPS ${nps} ${schedule}`).toBeDefined();
          expect(Math.abs((own ?? 0) - wall), `NPS ${nps} ${schedule}`).toBeLessThan(0.035);
          shared += 1;
        }
      }
    }
    expect(shared).toBe(382);
  });

  it('every wall leaves a bore and heavier schedules have heavier walls', () => {
    for (const table of [PIPE_B36_INCH, PIPE_B36_MM]) {
      for (const [standard, nps, , od, schedules = ''] of tableRows(table)) {
        const walls = schedules.split(' ').map((entry) => entry.split('=') as [string, string]);
        for (const [name, wall] of walls) {
          expect(Number(wall), `${standard} NPS ${nps} ${name}`).toBeGreaterThan(0);
          expect(Number(wall), `${standard} NPS ${nps} ${name}`).toBeLessThan(Number(od) / 2);
        }
        const numbered = walls.filter(([name]) => /^\d+S?$/.test(name)).map(([, wall]) => Number(wall));
        expect(numbered).toEqual([...numbered].sort((a, b) => a - b));
      }
    }
  });
});

describe('flanges and fittings: inch and metric columns', () => {
  it('holes come in fours; the bolt circle rounds the sixteenth it comes from', () => {
    const rows = tableRows(FLANGE_B16_5);
    expect(rows).toHaveLength(120);
    for (const [rating, nps, , holes, hole = '', circle = '', od = '', bolt = '', circleMm, odMm] of rows) {
      const name = `class ${rating} NPS ${nps}`;
      const inches = (text: string) =>
        text
          .split(' ')
          .map((part) => part.split('/').map(Number))
          .reduce((sum, [n = 0, d = 1]) => sum + n / d, 0);
      expect(Number(holes) % 4, name).toBe(0);
      // Two bolt circles of the higher classes are given 0.2 mm off their eighth of an inch.
      expect(Math.abs(inches(circle) * 25.4 - Number(circleMm)), name).toBeLessThan(
        Number(rating) > 300 ? 0.21 : 0.06,
      );
      expect(Math.abs(inches(od) * 25.4 - Number(odMm)), name).toBeLessThan(3.1);
      expect(inches(hole) - inches(bolt), name).toBe(1 / 8);
      expect((inches(circle) * 16) % 1, name).toBe(0);
      const edge = inches(circle) * Math.sin(Math.PI / Number(holes)) - inches(hole);
      expect(edge, `${name}: holes clear each other`).toBeGreaterThan(0);
      expect(inches(circle) + inches(hole), `${name}: holes inside the rim`).toBeLessThan(inches(od));
    }
  });

  /** ASME B16.9: A = 1.5 x NPS for long radius (NPS 1/2 and 3/4: 38 mm), NPS for short radius, by the tables seen second-hand. */
  it('long radius is 1.5 times the nominal size, short radius once', () => {
    for (const [nps = '', dn = ''] of tableRows(FITTING_B16_9)) {
      const inch = findFitting('NPS', nps, refuse);
      const metric = findFitting('DN', dn, refuse);
      const nominal =
        25.4 *
        nps
          .split(' ')
          .map((part) => part.split('/').map(Number))
          .reduce((sum, [n = 0, d = 1]) => sum + n / d, 0);
      expect(inch.longRadius90).toBeCloseTo(nominal < 25 ? 38.1 : 1.5 * nominal, 9);
      if (inch.shortRadius90 !== undefined) expect(inch.shortRadius90).toBeCloseTo(nominal, 9);
      const columns = ['longRadius90', 'longRadius45', 'shortRadius90', 'reducer'] as const;
      for (const column of columns) {
        const [a, b] = [inch[column], metric[column]];
        expect(a === undefined, `NPS ${nps} ${column}`).toBe(b === undefined);
        expect(Math.abs((a ?? 0) - (b ?? 0)), `NPS ${nps} ${column}`).toBeLessThanOrEqual(0.55);
      }
    }
  });
});
