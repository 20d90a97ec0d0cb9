/**
 * Writes `src/drawing/glyph-table.ts` from the font files, so that the drawing can measure text without a font engine.
 * Run: npx tsx .tools/glyph-table.ts
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import * as fontkit from 'fontkit';
import { format } from 'prettier';

/** What a sheet or a name on it may need: Latin, Greek, Cyrillic, punctuation, fractions, arrows, mathematics. */
const ranges: readonly (readonly [number, number])[] = [
  [0x20, 0x7e],
  [0xa0, 0x17f],
  [0x218, 0x21b],
  [0x2c6, 0x2dd],
  [0x384, 0x3ce],
  [0x400, 0x45f],
  [0x490, 0x491],
  [0x1e9e, 0x1e9e],
  [0x2010, 0x2027],
  [0x202f, 0x2044],
  [0x2070, 0x208e],
  [0x20ac, 0x20ac],
  [0x2116, 0x2122],
  [0x2126, 0x2126],
  [0x2150, 0x215f],
  [0x2190, 0x2199],
  [0x2200, 0x2265],
  [0x22a5, 0x22c5],
  [0x2300, 0x2300],
  [0x25a0, 0x25cf],
];

const measure = (file: string): string => {
  const path = join(
    dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')),
    'ttf',
    file,
  );
  const font = fontkit.create(readFileSync(path));
  const grid = font.unitsPerEm / 128;
  const rows = ranges.map(([from, to]) => {
    const glyphs = [];
    for (let code = from; code <= to; code += 1) {
      if (!font.hasGlyphForCodePoint(code)) {
        glyphs.push('');
        continue;
      }
      const { advanceWidth, bbox } = font.glyphForCodePoint(code);
      const blank = !Number.isFinite(bbox.minY);
      const low = blank ? 0 : Math.floor(bbox.minY / grid);
      const high = blank ? 0 : Math.ceil(bbox.maxY / grid);
      glyphs.push([advanceWidth, low, high].map((n) => n.toString(36)).join(' '));
    }
    return `'${from.toString(16)}:${glyphs.join(',')}',`;
  });
  const capital = font.glyphForCodePoint(0x48).bbox.maxY;
  return `{ unitsPerEm: ${font.unitsPerEm}, capital: ${capital}, rows: [${rows.join('\n')}] }`;
};

const source = `// Made by .tools/glyph-table.ts from DejaVu Sans Condensed 2.37; do not edit.

/** One font's glyph measures: font units for advances, 1/128 em for heights, all in base 36. */
export interface GlyphTable {
  readonly unitsPerEm: number;
  /** Height of the capital H in font units. */
  readonly capital: number;
  /** Runs of characters, \`first code in hex : advance lowest highest, …\`; an empty entry has no glyph. */
  readonly rows: readonly string[];
}

// prettier-ignore
export const regularGlyphs: GlyphTable = ${measure('DejaVuSansCondensed.ttf')};

// prettier-ignore
export const boldGlyphs: GlyphTable = ${measure('DejaVuSansCondensed-Bold.ttf')};
`;
writeFileSync(
  new URL('../src/drawing/glyph-table.ts', import.meta.url),
  await format(source, { parser: 'typescript', singleQuote: true, printWidth: 110, trailingComma: 'all' }),
);
