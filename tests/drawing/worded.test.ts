import { expect, it } from 'vitest';
import { readRequest } from '../../src/index.ts';
import type { Table } from '../../src/drawing/model.ts';
import { once, valuesOf, worded } from '../../src/drawing/worded.ts';
import { NONE, writeFact, writeTable } from '../../src/drawing/written.ts';
import { makeSheets } from '../../src/print.ts';
import { angleOf, fineOf, givenOf, lengthOf, shareOf } from '../../src/units/quantity.ts';
import { say, withCatalog } from '../../src/words/say.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { readCommand } from '../support/commands.ts';

const format = { units: 'mm' } as const;

it('words hold their values in the order they are read, in whatever language', () => {
  const sizes = () =>
    worded(
      (value) => say`${value(lengthOf(300))} by ${value(lengthOf(25.4))}, ${value(angleOf(Math.PI / 8))}`,
    );
  expect(writeFact(sizes(), format)).toBe('300.0 mm (11 13/16″) by 25.4 mm (1″), 22.5°');
  const turned = withCatalog(new Map([['{0} by {1}, {2}', '{2}: {1} / {0}']]), sizes);
  expect(writeFact(turned, format)).toBe('22.5°: 25.4 mm (1″) / 300.0 mm (11 13/16″)');
  expect(valuesOf(turned)).toEqual([angleOf(Math.PI / 8), lengthOf(25.4), lengthOf(300)]);
});

it('a column of lengths becomes two, a length alone stands with its unit, what has no value has none in both', () => {
  const table: Table = {
    title: 'sizes',
    header: ['gap', 'radius', 'share'],
    rows: [
      [once(fineOf(0.5)), fineOf(500), shareOf(0.126)],
      [once(fineOf(1)), NONE, shareOf(0.5, 1)],
    ],
  };
  const { header, rows } = writeTable(table, format);
  expect(header).toEqual(['gap', 'radius mm', 'radius in', 'share']);
  expect(rows).toEqual([
    ['0.5 mm', '500.0', '19 11/16″', '13 %'],
    ['1.0 mm', '—', '—', '50.0 %'],
  ]);
});

// 25.4 mm an inch (international agreement of 1959).
it('a given length is exact in the unit it is read in', () => {
  expect(writeFact(givenOf(168.3), format)).toBe('168.3 mm (6 5/8″)');
  expect(writeFact(givenOf(0.84 * 25.4), { units: 'in' })).toBe('0.84″ (21.34 mm)');
});

/** A number with a unit of length or angle, as words would hold it. */
const figure = /\d(?:°|″| mm\b| in\b)/;

it.each(layouts.map(({ id, examples }) => [id, examples] as const))(
  'every length and angle among the figures of %s is a value',
  (id, examples) => {
    for (const example of examples) {
      const facts = makeSheets(readRequest(id, readCommand(example).texts)).flatMap((sheet) => sheet.facts);
      const inWords = facts.flatMap(([label, said]) => {
        const texts = typeof said === 'string' ? [said] : said.kind === 'words' ? said.parts : [];
        return texts.some((text) => typeof text === 'string' && figure.test(text)) ? [label] : [];
      });
      expect(inWords.filter((label) => !known.has(label))).toEqual([]);
    }
  },
);

/** Words that are read as such: names of stations and standards, and a triangle's whole steps. */
const known: ReadonlySet<string> = new Set([
  'A weld along the pipe at station 90',
  'Take-off from',
  'Longest triangle',
  'Diagonal of 1 to 1',
  'One degree on the arc',
]);
