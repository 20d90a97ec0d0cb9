import { expect, it } from 'vitest';
import { makeBook, makeSheets } from '../../src/print.ts';
import { readRequest, type Texts } from '../../src/request.ts';
import { brokenTexts, lettersBadly } from './lettering-checks.ts';

/** The smallest parts, large ones, narrow rolls and wide ones. */
const extremes: readonly (readonly [string, Texts])[] = [
  ['turn', { stock: 'NPS 1/2 sch 40', pieces: '4', radius: '1.5in' }],
  ['turn', { stock: 'NPS 1/2 sch 40', pieces: '4', radius: '1.5in', nest: 'yes' }],
  ['turn', { stock: 'DN 25 sch 40', pieces: '3', radius: '60mm', nest: 'yes', paper: 'a4' }],
  ['miter', { stock: 'NPS 1/2 sch 40', cut: '45', paper: '102mm-roll' }],
  ['miter', { stock: 'NPS 24 STD', cut: '22.5', paper: '36in-roll' }],
  ['miter', { stock: 'UPN 160', cut: '30', lean: '5' }],
  ['branch', { branch: 'NPS 1/2 sch 40', header: 'NPS 3/4 sch 40', angle: '45' }],
  ['branch', { branch: 'NPS 12 STD', header: 'NPS 16 STD', paper: '36in-roll' }],
  ['wye', { stock: 'NPS 1/2 sch 40', leg: ['0', '120', '240'] }],
  ['bolt-circle', { flange: 'NPS 1/2 class 150' }],
  ['bolt-circle', { flange: 'NPS 24 class 150', paper: 'a4' }],
  [
    'bolt-circle',
    {
      holes: '6',
      circle: '7-1/2in',
      hole: '3/4in',
      outside: '9in',
      bore: '4-1/2in',
      turn: '15',
      paper: '102mm-roll',
    },
  ],
  ['plate', { shape: 'cap', pipe: 'NPS 1/2 sch 40' }],
  ['hole-grid', { columns: '2', 'column-pitch': '20mm', hole: '6mm' }],
];

it.each(extremes)('%s %j is lettered as the examples are', (id, texts) => {
  const request = readRequest(id, texts);
  const sheets = makeSheets(request);
  const { pages } = makeBook(request, sheets);
  expect([...lettersBadly(pages), ...brokenTexts(pages, sheets)]).toEqual([]);
});
