import { modulo } from '../../geometry/angle-units.ts';
import { itemAt, numberAt } from '../../lists.ts';
import { add3, cross3, scale3, unit3, vec3, type Vec3 } from '../../geometry/vector.ts';
import { makeForm, type Form, type Row } from '../form.ts';
import { spreadAlong } from '../sampling.ts';
import { poseDirection, posePoint, type StockEnd, type StockShape } from '../shape.ts';

/** Girth positions so far, as a part of the girth, on either side of a corner of the outline tell its two directions. */
const BESIDE = 1e-7;
/** Slopes of a cut that differ by more than this, radians, are a corner of it. */
const CORNER = 0.3;

const heightOf = (end: StockEnd, s: number): number => (typeof end === 'number' ? end : end(s));

/** The columns of a stock: positions along the girth where straight lines along it are laid, and the normals there. */
interface Columns {
  readonly s: readonly number[];
  /** Outward unit normals before and after each column; one and the same where the outline is smooth. */
  readonly normals: readonly (readonly [Vec3, Vec3])[];
}

const placeColumns = ({ outline, pose, start, end }: StockShape, deviation: number): Columns => {
  const { girth, wall } = outline;
  const joints = outline.joints.map((s) => modulo(s, girth));
  const given = [0, ...joints, ...Array.from({ length: 8 }, (_, i) => ((i + 1) * girth) / 8)].sort(
    (a, b) => a - b,
  );
  const places = given.filter((s, i) => i === 0 || s - itemAt(given, i - 1) > 1e-9 * girth);
  const s = spreadAlong(
    (t) => {
      const { x, y } = outline.at(t, 0);
      return [heightOf(start, t), heightOf(end, t)].map((z) => vec3(x, y, z));
    },
    places,
    deviation,
  ).slice(0, -1);
  const outward = (t: number): Vec3 => {
    const [p, q] = [outline.at(t, 0), outline.at(t, wall)];
    return poseDirection(pose, unit3(vec3(p.x - q.x, p.y - q.y, 0)));
  };
  return {
    s,
    normals: s.map((t) => {
      if (joints.some((joint) => Math.abs(joint - t) < 1e-9 * girth))
        return [outward(t - BESIDE * girth), outward(t + BESIDE * girth)];
      const n = outward(t);
      return [n, n];
    }),
  };
};

/** An end of the stock: its points on the outside and on the bore, and how it climbs there. */
interface Level {
  readonly outer: readonly number[];
  readonly inner: readonly number[];
  /** Height per mm of girth before and after each column. */
  readonly slopes: readonly (readonly [number, number])[];
}

/**
 * A stock with a wall. Outside and bore share their columns, so that every cut face is made of straight lines through the wall,
 * as it is cut.
 */
export const stockForm = (shape: StockShape, deviation: number): Form => {
  const { outline, pose, start, end } = shape;
  const columns = placeColumns(shape, deviation);
  const maker = makeForm();
  const levelAt = (e: StockEnd): Level => {
    const heights = columns.s.map((s) => heightOf(e, s));
    const points = (depth: number): readonly number[] =>
      columns.s.map((s, i) => {
        const { x, y } = outline.at(s, depth);
        return maker.point(posePoint(pose, vec3(x, y, numberAt(heights, i))));
      });
    return {
      outer: points(0),
      inner: points(outline.wall),
      slopes: slopesOf(heights, columns.s, outline.girth),
    };
  };
  const [low, high] = [levelAt(start), levelAt(end)];
  const skin = (which: 'outer' | 'inner'): readonly [Row, Row] => {
    const sign = which === 'outer' ? 1 : -1;
    const sides = columns.normals.map(([before, after]): readonly [number, number] => {
      const n = maker.normal(scale3(before, sign));
      return [n, before === after ? n : maker.normal(scale3(after, sign))];
    });
    const [before, after] = [sides.map(([n]) => n), sides.map(([, n]) => n)];
    return [
      { points: low[which], before, after },
      { points: high[which], before, after },
    ];
  };
  const [outside, bore] = [skin('outer'), skin('inner')];
  maker.strip(outside[0], outside[1], true);
  maker.strip(bore[1], bore[0], true);
  layCorners(maker.edge, outside);

  /** The face of a cut: along the axis, leaning against the cut's slope. */
  const cutRow = (at: Level, which: 'outer' | 'inner', sign: 1 | -1): Row => {
    const side = (k: 0 | 1): readonly number[] =>
      at.slopes.map((slopes, i) => {
        const n = itemAt(columns.normals, i)[k];
        return maker.normal(scale3(unit3(add3(pose.z, scale3(cross3(pose.z, n), -slopes[k]))), sign));
      });
    return { points: at[which], before: side(0), after: side(1) };
  };
  const cutFace = (at: Level, k: 0 | 1, kind: 'edge' | 'cut'): void => {
    const sign = k === 1 ? 1 : -1;
    const [outer, inner] = [cutRow(at, 'outer', sign), cutRow(at, 'inner', sign)];
    if (sign > 0) {
      maker.strip(outer, inner, true);
      maker.edgeBetween(outside[k], outer, kind, true);
      maker.edgeBetween(inner, bore[k], 'inner', true);
    } else {
      maker.strip(inner, outer, true);
      maker.edgeBetween(outer, outside[k], kind, true);
      maker.edgeBetween(bore[k], inner, 'inner', true);
    }
  };
  cutFace(high, 1, typeof end === 'number' ? 'edge' : 'cut');
  cutFace(low, 0, typeof start === 'number' ? 'edge' : 'cut');
  return maker.done();
};

/** The sharp corners of the outside along the stock. */
const layCorners = (edge: ReturnType<typeof makeForm>['edge'], [low, high]: readonly [Row, Row]): void =>
  low.points.forEach((foot, j) => {
    const [before, after] = [numberAt(low.before, j), numberAt(low.after, j)];
    if (before !== after)
      edge({
        points: [foot, numberAt(high.points, j)],
        left: [before, before],
        right: [after, after],
        kind: 'edge',
      });
  });

const slopesOf = (heights: readonly number[], s: readonly number[], girth: number): Level['slopes'] => {
  const count = s.length;
  const climbs = s.map((from, i) => {
    const next = (i + 1) % count;
    const span = numberAt(s, next) - from;
    return (numberAt(heights, next) - numberAt(heights, i)) / (span > 0 ? span : span + girth);
  });
  return climbs.map((ahead, i): readonly [number, number] => {
    const behind = numberAt(climbs, (i + count - 1) % count);
    const middle = (ahead + behind) / 2;
    return Math.abs(Math.atan(ahead) - Math.atan(behind)) < CORNER ? [middle, middle] : [behind, ahead];
  });
};
