import type { Sheet } from '../../src/drawing/model.ts';
import type { ContourEdge } from '../../src/proof/contour.ts';
import { laySection } from '../../src/proof/section-lay.ts';
import { sectionPoints, type Body } from './kernel.ts';
import { inner, minus, norm, plus, point, times, type Vec3 } from './space.ts';

/**
 * Volumes of a branch and of the hole it asks for, from Open CASCADE's sections at several depths of the wall. An end and a hole are
 * cut square to the surface: over each place of the outside the steel ends at the least of these heights. Bodies and lays are those
 * that the sheets record; nothing here shares code with what makes the meshes.
 */
const DEPTHS = 5;
const COLUMNS = 720;

export type Fit = Extract<NonNullable<Sheet['fit']>, { lay: unknown }>;
type Solid = Fit['lines'][number]['solids'][number];
type Place = readonly [x: number, y: number];

const origin = point(0, 0, 0);
const up = point(0, 0, 1);
const flatten = (p: Vec3): Place => [p.x, p.y];

/** A contour moved inward by `depth`: only lines and arcs, whose corners are round. */
const shrunk = (edges: readonly ContourEdge[], depth: number): readonly ContourEdge[] =>
  edges.map((edge) => {
    if (edge.kind === 'arc') return { ...edge, radius: edge.radius - Math.sign(edge.sweep) * depth };
    if (edge.kind !== 'line') throw new Error('an ellipse has no place among the examples');
    const along = minus(point(edge.to.x, edge.to.y, 0), point(edge.from.x, edge.from.y, 0));
    // The outside lies to the right of a contour that runs counter-clockwise.
    const off = times(point(-along.y, along.x, 0), depth / norm(along));
    const move = ({ x, y }: { x: number; y: number }) => ({ x: x + off.x, y: y + off.y });
    return { ...edge, from: move(edge.from), to: move(edge.to) };
  });

const prism = (edges: readonly ContourEdge[], through: Vec3, axis: Vec3, across: Vec3): Body => {
  const endOf = (edge: ContourEdge, share: 0 | 1): Place => {
    if (edge.kind === 'line') return share === 0 ? [edge.from.x, edge.from.y] : [edge.to.x, edge.to.y];
    if (edge.kind !== 'arc') throw new Error('an ellipse has no place among the examples');
    const a = edge.start + share * edge.sweep;
    return [edge.centre.x + edge.radius * Math.cos(a), edge.centre.y + edge.radius * Math.sin(a)];
  };
  return {
    kind: 'prism',
    origin: through,
    axis,
    across,
    section: {
      start: endOf(edges[0]!, 0),
      sides: edges.map((edge) => ({
        to: endOf(edge, 1),
        ...(edge.kind === 'arc' && {
          centre: [edge.centre.x, edge.centre.y] as const,
          clockwise: edge.sweep < 0,
        }),
      })),
    },
  };
};

/** The kernel's bodies that a solid is made of, each with what of it belongs to it. */
const bodiesOf = (solid: Solid): readonly (readonly [Body, (p: Vec3) => boolean])[] => {
  const all = (): boolean => true;
  switch (solid.kind) {
    case 'prism':
      return [[prism(solid.section.outside, solid.through, solid.along, solid.across), all]];
    case 'bar':
      return [
        [{ ...solid, centre: solid.through, axis: solid.along, length: solid.length ?? 4000 }, all] as const,
      ];
    case 'bend': {
      const { corner, legs, bendRadius, radius } = solid;
      const [a, b] = legs.map((leg) => times(leg, 1 / norm(leg))) as [Vec3, Vec3];
      const half = Math.acos(inner(a, b)) / 2;
      const takeOff = bendRadius / Math.tan(half);
      const inward = plus(a, b);
      const centre = plus(corner, times(inward, bendRadius / Math.sin(half) / norm(inward)));
      const axis = point(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x);
      const past = (leg: Vec3) => (p: Vec3) => inner(minus(p, corner), leg) > takeOff;
      const torus: Body = { kind: 'torus', centre, axis, major: bendRadius, minor: radius };
      return [
        [torus, (p) => !past(a)(p) && !past(b)(p) && inner(minus(centre, p), inward) > 0],
        [{ kind: 'cylinder', through: corner, along: a, radius }, past(a)],
        [{ kind: 'cylinder', through: corner, along: b, radius }, past(b)],
      ];
    }
    case 'plane':
    case 'cylinder':
    case 'sphere':
    case 'cone':
    case 'ellipsoidal head':
    case 'torispherical head':
      return [[solid, all]];
  }
};

/** A layer of the wall as the kernel's body: round or shaped stock along z, or a face across x. */
const layerOf = ({ lay }: Fit, depth: number): Body => {
  if (lay.kind === 'flat') return { kind: 'plane', through: point(-depth, 0, 0), normal: point(1, 0, 0) };
  if (lay.kind === 'round')
    return { kind: 'cylinder', through: origin, along: up, radius: lay.od / 2 - depth };
  if (lay.kind !== 'section') throw new Error(`no layer of ${lay.kind}`);
  return prism(shrunk(lay.section.outside, depth), origin, up, point(1, 0, 0));
};

interface Column {
  /** Where a line along the stock lies, at a depth under its outside. */
  readonly at: (depth: number) => Place;
  /** Steel across it, mm². */
  readonly area: number;
}

