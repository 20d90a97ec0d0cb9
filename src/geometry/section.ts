import { integrate } from './quadrature.ts';
import { add2, cross2, dot2, left2, length2, polar2, scale2, sub2, type Vec2 } from './vector.ts';

/**
 * Cross-sections of straight stock as plain data: closed contours of straight lines, circular arcs and elliptical arcs,
 * mm and radians. A contour runs counter-clockwise with the steel (or, inside, the hollow) to the left of every edge.
 */

/** What an edge is called, and how it is reached. */
interface EdgeName {
  /** Edges of one name are one face, such as `face 1`, `corner 2`, `web`. */
  readonly face: string;
  /** True where a tape pulled round the steel does not reach: inside an angle, a channel or a beam. */
  readonly inner?: boolean;
  /** How deep the steel is counted under this edge where the section is open, mm. */
  readonly wall?: number;
}

export interface LineEdge extends EdgeName {
  readonly kind: 'line';
  readonly from: Vec2;
  readonly to: Vec2;
}

export interface ArcEdge extends EdgeName {
  readonly kind: 'arc';
  readonly centre: Vec2;
  readonly radius: number;
  /** Angle of its first point as seen from the center. */
  readonly start: number;
  /** Positive counter-clockwise; negative round a fillet. At most a full turn. */
  readonly sweep: number;
}

export interface EllipseEdge extends EdgeName {
  readonly kind: 'ellipse';
  readonly centre: Vec2;
  /** Half the size along its own first direction, and square to it. */
  readonly radii: readonly [number, number];
  /** Angle of the first direction. */
  readonly turn: number;
  /** The point at parameter p is (radii[0] cos p, radii[1] sin p) in its own directions. */
  readonly start: number;
  /** Counter-clockwise, at most a full turn. */
  readonly sweep: number;
  /** How far inside the ellipse the edge runs, square to it: the bore of a wall of even thickness. */
  readonly inset: number;
}

export type SectionEdge = LineEdge | ArcEdge | EllipseEdge;

export interface Section {
  /** Begins at position 0. */
  readonly outside: readonly SectionEdge[];
  /** The bore, where the stock is hollow. */
  readonly inside?: readonly SectionEdge[];
  /** Least thickness of the steel, mm. */
  readonly thickness: number;
}

/** A point of an edge and the unit direction out of the steel there. */
export interface Spot {
  readonly point: Vec2;
  readonly out: Vec2;
}

/** An edge walked by its true length. */
export interface Run {
  readonly length: number;
  /** The spot `l` mm along it. */
  readonly at: (l: number) => Spot;
}

/** Stretches of an ellipse's turn over each of which its length is integrated by itself. */
const PANELS = 64;

/** A point or direction turned counter-clockwise about the origin. */
export const rotate2 = (p: Vec2, angle: number): Vec2 => ({
  x: p.x * Math.cos(angle) - p.y * Math.sin(angle),
  y: p.x * Math.sin(angle) + p.y * Math.cos(angle),
});

/** The point of an elliptical edge at parameter `p`, the unit normal out of the ellipse, and how fast the point moves. */
export const onEllipse = (
  { centre, radii: [a, b], turn, inset }: EllipseEdge,
  p: number,
): Spot & { readonly pace: number } => {
  const [c, s] = [Math.cos(p), Math.sin(p)];
  const pace = Math.hypot(a * s, b * c);
  const out = { x: (b * c) / pace, y: (a * s) / pace };
  const own = { x: a * c - inset * out.x, y: b * s - inset * out.y };
  return {
    point: add2(centre, rotate2(own, turn)),
    out: rotate2(out, turn),
    // The normal turns by a b / pace^2 for each unit of p.
    pace: pace - (inset * a * b) / (pace * pace),
  };
};

/** Lengths of an elliptical edge up to each of its panels, and how fast its point moves. */
const ellipsePanels = (edge: EllipseEdge) => {
  const step = edge.sweep / PANELS;
  const pace = (p: number): number => onEllipse(edge, p).pace;
  const sums = [0];
  for (let i = 0; i < PANELS; i++)
    sums.push((sums[i] ?? 0) + integrate(pace, edge.start + i * step, edge.start + (i + 1) * step));
  return { step, pace, sums, length: sums[PANELS] ?? 0 };
};

/** The parameter at which an elliptical edge is `l` long: Newton's steps within the panel that holds it. */
const ellipseParameter = (edge: EllipseEdge): ((l: number) => number) => {
  const { step, pace, sums, length } = ellipsePanels(edge);
  return (l) => {
    let [low, high] = [0, PANELS];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((sums[middle] ?? 0) <= l) low = middle;
      else high = middle;
    }
    const from = edge.start + low * step;
    const rest = l - (sums[low] ?? 0);
    let p = from + (step * rest) / ((sums[low + 1] ?? 0) - (sums[low] ?? 0));
    for (let i = 0; i < 8; i++) {
      const off = integrate(pace, from, p) - rest;
      p -= off / pace(p);
      if (Math.abs(off) < 1e-13 * length) break;
    }
    return p;
  };
};

const ellipseRun = (edge: EllipseEdge): Run => {
  const parameterAt = ellipseParameter(edge);
  return { length: ellipsePanels(edge).length, at: (l) => onEllipse(edge, parameterAt(l)) };
};

