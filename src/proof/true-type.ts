/**
 * A TrueType font as far as lettering is drawn by it (OpenType specification 1.9: head, hhea, maxp, hmtx, loca, glyf, cmap). Sizes
 * in font units. Throws where a table is missing or an offset leads out of the file.
 */
export interface TrueType {
  readonly unitsPerEm: number;
  readonly glyphCount: number;
  /** The tables' bytes, by name. */
  readonly tables: ReadonlyMap<string, Buffer>;
  /** How far the pen moves on after a glyph, and where its outline starts. */
  readonly metrics: (glyph: number) => { readonly advance: number; readonly bearing: number };
  /** All that a glyph is drawn by, its parts' own glyph numbers replaced by the parts: equal where two glyphs draw alike. */
  readonly drawing: (glyph: number) => string;
  /** The glyph of a character, by the font's own table; 0 where it has none. */
  readonly glyphOf: (sign: number) => number;
}

/** Parts within parts of a glyph. */
const deepest = 6;

const readTables = (font: Buffer): ReadonlyMap<string, Buffer> => {
  const tables = new Map<string, Buffer>();
  const count = font.readUInt16BE(4);
  for (let i = 0; i < count; i += 1) {
    const at = 12 + 16 * i;
    const [start, length] = [font.readUInt32BE(at + 8), font.readUInt32BE(at + 12)];
    const name = font.toString('latin1', at, at + 4);
    if (start + length > font.length || tables.has(name)) throw new Error(`font: table ${name} is broken`);
    tables.set(name, font.subarray(start, start + length));
  }
  return tables;
};

/** Flags of a composite glyph's parts (OpenType, glyf). */
const [WORDS, SCALED, MORE, TWO_SCALES, MATRIX] = [1, 8, 32, 64, 128];

export const readTrueType = (bytes: Uint8Array): TrueType => {
  const font = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tables = readTables(font);
  const table = (name: string): Buffer => {
    const found = tables.get(name);
    if (found === undefined) throw new Error(`font: no table ${name}`);
    return found;
  };
  const [head, loca, glyf, hmtx] = [table('head'), table('loca'), table('glyf'), table('hmtx')];
  const glyphCount = table('maxp').readUInt16BE(4);
  const isLong = head.readInt16BE(50) !== 0;
  const placeOf = (glyph: number): number =>
    isLong ? loca.readUInt32BE(4 * glyph) : 2 * loca.readUInt16BE(2 * glyph);
  const wide = table('hhea').readUInt16BE(34);

  const drawing = (glyph: number, depth = 0): string => {
    if (glyph >= glyphCount || depth > deepest) throw new Error(`font: glyph ${glyph} is not there`);
    const [from, to] = [placeOf(glyph), placeOf(glyph + 1)];
    if (to < from || to > glyf.length) throw new Error(`font: glyph ${glyph} is broken`);
    const data = glyf.subarray(from, to);
    // Glyphs end on even addresses: what fills them up draws nothing.
    if (data.length < 10 || data.readInt16BE(0) >= 0) return data.toString('latin1').replace(/\0+$/, '');
    let text = data.toString('latin1', 0, 10);
    for (let at = 10, flags = MORE; (flags & MORE) !== 0;) {
      flags = data.readUInt16BE(at);
      const part = data.readUInt16BE(at + 2);
      const more =
        ((flags & WORDS) !== 0 ? 4 : 2) +
        ((flags & SCALED) !== 0 ? 2 : (flags & TWO_SCALES) !== 0 ? 4 : (flags & MATRIX) !== 0 ? 8 : 0);
      text += `${data.toString('latin1', at, at + 2)}{${drawing(part, depth + 1)}}${data.toString('latin1', at + 4, at + 4 + more)}`;
      at += 4 + more;
      if ((flags & MORE) === 0) text += data.toString('latin1', at).replace(/\0+$/, '');
    }
    return text;
  };
  const glyphs = new Map<number, number>();
  return {
    unitsPerEm: head.readUInt16BE(18),
    glyphCount,
    tables,
    metrics: (glyph) => ({
      advance: hmtx.readUInt16BE(4 * Math.min(glyph, wide - 1)),
      bearing:
        glyph < wide ? hmtx.readInt16BE(4 * glyph + 2) : hmtx.readInt16BE(4 * wide + 2 * (glyph - wide)),
    }),
    drawing: (glyph) => drawing(glyph),
    glyphOf: (sign) => {
      const known = glyphs.get(sign) ?? findGlyph(table('cmap'), sign);
      glyphs.set(sign, known);
      return known;
    },
  };
};

/** By the subtable of format 12 where there is one, else of format 4 (OpenType, cmap). */
const findGlyph = (cmap: Buffer, sign: number): number => {
  const subtables = Array.from({ length: cmap.readUInt16BE(2) }, (_, i) => {
    const at = cmap.readUInt32BE(4 + 8 * i + 4);
    return { at, format: cmap.readUInt16BE(at) };
  });
  const groups = subtables.find(({ format }) => format === 12);
  if (groups !== undefined) return inGroups(cmap, groups.at, sign);
  const segments = subtables.find(({ format }) => format === 4);
  if (segments === undefined) throw new Error('font: no table of characters');
  return sign > 0xffff ? 0 : inSegments(cmap, segments.at, sign);
};

const inGroups = (cmap: Buffer, at: number, sign: number): number => {
  const count = cmap.readUInt32BE(at + 12);
  for (let i = 0; i < count; i += 1) {
    const group = at + 16 + 12 * i;
    const first = cmap.readUInt32BE(group);
    if (sign >= first && sign <= cmap.readUInt32BE(group + 4))
      return cmap.readUInt32BE(group + 8) + sign - first;
  }
  return 0;
};

const inSegments = (cmap: Buffer, at: number, sign: number): number => {
  const count = cmap.readUInt16BE(at + 6) / 2;
  const [ends, starts] = [at + 14, at + 16 + 2 * count];
  const [deltas, offsets] = [starts + 2 * count, starts + 4 * count];
  for (let i = 0; i < count; i += 1) {
    if (sign > cmap.readUInt16BE(ends + 2 * i)) continue;
    const first = cmap.readUInt16BE(starts + 2 * i);
    if (sign < first) return 0;
    const offset = cmap.readUInt16BE(offsets + 2 * i);
    const delta = cmap.readUInt16BE(deltas + 2 * i);
    if (offset === 0) return (sign + delta) % 65536;
    const glyph = cmap.readUInt16BE(offsets + 2 * i + offset + 2 * (sign - first));
    return glyph === 0 ? 0 : (glyph + delta) % 65536;
  }
  return 0;
};
