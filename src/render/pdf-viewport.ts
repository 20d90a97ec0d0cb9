import type { Page } from '../paging/book.ts';
import { type PdfDictionary, pointsPerMm, preciseNumber, textString } from './pdf-document.ts';

const inMm = (mm: number): object => preciseNumber(mm * pointsPerMm);

/** One number format (ISO 32000-1, 12.9.2): `unit`s to one of the unit before it, read to a thousandth. */
const numberFormat = (unit: string, factor: number): PdfDictionary => ({
  Type: 'NumberFormat',
  U: textString(unit),
  C: preciseNumber(factor),
  F: 'D',
  D: 1000,
});

/**
 * The page's viewport (ISO 32000-1, 12.9): measuring tools read millimetres in it, and its origin /O is the sheet's
 * origin in points from the lower left corner of the paper, also where that lies off the paper.
 */
export const describeViewport = (page: Page): readonly PdfDictionary[] => [
  {
    Type: 'Viewport',
    BBox: [page.viewport.minX, page.viewport.minY, page.viewport.maxX, page.viewport.maxY].map(inMm),
    Name: textString(page.label),
    Measure: {
      Type: 'Measure',
      Subtype: 'RL',
      R: textString('1 mm = 1 mm'),
      X: [numberFormat('mm', 1 / pointsPerMm)],
      D: [numberFormat('mm', 1)],
      A: [numberFormat('mm²', 1)],
      O: [inMm(page.origin.x), inMm(page.origin.y)],
    },
  },
];
