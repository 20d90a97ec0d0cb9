import { covarianceOf, leastSquares, type Row } from './least-squares.ts';
import { itemAround } from '../lists.ts';
import { add2, distance2, scale2, sub2, type Vec2 } from './vector.ts';

/** A circle and how far each point lies outside it. Lengths in any one unit. */
export interface CircleFit {
  readonly center: Vec2;
  readonly radius: number;
  /** Distance of each point from the center less the radius: positive outside. */
  readonly residuals: readonly number[];
  /** Sum of the squares of the residuals. */
  readonly squares: number;
}

const meanOf = (points: readonly Vec2[]): Vec2 => scale2(points.reduce(add2), 1 / points.length);

const fitOf = (points: readonly Vec2[], center: Vec2, radius: number): CircleFit => {
  const residuals = points.map((p) => distance2(p, center) - radius);
  return { center, radius, residuals, squares: residuals.reduce((sum, value) => sum + value * value, 0) };
};

/**
 * The algebraic circle through three or more points: least Σ(x² + y² − 2ax − 2by − c)² (Kåsa, IEEE Trans. Instrum. Meas.
 * 25 (1976) 8-14). On a short arc it comes out too small; it is a start for `fitCircle`. Undefined where the points
 * lie on one line.
 */
export const algebraicCircle = (points: readonly Vec2[]): CircleFit | undefined => {
  const mean = meanOf(points);
  let [uu, uv, vv, uq, vq, qq] = [0, 0, 0, 0, 0, 0];
  for (const p of points) {
    const { x, y } = sub2(p, mean);
    const q = x * x + y * y;
    uu += x * x;
    uv += x * y;
    vv += y * y;
    uq += x * q;
    vq += y * q;
    qq += q;
  }
  const determinant = uu * vv - uv * uv;
  if (!(determinant > 1e-18 * (uu + vv) ** 2)) return undefined;
  const shift = {
    x: (uq * vv - vq * uv) / (2 * determinant),
    y: (vq * uu - uq * uv) / (2 * determinant),
  };
  const radius = Math.sqrt(qq / points.length + shift.x * shift.x + shift.y * shift.y);
  return fitOf(points, add2(mean, shift), radius);
};

/**
 * The circle with the least sum of squared distances to three or more points, from a start, the algebraic one where none is
 * given (Gander, Golub, Strebel, BIT 34 (1994) 558-578). Undefined where the points lie on one line.
 */
export const fitCircle = (
  points: readonly Vec2[],
  start: Pick<CircleFit, 'center' | 'radius'> | undefined = algebraicCircle(points),
): CircleFit | undefined => {
  if (!start) return undefined;
  const { at } = leastSquares(
    {
      unknowns: 3,
      rows: ({ center, radius }) =>
        points.map((p): Row => {
          const away = sub2(p, center);
          const d = Math.hypot(away.x, away.y);
          return { residual: d - radius, slope: d > 0 ? [-away.x / d, -away.y / d, -1] : [0, 0, -1] };
        }),
      step: ({ center, radius }, [dx = 0, dy = 0, dr = 0]) => ({
        center: { x: center.x + dx, y: center.y + dy },
        radius: radius + dr,
      }),
    },
    { center: start.center, radius: start.radius },
  );
  return fitOf(points, at.center, at.radius);
};

/** The part of a full turn, seen from `center`, that the points span: the whole turn less the widest gap between neighbors. */
export const arcSpanned = (points: readonly Vec2[], center: Vec2): number => {
  const angles = points.map((p) => Math.atan2(p.y - center.y, p.x - center.x)).sort((a, b) => a - b);
  const gaps = angles.map((angle, i) => {
    const next = itemAround(angles, i + 1);
    return i + 1 < angles.length ? next - angle : next - angle + 2 * Math.PI;
  });
  return 2 * Math.PI - Math.max(...gaps);
};

/**
 * What an error of one unit (standard deviation) in every point, square to the edge, does to the radius and to the center
 * (the worst direction). Undefined where the points do not fix the circle.
 */
export const circleErrors = (
  points: readonly Vec2[],
  { center }: CircleFit,
): { readonly radius: number; readonly center: number } | undefined => {
  const rows = points.map((p) => {
    const d = distance2(p, center);
    return { residual: 0, slope: [-(p.x - center.x) / d, -(p.y - center.y) / d, -1] };
  });
  const found = covarianceOf(rows, 3);
  if (!found) return undefined;
  const [[xx = 0, xy = 0] = [], [, yy = 0] = [], [, , rr = 0] = []] = found;
  const worst = (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy);
  return { radius: Math.sqrt(rr), center: Math.sqrt(worst) };
};
