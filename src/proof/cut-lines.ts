import type { FitLine } from '../drawing/fit.ts';
import type { Subpath } from './paths.ts';
import { samplePath, sheetStrokes, type PdfFile } from './pdf-reader.ts';
import type { Vec2 } from './space.ts';

/** Steps along a line when it is looked at point by point, mm. */
const STEP = 0.5;

const isUpright = ({ start, segments }: Subpath): boolean =>
  segments.every((segment) => segment.kind === 'line' && Math.abs(segment.to.x - start.x) < 1e-6);

/** A stretch of a cut line as it stands on one page, in sheet mm. */
export interface Stretch {
  readonly points: readonly Vec2[];
  readonly page: number;
}

/**
 * The cut lines of a sheet over all its pages, in sheet mm. With a lower line the two lie either side of y = 0. The straight
 * sides of a plate pattern, upright lines by themselves, are no part of them.
 */
export const cutStretches = (
  file: PdfFile,
  sheet: string,
  which: FitLine['which'],
  hasLower: boolean,
): readonly Stretch[] =>
  sheetStrokes(file, sheet, 'cut').flatMap(({ path, page }) =>
    path
      .filter((subpath) => which === 'closed' || !isUpright(subpath))
      .map((subpath) => ({ points: samplePath([subpath], STEP), page }))
      .filter(({ points }) => {
        if (!hasLower || which === 'closed') return true;
        const mean = points.reduce((sum, p) => sum + p.y, 0) / points.length;
        return which === 'upper' ? mean > 0 : mean < 0;
      }),
  );

/** The widest part of a girth that no stretch covers, mm, between the line's own ends. */
export const widestGap = (stretches: readonly Stretch[]): number => {
  const spans = stretches
    .map(({ points }) => points.map((p) => p.x))
    .map((xs) => [Math.min(...xs), Math.max(...xs)] as const)
    .sort((a, b) => a[0] - b[0]);
  let [gap, reach] = [0, spans[0]?.[1] ?? Infinity];
  for (const [from, to] of spans) {
    gap = Math.max(gap, from - reach);
    reach = Math.max(reach, to);
  }
  return gap;
};
