import { plus, point, times, type Vec2, type Vec3 } from './space.ts';

/** Outlines as points, counter-clockwise from station 0, made from their definitions alone. */

const DEGREE = Math.PI / 180;

/** An ellipse of the given diameters. */
export const ellipsePoints = (width: number, height: number, count = 1080): Vec2[] =>
  Array.from({ length: count }, (_, i) => ({
    x: (width / 2) * Math.cos((2 * Math.PI * i) / count),
    y: (height / 2) * Math.sin((2 * Math.PI * i) / count),
  }));

/** A rectangle with round corners; its points begin in the middle of the side on +x. */
export const rectanglePoints = (width: number, height: number, corner: number, perCorner = 270): Vec2[] => {
  const [x, y] = [width / 2 - corner, height / 2 - corner];
  const corners = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ] as const;
  // The middle of a side before each corner, so that a pattern may be cut open there; a sharp corner has radius 0.
  const middles = [
    { x: width / 2, y: 0 },
    { x: 0, y: height / 2 },
    { x: -width / 2, y: 0 },
    { x: 0, y: -height / 2 },
  ] as const;
  const all = corners.flatMap(([sx, sy], k) => [
    middles[k]!,
    ...Array.from({ length: corner === 0 ? 1 : perCorner + 1 }, (_, i) => {
      const turn = k * 90 * DEGREE + (corner === 0 ? 0 : (i / perCorner) * 90 * DEGREE);
      return { x: sx * x + corner * Math.cos(turn), y: sy * y + corner * Math.sin(turn) };
    }),
  ]);
  return all.filter((p, i) => {
    const next = all[(i + 1) % all.length]!;
    return Math.hypot(next.x - p.x, next.y - p.y) > 1e-9;
  });
};

/** A regular polygon by its side, beginning in the middle of the side on +x. */
export const polygonPoints = (sides: number, side: number): Vec2[] => {
  const radius = side / (2 * Math.sin(Math.PI / sides));
  return [
    { x: radius * Math.cos(Math.PI / sides), y: 0 },
    ...Array.from({ length: sides }, (_, i) => ({
      x: radius * Math.cos(((2 * i + 1) * Math.PI) / sides),
      y: radius * Math.sin(((2 * i + 1) * Math.PI) / sides),
    })),
  ];
};

/** Points in space: turned in their own plane, tipped down toward +x, moved. */
export const placePoints = (
  points: readonly Vec2[],
  at: Vec3 = point(0, 0, 0),
  tilt = 0,
  turn = 0,
): Vec3[] => {
  const [ct, st] = [Math.cos(tilt * DEGREE), Math.sin(tilt * DEGREE)];
  const [c, s] = [Math.cos(turn * DEGREE), Math.sin(turn * DEGREE)];
  return points.map(({ x, y }) => {
    const [u, v] = [c * x - s * y, s * x + c * y];
    return plus(at, plus(times(point(ct, 0, -st), u), times(point(0, 1, 0), v)));
  });
};
