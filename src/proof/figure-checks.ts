import type { SheetFigures } from './record.ts';
import { deviationFinding, type Finding } from './finding.ts';
import { samplePath, sheetStrokes, type PdfFile } from './pdf-reader.ts';
import type { Vec2 } from './space.ts';

/** How far a circle or a cross may lie from its place, mm. */
const PLACE = 0.01;

/** What lies further off than this is taken for another figure, mm: rings lie as close as 0.1 mm. */
const NEAR = 0.05;

/** Steps along a line when it is looked at point by point, and the widest break a circle may have, mm. */
const STEP = 0.2;
const BREAK = 0.5;

type Circle = SheetFigures['circles'][number];

/** How far the drawn circle lies from the one meant; endless where it is not there all the way round. */
const circleMiss = (lines: readonly (readonly Vec2[])[], { centre, radius }: Circle): number => {
  const off = ({ x, y }: Vec2): number => Math.abs(Math.hypot(x - centre.x, y - centre.y) - radius);
  const own = lines.filter((points) => points.every((p) => off(p) < NEAR)).flat();
  const round = own.map(({ x, y }) => Math.atan2(y - centre.y, x - centre.x)).sort((a, b) => a - b);
  const gaps = round.map((angle, i) => (round[i + 1] ?? (round[0] as number) + 2 * Math.PI) - angle);
  if (gaps.length === 0 || gaps.some((gap) => gap * radius > BREAK)) return Infinity;
  return own.reduce((most, p) => Math.max(most, off(p)), 0);
};

/** How far the two strokes of a cross pass by the point meant; endless where there are not two across each other. */
const crossMiss = (strokes: readonly (readonly [Vec2, Vec2])[], p: Vec2): number => {
  const passing = strokes.flatMap(([a, b]) => {
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const size = Math.hypot(dx, dy);
    const along = ((p.x - a.x) * dx + (p.y - a.y) * dy) / size;
    if (size === 0 || along < -NEAR || along > size + NEAR) return [];
    const off = Math.abs((p.x - a.x) * dy - (p.y - a.y) * dx) / size;
    return off < NEAR ? [{ off, direction: Math.atan2(dy, dx) }] : [];
  });
  const crossed = passing.flatMap((one, i) =>
    passing
      .slice(i + 1)
      .filter((other) => Math.abs(Math.sin(one.direction - other.direction)) > 0.5)
      .map((other) => Math.max(one.off, other.off)),
  );
  return crossed.reduce((a, b) => Math.min(a, b), Infinity);
};

/** The circles and punch marks of a flat sheet against their figures, the worst of each. */
export const checkFigures = (
  file: PdfFile,
  sheet: string,
  { circles, points }: SheetFigures,
): readonly Finding[] => {
  const lines = sheetStrokes(file, sheet, 'cut').flatMap(({ path }) =>
    path.map((subpath) => samplePath([subpath], STEP)),
  );
  const strokes = sheetStrokes(file, sheet, 'punch').flatMap(({ path }) =>
    path.flatMap(({ start, segments }) => {
      const [only, ...more] = segments;
      return only?.kind === 'line' && more.length === 0 ? [[start, only.to] as const] : [];
    }),
  );
  const worst = (misses: readonly number[]): number => misses.reduce((a, b) => Math.max(a, b), 0);
  return [
    ...(circles.length === 0
      ? []
      : [
          deviationFinding(
            `${circles.length} circles where they belong`,
            sheet,
            worst(circles.map((circle) => circleMiss(lines, circle))),
            PLACE,
          ),
        ]),
    ...(points.length === 0
      ? []
      : [
          deviationFinding(
            `${points.length} punch marks where they belong`,
            sheet,
            worst(points.map((p) => crossMiss(strokes, p))),
            PLACE,
          ),
        ]),
  ];
};
