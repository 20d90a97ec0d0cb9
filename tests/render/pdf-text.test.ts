import { describe, expect, test } from 'vitest';
import { UserError } from '../../src/issue.ts';
import { renderPdf } from '../../src/render/pdf.ts';
import { readTexts } from '../support/pdf-texts.ts';
import { measureInk } from './ink.ts';
import { bookOf, lettering, pageOf } from './sample-book.ts';

const write = (...marks: ReturnType<typeof lettering>[]) =>
  renderPdf(bookOf([pageOf(marks, { width: 100, height: 80 })]));

describe('where lettering stands', () => {
  const at = { x: 50, y: 40 };

  test.each([2.5, 3.5, 5, 7])(
    'capitals %s mm high are that high (ISO 3098-1 sizes), regular and bold',
    async (height) => {
      for (const bold of [false, true]) {
        const ink = measureInk(await write(lettering('HEH', at, { height, bold })));
        expect(Math.abs(ink.maxY - ink.minY - height)).toBeLessThan(0.1);
        expect(Math.abs(ink.minY - at.y)).toBeLessThan(0.06);
        expect(ink.minX - at.x).toBeGreaterThan(0);
        expect(ink.minX - at.x).toBeLessThan(height * 0.2);
      }
    },
  );

  test('aligned by its middle, half the capitals lie on either side, however it is turned', async () => {
    for (const angle of [0, Math.PI / 2, Math.PI, -Math.PI / 2]) {
      const ink = measureInk(
        await write(lettering('HIH', at, { height: 5, angle, align: 'centre', valign: 'middle' })),
      );
      expect(Math.abs((ink.minX + ink.maxX) / 2 - at.x)).toBeLessThan(0.1);
      expect(Math.abs((ink.minY + ink.maxY) / 2 - at.y)).toBeLessThan(0.1);
      const [width, height] = [ink.maxX - ink.minX, ink.maxY - ink.minY];
      expect(Math.abs(Math.min(width, height) - 5)).toBeLessThan(0.1);
      expect(width > height).toBe(angle === 0 || angle === Math.PI);
    }
  });

  test('right means it ends there, top means it hangs from there; a quarter turn reads upward', async () => {
    const ink = measureInk(await write(lettering('HEH', at, { height: 7, align: 'right', valign: 'top' })));
    expect(at.x - ink.maxX).toBeGreaterThan(0);
    expect(at.x - ink.maxX).toBeLessThan(1.4);
    expect(Math.abs(ink.maxY - at.y)).toBeLessThan(0.06);
    const turned = measureInk(await write(lettering('HEH', at, { height: 7, angle: Math.PI / 2 })));
    expect(turned.minY).toBeGreaterThan(at.y);
    expect(Math.abs(turned.maxX - at.x)).toBeLessThan(0.06);
  });
});

describe('what lettering says', () => {
  test('every sign of the sheets is read back, in the order it was written', async () => {
    const lines = [
      'NPS 6″ sch 40 · 12′-7 ½″',
      '⌀168.3 × 7.11 mm ±0.5',
      '22.5° ⅛ ⅜ ⅝ ⅞ ¼ ¾ ≤ ≥ → “KEEP”',
      'AVATAR fi fl ffi Ää Ñ é Ω',
    ];
    const marks = lines.map((line, i) => lettering(line, { x: 5, y: 70 - 10 * i }, { bold: i === 1 }));
    const [text] = await readTexts(await write(...marks));
    expect(text!.trim().split('\n')).toEqual(lines);
  });

  test('turned lettering is read back too', async () => {
    const [text] = await readTexts(
      await write(lettering('TDC 270°', { x: 50, y: 20 }, { angle: Math.PI / 2 })),
    );
    expect(text).toContain('TDC 270°');
  });

  test.each([
    ['ab漢', 'U+6F22'],
    ['😀', 'U+1F600'],
    ['a\nb', 'U+000A'],
    ['a\u202Eb', 'U+202E'],
    ['سلام', 'U+0633'],
  ])('%j holds a sign that cannot be lettered and is refused by name', async (text, code) => {
    const refused = write(lettering(text, { x: 5, y: 5 }));
    await expect(refused).rejects.toBeInstanceOf(UserError);
    await expect(refused).rejects.toThrow(code);
  });
});
