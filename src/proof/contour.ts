import { itemAround } from '../lists.ts';
import type { Distance } from './distances.ts';
import { axesAt, localTo, type Vec2, type Vec3 } from './space.ts';

/**
 * Sections of stock as `soapstone.json` describes them: closed contours of lines, circular and elliptical arcs, the steel to
 * the left. Distances go by the nearest point, lengths by short chords.
 */
export type ContourEdge =
  | { readonly kind: 'line'; readonly from: Vec2; readonly to: Vec2 }
  | {
      readonly kind: 'arc';
      readonly centre: Vec2;
      readonly radius: number;
      readonly start: number;
      readonly sweep: number;
    }
  | {
      readonly kind: 'ellipse';
      readonly centre: Vec2;
      readonly radii: readonly [number, number];
      readonly turn: number;
      readonly start: number;
      readonly sweep: number;
      readonly inset: number;
    };

/** A point of an edge and the unit direction out of the steel there. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly nx: number;
  readonly ny: number;
}

/** The spot at share `u` of an edge: of its length, or for an ellipse of its parameter. */
export const spotAt = (edge: ContourEdge, u: number): Spot => {
  if (edge.kind === 'line') {
    const [dx, dy] = [edge.to.x - edge.from.x, edge.to.y - edge.from.y];
    const size = Math.hypot(dx, dy);
    return { x: edge.from.x + u * dx, y: edge.from.y + u * dy, nx: dy / size, ny: -dx / size };
  }
  const a = edge.start + u * edge.sweep;
  if (edge.kind === 'arc') {
    const [c, s] = [Math.cos(a), Math.sin(a)];
    const sense = edge.sweep > 0 ? 1 : -1;
    return {
      x: edge.centre.x + edge.radius * c,
      y: edge.centre.y + edge.radius * s,
      nx: sense * c,
      ny: sense * s,
    };
  }
  const [p, q] = edge.radii;
  const [u0, v0] = [p * Math.cos(a), q * Math.sin(a)];
  // The gradient of (u/p)² + (v/q)².
  const [gu, gv] = [u0 / (p * p), v0 / (q * q)];
  const g = Math.hypot(gu, gv);
  const [c, s] = [Math.cos(edge.turn), Math.sin(edge.turn)];
  const [nx, ny] = [(gu * c - gv * s) / g, (gu * s + gv * c) / g];
  return {
    x: edge.centre.x + u0 * c - v0 * s - edge.inset * nx,
    y: edge.centre.y + u0 * s + v0 * c - edge.inset * ny,
    nx,
    ny,
  };
};

const LOOK = 64;

/** The share at which an edge comes nearest a point. */
const nearestShare = (edge: ContourEdge, p: Vec2): number => {
  if (edge.kind === 'line') {
    const [dx, dy] = [edge.to.x - edge.from.x, edge.to.y - edge.from.y];
    return ((p.x - edge.from.x) * dx + (p.y - edge.from.y) * dy) / (dx * dx + dy * dy);
  }
  if (edge.kind === 'arc') {
    const turn = 2 * Math.PI;
    const angle = Math.atan2(p.y - edge.centre.y, p.x - edge.centre.x);
    const past = ((((angle - edge.start) * Math.sign(edge.sweep)) % turn) + turn) % turn;
    const share = past / Math.abs(edge.sweep);
    // Beyond the end: whichever end is the nearer round.
    return share > 1 && past > (Math.abs(edge.sweep) + turn) / 2 ? 0 : share;
  }
  const far = (u: number): number => {
    const spot = spotAt(edge, u);
    return Math.hypot(spot.x - p.x, spot.y - p.y);
  };
  let best = 0;
  for (let i = 1; i <= LOOK; i++) if (far(i / LOOK) < far(best)) best = i / LOOK;
  // The foot is where the way to the point is square to the edge; halve on that.
  let [low, high] = [best - 1 / LOOK, best + 1 / LOOK];
  const behind = (u: number): boolean => {
    const { x, y, nx, ny } = spotAt(edge, u);
    return (p.x - x) * -ny + (p.y - y) * nx > 0;
  };
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (behind(middle)) low = middle;
    else high = middle;
  }
  const share = (low + high) / 2;
  // Once round, the end runs on into the beginning.
  return Math.abs(edge.sweep) > 2 * Math.PI - 1e-9 ? share - Math.floor(share) : share;
};

/** Signed distance to a closed contour: negative in the steel. */
export const contourDistance = (edges: readonly ContourEdge[]): ((p: Vec2) => number) => {
  return (p) => {
    let [best, sign] = [Infinity, 1];
    edges.forEach((edge, i) => {
      const share = Math.min(1, Math.max(0, nearestShare(edge, p)));
      const spot = spotAt(edge, share);
      const far = Math.hypot(p.x - spot.x, p.y - spot.y);
      if (far >= best - 1e-12) return;
      best = far;
      const side = (s: Spot): number => (p.x - s.x) * s.nx + (p.y - s.y) * s.ny;
      sign = side(spot) >= 0 ? 1 : -1;
      if (share > 0 && share < 1) return;
      // At a corner: outside a bulging one where either face says so, outside a hollow one where both do.
      const other = itemAround(edges, share === 0 ? i - 1 : i + 1);
      const next = spotAt(other, share === 0 ? 1 : 0);
      const [before, after] = share === 0 ? [next, spot] : [spot, next];
      const bulges = before.nx * after.ny - before.ny * after.nx >= 0;
      const [a, b] = [side(before), side(after)];
      sign = (bulges ? Math.max(a, b) : Math.min(a, b)) >= 0 ? 1 : -1;
    });
    return sign * best;
  };
};

/** Straight stock of any section; its section's +x lies along `across`, its origin on `through`. */
export const prismDistance = (
  edges: readonly ContourEdge[],
  through: Vec3,
  along: Vec3,
  across: Vec3,
  length = Infinity,
): Distance => {
  const axes = axesAt(through, along, across);
  const flat = contourDistance(edges);
  return (p) => {
    const q = localTo(axes, p);
    const side = flat(q);
    if (length === Infinity) return side;
    const end = Math.abs(q.z) - length / 2;
    return Math.hypot(Math.max(side, 0), Math.max(end, 0)) + Math.min(Math.max(side, end), 0);
  };
};
