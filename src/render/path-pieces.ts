import { cross2, distance2, type Vec2 } from '../geometry/vector.ts';
import type { Path, Segment } from '../drawing/model.ts';

/**
 * A path for writers that have arcs: circles and arcs drawn as Béziers are found again, everything else stays.
 * Angles in radians; `sweep` is positive counter-clockwise.
 */
export type Piece =
  | { readonly kind: 'line'; readonly from: Vec2; readonly to: Vec2 }
  | {
      readonly kind: 'arc';
      readonly from: Vec2;
      readonly to: Vec2;
      readonly centre: Vec2;
      readonly radius: number;
      readonly sweep: number;
    }
  | { readonly kind: 'curve'; readonly from: Vec2; readonly c1: Vec2; readonly c2: Vec2; readonly to: Vec2 };

type Arc = Extract<Piece, { kind: 'arc' }>;

/** A Bézier this near a circle everywhere is an arc, mm; far under what any machine cuts. */
const ROUND = 2e-6;

const bezierAt = (p0: Vec2, { c1, c2, to }: Extract<Segment, { kind: 'curve' }>, t: number): Vec2 => {
  const s = 1 - t;
  const [a, b, c, d] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
  return {
    x: a * p0.x + b * c1.x + c * c2.x + d * to.x,
    y: a * p0.y + b * c1.y + c * c2.y + d * to.y,
  };
};

/** The arc a Bézier stands for, or undefined. Its centre lies on the normals at both ends. */
const findArc = (from: Vec2, segment: Extract<Segment, { kind: 'curve' }>): Arc | undefined => {
  const { c1, c2, to } = segment;
  const out = { x: c1.x - from.x, y: c1.y - from.y };
  const into = { x: to.x - c2.x, y: to.y - c2.y };
  const turn = cross2(out, into);
  const sizes = Math.hypot(out.x, out.y) * Math.hypot(into.x, into.y);
  if (sizes === 0 || Math.abs(turn) < 1e-6 * sizes) return undefined;
  const k = ((to.x - from.x) * into.x + (to.y - from.y) * into.y) / turn;
  const centre = { x: from.x - out.y * k, y: from.y + out.x * k };
  const radius = distance2(centre, from);
  if (radius > 1e6) return undefined;
  const isRound = [0.25, 0.5, 0.75, 1].every(
    (t) => Math.abs(distance2(centre, bezierAt(from, segment, t)) - radius) < ROUND,
  );
  if (!isRound) return undefined;
  const a = { x: from.x - centre.x, y: from.y - centre.y };
  const b = { x: to.x - centre.x, y: to.y - centre.y };
  const sweep = Math.atan2(cross2(a, b), a.x * b.x + a.y * b.y);
  return { kind: 'arc', from, to, centre, radius, sweep };
};

const joinArcs = (a: Arc, b: Arc): Arc | undefined => {
  const same = distance2(a.centre, b.centre) < 4 * ROUND && Math.abs(a.radius - b.radius) < 4 * ROUND;
  const sweep = a.sweep + b.sweep;
  if (!same || a.sweep * b.sweep < 0 || Math.abs(sweep) > 2 * Math.PI + 1e-9) return undefined;
  return { ...a, to: b.to, sweep };
};

/** A path as lines, arcs and what is neither, neighbours on one circle joined. */
export const tracePieces = (path: Path): readonly Piece[] => {
  const pieces: Piece[] = [];
  let from = path.start;
  for (const segment of path.segments) {
    const piece: Piece =
      segment.kind === 'line'
        ? { kind: 'line', from, to: segment.to }
        : (findArc(from, segment) ?? { kind: 'curve', from, c1: segment.c1, c2: segment.c2, to: segment.to });
    const last = pieces[pieces.length - 1];
    const joined = last?.kind === 'arc' && piece.kind === 'arc' ? joinArcs(last, piece) : undefined;
    if (joined) pieces[pieces.length - 1] = joined;
    else pieces.push(piece);
    from = segment.to;
  }
  return pieces;
};

/** The full circle a path is, or undefined. */
export const findCircle = (path: Path): { readonly centre: Vec2; readonly radius: number } | undefined => {
  if (!path.closed) return undefined;
  const [only, ...others] = tracePieces(path);
  if (only?.kind !== 'arc' || others.length > 0) return undefined;
  return Math.abs(Math.abs(only.sweep) - 2 * Math.PI) < 1e-6 ? only : undefined;
};
