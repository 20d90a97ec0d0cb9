import { add3, cross3, dot3, scale3, sub3, type Vec3 } from './vector.ts';

/** A stretch of a body's surface as a grid: `count` steps of u and v over their ranges. */
export interface Patch {
  readonly at: (u: number, v: number) => Vec3;
  readonly u: readonly [from: number, to: number, count: number];
  readonly v: readonly [from: number, to: number, count: number];
}

/** Faces within this of edge-on count as turned to the eye, so that a flat seen edge-on leaves one line, not a scatter. */
const EDGE_ON = 1e-7;

/**
 * The lines along which a patch turns away from the eye: where its normal is square to `toward`. Good to the square of
 * the grid's step, for pictures only.
 */
export const contourPatch = ({ at, u, v }: Patch, toward: Vec3): readonly (readonly Vec3[])[] => {
  const [us, vs] = [spread(u), spread(v)];
  const [hu, hv] = [(u[1] - u[0]) * 1e-5, (v[1] - v[0]) * 1e-5];
  const facing = us.map((a) =>
    vs.map((b) => {
      const [a0, a1] = [Math.max(u[0], a - hu), Math.min(u[1], a + hu)];
      const [b0, b1] = [Math.max(v[0], b - hv), Math.min(v[1], b + hv)];
      const normal = cross3(sub3(at(a1, b), at(a0, b)), sub3(at(a, b1), at(a, b0)));
      const size = Math.sqrt(dot3(normal, normal));
      return size > 0 ? dot3(normal, toward) / size + EDGE_ON : EDGE_ON;
    }),
  );
  const value = (i: number, j: number): number => (facing[i] as number[])[j] as number;
  const cross = (i: number, j: number, k: number, l: number): Vec3 => {
    const t = value(i, j) / (value(i, j) - value(k, l));
    const [ua, ub] = [us[i] as number, us[k] as number];
    const [va, vb] = [vs[j] as number, vs[l] as number];
    return at(ua + t * (ub - ua), va + t * (vb - va));
  };
  // One short line across each cell whose corners differ, between named cell edges so that they can be strung together.
  const pieces: { readonly ends: readonly [string, string]; readonly points: readonly [Vec3, Vec3] }[] = [];
  for (let i = 0; i + 1 < us.length; i++)
    for (let j = 0; j + 1 < vs.length; j++) {
      const corners = [
        [i, j],
        [i + 1, j],
        [i + 1, j + 1],
        [i, j + 1],
      ] as const;
      const found = corners.flatMap(([a, b], k) => {
        const [c, d] = corners[(k + 1) % 4] as readonly [number, number];
        if (value(a, b) > 0 === value(c, d) > 0) return [];
        const name = [`${a},${b}`, `${c},${d}`].sort().join(':');
        return [{ name, point: cross(a, b, c, d) }];
      });
      for (let k = 0; k + 1 < found.length; k += 2) {
        const [p, q] = [found[k], found[k + 1]];
        if (p && q) pieces.push({ ends: [p.name, q.name], points: [p.point, q.point] });
      }
    }
  return string(pieces);
};

const spread = ([from, to, count]: readonly [number, number, number]): readonly number[] =>
  Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);

/** Strings short lines that share a named end into long ones. */
const string = (
  pieces: readonly { readonly ends: readonly [string, string]; readonly points: readonly [Vec3, Vec3] }[],
): readonly (readonly Vec3[])[] => {
  const at = new Map<string, number[]>();
  pieces.forEach(({ ends }, i) => ends.forEach((end) => at.set(end, [...(at.get(end) ?? []), i])));
  const used = new Set<number>();
  const follow = (end: string, points: Vec3[]): void => {
    for (let name = end; ;) {
      const next = (at.get(name) ?? []).find((i) => !used.has(i));
      const piece = next === undefined ? undefined : pieces[next];
      if (next === undefined || !piece) return;
      used.add(next);
      const forward = piece.ends[0] === name;
      points.push(piece.points[forward ? 1 : 0]);
      name = piece.ends[forward ? 1 : 0];
    }
  };
  return pieces.flatMap((piece, i) => {
    if (used.has(i)) return [];
    used.add(i);
    const ahead: Vec3[] = [piece.points[1]];
    follow(piece.ends[1], ahead);
    const back: Vec3[] = [piece.points[0]];
    follow(piece.ends[0], back);
    return [[...back.reverse(), ...ahead]];
  });
};

/** The outside of a bar: a closed section carried along `axis`. `section` runs once round over [0, 1]. */
export const barPatch = (
  origin: Vec3,
  axis: Vec3,
  section: (u: number) => Vec3,
  from: number,
  to: number,
  count = 48,
): Patch => ({
  at: (u, v) => add3(add3(origin, scale3(axis, v)), section(u)),
  u: [0, 1, count],
  v: [from, to, 1],
});

/** Where a closed section starts, so that its seam never falls on a line that is seen from the front or the side. */
const SEAM = 0.37;

/** A circle of `radius` round `axis`, from near `x` on, over [0, 1]. */
export const ringSection = (axis: Vec3, x: Vec3, radius: number) => {
  const y = cross3(axis, x);
  return (u: number): Vec3 => {
    const a = 2 * Math.PI * u + SEAM;
    return add3(scale3(x, radius * Math.cos(a)), scale3(y, radius * Math.sin(a)));
  };
};

/** Any unit direction square to a unit direction. */
export const squareTo = (axis: Vec3): Vec3 => {
  const near = Math.abs(axis.x) < 0.6 ? { x: 1, y: 0, z: 0 } : { x: 0, y: 1, z: 0 };
  const side = cross3(axis, near);
  return scale3(side, 1 / Math.sqrt(dot3(side, side)));
};

/** A surface turned round an axis: `profile` gives height along it and radius over [0, 1]. */
export const revolvedPatch = (
  origin: Vec3,
  axis: Vec3,
  profile: (v: number) => { readonly height: number; readonly radius: number },
  count = 24,
): Patch => {
  const x = squareTo(axis);
  const y = cross3(axis, x);
  return {
    at: (u, v) => {
      const { height, radius } = profile(v);
      const a = 2 * Math.PI * u + SEAM;
      return add3(
        add3(origin, scale3(axis, height)),
        add3(scale3(x, radius * Math.cos(a)), scale3(y, radius * Math.sin(a))),
      );
    },
    u: [0, 1, 60],
    v: [0, 1, count],
  };
};
