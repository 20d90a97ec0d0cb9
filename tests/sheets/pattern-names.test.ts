import { describe, expect, it } from 'vitest';
import { textWidth } from '../../src/drawing/lettering.ts';
import type { Lettering, Mark } from '../../src/drawing/model.ts';
import { makeSheets, readRequest, type Texts } from '../../src/index.ts';

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A point as a word has it: along its line and over its middle, mm. */
const from = ({ at, angle = 0 }: Lettering, { x, y }: Point): readonly [number, number] => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [(x - at.x) * c + (y - at.y) * s, (y - at.y) * c - (x - at.x) * s];
};

/** True of a point on the ink of a word that is set about its middle. */
const isOn = (word: Lettering, p: Point): boolean => {
  const [along, up] = from(word, p);
  return Math.abs(along) < textWidth(word.text, word.height, word.bold) / 2 && Math.abs(up) < word.height / 2;
};

/** Points all over a word's ink. */
const inkOf = ({ at, angle = 0, text, height, bold }: Lettering): readonly Point[] => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const half = textWidth(text, height, bold) / 2;
  return Array.from({ length: 41 }, (_, i) => (i / 20 - 1) * half).flatMap((u) =>
    [-0.45, 0, 0.45].map((v) => ({
      x: at.x + u * c - v * height * s,
      y: at.y + u * s + v * height * c,
    })),
  );
};

const isWord = (mark: Mark): mark is Lettering => mark.kind === 'text' && mark.valign === 'middle';

describe('names on a flat pattern', () => {
  it.each<readonly [string, Texts]>([
    ['cone', { large: '2in', small: '0in', height: '1-1/2in' }],
    ['cone', { large: '400mm', small: '200mm', height: '300mm' }],
    ['transition', { from: 'rect 40x25mm', to: 'round 20mm', height: '30mm' }],
    ['transition', { from: 'rect 300x300mm', to: 'round 200mm', height: '250mm' }],
    [
      'transition',
      {
        from: 'oval 30x14in',
        to: 'polygon 6 side 5in',
        height: '22in',
        offset: '4in,2in',
        tilt: '15',
        parts: '2',
      },
    ],
    ['breech', { trunk: '90mm', legs: '60mm,45mm', height: '100mm', spread: '120mm' }],
    ['breech', { trunk: '300mm', legs: '200mm', height: '300mm', spread: '320mm' }],
  ])('of a %s stand clear of each other: %j', (layout, texts) => {
    for (const { marks } of makeSheets(readRequest(layout, texts))) {
      const words = marks.filter(isWord);
      expect(words.filter(({ text }) => text.startsWith('SEAM')).length).toBeGreaterThan(0);
      const hits = words.flatMap((word) =>
        words
          .filter((other) => other !== word && inkOf(other).some((p) => isOn(word, p)))
          .map((other) => `${word.text} on ${other.text}`),
      );
      expect(hits).toEqual([]);
    }
  });

  it('name the printed face on a small pattern too', () => {
    const small = { from: 'rect 40x25mm', to: 'round 20mm', height: '30mm' };
    const [sheet] = makeSheets(readRequest('transition', small));
    expect(sheet!.marks.some((mark) => mark.kind === 'text' && mark.text === 'OUTSIDE UP')).toBe(true);
  });
});
