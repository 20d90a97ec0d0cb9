import { decode as decodeJpeg } from 'jpeg-js';
import { PNG } from 'pngjs';
import { BeyondLimit } from './limits.ts';
import { say } from '../words/say.ts';

/** A picture in gray, row by row from the top: 0 black, 255 white. */
export interface Gray {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** Most pixels, in millions: an A3 page at 600 dpi has 70. */
const most = 80;

const needSize = (width: number, height: number): void => {
  if (!(width > 0 && height > 0)) throw new Error('the picture is empty');
  if (width * height > most * 1e6)
    throw new BeyondLimit(
      say`the picture has ${Math.round((width * height) / 1e6)} million pixels; at most ${most} are read: scan the page alone, or at fewer dpi`,
    );
};

/** Rec. ITU-R BT.601 luma of pixels of `step` bytes each. */
const toGray = (pixels: Uint8Array, width: number, height: number, step: number): Gray => {
  const data = new Uint8Array(width * height);
  for (let i = 0, at = 0; i < data.length; i += 1, at += step)
    data[i] = 0.299 * (pixels[at] ?? 0) + 0.587 * (pixels[at + 1] ?? 0) + 0.114 * (pixels[at + 2] ?? 0) + 0.5;
  return { width, height, data };
};

/** Reads a PNG or JPEG picture. Throws where it is neither, broken, or too large. */
export const readImage = (bytes: Uint8Array): Gray => {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (buffer.length > 24 && buffer.readUInt32BE(0) === 0x89504e47) {
    needSize(buffer.readUInt32BE(16), buffer.readUInt32BE(20));
    const { width, height, data } = PNG.sync.read(buffer);
    return toGray(data, width, height, 4);
  }
  if (buffer.length > 4 && buffer.readUInt16BE(0) === 0xffd8) {
    const { width, height, data } = decodeJpeg(buffer, {
      useTArray: true,
      formatAsRGBA: false,
      maxResolutionInMP: most,
      maxMemoryUsageInMB: 1024,
    });
    return toGray(data, width, height, 3);
  }
  throw new Error('the picture is neither PNG nor JPEG');
};

/** The picture made smaller by a whole number, each pixel the mean of those it stands for. */
export const shrink = ({ width, height, data }: Gray, by: number): Gray => {
  if (by <= 1) return { width, height, data };
  const [wide, high] = [Math.floor(width / by), Math.floor(height / by)];
  const out = new Uint8Array(wide * high);
  for (let y = 0; y < high; y += 1)
    for (let x = 0; x < wide; x += 1) {
      let sum = 0;
      for (let j = 0; j < by; j += 1) {
        const row = (y * by + j) * width + x * by;
        for (let i = 0; i < by; i += 1) sum += data[row + i] ?? 255;
      }
      out[y * wide + x] = sum / (by * by);
    }
  return { width: wide, height: high, data: out };
};

/** Darkness at a place between pixels, 0 white to 255 black; white outside. Pixel centers lie on whole numbers. */
export const darkAt = ({ width, height, data }: Gray, x: number, y: number): number => {
  const [left, top] = [Math.floor(x), Math.floor(y)];
  if (left < 0 || top < 0 || left + 1 >= width || top + 1 >= height) return 0;
  const [fx, fy] = [x - left, y - top];
  const at = top * width + left;
  const upper = (data[at] ?? 255) * (1 - fx) + (data[at + 1] ?? 255) * fx;
  const lower = (data[at + width] ?? 255) * (1 - fx) + (data[at + width + 1] ?? 255) * fx;
  return 255 - upper * (1 - fy) - lower * fy;
};

/** A part of a picture, its noise evened out over three pixels by three. */
export const cropEven = (
  { width, height, data }: Gray,
  left: number,
  top: number,
  wide: number,
  high: number,
): Gray => {
  const out = new Uint8Array(wide * high).fill(255);
  for (let y = 0; y < high; y += 1)
    for (let x = 0; x < wide; x += 1) {
      const [cx, cy] = [left + x, top + y];
      if (cx < 1 || cy < 1 || cx + 1 >= width || cy + 1 >= height) continue;
      let sum = 0;
      for (let row = cy - 1; row <= cy + 1; row += 1)
        for (let at = row * width + cx - 1; at <= row * width + cx + 1; at += 1) sum += data[at] ?? 255;
      out[y * wide + x] = sum / 9;
    }
  return { width: wide, height: high, data: out };
};
