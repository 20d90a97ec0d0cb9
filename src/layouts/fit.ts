import type { FitLine, SheetFit } from '../drawing/fit.ts';
import type { Pipe } from '../stock/pipe.ts';

/** What a round stock's sheet carries for those who prove the finished file. `sheetGirth` is once round on the sheet, mm. */
export const fitRound = (pipe: Pipe, sheetGirth: number, lines: readonly FitLine[]): SheetFit => ({
  od: pipe.girth / Math.PI,
  wall: pipe.wall,
  sheetGirth,
  lines,
});
