import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { encode as encodeJpeg } from 'jpeg-js';
import { PNG } from 'pngjs';
import { runTool, withFile } from './external.ts';

/** How a page is printed and then laid on a scanner. */
export interface Scan {
  readonly page?: number;
  readonly dpi: number;
  /** Printed over drawn length along the page's x and y. */
  readonly x: number;
  readonly y: number;
  /** Turned counter-clockwise on the scanner, and the page's y axis leaning from square to x, degrees. */
  readonly turn: number;
  readonly skew?: number;
  /** Standard deviation of each pixel, of 255. */
  readonly noise: number;
  readonly seed?: number;
}

interface Gray {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** A page as poppler paints it at some dots an inch. */
const paint = (bytes: Uint8Array, page: number, dpi: number): Gray =>
  withFile(bytes, (file, folder) => {
    const { status, stderr } = runTool('pdftoppm', [
      ...['-gray', '-r', String(dpi), '-f', String(page), '-l', String(page), '-singlefile'],
      file,
      join(folder, 'page'),
    ]);
    if (status !== 0) throw new Error(stderr);
    const image = readFileSync(join(folder, 'page.pgm'));
    const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(image.subarray(0, 60).toString('latin1'));
    return {
      width: Number(head?.[1]),
      height: Number(head?.[2]),
      data: new Uint8Array(image.subarray(head?.[0].length)),
    };
  });

/** Numbers with the standard normal distribution, from a linear congruential generator (Numerical Recipes §7.1, §7.2). */
const normals = (seed: number): (() => number) => {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
};

/** The page as a flat-bed scanner sees it, on white, each pixel the mean of four places. */
export const scanPage = (
  bytes: Uint8Array,
  { page = 1, dpi, x, y, turn, skew = 0, noise, seed = 1 }: Scan,
): Gray => {
  const fine = 2;
  const source = paint(bytes, page, dpi * fine);
  const [wide, high] = [source.width / fine, source.height / fine];
  const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  const lean = Math.tan((skew * Math.PI) / 180);
  // From the page's dots (x right, y up from its middle) to the picture's (x right, y down from its middle), and back.
  const toPicture = (px: number, py: number): [number, number] => {
    const [qx, qy] = [px * x - py * y * lean, py * y];
    return [qx * c - qy * s, -(qx * s + qy * c)];
  };
  const corners = [-1, 1].flatMap((i) => [-1, 1].map((j) => toPicture((i * wide) / 2, (j * high) / 2)));
  const width = Math.ceil(2 * Math.max(...corners.map(([a]) => a))) + 20;
  const height = Math.ceil(2 * Math.max(...corners.map(([, b]) => b))) + 20;
  const [m00, m10] = toPicture(1, 0);
  const [m01, m11] = toPicture(0, 1);
  const det = m00 * m11 - m01 * m10;
  const next = normals(seed);
  const data = new Uint8Array(width * height);
  const at = (u: number, v: number): number => {
    const [i, j] = [Math.floor(u), Math.floor(v)];
    if (i < 0 || j < 0 || i + 1 >= source.width || j + 1 >= source.height) return 255;
    const [fu, fv] = [u - i, v - j];
    const k = j * source.width + i;
    return (
      (source.data[k]! * (1 - fu) + source.data[k + 1]! * fu) * (1 - fv) +
      (source.data[k + source.width]! * (1 - fu) + source.data[k + source.width + 1]! * fu) * fv
    );
  };
  for (let row = 0; row < height; row += 1)
    for (let column = 0; column < width; column += 1) {
      let sum = 0;
      for (const [dx, dy] of [
        [0.25, 0.25],
        [0.75, 0.25],
        [0.25, 0.75],
        [0.75, 0.75],
      ] as const) {
        const [px, py] = [column + dx - width / 2, row + dy - height / 2];
        const [a, b] = [(m11 * px - m01 * py) / det, (m00 * py - m10 * px) / det];
        sum += at((a + wide / 2) * fine - 0.5, (high / 2 - b) * fine - 0.5);
      }
      const value = sum / 4 + (noise === 0 ? 0 : noise * next());
      data[row * width + column] = Math.max(0, Math.min(255, Math.round(value)));
    }
  return { width, height, data };
};

const toRgba = ({ data }: Gray): Buffer => {
  const rgba = Buffer.alloc(4 * data.length, 255);
  data.forEach((value, i) => rgba.fill(value, 4 * i, 4 * i + 3));
  return rgba;
};

export const toPng = (image: Gray): Uint8Array => {
  const png = new PNG({ width: image.width, height: image.height });
  png.data = toRgba(image);
  return new Uint8Array(PNG.sync.write(png, { colorType: 0 }));
};

export const toJpeg = (image: Gray, quality = 85): Uint8Array =>
  new Uint8Array(encodeJpeg({ width: image.width, height: image.height, data: toRgba(image) }, quality).data);
