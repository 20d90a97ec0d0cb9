import { describe, expect, it } from 'vitest';
import { growBox } from '../../src/drawing/paths.ts';
import { isHolding, moveBox } from '../../src/paging/box.ts';
import { makeBook, makeSheets } from '../../src/print.ts';
import { readRequest, type Texts } from '../../src/request.ts';

/** Jobs with cards, the paper, and how many of the cards are larger than a page of it. */
const jobs: readonly (readonly [string, Texts, number])[] = [
  ['cope', { stock: 'W 8x31', to: 'W 12x40' }, 0],
  ['cope', { stock: 'IPE 200', to: 'HE 200 B', side: 'both', radius: '15mm' }, 0],
  // The skew flange, 245 mm by 215 mm, goes on no sheet of letter; the web does.
  ['cope', { stock: 'W 10x39', to: 'W 10x39', angle: '60' }, 1],
  ['compound', { slope: '60', sides: '4', card: '120mm' }, 0],
  ['compound', { slope: '45', 'other-slope': '60', height: '400mm', card: '150mm', paper: 'letter' }, 0],
];

describe('cards', () => {
  it.each(jobs)('of %s %j are cut by no page joint', (id, texts, larger) => {
    const request = readRequest(id, texts);
    const [sheet] = makeSheets(request);
    const { pages } = makeBook(request);
    const cards = sheet?.cards ?? [];
    const shown = pages.flatMap(({ views }) =>
      views.map(({ viewport, origin }) => moveBox(viewport, -origin.x, -origin.y)),
    );
    expect(cards.length).toBeGreaterThan(1);
    const parted = cards.filter((card) => !shown.some((box) => isHolding(growBox(box, 1e-6), card)));
    expect(parted).toHaveLength(larger);
    // Where none is larger than a page nothing is taped.
    if (larger === 0) expect(shown.length).toBeLessThanOrEqual(cards.length + 1);
  });

  it.each(['900mm', '1200mm', '6ft', '3m'])(
    'for chords of ⌀ %s go on one page of letter and of A4',
    (diameter) => {
      for (const paper of ['letter', 'a4']) {
        const { pages } = makeBook(readRequest('center-square', { diameter, paper, sheets: 'chord square' }));
        const drawn = pages.filter(({ label }) => !label.includes('notes'));
        expect(drawn).toHaveLength(1);
      }
    },
  );
});
