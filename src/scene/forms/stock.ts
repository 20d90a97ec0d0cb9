import { add3, cross3, scale3, unit3, vec3, type Vec3 } from '../../geometry/vector.ts';
import { makeForm, numberAt, type Form, type FormMaker, type Row } from '../form.ts';
import { poseDirection, posePoint, type StockEnd, type StockShape } from '../shape.ts';
import { spreadAlong } from '../spread.ts';

/** Girth positions so far, as a part of the girth, on either side of a corner of the outline tell its two directions. */
const BESIDE = 1e-7;
/** Slopes of a cut that differ by more than this, radians, are a corner of it. */
const CORNER = 0.3;

const heightOf = (end: StockEnd, s: number): number => (typeof end === 'number' ? end : end(s));

/** An opening by the columns it spans. */
interface Hole {
  /** Numbers of the columns from one end of the opening to the other; the first and last are its two ends. */
  readonly span: readonly number[];
  readonly lower: (s: number) => number;
  readonly upper: (s: number) => number;
}

/** The columns of a stock: positions along the girth where straight lines along it are laid, and the normals there. */
interface Columns {
  readonly s: readonly number[];
  /** Outward unit normals before and after each column; one and the same where the outline is smooth. */
  readonly normals: readonly (readonly [Vec3, Vec3])[];
  readonly holes: readonly Hole[];
}

const placeColumns = (
  { outline, pose, start, end, openings = [] }: StockShape,
  deviation: number,
): Columns => {
  const { girth, wall } = outline;
  const wrapped = (s: number): number => ((s % girth) + girth) % girth;
  const given = [
    0,
    ...outline.joints.map(wrapped),
    ...openings.flatMap(({ from, to }) => [wrapped(from), wrapped(to)]),
    ...Array.from({ length: 8 }, (_, i) => ((i + 1) * girth) / 8),
  ].sort((a, b) => a - b);
  const places = given.filter((s, i) => i === 0 || s - (given[i - 1] as number) > 1e-9 * girth);
  /** The position within an opening's own range, undefined outside it. */
  const within = (from: number, to: number, s: number): number | undefined => {
    const inside = from + wrapped(s - from);
    return inside <= to ? inside : undefined;
  };
  const s = spreadAlong(
    (t) => {
      const { x, y } = outline.at(t, 0);
      const heights = openings.flatMap(({ from, to, lower, upper }) => {
        const inside = within(from, to, t);
        return inside === undefined ? [0, 0] : [lower(inside), upper(inside)];
      });
      return [heightOf(start, t), heightOf(end, t), ...heights].map((z) => vec3(x, y, z));
    },
    places,
    deviation,
  ).slice(0, -1);
  const outward = (t: number): Vec3 => {
    const [p, q] = [outline.at(t, 0), outline.at(t, wall)];
    return poseDirection(pose, unit3(vec3(p.x - q.x, p.y - q.y, 0)));
  };
  const joints = outline.joints.map(wrapped);
  const holes = openings.map(({ from, to, lower, upper }): Hole => {
    const first = nearest(s, wrapped(from), girth);
    const last = nearest(s, wrapped(to), girth);
    const count = ((last - first + s.length) % s.length) + 1;
    const middle = (from + to) / 2;
    const inside = (t: number): number => Math.max(from, Math.min(to, middle + shortWay(t - middle, girth)));
    return {
      span: Array.from({ length: count }, (_, i) => (first + i) % s.length),
      lower: (t) => lower(inside(t)),
      upper: (t) => upper(inside(t)),
    };
  });
  return {
    s,
    normals: s.map((t) => {
      if (!joints.some((joint) => Math.abs(joint - t) < 1e-9 * girth)) {
        const n = outward(t);
        return [n, n];
      }
      return [outward(t - BESIDE * girth), outward(t + BESIDE * girth)];
    }),
    holes,
  };
};

const shortWay = (by: number, girth: number): number => by - girth * Math.round(by / girth);

const nearest = (list: readonly number[], s: number, girth: number): number =>
  list.reduce(
    (best, t, i) =>
      Math.abs(shortWay(t - s, girth)) < Math.abs(shortWay(numberAt(list, best) - s, girth)) ? i : best,
    0,
  );

/** A line across the stock at some of its columns: its points on the outside and on the bore, and how it climbs there. */
interface Level {
  readonly columns: readonly number[];
  readonly outer: readonly number[];
  readonly inner: readonly number[];
  /** Height per mm of girth before and after each column. */
  readonly slopes: readonly (readonly [number, number])[];
}

