import { beforeAll, describe, expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf } from '../../src/index.ts';
import { readImage } from '../../src/proof/scan-image.ts';
import { measureScan } from '../../src/proof/scan.ts';
import { scanPage, toJpeg, toPng, type Scan } from '../support/scan.ts';

let bytes: Uint8Array;
beforeAll(async () => {
  bytes = await renderPdf(
    makeBook(readRequest('band', { pipe: 'DN 40 sch 40', paper: 'a5', piece: 'S12-3' })),
  );
});

/** Most the reported scale may lie off: 0.05 %. */
const off = 5e-4;

const scans: readonly (Scan & { readonly jpeg?: true })[] = [
  { dpi: 200, x: 1, y: 1, turn: 0, noise: 0 },
  { dpi: 200, x: 0.993, y: 1.004, turn: 5, noise: 12 },
  { dpi: 300, x: 1.006, y: 0.991, turn: -5, skew: 0.2, noise: 20 },
  { dpi: 200, x: 0.997, y: 1.002, turn: 91.7, noise: 12, jpeg: true },
  { dpi: 200, x: 0.997, y: 1.002, turn: 178, noise: 12 },
];

describe('a scanned page', () => {
  it.each(scans)('%j', (scan) => {
    const picture = scanPage(bytes, scan);
    const read = measureScan(readImage(scan.jpeg === true ? toJpeg(picture) : toPng(picture)), scan.dpi);
    expect(Math.abs(read.x / scan.x - 1)).toBeLessThan(off);
    expect(Math.abs(read.y / scan.y - 1)).toBeLessThan(off);
    const degrees = (angle: number): number => (angle * 180) / Math.PI;
    expect(degrees(read.skew)).toBeCloseTo(scan.skew ?? 0, 1);
    const quarter = scan.turn - 90 * Math.round(scan.turn / 90);
    expect(Math.abs(degrees(read.tilt) - quarter)).toBeLessThan(0.05);
    expect(read.code).toMatch(/^S12-3 [0-9A-Z]{4}-[0-9A-Z]{4}$/);
    expect(read.isAcrossX).toBe(true);
  });

  it('that shows no scale checks is refused', () => {
    const blank = { width: 600, height: 800, data: new Uint8Array(600 * 800).fill(255) };
    expect(() => measureScan(blank, 200)).toThrow(/no pair of level scale checks/);
  });

  it('of 600 dpi by its header alone, too large, is refused before it is unpacked', () => {
    const png = Buffer.from(toPng({ width: 8, height: 8, data: new Uint8Array(64) }));
    png.writeUInt32BE(60_000, 16);
    png.writeUInt32BE(60_000, 20);
    expect(() => readImage(png)).toThrow(/million pixels/);
  });

  it('that is no picture is refused', () => {
    expect(() => readImage(new TextEncoder().encode('%PDF-1.7'))).toThrow(/neither PNG nor JPEG/);
  });
});
