import { expect, it } from 'vitest';
import { listTexts } from '../../src/words/languages.ts';
import { bookOf, lettering, pageOf } from './sample-book.ts';
import { waitingTexts } from './waiting.ts';

it('all that the program says, in English and in Spanish, has the same codes in every print', async () => {
  const catalog = JSON.parse(listTexts('es') ?? '{}') as Record<string, string>;
  const texts = Object.entries(catalog)
    .flat()
    .flatMap((text) => text.split('\n'));
  expect(texts.length).toBeGreaterThan(2000);
  const page = pageOf(texts.map((text, i) => lettering(text, { x: 10, y: i / 100 })));
  expect(await waitingTexts(bookOf([page]))).toEqual([]);
});

it('a page with a sign of another alphabet waits for its book', async () => {
  const page = pageOf([lettering('Труба', { x: 10, y: 10 })]);
  expect(await waitingTexts(bookOf([page]))).toEqual(['Труба']);
});
