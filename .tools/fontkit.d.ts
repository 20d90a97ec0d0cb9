/** The little of fontkit that measuring and comparing glyphs takes; the package ships no types. */
declare module 'fontkit' {
  interface Font {
    readonly unitsPerEm: number;
    hasGlyphForCodePoint(code: number): boolean;
    glyphForCodePoint(code: number): {
      readonly advanceWidth: number;
      readonly path: { readonly commands: readonly object[] };
      readonly bbox: { readonly minY: number; readonly maxY: number };
    };
  }
  export function create(bytes: Uint8Array): Font;
}
