import { expect, it } from 'vitest';
import { layouts } from '../../src/layouts/registry.ts';
import { makeBook, makeSheets } from '../../src/print.ts';
import { readRequest } from '../../src/request.ts';
import { readExample } from '../support/example.ts';
import { findUnsaid, textsOf } from './page-checks.ts';

const exampleOf = (id: string, n: number): string =>
  layouts.find((layout) => layout.id === id)?.examples[n] ?? '';

/** Sheets on which nothing is full size: [layout, which example, sheet]. */
const figures = [
  ['makeup', 0, 'makeup'],
  ['makeup', 1, 'makeup'],
  ['makeup', 2, 'makeup'],
  ['closing', 3, 'closing'],
] as const;

it.each(figures.flatMap((one) => ['letter', 'a4'].map((paper) => [...one, paper] as const)))(
  'example %#: a picture of %s is whole on one page and not called full size',
  (id, n, name, paper) => {
    const { pages } = makeBook(readRequest(id, { ...readExample(exampleOf(id, n)), paper }));
    const showing = pages.filter(({ views }) =>
      views.some((view) => view.sheet === name && !view.name.startsWith('notes')),
    );
    expect(showing).toHaveLength(1);
    expect(showing[0]?.views.map((view) => view.name)).toEqual(['1.1']);
    const texts = showing.flatMap(textsOf);
    expect(texts.filter((text) => text.includes('FULL SIZE'))).toEqual([]);
    expect(texts.filter((text) => text.includes('laps here') || text.includes('taping check'))).toEqual([]);
  },
);

// A joint in the edge that light is read under is worse than a gauge without its table for laying out by hand.
it.each(['letter', 'a4'])('a radius gauge that a page of %s holds is not taped', (paper) => {
  const { pages } = makeBook(readRequest('radius-gauge', { radius: '600mm', side: 'inside', paper }));
  expect(pages.map(({ views }) => views.map(({ name }) => name))).toEqual([['1.1']]);
});

it('a table that is wider than a panel is not lost where sheets share a roll', () => {
  const points = '0in,0in,0in; 0in,0in,24in; 16in,0in,24in; 16in,12in,24in';
  const request = readRequest('bends', { stock: 'NPS 2 sch 40', points, radius: '6in', paper: '36in-roll' });
  expect(findUnsaid(makeBook(request).pages, makeSheets(request), request.setting)).toEqual([]);
});
