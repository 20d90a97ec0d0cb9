import type { Finding } from './finding.ts';
import { checkFigures } from './figure-checks.ts';
import { readFit } from './fit-record.ts';
import { checkGirth, checkLines } from './line-checks.ts';
import type { PdfFile } from './pdf-reader.ts';
import { checkTiles } from './tile-checks.ts';

/** Everything measured on one sheet. */
export const checkSheet = (
  file: PdfFile,
  { name, fit: recorded }: { readonly name: string; readonly fit?: unknown },
): readonly Finding[] => {
  const fit = readFit(recorded);
  return [
    ...checkTiles(file, name),
    ...(fit?.figures === undefined ? [] : checkFigures(file, name, fit.figures)),
    ...(fit === undefined ? [] : [...checkGirth(file, name, fit), ...checkLines(file, name, fit)]),
  ];
};
