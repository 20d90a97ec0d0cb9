import { itemAt } from '../lists.ts';
import { deviationFinding, type Finding } from './finding.ts';
import { needPairs } from './limits.ts';
import { samplePath, sheetStrokes, type PdfFile } from './pdf-reader.ts';
import type {
  Arc,
  Circle,
  Corner,
  LineScale,
  Role,
  SheetFigures,
  Straight,
  Through,
  TurnScale,
} from './record.ts';
import type { Vec2 } from './space.ts';
import { say } from '../words/say.ts';

/** How far a figure may lie from its place, mm. */
const PLACE = 0.01;
/** Anything farther off than this is another figure, mm: rings lie as close as 0.1 mm. */
const NEAR = 0.05;
/** Steps along a line when it is looked at point by point, and the widest break a circle or line may have, mm. */
const STEP = 0.2;
const BREAK = 0.5;

/** One line or curve of a sheet as points, and the ground it takes. */
interface Piece {
  readonly points: readonly Vec2[];
  readonly isStraight: boolean;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

const pieceOf = (points: readonly Vec2[], isStraight: boolean): Piece => {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    [minX, minY] = [Math.min(minX, x), Math.min(minY, y)];
    [maxX, maxY] = [Math.max(maxX, x), Math.max(maxY, y)];
  }
  return { points, isStraight, minX, minY, maxX, maxY };
};

/** Every line and curve that a sheet draws on a layer, each by itself. */
type Drawn = (role: Role) => readonly Piece[];

const drawnOn = (file: PdfFile, sheet: string): Drawn => {
  const known = new Map<Role, readonly Piece[]>();
  return (role) => {
    const found =
      known.get(role) ??
      sheetStrokes(file, sheet, role).flatMap(({ path }) =>
        path.flatMap(({ start, segments }) => {
          let from = start;
          return segments.map((segment) => {
            const begin = from;
            from = segment.to;
            const isStraight = segment.kind === 'line';
            const alone = { start: begin, segments: [segment], closed: false };
            return pieceOf(isStraight ? [begin, segment.to] : samplePath([alone], STEP), isStraight);
          });
        }),
      );
    known.set(role, found);
    return found;
  };
};

const turnFrom = (angle: number, from: number): number =>
  (((angle - from) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);

/** The widest stretch of [0, length] that no span covers. */
const widestBreak = (spans: readonly (readonly [number, number])[], length: number): number => {
  let [reach, gap] = [0, 0];
  for (const [from, to] of [...spans].sort((a, b) => a[0] - b[0])) {
    gap = Math.max(gap, Math.min(from, length) - reach);
    reach = Math.max(reach, to);
  }
  return Math.max(gap, length - reach);
};

/** How far what is drawn lies from an arc; endless where it is not there all the way. A whole circle is an arc of a full turn. */
const arcMiss = (pieces: readonly Piece[], { centre, radius, from, sweep }: Arc): number => {
  const start = sweep >= 0 ? from : from + sweep;
  const length = Math.abs(sweep) * radius;
  const spans: (readonly [number, number])[] = [];
  let most = 0;
  for (const { points, isStraight, minX, minY, maxX, maxY } of pieces) {
    const reach = radius + NEAR;
    const isNear =
      minX >= centre.x - reach &&
      maxX <= centre.x + reach &&
      minY >= centre.y - reach &&
      maxY <= centre.y + reach;
    if (isStraight || !isNear) continue;
    const off = points.map(({ x, y }) => Math.abs(Math.hypot(x - centre.x, y - centre.y) - radius));
    if (off.some((miss) => miss >= NEAR)) continue;
    most = off.reduce((a, b) => Math.max(a, b), most);
    points.forEach((p, i) => {
      const last = points[i - 1];
      if (last === undefined) return;
      const [a, b] = [last, p].map(({ x, y }) => turnFrom(Math.atan2(y - centre.y, x - centre.x), start));
      const [low, high] = [Math.min(a ?? 0, b ?? 0), Math.max(a ?? 0, b ?? 0)];
      // A chord over the start is one at the end and one at the beginning.
      if (high - low > Math.PI) spans.push([0, low * radius], [high * radius, 2 * Math.PI * radius]);
      else spans.push([low * radius, high * radius]);
    });
  }
  return widestBreak(spans, length) > BREAK ? Infinity : most;
};

const circleMiss = (pieces: readonly Piece[], { centre, radius }: Circle): number =>
  arcMiss(pieces, { centre, radius, from: 0, sweep: 2 * Math.PI });

/** How far what is drawn lies from a straight line; endless where it is not there from end to end. */
const straightMiss = (pieces: readonly Piece[], { from, to }: Straight): number => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const [dx, dy] = [(to.x - from.x) / length, (to.y - from.y) / length];
  const near = pieces.flatMap(({ points: [a, b], isStraight }) => {
    if (!isStraight || a === undefined || b === undefined) return [];
    const along = ({ x, y }: Vec2): number => (x - from.x) * dx + (y - from.y) * dy;
    const off = ({ x, y }: Vec2): number => (x - from.x) * dy - (y - from.y) * dx;
    const span = [Math.min(along(a), along(b)), Math.max(along(a), along(b))] as const;
    const miss = Math.max(Math.abs(off(a)), Math.abs(off(b)));
    if (span[1] < -NEAR || span[0] > length + NEAR || miss >= NEAR) return [];
    // A short one that runs across it is another line.
    return Math.abs(off(b) - off(a)) > (span[1] - span[0]) / 2 ? [] : [{ span, miss }];
  });
  // Of lines close to each other the one in its place counts. Its ends are where the drawn line ends, not only somewhere beyond.
  for (const most of [PLACE, NEAR]) {
    const meant = near.filter(({ miss }) => miss <= most);
    const spans = meant.map(({ span }) => span);
    if (widestBreak(spans, length) <= PLACE) return Math.max(0, ...meant.map(({ miss }) => miss));
  }
  return Infinity;
};

