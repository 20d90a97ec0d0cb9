import { moveMarks } from '../drawing/extent.ts';
import type { Box, Mark, Sheet } from '../drawing/model.ts';
import { unionBox } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { checkBreadth, checkLength, drawScaleCheck } from '../paging/scale-check.ts';

/** A sheet in its place on a drawing that knows no paper. */
export interface Spread {
  readonly name: string;
  /** Where the sheet's origin lies on the drawing, mm. The first sheet's lies at (0, 0). */
  readonly origin: Vec2;
  readonly marks: readonly Mark[];
  readonly bounds: Box;
}

const GAP = 20;

/** Sheets side by side at full size, each with the scale checks under it. */
export const spreadSheets = (sheets: readonly Sheet[]): readonly Spread[] => {
  let right: number | undefined;
  return sheets.map(({ name, marks, bounds }) => {
    const x = right === undefined ? 0 : right + GAP - bounds.minX;
    const below: Vec2 = { x: bounds.minX, y: bounds.minY - checkBreadth };
    const checks = drawScaleCheck(below, 'x');
    const area = unionBox([
      bounds,
      {
        minX: bounds.minX,
        maxX: bounds.minX + checkLength + 1,
        minY: below.y - checkBreadth / 2,
        maxY: bounds.maxY,
      },
    ]);
    right = x + area.maxX;
    return {
      name,
      origin: { x, y: 0 },
      marks: moveMarks([...marks, ...checks], x, 0),
      bounds: { ...area, minX: area.minX + x, maxX: area.maxX + x },
    };
  });
};
