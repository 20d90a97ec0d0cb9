import { TURN } from './angle-units.ts';
import { halve } from './halving.ts';
import {
  onEllipse,
  rotate2,
  type ArcEdge,
  type EllipseEdge,
  type LineEdge,
  type SectionEdge,
} from './section.ts';
import { GRAZE } from './tolerance.ts';
import { add2, cross2, dot2, left2, length2, polar2, scale2, sub2, unit2, type Vec2 } from './vector.ts';

/** Where a line crosses an edge. */
export interface Crossing {
  /** Along the line, in lengths of its direction. */
  readonly t: number;
  /** Unit direction out of the steel. */
  readonly out: Vec2;
  /** True where the line goes into the steel there, or only touches it. */
  readonly entering: boolean;
}

/** Below this sine a line counts as parallel to an edge. */
const PARALLEL = 1e-12;
/** An arc reaches this much past its ends, so that nothing slips between it and its neighbor, radians. */
const PAST_END = 1e-11;

/** How far `angle` lies ahead of `start`, in the sense of `sweep`, in [0, 2π). */
const ahead = (angle: number, start: number, sweep: number): number => {
  const turned = ((sweep > 0 ? angle - start : start - angle) % TURN) + TURN;
  return turned >= TURN ? turned - TURN : turned;
};

const withinSweep = (angle: number, { start, sweep }: ArcEdge | EllipseEdge): boolean => {
  const far = ahead(angle, start, sweep);
  return far <= Math.abs(sweep) + PAST_END || far >= TURN - PAST_END;
};

const crossLine = ({ from, to }: LineEdge, origin: Vec2, direction: Vec2): readonly Crossing[] => {
  const along = sub2(to, from);
  const length = length2(along);
  const out = scale2(left2(along), -1 / length);
  const speed = length2(direction);
  const approach = dot2(out, direction);
  const away = dot2(out, sub2(from, origin));
  if (Math.abs(approach) < PARALLEL * speed) {
    if (Math.abs(away) > GRAZE) return [];
    // The line runs in the face: it touches at the nearer end and leaves at the other.
    const ts = [from, to].map((p) => dot2(sub2(p, origin), direction) / speed ** 2);
    return [
      { t: Math.min(...ts), out, entering: true },
      { t: Math.max(...ts), out, entering: false },
    ];
  }
  const t = away / approach;
  const place = dot2(sub2(add2(origin, scale2(direction, t)), from), along) / length;
  return place >= -GRAZE && place <= length + GRAZE ? [{ t, out, entering: approach < 0 }] : [];
};

const crossArc = (edge: ArcEdge, origin: Vec2, direction: Vec2): readonly Crossing[] => {
  const { centre, radius, sweep } = edge;
  const from = sub2(origin, centre);
  const speed = length2(direction);
  const gap = Math.abs(cross2(from, direction)) / speed;
  if (gap > radius + GRAZE || (sweep < 0 && gap > radius)) return [];
  const closest = -dot2(from, direction) / (speed * speed);
  const half = Math.sqrt(Math.max(0, (radius - gap) * (radius + gap))) / speed;
  const sense = Math.sign(sweep);
  return [-1, 1].flatMap((side): Crossing[] => {
    const t = closest + side * half;
    const spoke = add2(from, scale2(direction, t));
    if (!withinSweep(Math.atan2(spoke.y, spoke.x), edge)) return [];
    return [{ t, out: scale2(unit2(spoke), sense), entering: side * sense < 0 }];
  });
};

/**
 * Seen along the line, the edge's distance from its center's line is H cos(q) − inset · (normal), q counted from the point
 * that lies farthest to the left; it falls all the way to the point farthest to the right, so each side holds one crossing.
 */
const crossEllipse = (edge: EllipseEdge, origin: Vec2, direction: Vec2): readonly Crossing[] => {
  const { centre, turn, inset } = edge;
  const [a, b] = edge.radii;
  const speed = length2(direction);
  const side = scale2(left2(direction), 1 / speed);
  const own = rotate2(side, -turn);
  const farthest = Math.atan2(b * own.y, a * own.x);
  const reach = Math.hypot(a * own.x, b * own.y);
  const offset = dot2(side, sub2(origin, centre));
  if (Math.abs(offset) > reach - inset + GRAZE) return [];
  const shifted = (q: number): number => dot2(side, sub2(onEllipse(edge, farthest + q).point, centre));
  const solve = (sense: 1 | -1): number => {
    if (inset === 0) {
      const level = Math.max(-reach, Math.min(reach, offset));
      return sense * Math.atan2(Math.sqrt((reach - level) * (reach + level)), level);
    }
    return sense * halve((p) => shifted(sense * p) > offset, 0, Math.PI).middle;
  };
  return ([1, -1] as const).flatMap((sense): Crossing[] => {
    const p = farthest + solve(sense);
    if (!withinSweep(p, edge)) return [];
    const { point, out } = onEllipse(edge, p);
    const t = dot2(sub2(point, origin), direction) / (speed * speed);
    // Counter-clockwise from the point farthest to the left, the line's own direction is behind.
    return [{ t, out, entering: sense > 0 }];
  });
};

/** Where the line through `origin` along `direction` (of any length) crosses an edge; one that only grazes it touches it. */
export const crossEdge = (edge: SectionEdge, origin: Vec2, direction: Vec2): readonly Crossing[] => {
  switch (edge.kind) {
    case 'line':
      return crossLine(edge, origin, direction);
    case 'arc':
      return crossArc(edge, origin, direction);
    case 'ellipse':
      return crossEllipse(edge, origin, direction);
  }
};

/** A direction along which no face of ordinary stock lies, to tell inside from outside. */
const ASKEW: Vec2 = polar2(1, 0.7236067977);

/** True where a point lies inside a contour or on it. */
export const insideContour = (contour: readonly SectionEdge[], p: Vec2): boolean => {
  let next: Crossing | undefined;
  for (const crossing of contour.flatMap((edge) => crossEdge(edge, p, ASKEW))) {
    if (Math.abs(crossing.t) <= 2 * GRAZE) return true;
    if (crossing.t > 0 && (!next || crossing.t < next.t)) next = crossing;
  }
  return next !== undefined && !next.entering;
};