/** How far the two strokes of a cross pass by the point meant; endless where there are not two across each other. */
const crossMiss = (strokes: readonly Piece[], p: Vec2): number => {
  const passing = strokes.flatMap(({ points, isStraight, minX, minY, maxX, maxY }) => {
    const [a, b] = points;
    if (!isStraight || a === undefined || b === undefined) return [];
    if (p.x < minX - NEAR || p.x > maxX + NEAR || p.y < minY - NEAR || p.y > maxY + NEAR) return [];
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const size = Math.hypot(dx, dy);
    const off = Math.abs((p.x - a.x) * dy - (p.y - a.y) * dx) / size;
    return size > 0 && off < NEAR ? [{ off, direction: Math.atan2(dy, dx) }] : [];
  });
  const crossed = passing.flatMap((one, i) =>
    passing
      .slice(i + 1)
      .filter((other) => Math.abs(Math.sin(one.direction - other.direction)) > 0.5)
      .map((other) => Math.max(one.off, other.off)),
  );
  return crossed.reduce((a, b) => Math.min(a, b), Infinity);
};

/** How far the strokes of a scale of degrees lie from their angles, on its circle, mm; endless where one is missing. */
const turnScaleMiss = (
  pieces: readonly Piece[],
  { centre, radius, from, step, count }: TurnScale,
): number => {
  const misses = new Map<number, number>();
  for (const { points, isStraight } of pieces) {
    const [a, b] = points;
    if (!isStraight || a === undefined || b === undefined) continue;
    const ends = [a, b].map(({ x, y }) => ({
      radius: Math.hypot(x - centre.x, y - centre.y),
      angle: Math.atan2(y - centre.y, x - centre.x),
    }));
    const foot = ends.find((end) => Math.abs(end.radius - radius) < NEAR);
    if (foot === undefined) continue;
    const sense = Math.sign(step);
    const turned = turnFrom(sense * foot.angle, sense * from);
    const k = Math.round(turned / Math.abs(step)) % Math.round((2 * Math.PI) / Math.abs(step));
    if (k >= count) continue;
    const at = from + k * step;
    const off = ends.map((end) => Math.abs(end.radius * Math.sin(end.angle - at)));
    const miss = Math.max(...off, Math.abs(foot.radius - radius));
    misses.set(k, Math.min(misses.get(k) ?? Infinity, miss));
  }
  if (misses.size < count) return Infinity;
  return [...misses.values()].reduce((a, b) => Math.max(a, b), 0);
};

/** How far the marks of a straight scale lie from their places along it, mm; endless where one is missing. */
const lineScaleMiss = (pieces: readonly Piece[], { from, to, count }: LineScale): number => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const [dx, dy] = [(to.x - from.x) / length, (to.y - from.y) / length];
  const step = length / (count - 1);
  const misses = new Map<number, number>();
  for (const { points, isStraight } of pieces) {
    const [a, b] = points;
    if (!isStraight || a === undefined || b === undefined) continue;
    const [along, across] = [
      [a, b].map(({ x, y }) => (x - from.x) * dx + (y - from.y) * dy),
      [a, b].map(({ x, y }) => (y - from.y) * dx - (x - from.x) * dy),
    ] as const;
    // A mark stands square to the scale and touches or crosses its line.
    const isMark = Math.abs((along[0] ?? 0) - (along[1] ?? 0)) < NEAR;
    const crosses = Math.min(...across) < NEAR && Math.max(...across) > -NEAR;
    if (!isMark || !crosses) continue;
    const k = Math.round((along[0] ?? 0) / step);
    if (k < 0 || k >= count) continue;
    const miss = Math.max(...along.map((place) => Math.abs(place - k * step)));
    misses.set(k, Math.min(misses.get(k) ?? Infinity, miss));
  }
  if (misses.size < count) return Infinity;
  return [...misses.values()].reduce((a, b) => Math.max(a, b), 0);
};

