import { modulo } from './angle-units.ts';
import { holeEnds, type Hole } from './hole-pattern.ts';
import { itemAround, itemAt } from '../lists.ts';
import { add2, cross2, distance2, dot2, polar2, scale2, sub2, type Vec2 } from './vector.ts';

/**
 * Closed outlines of flat parts from straight lines and true arcs, mm and radians. Run counter-clockwise the part lies to
 * the left of every edge and its area counts positive.
 */

/** One side of an outline. `sweep` is positive counter-clockwise, at most a full turn. */
export type Edge =
  | { readonly kind: 'line'; readonly from: Vec2; readonly to: Vec2 }
  | {
      readonly kind: 'arc';
      readonly from: Vec2;
      readonly to: Vec2;
      readonly centre: Vec2;
      readonly radius: number;
      /** Angle of `from` seen from the center. */
      readonly start: number;
      readonly sweep: number;
    };

/** A closed outline: every edge begins where the one before it ends. */
export type Contour = readonly Edge[];

export const lineEdge = (from: Vec2, to: Vec2): Edge => ({ kind: 'line', from, to });

/** An arc about `centre` from the angle `start` through `sweep`. */
export const arcEdge = (centre: Vec2, radius: number, start: number, sweep: number): Edge => ({
  kind: 'arc',
  from: add2(centre, polar2(radius, start)),
  to: add2(centre, polar2(radius, start + sweep)),
  centre,
  radius,
  start,
  sweep,
});

/** Straight sides through the points and back to the first; corners that fall together are one. */
export const polygonContour = (points: readonly Vec2[]): Contour => {
  const corners = points.filter((p, i) => distance2(p, itemAround(points, i + 1)) > 1e-9);
  return corners.map((from, i) => lineEdge(from, itemAround(corners, i + 1)));
};

/** A full circle, counter-clockwise from +x. */
export const circleContour = (centre: Vec2, diameter: number): Contour => [
  arcEdge(centre, diameter / 2, 0, 2 * Math.PI),
];

/** How a rectangle's corners end: sharp, rounded with a radius, or snipped at 45° by a leg. */
export interface Corners {
  readonly kind: 'round' | 'snip';
  readonly size: number;
}

/** An upright rectangle about the origin. The corner's size is at most half the shorter side. */
export const rectangleContour = (
  width: number,
  height: number,
  corners: Corners = { kind: 'round', size: 0 },
): Contour => {
  const [x, y, size] = [width / 2, height / 2, corners.size];
  const quarter = Math.PI / 2;
  // Each corner by where its rounding has its center, counter-clockwise from the lower right.
  const ends = [
    { x: x - size, y: -y + size },
    { x: x - size, y: y - size },
    { x: -x + size, y: y - size },
    { x: -x + size, y: -y + size },
  ].map((centre, i) => arcEdge(centre, size, (i - 1) * quarter, quarter));
  const edges = ends.flatMap((end, i): Edge[] => [
    size > 0 && corners.kind === 'round' ? end : lineEdge(end.from, end.to),
    lineEdge(end.to, itemAt(ends, (i + 1) % 4).from),
  ]);
  return edges.filter((edge) => distance2(edge.from, edge.to) > 1e-9);
};

/** Length of one edge. */
const edgeLength = (edge: Edge): number =>
  edge.kind === 'line' ? distance2(edge.from, edge.to) : Math.abs(edge.sweep) * edge.radius;

/** Length once round. */
export const perimeterOf = (contour: Contour): number =>
  contour.reduce((sum, edge) => sum + edgeLength(edge), 0);

/** Area inside, positive counter-clockwise: the polygon of the corners and the segment each arc adds to its chord. */
export const areaOf = (contour: Contour): number =>
  contour.reduce((sum, edge) => {
    const polygon = cross2(edge.from, edge.to) / 2;
    const bulge = edge.kind === 'arc' ? (edge.radius ** 2 * (edge.sweep - Math.sin(edge.sweep))) / 2 : 0;
    return sum + polygon + bulge;
  }, 0);

/** An arc in parts of at most a quarter turn. */
const partsOf = (edge: Edge): readonly Edge[] => {
  if (edge.kind === 'line') return [edge];
  const count = Math.max(1, Math.ceil(Math.abs(edge.sweep) / (Math.PI / 2) - 1e-9));
  const step = edge.sweep / count;
  return Array.from({ length: count }, (_, i) =>
    arcEdge(edge.centre, edge.radius, edge.start + i * step, step),
  );
};

/** True where the point lies inside. Points on the outline itself may fall either way. */
export const isInside = (contour: Contour, p: Vec2): boolean => {
  let winding = 0;
  for (const edge of contour.flatMap(partsOf)) {
    const { from: a, to: b } = edge;
    const side = cross2(sub2(b, a), sub2(p, a));
    if (a.y <= p.y && b.y > p.y && side > 0) winding += 1;
    if (a.y > p.y && b.y <= p.y && side < 0) winding -= 1;
    // Between an arc and its chord the polygon of the corners is wrong by one turn.
    if (edge.kind !== 'arc' || distance2(p, edge.centre) >= edge.radius) continue;
    if (edge.sweep > 0 && side < 0) winding += 1;
    if (edge.sweep < 0 && side > 0) winding -= 1;
  }
  return winding !== 0;
};

