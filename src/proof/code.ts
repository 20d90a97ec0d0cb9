import jsqr from 'jsqr';

/** Its types speak of a default export, which it is itself. */
const decode = jsqr as unknown as typeof jsqr.default;

/** Where a symbol was found: its corners, in pixels. */
export interface FoundCode {
  readonly text: string;
  readonly corners: readonly { readonly x: number; readonly y: number }[];
}

/** Reads the QR code (ISO/IEC 18004) in a gray picture, black 0 to white 255; undefined where none is found. */
export const readCode = (gray: Uint8Array, width: number, height: number): FoundCode | undefined => {
  const pixels = new Uint8ClampedArray(4 * width * height).fill(255);
  for (let i = 0; i < width * height; i += 1)
    pixels[4 * i] = pixels[4 * i + 1] = pixels[4 * i + 2] = gray[i] ?? 255;
  const found = decode(pixels, width, height);
  if (found === null) return undefined;
  const { topLeftCorner, topRightCorner, bottomRightCorner, bottomLeftCorner } = found.location;
  return { text: found.data, corners: [topLeftCorner, topRightCorner, bottomRightCorner, bottomLeftCorner] };
};