/** An edge by its length: along ellipses by numeric integration. */
export const runOf = (edge: SectionEdge): Run => {
  switch (edge.kind) {
    case 'line': {
      const along = sub2(edge.to, edge.from);
      const length = length2(along);
      const out = scale2(left2(along), -1 / length);
      return { length, at: (l) => ({ point: add2(edge.from, scale2(along, l / length)), out }) };
    }
    case 'arc': {
      const { centre, radius, start, sweep } = edge;
      const sense = Math.sign(sweep);
      return {
        length: radius * Math.abs(sweep),
        at: (l) => {
          const spoke = polar2(1, start + (sense * l) / radius);
          return { point: add2(centre, scale2(spoke, radius)), out: scale2(spoke, sense) };
        },
      };
    }
    case 'ellipse':
      return ellipseRun(edge);
  }
};

/** An edge cut in two, `l` mm along it. */
export const splitEdge = (edge: SectionEdge, l: number): readonly [SectionEdge, SectionEdge] => {
  switch (edge.kind) {
    case 'line': {
      const { point } = runOf(edge).at(l);
      return [
        { ...edge, to: point },
        { ...edge, from: point },
      ];
    }
    case 'arc': {
      const turn = (Math.sign(edge.sweep) * l) / edge.radius;
      return [
        { ...edge, sweep: turn },
        { ...edge, start: edge.start + turn, sweep: edge.sweep - turn },
      ];
    }
    case 'ellipse': {
      const turn = ellipseParameter(edge)(l) - edge.start;
      return [
        { ...edge, sweep: turn },
        { ...edge, start: edge.start + turn, sweep: edge.sweep - turn },
      ];
    }
  }
};

/** Where an edge begins and ends. */
export const edgeEnds = (edge: SectionEdge): readonly [Spot, Spot] => {
  if (edge.kind === 'ellipse') return [onEllipse(edge, edge.start), onEllipse(edge, edge.start + edge.sweep)];
  const run = runOf(edge);
  return [run.at(0), run.at(run.length)];
};

/** Length once round a contour, mm; along ellipses by numeric integration, good to rounding. */
export const contourLength = (contour: readonly SectionEdge[]): number =>
  contour.reduce((sum, edge) => sum + runOf(edge).length, 0);

/** Area inside a contour, mm²: half the sum of what each edge sweeps as seen from the origin. */
export const contourArea = (contour: readonly SectionEdge[]): number =>
  contour.reduce((sum, edge) => {
    const [from, to] = edgeEnds(edge);
    if (edge.kind === 'line') return sum + cross2(from.point, to.point) / 2;
    const shift = cross2(edge.centre, sub2(to.point, from.point)) / 2;
    if (edge.kind === 'arc') return sum + shift + (edge.radius ** 2 * edge.sweep) / 2;
    const own = { ...edge, centre: { x: 0, y: 0 } };
    const swept = (p: number): number => {
      const { point, out, pace } = onEllipse(own, p);
      return (dot2(point, out) * pace) / 2;
    };
    const step = edge.sweep / PANELS;
    let area = 0;
    for (let i = 0; i < PANELS; i++)
      area += integrate(swept, edge.start + i * step, edge.start + (i + 1) * step);
    return sum + shift + area;
  }, 0);

/** Area of the steel, mm². */
export const sectionArea = ({ outside, inside = [] }: Section): number =>
  contourArea(outside) - contourArea(inside);

const turnEdge = (edge: SectionEdge, angle: number): SectionEdge => {
  switch (edge.kind) {
    case 'line':
      return { ...edge, from: rotate2(edge.from, angle), to: rotate2(edge.to, angle) };
    case 'arc':
      return { ...edge, centre: rotate2(edge.centre, angle), start: edge.start + angle };
    case 'ellipse':
      return { ...edge, centre: rotate2(edge.centre, angle), turn: edge.turn + angle };
  }
};

/** A section turned counter-clockwise about the origin; position 0 turns with it. */
export const turnSection = (section: Section, angle: number): Section => ({
  ...section,
  outside: section.outside.map((edge) => turnEdge(edge, angle)),
  ...(section.inside && { inside: section.inside.map((edge) => turnEdge(edge, angle)) }),
});

const mirrorEdge = (edge: SectionEdge): SectionEdge => {
  const flip = ({ x, y }: Vec2): Vec2 => ({ x, y: -y });
  switch (edge.kind) {
    case 'line':
      return { ...edge, from: flip(edge.to), to: flip(edge.from) };
    case 'arc':
      return { ...edge, centre: flip(edge.centre), start: -(edge.start + edge.sweep) };
    case 'ellipse':
      return { ...edge, centre: flip(edge.centre), turn: -edge.turn, start: -(edge.start + edge.sweep) };
  }
};

/** A section seen from the other end: mirrored in x, still counter-clockwise and from the same place on. */
export const mirrorSection = (section: Section): Section => ({
  ...section,
  outside: section.outside.map(mirrorEdge).reverse(),
  ...(section.inside && { inside: section.inside.map(mirrorEdge).reverse() }),
});

/** True where the contour bulges outward all the way round. */
export const isConvex = (contour: readonly SectionEdge[]): boolean =>
  contour.every((edge, i) => {
    if (edge.kind !== 'line' && edge.sweep < 0) return false;
    const next = contour[(i + 1) % contour.length];
    return !next || cross2(edgeEnds(edge)[1].out, edgeEnds(next)[0].out) > -1e-9;
  });
