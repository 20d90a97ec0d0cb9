import { itemAround, itemAt } from '../lists.ts';
import { add2, distance2, polar2, scale2, vec2, type Vec2 } from './vector.ts';

/** One side of a profile: straight, or a part of an ellipse (center, two half axes as vectors, angles on it). */
export type ProfileEdge =
  | { readonly kind: 'line'; readonly from: Vec2; readonly to: Vec2 }
  | {
      readonly kind: 'arc';
      readonly centre: Vec2;
      /** The point at angle t is centre + p cos t + q sin t; q lies to the left of p, so it runs counter-clockwise. */
      readonly p: Vec2;
      readonly q: Vec2;
      readonly start: number;
      /** Positive, at most a full turn. */
      readonly sweep: number;
    };

/**
 * A closed convex outline in its own plane, mm, run counter-clockwise: the end of a transition or a cone. Every edge begins
 * where the one before it ends; a profile without edges is the point `at`.
 */
export interface Profile {
  readonly edges: readonly ProfileEdge[];
  /** A point inside, from which stations are counted. */
  readonly at: Vec2;
}

/** The point of an arc at angle t on it. */
export const arcPoint = ({ centre, p, q }: Extract<ProfileEdge, { kind: 'arc' }>, t: number): Vec2 =>
  add2(centre, add2(scale2(p, Math.cos(t)), scale2(q, Math.sin(t))));

/** Where an edge begins and ends. */
export const edgeEnds = (edge: ProfileEdge): readonly [Vec2, Vec2] =>
  edge.kind === 'line'
    ? [edge.from, edge.to]
    : [arcPoint(edge, edge.start), arcPoint(edge, edge.start + edge.sweep)];

const ORIGIN = vec2(0, 0);
const HALF = Math.PI / 2;

/** A single point: the end of a cone that runs to its apex. */
export const pointProfile = (at: Vec2 = ORIGIN): Profile => ({ edges: [], at });

/** An ellipse about the origin; a circle where both diameters are the same. */
export const ellipseProfile = (width: number, height: number): Profile => ({
  edges: [
    {
      kind: 'arc',
      centre: ORIGIN,
      p: vec2(width / 2, 0),
      q: vec2(0, height / 2),
      start: 0,
      sweep: 2 * Math.PI,
    },
  ],
  at: ORIGIN,
});

/** Straight sides through the points, counter-clockwise. */
export const polygonProfile = (points: readonly Vec2[]): Profile => ({
  edges: points.map((from, i) => ({ kind: 'line', from, to: itemAround(points, i + 1) })),
  at: scale2(points.reduce(add2, ORIGIN), 1 / points.length),
});

/** A regular polygon about the origin; station 0 is the middle of a side. */
export const regularProfile = (sides: number, side: number): Profile => {
  const radius = side / (2 * Math.sin(Math.PI / sides));
  return polygonProfile(
    Array.from({ length: sides }, (_, i) => polar2(radius, ((2 * i - 1) * Math.PI) / sides)),
  );
};

/**
 * An upright rectangle about the origin, its corners round with the radius `corner` (0: sharp). A corner of half the
 * shorter side makes it an oval of two half circles.
 */
export const rectangleProfile = (width: number, height: number, corner = 0): Profile => {
  const [x, y] = [width / 2, height / 2];
  if (corner === 0) return polygonProfile([vec2(x, -y), vec2(x, y), vec2(-x, y), vec2(-x, -y)]);
  const signs = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ] as const;
  const corners = signs.map(([sx, sy], i): ProfileEdge => ({
    kind: 'arc',
    centre: vec2(sx * (x - corner), sy * (y - corner)),
    p: vec2(corner, 0),
    q: vec2(0, corner),
    start: i * HALF,
    sweep: HALF,
  }));
  const edges = corners.flatMap((edge, i): readonly ProfileEdge[] => {
    const [from] = edgeEnds(edge);
    const [, before] = edgeEnds(itemAt(corners, (i + 3) % 4));
    const side: ProfileEdge = { kind: 'line', from: before, to: from };
    return distance2(before, from) > 1e-9 * (width + height) ? [side, edge] : [edge];
  });
  return { edges, at: ORIGIN };
};

/** Length once round, mm: ellipse arcs by Simpson's rule on 2000 parts. */
export const profileGirth = ({ edges }: Profile): number =>
  edges.reduce((sum, edge) => {
    if (edge.kind === 'line') return sum + distance2(edge.from, edge.to);
    const { p, q, start, sweep } = edge;
    const speed = (t: number): number =>
      Math.hypot(q.x * Math.cos(t) - p.x * Math.sin(t), q.y * Math.cos(t) - p.y * Math.sin(t));
    const parts = 2000;
    const inner = Array.from(
      { length: parts - 1 },
      (_, i) => (i % 2 === 0 ? 4 : 2) * speed(start + (sweep * (i + 1)) / parts),
    );
    const total = inner.reduce((a, b) => a + b, speed(start) + speed(start + sweep));
    return sum + (total * sweep) / (3 * parts);
  }, 0);