/** How far the nearest corner of straight lines lies from an angle, mm at the end of its shorter leg. */
const cornerMiss = (pieces: readonly Piece[], { angle }: Corner): number => {
  const ends = pieces.flatMap(({ points, isStraight }) => {
    const [a, b] = points;
    if (!isStraight || a === undefined || b === undefined) return [];
    const leg = { x: b.x - a.x, y: b.y - a.y };
    return [
      { at: a, leg },
      { at: b, leg: { x: -leg.x, y: -leg.y } },
    ];
  });
  needPairs(ends.length * ends.length, 'corners');
  let least = Infinity;
  ends.forEach((one, i) => {
    for (const other of ends.slice(i + 1)) {
      if (Math.hypot(one.at.x - other.at.x, one.at.y - other.at.y) > PLACE) continue;
      const [p, q] = [one.leg, other.leg];
      const between = Math.abs(Math.atan2(p.x * q.y - p.y * q.x, p.x * q.x + p.y * q.y));
      least = Math.min(
        least,
        Math.abs(between - angle) * Math.min(Math.hypot(p.x, p.y), Math.hypot(q.x, q.y)),
      );
    }
  });
  return least;
};

/** How far what is drawn passes by the points of a curve, mm; endless where nothing is drawn near one of them. */
const curveMiss = (pieces: readonly Piece[], { points }: Through): number => {
  const passing = (p: Vec2): number => {
    let least = Infinity;
    for (const piece of pieces) {
      const { minX, maxX, minY, maxY } = piece;
      if (p.x < minX - NEAR || p.x > maxX + NEAR || p.y < minY - NEAR || p.y > maxY + NEAR) continue;
      for (let i = 1; i < piece.points.length; i++)
        least = Math.min(least, missChord(p, itemAt(piece.points, i - 1), itemAt(piece.points, i)));
    }
    return least < NEAR ? least : Infinity;
  };
  return points.reduce((most, p) => Math.max(most, passing(p)), 0);
};

const missChord = (p: Vec2, a: Vec2, b: Vec2): number => {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const size = dx * dx + dy * dy;
  const u = size === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / size));
  return Math.hypot(p.x - a.x - u * dx, p.y - a.y - u * dy);
};

const plural = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** The figures of a flat sheet against what is drawn, the worst of each kind. */
export const checkFigures = (file: PdfFile, sheet: string, figures: SheetFigures): readonly Finding[] => {
  const drawn = drawnOn(file, sheet);
  const worst = <T extends object>(
    list: readonly T[] | undefined,
    name: (count: number) => string,
    miss: (figure: T) => number,
  ): readonly Finding[] => {
    if (list === undefined || list.length === 0) return [];
    needPairs(list.length * drawn('cut').length, 'figures');
    const most = list.map(miss).reduce((a, b) => Math.max(a, b), 0);
    return [deviationFinding(say`${name(list.length)} where they belong`, sheet, most, PLACE)];
  };
  return [
    ...worst(
      figures.circles,
      (n) => plural(n, say`circle`, say`circles`),
      (c) => circleMiss(drawn(c.role ?? 'cut'), c),
    ),
    ...worst(
      figures.points,
      (n) => plural(n, say`punch mark`, say`punch marks`),
      (p) => crossMiss(drawn('punch'), p),
    ),
    ...worst(
      figures.lines,
      (n) => plural(n, say`straight line`, say`straight lines`),
      (l) => straightMiss(drawn(l.role ?? 'cut'), l),
    ),
    ...worst(
      figures.arcs,
      (n) => plural(n, say`arc`, say`arcs`),
      (a) => arcMiss(drawn(a.role ?? 'cut'), a),
    ),
    ...worst(
      figures.turns,
      (n) => plural(n, say`scale of degrees`, say`scales of degrees`),
      (s) => turnScaleMiss(drawn(s.role ?? 'station'), s),
    ),
    ...worst(
      figures.scales,
      (n) => plural(n, say`scale`, say`scales`),
      (s) => lineScaleMiss(drawn(s.role ?? 'station'), s),
    ),
    ...worst(
      figures.corners,
      (n) => plural(n, say`angle`, say`angles`),
      (c) => cornerMiss(drawn(c.role ?? 'cut'), c),
    ),
    ...worst(
      figures.curves,
      (n) => plural(n, say`curve`, say`curves`),
      (c) => curveMiss(drawn(c.role ?? 'cut'), c),
    ),
  ];
};
