import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Where ink lies on the first page, mm from the paper's lower left corner, seen by poppler at `dpi`. */
export const measureInk = (bytes: Uint8Array, dpi = 600) => {
  const folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
  try {
    writeFileSync(join(folder, 'page.pdf'), bytes);
    const options = ['-gray', '-r', String(dpi), '-singlefile', 'page.pdf', 'page'];
    execFileSync('pdftoppm', options, { cwd: folder });
    return findInk(readFileSync(join(folder, 'page.pgm')), 25.4 / dpi);
  } finally {
    rmSync(folder, { recursive: true });
  }
};

/** The box of all pixels at least half black in a binary PGM image. */
const findInk = (image: Buffer, pixel: number) => {
  const [head, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(image.toString('latin1', 0, 60)) ?? [];
  if (head === undefined) throw new Error('not a grey image');
  const pixels = image.subarray(head.length);
  const [w, h] = [Number(width), Number(height)];
  let [left, right, top, bottom] = [w, -1, h, -1];
  for (let row = 0; row < h; row++)
    for (let column = 0; column < w; column++) {
      if (pixels[row * w + column]! >= 128) continue;
      left = Math.min(left, column);
      right = Math.max(right, column);
      top = Math.min(top, row);
      bottom = Math.max(bottom, row);
    }
  return {
    minX: left * pixel,
    maxX: (right + 1) * pixel,
    minY: (h - bottom - 1) * pixel,
    maxY: (h - top) * pixel,
  };
};
