import { itemAt } from '../lists.ts';
import type { FitLine } from './record.ts';
import type { Subpath } from './paths.ts';
import { samplePath, sheetStrokes, type PdfFile } from './pdf-reader.ts';
import type { Vec2 } from './space.ts';

/** Steps along a line when it is looked at point by point, mm. */
const STEP = 0.5;

/** Two pages show the same line where it lies no further apart than this, mm. */
const SAME_LINE = 0.02;

const isUpright = ({ start, segments }: Subpath): boolean =>
  segments.every((segment) => segment.kind === 'line' && Math.abs(segment.to.x - start.x) < 1e-6);

/** A stretch of a cut line as it stands on one tile, in sheet mm; a page may show several. */
export interface Stretch {
  readonly points: readonly Vec2[];
  readonly tile: string;
}

/** Everything cut on a sheet, over all its pages: lines, and the upright straight sides of a plate pattern. */
export const readCuts = (
  file: PdfFile,
  sheet: string,
): { readonly stretches: readonly Stretch[]; readonly sides: readonly number[] } => {
  const all = sheetStrokes(file, sheet, 'cut').flatMap(({ path, page, share }) =>
    path.map((subpath) => ({ subpath, tile: `${page} ${share}` })),
  );
  return {
    stretches: all
      .filter(({ subpath }) => !isUpright(subpath))
      .map(({ subpath, tile }) => ({ points: samplePath([subpath], STEP), tile })),
    sides: all.filter(({ subpath }) => isUpright(subpath)).map(({ subpath }) => subpath.start.x),
  };
};

/** A point half way along a stretch. */
const middleOf = ({ points }: Stretch): Vec2 => itemAt(points, Math.floor(points.length / 2));

/** Height of a stretch over x; undefined where it does not reach. */
const heightOf = ({ points }: Stretch, x: number): number | undefined => {
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [itemAt(points, i - 1), itemAt(points, i)];
    if (x < Math.min(a.x, b.x) || x > Math.max(a.x, b.x)) continue;
    return a.x === b.x ? a.y : a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
  }
  return undefined;
};

/** Height of a line over x. */
export const heightAt = (stretches: readonly Stretch[], x: number): number | undefined =>
  stretches.map((stretch) => heightOf(stretch, x)).find((height) => height !== undefined);

/** Each stretch's place among the lines across the girth, from the top and from the bottom, counted from 1 where it is half way along. */
const rowsOf = (stretches: readonly Stretch[]) => {
  const spans = stretches.map((stretch) => ({ stretch, span: rangeOf(stretch.points.map(({ x }) => x)) }));
  return stretches.map((stretch) => {
    const { x, y } = middleOf(stretch);
    const heights = spans
      .flatMap(({ stretch: other, span: [low, high] }) =>
        x < low || x > high ? [] : (heightOf(other, x) ?? []),
      )
      .sort((a, b) => b - a);
    const rows = heights.filter((h, i) => i === 0 || itemAt(heights, i - 1) - h > SAME_LINE);
    const above = rows.filter((h) => h > y + SAME_LINE).length;
    return { stretch, fromTop: above + 1, fromBottom: rows.length - above };
  });
};

/** True where a line crosses the way from one point to another, short of its end. */
const crosses = ({ points }: Stretch, from: Vec2, to: Vec2): boolean => {
  const way = { x: to.x - from.x, y: to.y - from.y };
  return points.slice(1).some((b, i) => {
    const a = itemAt(points, i);
    const side = { x: b.x - a.x, y: b.y - a.y };
    const turn = way.x * side.y - way.y * side.x;
    if (turn === 0) return false;
    const off = { x: a.x - from.x, y: a.y - from.y };
    const along = (off.x * side.y - off.y * side.x) / turn;
    const across = (off.x * way.y - off.y * way.x) / turn;
    return along > 0 && along < 0.999 && across >= 0 && across <= 1;
  });
};

/** The stretches that no other line hides from the middle of them all. */
const innermost = (stretches: readonly Stretch[]): readonly Stretch[] => {
  const [left, right] = rangeOf(stretches.flatMap(({ points }) => points.map(({ x }) => x)));
  const [low, high] = rangeOf(stretches.flatMap(({ points }) => points.map(({ y }) => y)));
  const middle = { x: (left + right) / 2, y: (low + high) / 2 };
  return stretches.filter((stretch) => {
    const seen = middleOf(stretch);
    return stretches.every((other) => other === stretch || !crosses(other, middle, seen));
  });
};

/** The stretches of the line meant, out of all of them. */
export const pickLine = (
  stretches: readonly Stretch[],
  which: FitLine['which'],
  ofSeveral: boolean,
): readonly Stretch[] => {
  if (which === 'inner') return innermost(stretches);
  if (!ofSeveral) return stretches;
  return rowsOf(stretches)
    .filter(({ fromTop, fromBottom }) =>
      which === 'lower' ? fromBottom === 1 : fromTop === (which === 'upper' ? 1 : which),
    )
    .map(({ stretch }) => stretch);
};

/** Least and greatest of some numbers. */
export const rangeOf = (values: readonly number[]): readonly [number, number] =>
  values.reduce<[number, number]>(
    ([low, high], value) => [Math.min(low, value), Math.max(high, value)],
    [Infinity, -Infinity],
  );

/** The widest part of a girth that no stretch covers, mm, between the line's own ends. */
export const widestGap = (stretches: readonly Stretch[]): number => {
  const spans = stretches
    .map(({ points }) => points.map((p) => p.x))
    .map((xs) => rangeOf(xs))
    .sort((a, b) => a[0] - b[0]);
  let [gap, reach] = [0, spans[0]?.[1] ?? Infinity];
  for (const [from, to] of spans) {
    gap = Math.max(gap, from - reach);
    reach = Math.max(reach, to);
  }
  return gap;
};
