import type { Vec2 } from '../geometry/vector.ts';
import { crossingsOf, cutSegment, ordinatesOf, pointAt } from './curve-split.ts';
import { pathBounds } from './extent.ts';
import { growBox } from './paths.ts';
import type { Box, Path, Segment } from './model.ts';

/** One edge of a box: the axis it stands on, where, and on which side the box lies. */
interface Edge {
  readonly axis: 'x' | 'y';
  readonly level: number;
  readonly inside: 1 | -1;
}

/** A point this near an edge lies on it, mm. */
const onEdge = 1e-9;

const edgesOf = (box: Box): readonly Edge[] => [
  { axis: 'x', level: box.minX, inside: 1 },
  { axis: 'x', level: box.maxX, inside: -1 },
  { axis: 'y', level: box.minY, inside: 1 },
  { axis: 'y', level: box.maxY, inside: -1 },
];

const isWithin = (point: Vec2, edges: readonly Edge[]): boolean =>
  edges.every(({ axis, level, inside }) => (point[axis] - level) * inside >= -onEdge);

const crossingsWith = (start: Vec2, segment: Segment, { axis, level }: Edge): number[] => {
  if (segment.kind === 'curve') return crossingsOf(ordinatesOf(start, segment, axis), level);
  const run = segment.to[axis] - start[axis];
  const t = (level - start[axis]) / run;
  return run !== 0 && t > 0 && t < 1 ? [t] : [];
};

/** Puts a point that a cut left within rounding of an edge exactly on it. */
const snap = (point: Vec2, edges: readonly Edge[]): Vec2 =>
  edges.reduce(
    (p, { axis, level }) => (Math.abs(p[axis] - level) <= onEdge ? { ...p, [axis]: level } : p),
    point,
  );

const cutAtEdges = (start: Vec2, segment: Segment, edges: readonly Edge[]) => {
  const cuts = edges.flatMap((edge) => crossingsWith(start, segment, edge)).sort((a, b) => a - b);
  const distinct = cuts.filter((t, i) => i === 0 || t - (cuts[i - 1] ?? 0) > 1e-15);
  return cutSegment(start, segment, distinct);
};

/** A box round a segment: that of its control points, which hold the curve between them. */
const hullOf = (start: Vec2, segment: Segment): Box => {
  const { to } = segment;
  const [a, b] = segment.kind === 'curve' ? [segment.c1, segment.c2] : [to, to];
  return {
    minX: Math.min(start.x, a.x, b.x, to.x),
    minY: Math.min(start.y, a.y, b.y, to.y),
    maxX: Math.max(start.x, a.x, b.x, to.x),
    maxY: Math.max(start.y, a.y, b.y, to.y),
  };
};

const contains = (box: Box, inner: Box): boolean =>
  inner.minX >= box.minX && inner.maxX <= box.maxX && inner.minY >= box.minY && inner.maxY <= box.maxY;

const isApart = (a: Box, b: Box): boolean =>
  a.maxX < b.minX || a.minX > b.maxX || a.maxY < b.minY || a.minY > b.maxY;

/**
 * The parts of a line that lie in a box, split exactly at its edges (to 1e-9 mm): open pieces, in order along the
 * path. A path wholly inside comes back as it is, closed if it was.
 */
export const clipStroke = (path: Path, box: Box): Path[] => {
  const bounds = pathBounds(path);
  if (contains(box, bounds)) return [path];
  if (isApart(box, bounds)) return [];
  const edges = edgesOf(box);
  const reach = growBox(box, onEdge);
  const pieces: { start: Vec2; segments: Segment[] }[] = [];
  let piece: { start: Vec2; segments: Segment[] } | undefined;
  let from = path.start;
  for (const segment of path.segments) {
    if (isApart(reach, hullOf(from, segment))) {
      piece = undefined;
      from = segment.to;
      continue;
    }
    for (const part of cutAtEdges(from, segment, edges)) {
      if (!isWithin(pointAt(part.start, part.segment, 0.5), edges)) {
        piece = undefined;
        continue;
      }
      if (!piece) {
        piece = { start: snap(part.start, edges), segments: [] };
        pieces.push(piece);
      }
      piece.segments.push({ ...part.segment, to: snap(part.segment.to, edges) });
    }
    from = segment.to;
  }
  const [first, last] = [pieces[0], pieces[pieces.length - 1]];
  // A closed path that begins inside: its last piece runs on into its first.
  if (path.closed && first && last && piece === last && first !== last && isWithin(path.start, edges)) {
    const joined = { start: last.start, segments: [...last.segments, ...first.segments] };
    pieces.splice(0, 1, joined);
    pieces.pop();
  }
  return pieces.map((open) => ({ ...open, closed: false }));
};

/** True where any of a line lies in a box: as `clipStroke` finds it, without the parts. */
export const isStrokeIn = (path: Path, box: Box): boolean => {
  const reach = growBox(box, onEdge);
  const edges = edgesOf(box);
  let from = path.start;
  for (const segment of path.segments) {
    const isNear = !isApart(reach, hullOf(from, segment));
    if (
      isNear &&
      cutAtEdges(from, segment, edges).some((part) => isWithin(pointAt(part.start, part.segment, 0.5), edges))
    )
      return !isApart(box, pathBounds(path));
    from = segment.to;
  }
  return false;
};

/** The part of a filled shape on the inner side of one edge; gaps are closed along the edge. */
const clipFillAt = (path: Path, edge: Edge): Path | undefined => {
  const segments: Segment[] = [];
  let start: Vec2 | undefined;
  let pen: Vec2 | undefined;
  let from = path.start;
  for (const segment of path.segments) {
    for (const part of cutAtEdges(from, segment, [edge])) {
      if (!isWithin(pointAt(part.start, part.segment, 0.5), [edge])) continue;
      const begin = snap(part.start, [edge]);
      if (pen && (pen.x !== begin.x || pen.y !== begin.y)) segments.push({ kind: 'line', to: begin });
      start ??= begin;
      pen = snap(part.segment.to, [edge]);
      segments.push({ ...part.segment, to: pen });
    }
    from = segment.to;
  }
  if (!start || !pen) return undefined;
  if (pen.x !== start.x || pen.y !== start.y) segments.push({ kind: 'line', to: start });
  return { start, segments, closed: true };
};

/** The part of a filled shape that lies in a box, one closed path, or undefined where there is none. */
export const clipFill = (path: Path, box: Box): Path | undefined => {
  const bounds = pathBounds(path);
  if (contains(box, bounds)) return path;
  if (isApart(box, bounds)) return undefined;
  return edgesOf(box).reduce<Path | undefined>((rest, edge) => rest && clipFillAt(rest, edge), path);
};
