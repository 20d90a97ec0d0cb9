import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCsv } from '../../src/jobs/csv-cells.ts';
import { readCsvList } from '../../src/jobs/read-csv.ts';

const texts = (source: string): string[][] => {
  const csv = readCsv(source);
  if (csv.kind === 'fault') throw new Error(`${csv.line}:${csv.column} ${csv.message}`);
  return csv.rows.map((row) => row.map(({ text }) => text));
};

describe('readCsv', () => {
  // RFC 4180, section 2, rules 1, 2, 5, 6 and 7, with its own examples.
  it.each([
    [
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b\r\nbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('reads %j', (source, rows) => expect(texts(source)).toEqual(rows));

  it('takes inches as they are written by hand, and as spreadsheets save them', () => {
    expect(texts('length\n6-5/8"\n')).toEqual([['length'], ['6-5/8"']]);
    expect(texts('length\n"6-5/8"""\n')).toEqual([['length'], ['6-5/8"']]);
  });

  it('takes semicolons and tabs, a byte order mark, any line end, and passes over empty lines', () => {
    expect(texts('\ufeffa;b\r1,5;2\r\r')).toEqual([
      ['a', 'b'],
      ['1,5', '2'],
    ]);
    expect(texts('a\tb\n\n,;\t2\n,,\n')).toEqual([['a', 'b'], [',;', '2'], [',,']]);
  });

  it.each([
    ['a,b\n1,"2\n', 2, 3],
    ['a,b\n1,"2"x\n', 2, 6],
    ['a\n"x\ny" z\n', 3, 4],
  ])('tells where %j is wrong', (source, line, column) =>
    expect(readCsv(source)).toMatchObject({ kind: 'fault', line, column }),
  );

  it('reads back whatever is written by the standard, and every field stands where it is said to', () => {
    const field = fc.string({ unit: fc.constantFrom('a', '"', ',', '\r\n', '\n', ';', 'é', ' ') });
    const rows = fc
      .tuple(
        fc.integer({ min: 2, max: 5 }),
        fc.array(fc.array(field, { minLength: 5, maxLength: 5 }), { minLength: 1 }),
      )
      .map(
        ([width, all]) =>
          [Array(width).fill('head'), ...all.map((row) => ['x', ...row].slice(0, width))] as string[][],
      );
    fc.assert(
      fc.property(rows, (table) => {
        const source = table
          .map((row) => row.map((text) => `"${text.replaceAll('"', '""')}"`).join(','))
          .join('\r\n');
        const csv = readCsv(source);
        expect(csv.kind === 'rows' && csv.rows.map((row) => row.map(({ text }) => text))).toEqual(table);
        const lines = source.split(/\r\n|\r|\n/);
        for (const { line, column } of csv.kind === 'rows' ? csv.rows.flat() : [])
          expect(lines[line - 1]?.[column - 1]).toBe('"');
      }),
    );
  });
});

describe('a cut list', () => {
  const list = (source: string) => readCsvList(source, 'cuts.csv');

  it('takes heads as people write them, leaves empty fields out, and keeps places', () => {
    const { entries, issues } = list(
      'Piece,Layout,Paper thickness,# remark,Mark,Mark\nS1,band,,see note,0:a,90:b\n',
    );
    expect(issues).toEqual([]);
    expect(entries[0]?.layout).toBe('band');
    expect({ ...entries[0]?.texts }).toEqual({ piece: 'S1', mark: ['0:a', '90:b'] });
    expect(entries[0]?.placeOf('mark')).toEqual({ file: 'cuts.csv', line: 2, column: 19 });
  });

  it('passes over lines that are a remark alone, and the line that names the separator', () => {
    const { entries, issues } = list(
      'sep=;\r\n# Pump house;;\r\nlayout;piece;pipe\r\n# second floor\r\nband;#7;NPS 2 sch 41\r\n',
    );
    expect(issues).toEqual([]);
    expect(entries.map(({ texts }) => ({ ...texts }))).toEqual([{ piece: '#7', pipe: 'NPS 2 sch 41' }]);
    expect(entries[0]?.placeOf('pipe')).toEqual({ file: 'cuts.csv', line: 5, column: 9 });
  });

  it('takes a mark that begins with # for a mark where it may be one', () => {
    expect(list('piece,quantity\n#1,\n#2,3\n').entries.map(({ texts }) => texts['piece'])).toEqual([
      '#1',
      '#2',
    ]);
  });

  it('takes blanks around quoted fields', () => {
    const { entries, issues } = list('layout, piece, pipe , #note\nband, "S, 1" ,"NPS 2 sch 40", "a, b"\n');
    expect(issues).toEqual([]);
    expect(entries.map(({ texts }) => ({ ...texts }))).toEqual([{ piece: 'S, 1', pipe: 'NPS 2 sch 40' }]);
    expect(entries[0]?.placeOf('piece').column).toBe(7);
  });

  it.each([
    ['Qty', 'quantity'],
    ['Tag', 'piece'],
    ['Stok', 'stock'],
  ])('knows what the head "%s" most likely is', (head, input) => {
    const [issue] = list(`layout,${head}\nband,3\n`).issues;
    expect(issue?.hint).toBe(`did you mean ${input}? Begin the head with # where the column is a remark`);
  });

  it('refuses a row that has come apart at a comma, and no other', () => {
    const { entries, issues } = list('piece,pipe\nS1,OD 60,3mm wall 3mm\nS2,NPS 2 sch 40\n');
    expect(entries.map(({ texts: { piece } }) => piece)).toEqual(['S2']);
    expect(issues.map(({ message }) => message)).toEqual([
      'cuts.csv:2:10: the row is longer than the first, which names 2 columns',
    ]);
  });
});
