import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Sheet, Table } from '../../src/drawing/model.ts';
import { renderCsv } from '../../src/render/csv.ts';

const sheetOf = (heading: string, tables: readonly Table[]): Sheet => ({
  name: heading.toLowerCase(),
  heading,
  subject: [],
  marks: [],
  bounds: { minX: 0, minY: 0, maxX: 1, maxY: 1 },
  steps: [],
  facts: [],
  tables,
  pictures: [],
  cautions: [],
});

/** A reader written from the grammar of RFC 4180, section 2: rows of fields. */
const readCsv = (text: string): string[][] => {
  const rows: string[][] = [];
  let rest = text;
  let row: string[] = [];
  while (rest !== '') {
    const quoted = /^"((?:[^"]|"")*)"(,|\r\n)/.exec(rest);
    const [whole, field, end] = quoted ?? /^([^",\r\n]*)(,|\r\n)/.exec(rest) ?? [];
    if (whole === undefined) throw new Error(`not RFC 4180: ${rest.slice(0, 20)}`);
    row.push(quoted ? field!.replaceAll('""', '"') : field!);
    if (end === '\r\n') {
      rows.push(row);
      row = [];
    }
    rest = rest.slice(whole.length);
  }
  return rows;
};

test('each table begins with its title and an empty line parts it from the next', () => {
  const ordinates = {
    title: 'Ordinates',
    header: ['Station', 'mm', 'in'],
    rows: [
      ['0°', '123.456789', '4 7/8″'],
      ['15°', '-0.25', '-1/4"'],
    ],
  };
  const text = renderCsv([sheetOf('Branch end', [ordinates, { title: 'Marks', header: ['a'], rows: [] }])]);
  expect(text).toBe(
    'Branch end: Ordinates\r\nStation,mm,in\r\n0°,123.456789,4 7/8″\r\n15°,-0.25,"-1/4"""\r\n\r\nBranch end: Marks\r\na\r\n',
  );
  expect(renderCsv([])).toBe('');
});

test.each([
  ['=1+1', "'=1+1"],
  ['+SUM(A1)', "'+SUM(A1)"],
  ['-2+3', "'-2+3"],
  ['@x', "'@x"],
  ['\t=1', "'\t=1"],
  [' =1', "' =1"],
  ['-', "'-"],
  ['-12.5', '-12.5'],
  ['+3', '+3'],
  ['-1.5e-7', '-1.5e-7'],
  ['-1 1/2″', '-1 1/2″'],
  ['-1\'-3 1/2"', '-1\'-3 1/2"'],
  ['-3 mm', '-3 mm'],
  ['-1/2', '-1/2'],
  ['−x', '−x'],
  ['x = 1', 'x = 1'],
])('%j is written so that no spreadsheet runs it', (given, written) => {
  const rows = readCsv(renderCsv([sheetOf('S', [{ title: 't', header: [given], rows: [] }])]));
  expect(rows[1]).toEqual([written]);
});

test('a figure printed with the minus sign is a number in the file (trim and chord print how far a reading is off)', () => {
  const rows = [['−0.02'], ['−1.705'], ['+0.02'], ['a − b']];
  const text = renderCsv([sheetOf('S', [{ title: 't', header: ['off, mm'], rows }])]);
  const written = readCsv(text)
    .slice(2)
    .map(([cell]) => cell);
  expect(written).toEqual(['-0.02', '-1.705', '+0.02', 'a − b']);
});

test('any text comes back as it was, but for the apostrophe', () => {
  const field = fc.string({ unit: fc.constantFrom('a', '"', ',', '\r', '\n', '=', '-', '1', ' ', '″') });
  const row = fc.array(field, { minLength: 2, maxLength: 4 });
  fc.assert(
    fc.property(fc.array(row, { minLength: 1 }), (rows) => {
      const back = readCsv(renderCsv([sheetOf('S', [{ title: 't', header: ['h'], rows }])])).slice(2);
      expect(back.map((cells) => cells.map((cell) => cell.replace(/^'/, '')))).toEqual(rows);
      for (const cell of back.flat()) expect(cell).not.toMatch(/^\s*=/);
    }),
  );
});