const onArc = (edge: Extract<Edge, { kind: 'arc' }>, p: Vec2): boolean => {
  const turn = 2 * Math.PI;
  const angle = Math.atan2(p.y - edge.centre.y, p.x - edge.centre.x);
  const ahead = modulo(edge.sweep > 0 ? angle - edge.start : edge.start - angle, turn);
  return ahead <= Math.abs(edge.sweep) + 1e-12;
};

/** The nearest point of the line from `a` to `b`. */
const footOn = (p: Vec2, a: Vec2, b: Vec2): Vec2 => {
  const ab = sub2(b, a);
  const size = dot2(ab, ab);
  const t = size === 0 ? 0 : Math.min(1, Math.max(0, dot2(sub2(p, a), ab) / size));
  return add2(a, scale2(ab, t));
};

const edgeDistance = (edge: Edge, p: Vec2): number => {
  if (edge.kind === 'line') return distance2(p, footOn(p, edge.from, edge.to));
  const ends = Math.min(distance2(p, edge.from), distance2(p, edge.to));
  return onArc(edge, p) ? Math.min(ends, Math.abs(distance2(p, edge.centre) - edge.radius)) : ends;
};

/** Distance from a point to the outline: positive inside, negative outside. */
export const depthOf = (contour: Contour, p: Vec2): number => {
  const nearest = Math.min(...contour.map((edge) => edgeDistance(edge, p)));
  return isInside(contour, p) ? nearest : -nearest;
};

/**
 * Metal left between a hole and the outline it lies in, mm; negative where the hole runs out over it. A slot is tried at
 * every place of its middle line where it can come nearest an edge.
 */
export const marginOf = (contour: Contour, hole: Hole): number => {
  const [a, b] = holeEnds(hole);
  const tried = [
    a,
    b,
    ...contour
      .flatMap((edge) => [edge.from, ...(edge.kind === 'arc' ? [edge.centre] : [])])
      .map((p) => footOn(p, a, b)),
  ];
  return Math.min(...tried.map((p) => depthOf(contour, p))) - hole.diameter / 2;
};

/** Upright box of the outline's corners and of the quarter points its arcs run through. */
export const contourPoints = (contour: Contour): readonly Vec2[] =>
  contour.flatMap((edge) =>
    edge.kind === 'line'
      ? [edge.from]
      : [
          edge.from,
          ...[0, 1, 2, 3]
            .map((quarter) => add2(edge.centre, polar2(edge.radius, (quarter * Math.PI) / 2)))
            .filter((p) => onArc(edge, p)),
        ],
  );

/** Where a circle crosses a straight edge, as shares of its length. */
const crossings = (
  edge: Extract<Edge, { kind: 'line' }>,
  centre: Vec2,
  radius: number,
): readonly number[] => {
  const along = sub2(edge.to, edge.from);
  const back = sub2(edge.from, centre);
  const [a, b, c] = [dot2(along, along), dot2(back, along), dot2(back, back) - radius * radius];
  const root = b * b - a * c;
  if (root <= 0) return [];
  return [(-b - Math.sqrt(root)) / a, (-b + Math.sqrt(root)) / a].filter((t) => t > 0 && t <= 1);
};

/**
 * A convex polygon run counter-clockwise with a circle taken out of its edge, or undefined where the circle does not cross
 * the outline exactly twice: it misses, lies inside, or would part the plate in two.
 */
export const copeContour = (polygon: Contour, centre: Vec2, radius: number): Contour | undefined => {
  const kept: Edge[] = [];
  const leaves: Vec2[] = [];
  let count = 0;
  for (const edge of polygon) {
    if (edge.kind !== 'line') return undefined;
    const at = (t: number): Vec2 => add2(edge.from, scale2(sub2(edge.to, edge.from), t));
    const cuts = [0, ...crossings(edge, centre, radius), 1];
    count += cuts.length - 2;
    cuts.slice(1).forEach((to, i) => {
      const from = itemAt(cuts, i);
      if (to - from < 1e-12 || distance2(at((from + to) / 2), centre) < radius) return;
      kept.push(lineEdge(at(from), at(to)));
      if (to < 1) leaves.push(at(to));
    });
  }
  const leave = leaves[0];
  if (count !== 2 || !leave) return undefined;
  const first = kept.findIndex((edge, i) => distance2(edge.from, itemAround(kept, i - 1).to) > 1e-9);
  const around = [...kept.slice(first), ...kept.slice(0, first)];
  const end = itemAt(around, 0).from;
  const [start, stop] = [leave, end].map((p) => Math.atan2(p.y - centre.y, p.x - centre.x)) as [
    number,
    number,
  ];
  // The part lies outside the circle, so the arc runs clockwise about its center.
  const turn = 2 * Math.PI;
  const sweep = -modulo(start - stop, turn);
  return [...around, { ...arcEdge(centre, radius, start, sweep), from: leave, to: end }];
};
