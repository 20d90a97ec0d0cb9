import { readCuts } from './cut-lines.ts';
import { checkFigures } from './figure-checks.ts';
import { factFinding, type Finding } from './finding.ts';
import { readFit } from './fit-record.ts';
import { checkGirth, checkLines } from './line-checks.ts';
import { sheetStrokes, type PdfFile } from './pdf-reader.ts';
import type { SheetFit } from './record.ts';
import { checkTiles } from './tile-checks.ts';
import { say } from '../words/say.ts';

/** How many things a sheet's record says that can be measured. */
const countMeasured = (fit: SheetFit | undefined): number => {
  const lists: readonly (readonly unknown[])[] = Object.values(fit?.figures ?? {});
  return lists.reduce((sum, { length }) => sum + length, fit?.lines.length ?? 0);
};

/** A sheet that steel is cut or punched by says how that is measured. The straight sides of rolled plate are, with its girth. */
const checkMeasured = (file: PdfFile, name: string, fit: SheetFit | undefined): readonly Finding[] => {
  const { stretches, sides } = readCuts(file, name);
  const drawn =
    stretches.length > 0 ||
    (sides.length > 0 && fit?.lay.kind !== 'round') ||
    sheetStrokes(file, name, 'punch').length > 0;
  const count = countMeasured(fit);
  return !drawn || count > 0
    ? []
    : [
        factFinding(
          say`record of what fits`,
          name,
          false,
          say`none`,
          say`what its cut lines and marks must fit`,
        ),
      ];
};

/** Everything measured on one sheet. */
export const checkSheet = (
  file: PdfFile,
  { name, fit: recorded }: { readonly name: string; readonly fit?: unknown },
): readonly Finding[] => {
  const fit = readFit(recorded);
  return [
    ...checkMeasured(file, name, fit),
    ...checkTiles(file, name),
    ...(fit?.figures === undefined ? [] : checkFigures(file, name, fit.figures)),
    ...(fit === undefined ? [] : [...checkGirth(file, name, fit), ...checkLines(file, name, fit)]),
  ];
};
