import type { FitLine, SheetFit } from '../drawing/fit.ts';
import { cutStretches, widestGap, type Stretch } from './cut-lines.ts';
import { deviationFinding, factFinding, lengthFinding, type Finding } from './finding.ts';
import { touchAtRadius, touchThroughWall } from './fit-up.ts';
import { readFit } from './fit-record.ts';
import { samplePath, sheetStrokes, type PdfFile } from './pdf-reader.ts';
import { solidsDistance } from './solids.ts';
import type { Vec2 } from './space.ts';

/** How far a cut line may lie from what it must touch, and its pieces from each other, mm. */
const FIT = 0.01;
/** Two pages show the same line within this, mm. */
const JOIN = 0.005;

const largest = (values: readonly number[]): number =>
  values.length === 0 ? Infinity : values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

/** The cut line rolled up on its stock, against the bodies it meets. */
const checkLine = (fit: SheetFit, line: FitLine, points: readonly Vec2[]): number => {
  const { od, wall } = fit;
  const body = solidsDistance(line.solids);
  // Once round the sheet is once round the stock, whatever the paper or plate is thick.
  const stock = { od, wall, paper: fit.sheetGirth / Math.PI - od };
  const gap = line.which === 'lower' ? -line.gap : line.gap;
  return largest(
    line.contact === 'wall'
      ? touchThroughWall(points, stock, body, gap)
      : touchAtRadius(points, stock, body, gap, line.contact === 'id' ? od / 2 - wall : od / 2),
  );
};

const ends = (stretches: readonly Stretch[]): { readonly left: Vec2; readonly right: Vec2 } => {
  const all = stretches.flatMap(({ points }) => points);
  const pick = (sign: 1 | -1): Vec2 => all.reduce((best, p) => (sign * p.x > sign * best.x ? p : best));
  return { left: pick(-1), right: pick(1) };
};

const checkFit = (file: PdfFile, sheet: string, fit: SheetFit): readonly Finding[] => {
  const hasLower = fit.lines.some(({ which }) => which === 'lower');
  return fit.lines.flatMap((line) => {
    const stretches = cutStretches(file, sheet, line.which, hasLower);
    const name = fit.lines.length > 1 ? `${line.which} cut line` : 'cut line';
    if (stretches.length === 0) return [factFinding(name, sheet, false, 'none found', 'a cut line')];
    const points = stretches.flatMap((stretch) => stretch.points);
    const touch = deviationFinding(`${name} against what it meets`, sheet, checkLine(fit, line, points), FIT);
    if (line.which === 'closed') return [touch];
    const { left, right } = ends(stretches);
    return [
      touch,
      lengthFinding(`${name} once round`, sheet, right.x - left.x, fit.sheetGirth, FIT),
      deviationFinding(`${name} closes at the seam`, sheet, Math.abs(right.y - left.y), FIT),
      deviationFinding(`${name} without a gap`, sheet, widestGap(stretches), FIT),
    ];
  });
};

/** The girth on the sheet, by its straight reference line or lines. */
const checkGirth = (file: PdfFile, sheet: string, { sheetGirth, lines }: SheetFit): readonly Finding[] => {
  if (lines.some(({ which }) => which === 'closed')) return [];
  const xs = sheetStrokes(file, sheet, 'station').flatMap(({ path }) => path.map(({ start }) => start.x));
  if (xs.length === 0)
    return [factFinding('stations', sheet, false, 'none found', 'stations from seam to seam')];
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  return [lengthFinding('girth, first to last station', sheet, right - left, sheetGirth, FIT)];
};

const inside = (p: Vec2, box: { minX: number; maxX: number; minY: number; maxY: number }): boolean =>
  p.x > box.minX && p.x < box.maxX && p.y > box.minY && p.y < box.maxY;

/** Where two pages overlap they must show the same lines in the same place. */
const checkTiles = (file: PdfFile, sheet: string, pages: readonly number[]): readonly Finding[] => {
  const strokes = ['cut', 'station', 'reference', 'punch', 'bend'].flatMap((layer) =>
    sheetStrokes(file, sheet, layer),
  );
  const byPage = new Map(pages.map((page) => [page, strokes.filter((stroke) => stroke.page === page)]));
  const drawn = pages.filter((page) => (byPage.get(page) ?? []).length > 0);
  let worst = 0;
  let pairs = 0;
  for (const a of drawn)
    for (const b of drawn) {
      if (a >= b) continue;
      const pointsOf = (page: number, layer: string): readonly Vec2[] =>
        (byPage.get(page) ?? []).filter((s) => s.layer === layer).flatMap((s) => samplePath(s.path, 0.2));
      for (const layer of ['cut', 'punch', 'bend']) {
        const [first, second] = [pointsOf(a, layer), pointsOf(b, layer)];
        if (first.length === 0 || second.length === 0) continue;
        const box = overlap(first, second);
        const shared = second.filter((p) => inside(p, box));
        if (shared.length === 0) continue;
        pairs++;
        for (const p of first.filter((q) => inside(q, box)).filter((_, i) => i % 5 === 0))
          worst = Math.max(worst, toLine(p, second));
      }
    }
  return pairs === 0 ? [] : [deviationFinding('lines where pages overlap', sheet, worst, JOIN)];
};

const boxOf = (points: readonly Vec2[]) => ({
  minX: Math.min(...points.map((p) => p.x)),
  maxX: Math.max(...points.map((p) => p.x)),
  minY: Math.min(...points.map((p) => p.y)),
  maxY: Math.max(...points.map((p) => p.y)),
});

/** What both pages surely show: their lines' common box, less an edge where a line may leave one of them. */
const overlap = (a: readonly Vec2[], b: readonly Vec2[]) => {
  const [p, q] = [boxOf(a), boxOf(b)];
  return {
    minX: Math.max(p.minX, q.minX) + 0.3,
    maxX: Math.min(p.maxX, q.maxX) - 0.3,
    minY: Math.max(p.minY, q.minY) + 0.3,
    maxY: Math.min(p.maxY, q.maxY) - 0.3,
  };
};

/** Distance from a point to a dense row of points taken as chords, mm. */
const toLine = (p: Vec2, row: readonly Vec2[]): number => {
  let least = Infinity;
  for (let i = 1; i < row.length; i++) {
    const [a, b] = [row[i - 1] as Vec2, row[i] as Vec2];
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const size = dx * dx + dy * dy;
    if (size > 1) continue;
    const t = size === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / size));
    least = Math.min(least, Math.hypot(a.x + dx * t - p.x, a.y + dy * t - p.y));
  }
  return least;
};

/** Everything measured on one sheet. */
export const checkSheet = (
  file: PdfFile,
  {
    name,
    pages,
    fit: recorded,
  }: { readonly name: string; readonly pages: readonly number[]; readonly fit?: unknown },
): readonly Finding[] => {
  const fit = readFit(recorded);
  return [
    ...checkTiles(file, name, pages),
    ...(fit === undefined ? [] : [...checkGirth(file, name, fit), ...checkFit(file, name, fit)]),
  ];
};
