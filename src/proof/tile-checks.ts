import { itemAt } from '../lists.ts';
import { deviationFinding, type Finding } from './finding.ts';
import { needPairs } from './limits.ts';
import { samplePath, sheetStrokes, type PageBox, type PdfFile } from './pdf-reader.ts';
import type { Vec2 } from './space.ts';
import { say } from '../words/say.ts';

/** Two pages show the same line within this, mm. */
const JOIN = 0.005;
/** Steps along a line when it is taken as chords, mm; their sagitta on the tightest corner drawn is far below JOIN. */
const STEP = 0.2;
/** A line may leave a page so near to the edge of what both show, mm. */
const EDGE = 0.3;
/** Side of the squares in which lines are looked for near a point, mm. */
const SQUARE = 2;
/** Of the points on the one page, one in this many is looked for on the other. */
const EVERY = 5;

type Chord = readonly [Vec2, Vec2];

/** What one share of a sheet shows of a layer. */
interface Shown {
  readonly page: number;
  readonly layer: string;
  readonly chords: readonly Chord[];
  readonly box: PageBox;
}

const chordsOf = (points: readonly Vec2[]): readonly Chord[] =>
  points.slice(1).map((p, i) => [itemAt(points, i), p] as const);

const boxOf = (chords: readonly Chord[]): PageBox => {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const chord of chords)
    for (const { x, y } of chord) {
      [minX, maxX] = [Math.min(minX, x), Math.max(maxX, x)];
      [minY, maxY] = [Math.min(minY, y), Math.max(maxY, y)];
    }
  return { minX, minY, maxX, maxY };
};

const isWithin = ({ x, y }: Vec2, box: PageBox, by: number): boolean =>
  x > box.minX - by && x < box.maxX + by && y > box.minY - by && y < box.maxY + by;

const shownOf = (file: PdfFile, sheet: string, layer: string): readonly Shown[] => {
  const shares = new Map<string, { readonly page: number; readonly chords: Chord[] }>();
  for (const { page, share, path } of sheetStrokes(file, sheet, layer)) {
    const key = `${page} ${share}`;
    const known = shares.get(key) ?? { page, chords: [] };
    shares.set(key, known);
    for (const subpath of path)
      for (const chord of chordsOf(samplePath([subpath], STEP))) known.chords.push(chord);
  }
  return [...shares.values()].map(({ page, chords }) => ({ page, layer, chords, box: boxOf(chords) }));
};

/** Distance from a point to the nearest of some chords, mm. */
const toChords = (p: Vec2, chords: readonly Chord[]): number => {
  let least = Infinity;
  for (const [a, b] of chords) {
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const size = dx * dx + dy * dy;
    const t = size === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / size));
    const [ox, oy] = [a.x + dx * t - p.x, a.y + dy * t - p.y];
    least = Math.min(least, ox * ox + oy * oy);
  }
  return Math.sqrt(least);
};

/** More squares than a sheet has from end to end. */
const ROW = 1e6;
const squareOf = ({ x, y }: Vec2): number => Math.floor(y / SQUARE) * ROW + Math.floor(x / SQUARE);
/** From a square to itself and those around it. */
const AROUND = [-1, 0, 1].flatMap((up) => [-1, 0, 1].map((right) => up * ROW + right));

/** Chords by the square they begin in: those that begin in or beside the square of a point. */
const bySquares = (chords: readonly Chord[]): ((p: Vec2) => readonly Chord[]) => {
  const squares = new Map<number, Chord[]>();
  for (const chord of chords) {
    const square = squareOf(chord[0]);
    const others = squares.get(square);
    if (others) others.push(chord);
    else squares.set(square, [chord]);
  }
  const known = new Map<number, readonly Chord[]>();
  return (p) => {
    const square = squareOf(p);
    const before = known.get(square);
    if (before) return before;
    const beside = AROUND.flatMap((way) => squares.get(square + way) ?? []);
    known.set(square, beside);
    return beside;
  };
};

/** Distance from each point to the nearest of some chords, mm. Most have one nearby; for others all are looked at. */
const distances = (points: readonly Vec2[], chords: readonly Chord[]): readonly number[] => {
  const near = bySquares(chords);
  let pairs = 0;
  return points.map((p) => {
    const beside = near(p);
    pairs += beside.length;
    const least = toChords(p, beside);
    const isNearest = least + STEP < SQUARE;
    if (!isNearest) pairs += chords.length;
    needPairs(pairs, say`lines where pages overlap`);
    return isNearest ? least : toChords(p, chords);
  });
};

/** How far the lines of two pages lie apart where both should show them; undefined where they share nothing. */
const apart = (first: Shown, second: Shown): number | undefined => {
  const shared = {
    minX: Math.max(first.box.minX, second.box.minX),
    minY: Math.max(first.box.minY, second.box.minY),
    maxX: Math.min(first.box.maxX, second.box.maxX),
    maxY: Math.min(first.box.maxY, second.box.maxY),
  };
  if (shared.maxX - shared.minX <= 2 * EDGE || shared.maxY - shared.minY <= 2 * EDGE) return undefined;
  const places = ({ chords }: Shown): readonly Vec2[] =>
    chords.map(([a]) => a).filter((p) => isWithin(p, shared, -EDGE));
  const lines = ({ chords }: Shown): readonly Chord[] => chords.filter(([a]) => isWithin(a, shared, STEP));
  const farthest = (of: Shown, from: Shown): readonly number[] =>
    distances(
      places(of).filter((_, i) => i % EVERY === 0),
      lines(from),
    );
  const found = [...farthest(first, second), ...farthest(second, first)];
  return found.length === 0 ? undefined : found.reduce((a, b) => Math.max(a, b));
};

/** Where two pages overlap they must show the same lines in the same place. */
export const checkTiles = (file: PdfFile, sheet: string): readonly Finding[] => {
  const found = ['cut', 'punch', 'bend'].flatMap((layer) => {
    const shown = shownOf(file, sheet, layer);
    return shown.flatMap((first, i) => shown.slice(i + 1).flatMap((second) => apart(first, second) ?? []));
  });
  return found.length === 0
    ? []
    : [
        deviationFinding(
          say`lines where pages overlap`,
          sheet,
          found.reduce((a, b) => Math.max(a, b), 0),
          JOIN,
        ),
      ];
};