/** An opening's edge, shared out to its lower and its upper side. */
interface Rim {
  readonly hole: Hole;
  readonly lower: Level;
  readonly upper: Level;
}

/** The lines across a stock that its faces are laid between: at both ends, and along the edges of its openings. */
const placeLevels = (
  maker: FormMaker,
  { outline, pose, start, end }: StockShape,
  columns: Columns,
): { readonly low: Level; readonly high: Level; readonly rims: readonly Rim[] } => {
  const all = columns.s.map((_, i) => i);

  const level = (
    which: readonly number[],
    heights: readonly number[],
    ends?: readonly [number, number],
  ): Level => {
    const points = (depth: number): readonly number[] =>
      which.map((column, i) => {
        const { x, y } = outline.at(numberAt(columns.s, column), depth);
        return maker.point(posePoint(pose, vec3(x, y, numberAt(heights, i))));
      });
    const [outer, inner] = [points(0), points(outline.wall)];
    return {
      columns: which,
      outer,
      inner,
      slopes: slopesOf(which, heights, columns.s, outline.girth, !ends),
    };
  };
  const ring = (e: StockEnd): Level =>
    level(
      all,
      columns.s.map((s) => heightOf(e, s)),
    );
  const rims = columns.holes.map((hole): Rim => {
    const at = (side: (s: number) => number): readonly number[] =>
      hole.span.map((column) => side(numberAt(columns.s, column)));
    const [below, above] = [at(hole.lower), at(hole.upper)];
    // The two ends are points of both edges.
    const ends = [0, below.length - 1].map((i) => (numberAt(below, i) + numberAt(above, i)) / 2);
    const shut = (list: readonly number[]): readonly number[] => [
      ...ends.slice(0, 1),
      ...list.slice(1, -1),
      ...ends.slice(1),
    ];
    const lower = level(hole.span, shut(below), [0, 0]);
    const open = level(hole.span, shut(above), [0, 0]);
    const share = (list: readonly number[], other: readonly number[]): readonly number[] =>
      list.map((p, i) => (i === 0 || i === list.length - 1 ? numberAt(other, i) : p));
    return {
      hole,
      lower,
      upper: { ...open, outer: share(open.outer, lower.outer), inner: share(open.inner, lower.inner) },
    };
  });
  return { low: ring(start), high: ring(end), rims };
};

/**
 * A stock with a wall. Outside and bore share their columns, so that every cut face is made of straight lines through the wall,
 * as it is cut.
 */
export const stockForm = (shape: StockShape, deviation: number): Form => {
  const { pose, start, end } = shape;
  const columns = placeColumns(shape, deviation);
  const maker = makeForm();
  const { low, high, rims } = placeLevels(maker, shape, columns);
  const sideNormals = (sign: 1 | -1): readonly (readonly [number, number])[] =>
    columns.normals.map(([before, after]) => {
      const n = maker.normal(scale3(before, sign));
      return [n, before === after ? n : maker.normal(scale3(after, sign))];
    });
  const [outside, inside] = [sideNormals(1), sideNormals(-1)];
  const skinRow = (at: Level, which: 'outer' | 'inner'): Row => {
    const list = which === 'outer' ? outside : inside;
    const pick = (k: 0 | 1) => at.columns.map((c) => (list[c] as readonly [number, number])[k]);
    return { points: at[which], before: pick(0), after: pick(1) };
  };
  /** The face of a cut: along the axis, leaning against the cut's slope. */
  const cutRow = (at: Level, which: 'outer' | 'inner', sign: 1 | -1): Row => {
    const side = (k: 0 | 1): readonly number[] =>
      at.columns.map((column, i) => {
        const n = (columns.normals[column] as readonly [Vec3, Vec3])[k];
        const climb = (at.slopes[i] as readonly [number, number])[k];
        const leaning = add3(pose.z, scale3(cross3(pose.z, n), -climb));
        return maker.normal(scale3(unit3(leaning), sign));
      });
    return { points: at[which], before: side(0), after: side(1) };
  };
  const cutFace = (at: Level, sign: 1 | -1, closed: boolean, kind: 'edge' | 'cut'): void => {
    const [outer, inner] = [cutRow(at, 'outer', sign), cutRow(at, 'inner', sign)];
    const [skin, bore] = [skinRow(at, 'outer'), skinRow(at, 'inner')];
    if (sign > 0) {
      maker.strip(outer, inner, closed);
      maker.edgeBetween(skin, outer, kind, closed);
      maker.edgeBetween(inner, bore, 'inner', closed);
    } else {
      maker.strip(inner, outer, closed);
      maker.edgeBetween(outer, skin, kind, closed);
      maker.edgeBetween(bore, inner, 'inner', closed);
    }
  };
  cutFace(high, 1, true, typeof end === 'number' ? 'edge' : 'cut');
  cutFace(low, -1, true, typeof start === 'number' ? 'edge' : 'cut');
  for (const { lower, upper } of rims) {
    cutFace(lower, 1, false, 'cut');
    cutFace(upper, -1, false, 'cut');
  }
  for (const which of ['outer', 'inner'] as const)
    laySkin(maker, { low, high, rims, which, normals: which === 'outer' ? outside : inside });
  return maker.done();
};

