import { itemAt } from '../lists.ts';
import { add2, dot2, length2, polar2, scale2, sub2, type Vec2 } from './vector.ts';

/** A hole in a plate, mm and radians. */
export interface Hole {
  readonly at: Vec2;
  /** Drill diameter; a slot's width. */
  readonly diameter: number;
  /** A slot with round ends: its length over both ends, and the direction of its long axis. */
  readonly slot?: { readonly length: number; readonly along: number };
}

/** `count` points evenly on a circle about the origin, counter-clockwise, the first at angle `first`. */
export const circlePattern = (count: number, diameter: number, first: number): readonly Vec2[] =>
  Array.from({ length: count }, (_, i) => polar2(diameter / 2, first + (2 * Math.PI * i) / count));

/** Columns and rows about the origin; `stagger` moves every second row by that much, half to each side of the middle. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly columnPitch: number;
  readonly rowPitch: number;
  readonly stagger: number;
}

/** The points of a grid, row by row from the lower left, centred on the origin. */
export const gridPattern = ({ columns, rows, columnPitch, rowPitch, stagger }: Grid): readonly Vec2[] =>
  Array.from({ length: rows * columns }, (_, i) => {
    const [row, column] = [Math.floor(i / columns), i % columns];
    const shift = rows > 1 ? (row % 2 === 0 ? -stagger / 2 : stagger / 2) : 0;
    return {
      x: (column - (columns - 1) / 2) * columnPitch + shift,
      y: (row - (rows - 1) / 2) * rowPitch,
    };
  });

/** The centers of a hole's round ends: one point twice for a round hole. */
export const holeEnds = ({ at, diameter, slot }: Hole): readonly [Vec2, Vec2] => {
  const reach = slot ? polar2(Math.max(0, slot.length - diameter) / 2, slot.along) : { x: 0, y: 0 };
  return [sub2(at, reach), add2(at, reach)];
};

const pointToSegment = (p: Vec2, a: Vec2, b: Vec2): number => {
  const ab = sub2(b, a);
  const size = dot2(ab, ab);
  const t = size === 0 ? 0 : Math.min(1, Math.max(0, dot2(sub2(p, a), ab) / size));
  return length2(sub2(p, add2(a, scale2(ab, t))));
};

const cross = (a: Vec2, b: Vec2): number => a.x * b.y - a.y * b.x;

const segmentsCross = (a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean => {
  const [ab, cd] = [sub2(b, a), sub2(d, c)];
  return (
    cross(ab, sub2(c, a)) * cross(ab, sub2(d, a)) < 0 && cross(cd, sub2(a, c)) * cross(cd, sub2(b, c)) < 0
  );
};

/** The web of metal between two holes, mm; negative where they overlap. */
export const webBetween = (p: Hole, q: Hole): number => {
  const [[a, b], [c, d]] = [holeEnds(p), holeEnds(q)];
  const apart = segmentsCross(a, b, c, d)
    ? 0
    : Math.min(
        pointToSegment(a, c, d),
        pointToSegment(b, c, d),
        pointToSegment(c, a, b),
        pointToSegment(d, a, b),
      );
  return apart - (p.diameter + q.diameter) / 2;
};

/** The narrowest web in a pattern and the two holes beside it, by index; undefined for fewer than two holes. */
export const narrowestWeb = (
  holes: readonly Hole[],
): { readonly web: number; readonly a: number; readonly b: number } | undefined => {
  let least: { web: number; a: number; b: number } | undefined;
  holes.forEach((p, a) => {
    for (let b = a + 1; b < holes.length; b += 1) {
      const web = webBetween(p, itemAt(holes, b));
      if (!least || web < least.web) least = { web, a, b };
    }
  });
  return least;
};

/** How far a hole reaches from the origin at most, and how near it comes to it; 0 where the origin lies in it. */
export const radialReach = (hole: Hole): { readonly near: number; readonly far: number } => {
  const [a, b] = holeEnds(hole);
  const radius = hole.diameter / 2;
  return {
    near: Math.max(0, pointToSegment({ x: 0, y: 0 }, a, b) - radius),
    far: Math.max(length2(a), length2(b)) + radius,
  };
};

/** The distance from a hole to the nearest side of a rectangle about `centre`; negative where it runs out over it. */
export const edgeDistance = (
  hole: Hole,
  width: number,
  height: number,
  centre: Vec2 = { x: 0, y: 0 },
): number =>
  Math.min(
    ...holeEnds(hole).map((end) =>
      Math.min(width / 2 - Math.abs(end.x - centre.x), height / 2 - Math.abs(end.y - centre.y)),
    ),
  ) -
  hole.diameter / 2;

/** The pair of holes a level is laid across: the two highest that stand level, and among those the widest apart. */
export const levelPair = (points: readonly Vec2[]): readonly [number, number] | undefined => {
  let best: { pair: [number, number]; y: number; span: number } | undefined;
  points.forEach((p, i) => {
    for (let j = i + 1; j < points.length; j += 1) {
      const q = itemAt(points, j);
      const span = Math.abs(p.x - q.x);
      if (Math.abs(p.y - q.y) > 1e-6 || span < 1e-6) continue;
      const higher = !best || p.y > best.y + 1e-6;
      if (higher || (best && Math.abs(p.y - best.y) <= 1e-6 && span > best.span))
        best = { pair: [i, j], y: p.y, span };
    }
  });
  return best?.pair;
};