/** Columns of steel over the whole outside, or over a face from `from` to `to`. */
const columnsOf = ({ lay, wall = 0 }: Fit, [from, to]: readonly [number, number]): readonly Column[] => {
  const placeAt = (s: number, depth: number): Place => {
    if (lay.kind === 'flat') return [-depth, s];
    if (lay.kind === 'round') {
      const radius = lay.od / 2;
      return [(radius - depth) * Math.cos(s / radius), (radius - depth) * Math.sin(s / radius)];
    }
    return flatten(laid!.place({ x: s, y: 0 }, depth));
  };
  const laid = lay.kind === 'section' ? laySection(lay.section, 0) : undefined;
  const step = (to - from) / COLUMNS;
  return Array.from({ length: COLUMNS }, (_, i) => {
    const s = from + (i + 0.5) * step;
    const corners = [
      placeAt(s - step / 2, 0),
      placeAt(s + step / 2, 0),
      placeAt(s + step / 2, wall),
      placeAt(s - step / 2, wall),
    ];
    const area = corners.reduce((sum, [x, y], k) => {
      const [nx, ny] = corners[(k + 1) % 4]!;
      return sum + (x * ny - y * nx) / 2;
    }, 0);
    return { at: (depth) => placeAt(s, depth), area: Math.abs(area) };
  });
};

/** Once round the outside of stock that a sheet is wrapped on. */
const girthOf = ({ lay }: Fit): number => {
  if (lay.kind === 'round') return Math.PI * lay.od;
  if (lay.kind !== 'section') throw new Error(`no girth of ${lay.kind}`);
  return lay.section.outside.reduce((sum, edge) => {
    if (edge.kind === 'line') return sum + Math.hypot(edge.to.x - edge.from.x, edge.to.y - edge.from.y);
    if (edge.kind !== 'arc') throw new Error('an ellipse has no place among the examples');
    return sum + edge.radius * Math.abs(edge.sweep);
  }, 0);
};

/** Steel across hollow stock, mm². */
export const steelAcross = (fit: Fit): number =>
  columnsOf(fit, [0, girthOf(fit)]).reduce((sum, { area }) => sum + area, 0);

type Chord = readonly [Vec3, Vec3];
/** Chords of the kernel's curves nearer than this pass over a place, mm. */
const NEAR = 0.02;

const chordsOf = async (layer: Body, solids: readonly Solid[]): Promise<readonly Chord[]> => {
  const chords: Chord[] = [];
  for (const [body, holds] of solids.flatMap(bodiesOf))
    for (const curve of await sectionPoints(layer, body, 1e-3))
      for (let i = 1; i < curve.length; i++)
        if (holds(curve[i - 1]!) && holds(curve[i]!)) chords.push([curve[i - 1]!, curve[i]!]);
  return chords;
};

/** Heights of the chords that pass over a place. */
const heightsAt = (chords: readonly Chord[], [x, y]: Place): readonly number[] =>
  chords.flatMap(([a, b]) => {
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const size = dx * dx + dy * dy;
    const share = size > 0 ? ((x - a.x) * dx + (y - a.y) * dy) / size : 0;
    const [low, high] = [-NEAR / Math.sqrt(size), 1 + NEAR / Math.sqrt(size)];
    if (share < low || share > high) return [];
    const off = Math.hypot(a.x + share * dx - x, a.y + share * dy - y);
    return off < NEAR ? [a.z + share * (b.z - a.z)] : [];
  });

const depthsOf = ({ wall = 0 }: Fit, through: boolean): readonly number[] =>
  through ? Array.from({ length: DEPTHS }, (_, i) => (wall * i) / (DEPTHS - 1)) : [0];

/** A branch from a square end at height `tail` to its cut, mm³. */
export const branchVolume = async (fit: Fit, tail: number): Promise<number> => {
  const { solids, gap, contact } = fit.lines[0]!;
  const depths = depthsOf(fit, contact === 'wall');
  const layers = await Promise.all(
    depths.map(async (depth) => [depth, await chordsOf(layerOf(fit, depth), solids)] as const),
  );
  return columnsOf(fit, [0, girthOf(fit)]).reduce((sum, { at, area }) => {
    const top = Math.min(...layers.flatMap(([depth, chords]) => heightsAt(chords, at(depth))));
    return sum + area * (top - gap - tail);
  }, 0);
};

/** What an opening takes from the wall it is cut in, mm³. */
export const holeVolume = async (fit: Fit, reach: number): Promise<number> => {
  const { solids, contact } = fit.lines[0]!;
  const depths = depthsOf(fit, contact === 'wall');
  const half = fit.lay.kind === 'flat' ? reach : girthOf(fit) / 4;
  const layers = await Promise.all(
    depths.map(async (depth) => {
      const chords = await chordsOf(layerOf(fit, depth), solids);
      // The far side of a pipe is met as well.
      return [depth, chords.filter(([a]) => fit.lay.kind === 'flat' || a.x > 0)] as const;
    }),
  );
  return columnsOf(fit, [-half, half]).reduce((sum, { at, area }) => {
    const found = layers.flatMap(([depth, chords]) => heightsAt(chords, at(depth)));
    return found.length < 2 ? sum : sum + area * (Math.max(...found) - Math.min(...found));
  }, 0);
};
