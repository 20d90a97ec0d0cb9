import type { FitLine } from '../drawing/fit-up.ts';
import type { SheetFit } from '../drawing/fit-up.ts';
import type { SheetFigures } from '../drawing/fit-up.ts';
import type { Pipe } from '../stock/pipe.ts';
import type { Paper } from './band-paper.ts';

/** What a round stock's sheet carries for those who prove the finished file. `sheetGirth` is once round on the sheet, mm. */
export const fitRound = (
  pipe: Pipe,
  sheetGirth: number,
  lines: readonly FitLine[],
  allowance = 0,
): SheetFit => ({
  lay: { kind: 'round', od: pipe.girth / Math.PI, sheetGirth, allowance },
  wall: pipe.wall,
  lines,
});

/** The same for a band that wraps round the stock or is rolled with it. */
export const fitBand = (pipe: Pipe, { girth, sides }: Paper, lines: readonly FitLine[]): SheetFit =>
  fitRound(pipe, girth, lines, sides.kind === 'cut' ? sides.allowance : 0);

/** The one cut line of a part that is bent in until it closes on itself. */
export const CLOSES: FitLine = { which: 'upper', contact: 'od', gap: 0, solids: [] };

/** What a flat sheet carries: its circles and punch marks by their figures. */
export const fitFlat = (figures: SheetFigures): SheetFit => ({
  lay: { kind: 'flat' },
  wall: 0,
  lines: [],
  figures,
});
