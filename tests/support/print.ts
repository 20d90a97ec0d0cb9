import { makeBook, readRequest, renderPdf, type Texts } from '../../src/index.ts';
import { readPdf, samplePath, sheetStrokes, type PdfFile } from './pdf-reader.ts';
import type { Vec2 } from './space.ts';

/** Prints a request as a person would, each of equal pieces on its own sheet, and reads the file back from its bytes. */
export const printAndRead = async (
  layout: string,
  texts: Texts,
): Promise<{ readonly bytes: Uint8Array; readonly file: PdfFile }> => {
  const bytes = await renderPdf(makeBook(readRequest(layout, { equal: 'each', ...texts })));
  return { bytes, file: readPdf(bytes) };
};

/** Points along a sheet's lines on one layer, tiles put back together, in sheet mm. */
export const layerPoints = (file: PdfFile, sheet: string, layer: string, maxStep = 0.5): readonly Vec2[] =>
  sheetStrokes(file, sheet, layer).flatMap((stroke) => samplePath(stroke.path, maxStep));

/** The size of the largest deviation. */
export const worst = (values: readonly number[]): number =>
  values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

/** Least and greatest of some numbers. */
export const range = (values: readonly number[]): readonly [number, number] =>
  values.reduce<[number, number]>(
    ([low, high], value) => [Math.min(low, value), Math.max(high, value)],
    [Infinity, -Infinity],
  );
