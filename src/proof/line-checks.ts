import type { FitLine, Lay, SheetFit } from './record.ts';
import { heightAt, pickLine, rangeOf, readCuts, widestGap, type Stretch } from './cut-lines.ts';
import { BeyondLimit, limits } from './limits.ts';
import { lowest } from './distances.ts';
import { deviationFinding, factFinding, lengthFinding, type Finding } from './finding.ts';
import { placeOn, type Place } from './lay.ts';
import { laySection } from './section-lay.ts';
import { sheetStrokes, type PdfFile } from './pdf-reader.ts';
import { solidsDistance } from './solids.ts';
import type { Vec2 } from './space.ts';
import { say } from '../words/say.ts';

/** How far a cut line may lie from what it must touch, and its pieces from each other, mm. */
const FIT = 0.01;

/** Layers of a wall looked at before the nearest is narrowed down, to this, mm. */
const LAYERS = 16;
const NARROWED = 1e-4;
/** Distances looked at to narrow one place down. */
const NARROWING = 25;

/** A hole's own line lies this near its circle, mm. */
const HOLE = 0.05;

/** True for the line of a hole that the sheet's figures name: it is measured with them. */
const isHole = ({ points }: Stretch, { figures }: SheetFit): boolean =>
  figures?.circles.some(
    ({ centre, radius, role = 'cut' }) =>
      role === 'cut' &&
      points.every(({ x, y }) => Math.abs(Math.hypot(x - centre.x, y - centre.y) - radius) < HOLE),
  ) === true;

type Round = Extract<Lay, { kind: 'round' }>;

/**
 * The cut line laid on its part, against the bodies it meets: the largest distance from touching. A torch square to the
 * surface leaves a face straight through the wall, whose nearest place must touch where contact is `wall`.
 */
const checkTouch = (
  place: Place,
  wallAt: (x: number) => number,
  line: FitLine,
  points: readonly LinePoint[],
): number => {
  const through = line.contact === 'wall' ? LAYERS + 4 * NARROWING : 1;
  const each = line.solids.reduce((sum, { kind }) => sum + (kind === 'cone' ? 100 : 1), 0);
  if (points.length * through * each > limits.distances)
    throw new BeyondLimit(say`a cut line longer, or meeting more, than any in a print`);
  const body = solidsDistance(line.solids);
  const distance = (p: Vec2): number => {
    const moved = { x: p.x, y: p.y + line.gap };
    const at = (depth: number): number => body(place(moved, depth));
    if (line.contact === 'wall') return lowest(at, 0, wallAt(p.x), LAYERS, NARROWED).value;
    return at(line.contact === 'id' ? wallAt(p.x) : 0);
  };
  // On a step only the ends touch: between them the steel may stand off, but not cut into anything.
  const miss = ({ point: p, isStep }: LinePoint): number =>
    isStep ? Math.max(0, -distance(p)) : Math.abs(distance(p));
  return points.reduce((most, p) => Math.max(most, miss(p)), points.length > 0 ? 0 : Infinity);
};

/** A point of a cut line, and whether it lies within a step: where the line goes from one body on to one farther off. */
interface LinePoint {
  readonly point: Vec2;
  readonly isStep: boolean;
}

/** A step runs along the axis: its slope is steeper than this. */
const STEEP = 1e4;

const pointsOf = ({ points }: Stretch): readonly LinePoint[] => {
  const isSteep = (a: Vec2 | undefined, b: Vec2 | undefined): boolean =>
    a === undefined || b === undefined || Math.abs(b.y - a.y) > STEEP * Math.abs(b.x - a.x);
  return points.map((point, i) => ({
    point,
    isStep: points.length > 1 && isSteep(points[i - 1], point) && isSteep(point, points[i + 1]),
  }));
};

/** Once round, closed and whole, however many pages it is on. */
const checkRound = (
  name: string,
  sheet: string,
  { sheetGirth, allowance }: Round,
  stretches: readonly Stretch[],
): readonly Finding[] => {
  const xs = stretches.flatMap(({ points }) => points.map((p) => p.x));
  const [left, right] = rangeOf(xs);
  const height = (x: number): number => heightAt(stretches, Math.min(x, right)) ?? Infinity;
  const step = Math.abs(height(left) - height(left + sheetGirth));
  return [
    lengthFinding(say`${name} once round`, sheet, right - left, sheetGirth + allowance, FIT),
    // Where plate is short by the seam's gap its ends never meet.
    ...(allowance < 0 ? [] : [deviationFinding(say`${name} closes at the seam`, sheet, step, FIT)]),
    deviationFinding(say`${name} without a gap`, sheet, widestGap(stretches), FIT),
  ];
};

const isClosed = ({ which }: FitLine): boolean => which === 'closed' || which === 'inner';

const nameOf = ({ which }: FitLine, count: number): string =>
  count === 1
    ? say`cut line`
    : typeof which === 'number'
      ? say`cut line ${which} from the top`
      : say`${which} cut line`;

/** Every cut line of a sheet against what it meets, and how it closes. */
export const checkLines = (file: PdfFile, sheet: string, fit: SheetFit): readonly Finding[] => {
  const { lay, lines, wall } = fit;
  if (lines.length === 0) return [];
  const cuts = readCuts(file, sheet);
  const outlines = cuts.stretches.filter((stretch) => !isHole(stretch, fit));
  const place = placeOn(lay);
  const section = lay.kind === 'section' ? laySection(lay.section, lay.lift) : undefined;
  return lines.flatMap((line) => {
    const stretches = pickLine(outlines, line.which, lines.length > 1);
    const name = nameOf(line, lines.length);
    if (stretches.length === 0) return [factFinding(name, sheet, false, say`none found`, say`a cut line`)];
    const points = stretches.flatMap(pointsOf).filter(({ point }) => section?.isCorner(point.x) !== true);
    return [
      ...(line.solids.length === 0
        ? []
        : [
            deviationFinding(
              say`${name} against what it meets`,
              sheet,
              checkTouch(place, section?.wallAt ?? (() => wall), line, points),
              FIT,
            ),
          ]),
      ...(isClosed(line) || lay.kind !== 'round' ? [] : checkRound(name, sheet, lay, stretches)),
    ];
  });
};

/** The girth on the sheet, from its first to its last station, and the straight sides of what will be rolled. */
export const checkGirth = (file: PdfFile, sheet: string, { lay, lines }: SheetFit): readonly Finding[] => {
  if (lay.kind !== 'round' || lines.some(isClosed)) return [];
  const { od, sheetGirth, allowance } = lay;
  const span = (xs: readonly number[]): number => {
    const [low, high] = rangeOf(xs);
    return high - low;
  };
  const stations = sheetStrokes(file, sheet, 'station').flatMap(({ path }) =>
    path.map(({ start }) => start.x),
  );
  const girth =
    stations.length === 0
      ? factFinding(say`stations`, sheet, false, say`none found`, say`stations from seam to seam`)
      : lengthFinding(say`girth, first to last station`, sheet, span(stations), sheetGirth, FIT);
  const isRolled = sheetGirth < Math.PI * od - FIT;
  if (!isRolled) return [girth];
  const { sides } = readCuts(file, sheet);
  return [
    girth,
    sides.length === 0
      ? factFinding(say`sides of the plate`, sheet, false, say`none found`, say`two straight sides`)
      : lengthFinding(say`plate, side to side`, sheet, span(sides), sheetGirth + allowance, FIT),
  ];
};
