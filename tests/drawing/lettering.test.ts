import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import * as fontkit from 'fontkit';
import { describe, expect, it } from 'vitest';
import { boldGlyphs, regularGlyphs } from '../../src/drawing/glyph-table.ts';
import {
  canLetter,
  fontSize,
  letteringBox,
  textReach,
  textWidth,
  wrapText,
} from '../../src/drawing/lettering.ts';
import { letter } from '../../src/drawing/paths.ts';
import { readFontFile } from '../../src/render/font-files.ts';
import { UserError } from '../../src/issue.ts';

const open = (file: string) =>
  fontkit.create(readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${file}`)));

/** Reference: the font files themselves, read by fontkit. */
describe.each([
  ['DejaVuSansCondensed.ttf', false, regularGlyphs],
  ['DejaVuSansCondensed-Bold.ttf', true, boldGlyphs],
] as const)('glyph table of %s', (file, bold, table) => {
  const font = open(file);
  const capital = font.glyphForCodePoint('H'.codePointAt(0) ?? 0).bbox.maxY;
  const signs = table.rows.flatMap((row) => {
    const [first = '', entries = ''] = row.split(':');
    return entries.split(',').flatMap((entry, i) => (entry === '' ? [] : [parseInt(first, 16) + i]));
  });

  it('has every sign the sheets use', () => {
    for (const sign of '″′⌀°½¼¾⅛⅜⅝⅞±×–—·≤≥πα→') expect(signs).toContain(sign.codePointAt(0));
    expect(signs.length).toBeGreaterThan(700);
  });

  it('agrees with the font in advance and reach of every sign', () => {
    for (const code of signs) {
      const glyph = font.glyphForCodePoint(code);
      const sign = String.fromCodePoint(code);
      if (sign.normalize('NFC') !== sign) continue;
      expect(textWidth(sign, capital, bold), sign).toBeCloseTo(glyph.advanceWidth, 6);
      const { low, high } = textReach(sign, capital, bold);
      if (!Number.isFinite(glyph.bbox.minY)) continue;
      expect(low, sign).toBeLessThanOrEqual(Math.min(0, glyph.bbox.minY) + 1e-6);
      expect(high, sign).toBeGreaterThanOrEqual(glyph.bbox.maxY - 1e-6);
      expect(Math.abs(high - Math.max(0, glyph.bbox.maxY)), sign).toBeLessThan(17);
    }
  });

  it("stands for the embedded face, whose outlines are the published font's", () => {
    const embedded = fontkit.create(readFontFile(bold));
    expect(embedded.unitsPerEm).toBe(font.unitsPerEm);
    const outline = (glyph: ReturnType<typeof font.glyphForCodePoint>) => JSON.stringify(glyph.path.commands);
    for (const code of signs) {
      const [ours, published] = [embedded.glyphForCodePoint(code), font.glyphForCodePoint(code)];
      expect(ours.advanceWidth, code.toString(16)).toBe(published.advanceWidth);
      expect(outline(ours), code.toString(16)).toBe(outline(published));
    }
  });

  it('sizes the font so that a capital H is as high as asked', () => {
    expect((fontSize(3.5, bold) * capital) / font.unitsPerEm).toBeCloseTo(3.5, 9);
  });
});

describe('lettering', () => {
  it('refuses a sign it has no glyph for', () => {
    expect(() => textWidth('mark 漢', 3.5, false)).toThrow(UserError);
    expect(canLetter('NPS 6 · 168.3 mm')).toBe(true);
    expect(canLetter('漢')).toBe(false);
  });

  it('places the box by align, valign and angle', () => {
    const width = textWidth('HEEL', 5, true);
    const flat = letteringBox(
      letter('text', { x: 10, y: 20 }, 'HEEL', 5, { bold: true, align: 'centre', valign: 'top' }),
    );
    expect(flat.minX).toBeCloseTo(10 - width / 2, 9);
    expect(flat.minY).toBeCloseTo(15, 9);
    const upright = letteringBox(
      letter('text', { x: 10, y: 20 }, 'HEEL', 5, { bold: true, angle: Math.PI / 2 }),
    );
    expect(upright.maxX).toBeCloseTo(10, 9);
    expect(upright.minY).toBeCloseTo(20, 9);
    expect(upright.maxY).toBeCloseTo(20 + width, 9);
  });

  it('keeps a number with its fraction and its unit at any width that holds them', () => {
    const text =
      'Pull until one turn advances 200.0 mm (7 7/8″); 2 bars of 1′-3 1/2″, class 150, springback 3 %, .25 in/ft, 12.5 kg/m, 100 ft, 3 in one';
    for (let width = 25; width < 120; width += 0.5) {
      const lines = wrapText(text, 2.5, false, width);
      expect(lines.join(' ')).toBe(text);
      for (const line of lines) expect(line).not.toMatch(/^(?:\d+\/\d|mm|%|in\/|kg|ft)/);
    }
    expect(wrapText(text, 2.5, false, 25).length).toBeGreaterThan(3);
  });

  it('wraps to the width, loses no word, and breaks a word that is too long', () => {
    const text = 'Wrap printed side out, heel line on top dead centre, until the reference edge meets itself';
    const lines = wrapText(text, 2.5, false, 40);
    expect(lines.length).toBeGreaterThan(2);
    for (const line of lines) expect(textWidth(line, 2.5, false)).toBeLessThanOrEqual(40);
    expect(lines.join(' ')).toBe(text);
    const broken = wrapText('x'.repeat(80), 2.5, false, 20);
    expect(broken.join('')).toBe('x'.repeat(80));
    for (const line of broken) expect(textWidth(line, 2.5, false)).toBeLessThanOrEqual(20);
  });
});
