import type { Page } from '../paging/book.ts';
import { type PdfDictionary, pointsPerMm, preciseNumber, textString } from './pdf-document.ts';

const inPoints = (mm: number): object => preciseNumber(mm * pointsPerMm);

/** One number format (ISO 32000-1, 12.9.2): `unit`s to one of the unit before it, read to a thousandth. */
const numberFormat = (unit: string, factor: number): PdfDictionary => ({
  Type: 'NumberFormat',
  U: textString(unit),
  C: preciseNumber(factor),
  F: 'D',
  D: 1000,
});

/**
 * The page's viewports (ISO 32000-1, 12.9), named by sheet and share: measuring tools read millimetres in them, and the
 * origin /O is the sheet's origin in points from the lower left corner of the paper, also where that lies off the paper. On a page corrected for
 * its printer they read what that printer prints.
 */
export const describeViewports = ({ views, stretch }: Omit<Page, 'marks'>): readonly PdfDictionary[] =>
  views.map(({ sheet, name, viewport, origin }) => ({
    Type: 'Viewport',
    BBox: [viewport.minX, viewport.minY, viewport.maxX, viewport.maxY].map(inPoints),
    Name: textString(`${sheet} ${name}`.trim()),
    Measure: {
      Type: 'Measure',
      Subtype: 'RL',
      R: textString(stretch === undefined ? '1 mm = 1 mm' : 'mm as the printer prints them'),
      X: [numberFormat('mm', 1 / pointsPerMm / (stretch?.x ?? 1))],
      // Measured in steps of their own along y; CYX makes one unit of both.
      ...(stretch && { Y: [numberFormat('mm', 1 / pointsPerMm / stretch.y)], CYX: 1 }),
      D: [numberFormat('mm', 1)],
      A: [numberFormat('mm²', 1)],
      O: [inPoints(origin.x), inPoints(origin.y)],
    },
  }));