const slopesOf = (
  which: readonly number[],
  heights: readonly number[],
  s: readonly number[],
  girth: number,
  closed: boolean,
): Level['slopes'] => {
  const last = which.length - 1;
  const slope = (i: number, j: number): number => {
    const span = numberAt(s, numberAt(which, j)) - numberAt(s, numberAt(which, i));
    return (numberAt(heights, j) - numberAt(heights, i)) / (span > 0 ? span : span + girth);
  };
  return which.map((_, i): readonly [number, number] => {
    const ahead = i < last ? slope(i, i + 1) : closed ? slope(last, 0) : slope(last - 1, last);
    const behind = i > 0 ? slope(i - 1, i) : closed ? slope(last, 0) : ahead;
    const middle = (ahead + behind) / 2;
    return Math.abs(Math.atan(ahead) - Math.atan(behind)) < CORNER ? [middle, middle] : [behind, ahead];
  });
};

interface Skin {
  readonly low: Level;
  readonly high: Level;
  readonly rims: readonly { readonly hole: Hole; readonly lower: Level; readonly upper: Level }[];
  readonly which: 'outer' | 'inner';
  readonly normals: readonly (readonly [number, number])[];
}

/** Outside or bore, column by column, around the openings; and the edges along its corners. */
const laySkin = (maker: FormMaker, { low, high, rims, which, normals }: Skin): void => {
  const count = low.columns.length;
  /** Points of a column from the lower end to the upper, by what lies on its right (`after`) or on its left. */
  const chains = (column: number, side: 0 | 1): readonly (readonly number[])[] => {
    const [foot, top] = [numberAt(low[which], column), numberAt(high[which], column)];
    for (const { hole, lower, upper } of rims) {
      const i = hole.span.indexOf(column);
      if (i < 0) continue;
      const [below, above] = [numberAt(lower[which], i), numberAt(upper[which], i)];
      const cut = side === 1 ? i < hole.span.length - 1 : i > 0;
      // Past an opening's end the column is whole, but its point is still a point of it.
      return cut
        ? [
            [foot, below],
            [above, top],
          ]
        : [[foot, below, top]];
    }
    return [[foot, top]];
  };
  for (let j = 0; j < count; j++) {
    const k = (j + 1) % count;
    const [right, left] = [chains(j, 1), chains(k, 0)];
    const [na, nb] = [
      (normals[j] as readonly [number, number])[1],
      (normals[k] as readonly [number, number])[0],
    ];
    right.forEach((chain, i) => ladder(maker, chain, na, left[i] ?? [], nb, which === 'inner'));
    const [before, after] = normals[j] as readonly [number, number];
    if (before !== after && which === 'outer')
      maker.edge({
        points: [numberAt(low.outer, j), numberAt(high.outer, j)],
        left: [before, before],
        right: [after, after],
        kind: 'edge',
      });
  }
};

/** Triangles between two lines of points that run side by side; `flipped` where they are seen from the other side. */
const ladder = (
  maker: FormMaker,
  a: readonly number[],
  na: number,
  b: readonly number[],
  nb: number,
  flipped: boolean,
): void => {
  let [i, j] = [0, 0];
  while (i < a.length - 1 || j < b.length - 1) {
    const onB = j < b.length - 1 && (i === a.length - 1 || j <= i);
    const [p, q] = [numberAt(a, i), numberAt(b, j)];
    const next = onB ? numberAt(b, j + 1) : numberAt(a, i + 1);
    maker.triangle(...(flipped ? ([q, nb, p, na] as const) : ([p, na, q, nb] as const)), next, onB ? nb : na);
    if (onB) j += 1;
    else i += 1;
  }
};
