import { samplePath, sheetStrokes, type PdfFile } from './pdf-reader.ts';
import { wrapAngle, type Wrap } from './rolling.ts';
import { direction, inner, minus, norm, outer, plus, point, times, type Vec2, type Vec3 } from './space.ts';

/** A plane cut round a pipe as read from a sheet: y = mid + cos · cos φ + sin · sin φ, and the worst point's miss, mm. */
export interface PlaneCut {
  readonly mid: number;
  readonly cos: number;
  readonly sin: number;
  readonly miss: number;
}

/** Solves three linear equations by Cramer's rule. */
const solve3 = (
  m: readonly (readonly [number, number, number])[],
  v: readonly number[],
): readonly number[] => {
  const det = (a: readonly (readonly number[])[]): number => {
    const [[p, q, r], [s, t, u], [w, x, y]] = a as [
      [number, number, number],
      [number, number, number],
      [number, number, number],
    ];
    return p * (t * y - u * x) - q * (s * y - u * w) + r * (s * x - t * w);
  };
  const whole = det(m);
  return [0, 1, 2].map((k) => det(m.map((row, i) => row.map((cell, j) => (j === k ? v[i]! : cell)))) / whole);
};

/** Least-squares plane cut through sheet points. */
export function fitPlaneCut(points: readonly Vec2[], wrap: Wrap): PlaneCut {
  const rows = points.map((p) => {
    const angle = wrapAngle(p.x, wrap);
    return { terms: [1, Math.cos(angle), Math.sin(angle)] as const, y: p.y };
  });
  const normal = [0, 1, 2].map(
    (i) =>
      [0, 1, 2].map((j) => rows.reduce((s, { terms }) => s + terms[i]! * terms[j]!, 0)) as [
        number,
        number,
        number,
      ],
  );
  const right = [0, 1, 2].map((i) => rows.reduce((s, { terms, y }) => s + terms[i]! * y, 0));
  const [mid, cos, sin] = solve3(normal, right) as [number, number, number];
  const miss = rows.reduce(
    (most, { terms, y }) => Math.max(most, Math.abs(mid + cos * terms[1] + sin * terms[2] - y)),
    0,
  );
  return { mid, cos, sin, miss };
}

/** The plane cuts of a sheet's cut layer, lowest first; each line must be drawn in one stroke, so print on a large page. */
export const readPlaneCuts = (file: PdfFile, sheet: string, wrap: Wrap): readonly PlaneCut[] =>
  sheetStrokes(file, sheet, 'cut')
    .map((stroke) => fitPlaneCut(samplePath(stroke.path, 1), wrap))
    .sort((a, b) => a.mid - b.mid);

/** The point of a plane cut at station φ on radius r, in the stock frame. */
export const cutAt = ({ mid, cos, sin }: PlaneCut, r: number, angle: number): Vec3 =>
  point(r * Math.cos(angle), r * Math.sin(angle), mid + cos * Math.cos(angle) + sin * Math.sin(angle));

/** A rigid motion of space. */
export interface Motion {
  readonly turn: (v: Vec3) => Vec3;
  readonly move: (p: Vec3) => Vec3;
}

export const stay: Motion = { turn: (v) => v, move: (p) => p };

const basis = (cut: PlaneCut, r: number): readonly [Vec3, Vec3, Vec3] => {
  const centre = point(0, 0, cut.mid);
  const x = direction(minus(cutAt(cut, r, 0), centre));
  const z = direction(outer(x, minus(cutAt(cut, r, Math.PI / 2), centre)));
  return [x, outer(z, x), z];
};

/**
 * The motion that sets a piece's lower cut on the cut it must meet: axis on axis, plane on plane, station 0 to station 0.
 * `on` is that cut in its own piece's frame, `placed` where that piece lies.
 */
export function setOn(on: PlaneCut, placed: Motion, lower: PlaneCut, r: number): Motion {
  const [to, from] = [basis(on, r), basis(lower, r)];
  const turn = (v: Vec3): Vec3 =>
    placed.turn(from.reduce((sum, axis, i) => plus(sum, times(to[i]!, inner(v, axis))), point(0, 0, 0)));
  const target = placed.move(point(0, 0, on.mid));
  return { turn, move: (p) => plus(target, turn(minus(p, point(0, 0, lower.mid)))) };
}

/** How far apart two cuts lie at the worst of many stations once the pieces are placed, mm. */
export const seam = (a: PlaneCut, placedA: Motion, b: PlaneCut, placedB: Motion, r: number): number =>
  Math.max(
    ...Array.from({ length: 72 }, (_, i) => {
      const angle = (i * Math.PI) / 36;
      return norm(minus(placedA.move(cutAt(a, r, angle)), placedB.move(cutAt(b, r, angle))));
    }),
  );
