/**
 * Makes what lettering needs from the font package: `shared/fonts`, the two faces with only the signs a sheet may need and
 * without tables that nothing reads, and `src/drawing/glyph-table.ts`, by which the drawing measures text without a font
 * engine. Both are committed. Run: npx tsx .tools/lettering.ts
 */
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import * as fontkit from 'fontkit';
import { format } from 'prettier';

const resolve = createRequire(import.meta.url).resolve;
const source = dirname(resolve('dejavu-fonts-ttf/package.json'));
const fonts = join(import.meta.dirname, '..', 'shared/fonts');

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

/** The functions of HarfBuzz's subsetter that are used here, as its C header names them (hb-subset.h). */
interface Subsetter {
  readonly memory: WebAssembly.Memory;
  _initialize(): void;
  malloc(size: number): number;
  hb_blob_create(data: number, size: number, mode: number, user: number, destroy: number): number;
  hb_blob_get_data(blob: number, length: number): number;
  hb_blob_get_length(blob: number): number;
  hb_face_create(blob: number, index: number): number;
  hb_face_reference_blob(face: number): number;
  hb_set_add(set: number, value: number): void;
  hb_subset_input_create_or_fail(): number;
  hb_subset_input_unicode_set(input: number): number;
  hb_subset_input_set(input: number, kind: number): number;
  hb_subset_input_set_flags(input: number, flags: number): void;
  hb_subset_or_fail(face: number, input: number): number;
}

const writableMemory = 2;
const dropTables = 3;
const noHinting = 1;
const notdefOutline = 0x40;

/** Layout tables and what only a screen or an editor reads. */
const unread = [
  'GSUB',
  'GPOS',
  'GDEF',
  'kern',
  'gasp',
  'FFTM',
  'DSIG',
  'hdmx',
  'VDMX',
  'LTSH',
  'MATH',
  'JSTF',
  'BASE',
];

const tag = (name: string): number => [...name].reduce((sum, sign) => sum * 256 + sign.charCodeAt(0), 0);

/** The font file with the signs of `ranges` alone. */
const subset = (file: Uint8Array): Uint8Array => {
  const wasm = new WebAssembly.Module(readFileSync(resolve('harfbuzzjs/dist/harfbuzz-subset.wasm')));
  const hb = new WebAssembly.Instance(wasm).exports as unknown as Subsetter;
  hb._initialize();
  const at = hb.malloc(file.length);
  new Uint8Array(hb.memory.buffer).set(file, at);
  const face = hb.hb_face_create(hb.hb_blob_create(at, file.length, writableMemory, 0, 0), 0);
  const input = hb.hb_subset_input_create_or_fail();
  const signs = hb.hb_subset_input_unicode_set(input);
  for (const [from, to] of ranges) for (let code = from; code <= to; code++) hb.hb_set_add(signs, code);
  for (const name of unread) hb.hb_set_add(hb.hb_subset_input_set(input, dropTables), tag(name));
  hb.hb_subset_input_set_flags(input, noHinting | notdefOutline);
  const made = hb.hb_subset_or_fail(face, input);
  if (made === 0) throw new Error('the font could not be subset');
  const blob = hb.hb_face_reference_blob(made);
  const start = hb.hb_blob_get_data(blob, 0);
  return new Uint8Array(hb.memory.buffer, start, hb.hb_blob_get_length(blob)).slice();
};

const makeFace = (file: string, name: string): string => {
  const bytes = subset(readFileSync(join(source, 'ttf', file)));
  mkdirSync(fonts, { recursive: true });
  writeFileSync(join(fonts, name), bytes);
  return measure(bytes);
};

const measure = (bytes: Uint8Array): string => {
  const font = fontkit.create(bytes);
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

const table = `// Made by .tools/lettering.ts from DejaVu Sans Condensed 2.37; do not edit.

/** One font's glyph measures: font units for advances, 1/128 em for heights, all in base 36. */
export interface GlyphTable {
  readonly unitsPerEm: number;
  /** Height of the capital H in font units. */
  readonly capital: number;
  /** Runs of characters, \`first code in hex : advance lowest highest, …\`; an empty entry has no glyph. */
  readonly rows: readonly string[];
}

// prettier-ignore
export const regularGlyphs: GlyphTable = ${makeFace('DejaVuSansCondensed.ttf', 'lettering.ttf')};

// prettier-ignore
export const boldGlyphs: GlyphTable = ${makeFace('DejaVuSansCondensed-Bold.ttf', 'lettering-bold.ttf')};
`;
writeFileSync(
  new URL('../src/drawing/glyph-table.ts', import.meta.url),
  await format(table, { parser: 'typescript', singleQuote: true, printWidth: 110, trailingComma: 'all' }),
);
copyFileSync(join(source, 'LICENSE'), join(fonts, 'LICENSE'));
