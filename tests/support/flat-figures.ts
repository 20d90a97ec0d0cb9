import { samplePath, sheetStrokes, type PdfFile } from './pdf-reader.ts';
import { layerPoints } from './print.ts';
import type { Vec2 } from './space.ts';

/** A full circle read from a print, mm. `miss` is how far its worst point lies from it. */
export interface ReadCircle {
  readonly at: Vec2;
  readonly radius: number;
  readonly miss: number;
}

/**
 * The closed circles of a layer, by their points alone: middle of the extreme points, mean distance, worst deviation.
 * What misses its circle by more than a tenth of a millimetre is no circle. Print on paper that holds the whole sheet.
 */
export const readCircles = (file: PdfFile, sheet: string, layer: string): ReadCircle[] =>
  sheetStrokes(file, sheet, layer).flatMap(({ path }) => {
    const points = samplePath(path, 0.3);
    const [first, last] = [points[0], points[points.length - 1]];
    if (!first || !last || points.length < 12 || Math.hypot(first.x - last.x, first.y - last.y) > 1e-4)
      return [];
    // A path closed by its last segment counts its start twice.
    const own = points.slice(1);
    const xs = own.map((p) => p.x);
    const ys = own.map((p) => p.y);
    const at = { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2 };
    const distances = own.map((p) => Math.hypot(p.x - at.x, p.y - at.y));
    const radius = distances.reduce((sum, d) => sum + d, 0) / distances.length;
    const miss = Math.max(...distances.map((d) => Math.abs(d - radius)));
    return miss > 0.1 ? [] : [{ at, radius, miss }];
  });

/** Straight strokes of a layer as their two ends. */
export const readLines = (file: PdfFile, sheet: string, layer: string): [Vec2, Vec2][] =>
  sheetStrokes(file, sheet, layer).flatMap(({ path }) =>
    path.flatMap(({ start, segments }): [Vec2, Vec2][] => {
      const [only] = segments;
      return segments.length === 1 && only?.kind === 'line' ? [[start, only.to]] : [];
    }),
  );

/** The crosses of layer `punch`: pairs of strokes square to each other that halve each other. */
export const readCrosses = (file: PdfFile, sheet: string): Vec2[] => {
  const lines = readLines(file, sheet, 'punch').map(([a, b]) => ({
    middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 },
    direction: { x: b.x - a.x, y: b.y - a.y },
  }));
  const crosses: Vec2[] = [];
  while (lines.length > 0) {
    const one = lines.pop()!;
    const i = lines.findIndex(
      ({ middle, direction }) =>
        Math.hypot(middle.x - one.middle.x, middle.y - one.middle.y) < 1e-5 &&
        Math.abs(direction.x * one.direction.x + direction.y * one.direction.y) < 1e-4,
    );
    if (i < 0) throw new Error(`a punch stroke at ${one.middle.x}, ${one.middle.y} crosses nothing`);
    crosses.push(one.middle);
    lines.splice(i, 1);
  }
  return crosses;
};

/** The distance from each wanted point to the nearest read one, largest; and both lists must be as long. */
export const worstMatch = (read: readonly Vec2[], wanted: readonly Vec2[]): number => {
  if (read.length !== wanted.length) return Infinity;
  const left = [...read];
  return Math.max(
    0,
    ...wanted.map((p) => {
      const distances = left.map((q) => Math.hypot(p.x - q.x, p.y - q.y));
      const i = distances.indexOf(Math.min(...distances));
      const [least] = [distances[i] ?? Infinity];
      left.splice(i, 1);
      return least;
    }),
  );
};

/**
 * How a circle about the origin shows on a layer of a tiled sheet: the widest stretch of it, radians, without a point
 * within `tolerance` mm.
 */
export const widestGap = (
  file: PdfFile,
  sheet: string,
  layer: string,
  radius: number,
  tolerance = 0.01,
): number => {
  const angles = layerPoints(file, sheet, layer, 0.5)
    .filter((p) => Math.abs(Math.hypot(p.x, p.y) - radius) < tolerance)
    .map((p) => Math.atan2(p.y, p.x))
    .sort((a, b) => a - b);
  const first = angles[0];
  if (first === undefined) return 2 * Math.PI;
  return Math.max(...angles.map((angle, i) => (angles[i + 1] ?? first + 2 * Math.PI) - angle));
};
