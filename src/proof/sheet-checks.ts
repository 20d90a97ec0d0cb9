import { deviationFinding, type Finding } from './finding.ts';
import { readFit } from './fit-record.ts';
import { checkGirth, checkLines } from './line-checks.ts';
import { samplePath, sheetStrokes, type PdfFile } from './pdf-reader.ts';
import type { Vec2 } from './space.ts';

/** Two pages show the same line within this, mm. */
const JOIN = 0.005;

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
    ...(fit === undefined ? [] : [...checkGirth(file, name, fit), ...checkLines(file, name, fit)]),
  ];
};
