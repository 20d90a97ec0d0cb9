import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/issue.ts';
import { paperNames, parsePaper } from '../../src/paging/paper.ts';

const sides = (text: string): readonly number[] => {
  const paper = parsePaper(text);
  return paper.kind === 'sheet' ? [paper.width, paper.height] : [paper.width];
};
const refusal = (text: string): UserError => {
  try {
    parsePaper(text);
  } catch (error) {
    if (error instanceof UserError) return error;
    throw error;
  }
  throw new Error(`${text} was accepted`);
};

describe('parsePaper', () => {
  it.each([
    // ISO 216:2007 tables 1 and 2.
    ['a0', [841, 1189]],
    ['A4', [210, 297]],
    ['a6', [105, 148]],
    ['b0', [1000, 1414]],
    ['b4', [250, 353]],
    // ANSI/ASME Y14.1: A 8.5x11 to E 34x44; architectural D 24x36, E1 30x42 in.
    ['letter', [215.9, 279.4]],
    ['legal', [215.9, 355.6]],
    ['tabloid', [279.4, 431.8]],
    ['ansi-e', [863.6, 1117.6]],
    ['ANSI D', [558.8, 863.6]],
    ['arch-d', [609.6, 914.4]],
    ['arch-e1', [762, 1066.8]],
    ['24in-roll', [609.6]],
    ['36 in roll', [914.4]],
    ['841mm-roll', [841]],
    ['300x500mm', [300, 500]],
    ['18x12in', [304.8, 457.2]],
    ['8-1/2x14in', [215.9, 355.6]],
    ['300mm x 20in', [300, 508]],
  ])('%s', (text, expected) => {
    sides(text).forEach((side, i) => expect(side).toBeCloseTo(expected[i] ?? NaN, 9));
    expect(sides(text)).toHaveLength(expected.length);
  });

  it('halves each ISO size to the next', () => {
    // ISO 216: each size is the one above halved, rounded down to whole mm.
    for (const series of ['a', 'b'])
      for (let n = 0; n < 6; n += 1) {
        const [width = 0, height = 0] = sides(`${series}${n}`);
        expect(sides(`${series}${n + 1}`)).toEqual([Math.floor(height / 2), width]);
      }
  });

  it('tells the nearest names', () => {
    expect(refusal('leter').issues[0]?.hint).toContain('letter');
    expect(refusal('arch-f').issues[0]?.hint).toContain('arch-');
    expect(refusal('a7').issues[0]?.hint).toContain('a');
  });

  it.each(['', 'foolscap', '300x500', 'axb', '0x100mm', '300x6000mm', '9000mm-roll', '300xmm'])(
    'refuses %j',
    (text) => {
      const error = refusal(text);
      expect(error.failure).toBe('request');
      expect(error.issues[0]?.path).toBe('paper');
    },
  );

  it('reads every name it lists, and any size it can write', () => {
    for (const name of paperNames) expect(parsePaper(name).name).toBe(name);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5080 }), fc.integer({ min: 1, max: 5080 }), (w, h) => {
        expect(sides(`${w}x${h}mm`)).toEqual([Math.min(w, h), Math.max(w, h)]);
      }),
    );
  });
});
