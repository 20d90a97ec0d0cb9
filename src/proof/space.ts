/** A point or direction in the plane. The checking side keeps its own vectors: it shares no geometry with the product. */
export interface Vec2 {
  readonly x: number;
  readonly y: number;
}

/** A point or direction in space, mm. */
export interface Vec3 {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

export const point = (x: number, y: number, z: number): Vec3 => ({ x, y, z });
export const plus = (a: Vec3, b: Vec3): Vec3 => ({ x: a.x + b.x, y: a.y + b.y, z: a.z + b.z });
export const minus = (a: Vec3, b: Vec3): Vec3 => ({ x: a.x - b.x, y: a.y - b.y, z: a.z - b.z });
export const times = (a: Vec3, k: number): Vec3 => ({ x: a.x * k, y: a.y * k, z: a.z * k });
export const inner = (a: Vec3, b: Vec3): number => a.x * b.x + a.y * b.y + a.z * b.z;
export const outer = (a: Vec3, b: Vec3): Vec3 => ({
  x: a.y * b.z - a.z * b.y,
  y: a.z * b.x - a.x * b.z,
  z: a.x * b.y - a.y * b.x,
});
export const norm = (a: Vec3): number => Math.hypot(a.x, a.y, a.z);

/** The unit direction of a. Throws on a zero or non-finite vector, which has none. */
export const direction = (a: Vec3): Vec3 => {
  const length = norm(a);
  if (!(length > 0 && length < Infinity)) throw new Error(`no direction in (${a.x}, ${a.y}, ${a.z})`);
  return times(a, 1 / length);
};

/** Three square unit directions, right-handed: z is the axis given, x is `near` made square to it. */
export interface Axes {
  readonly origin: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}

/** Axes at `origin` with z along `axis` and x along the part of `near` square to it (any square direction by default). */
export const axesAt = (origin: Vec3, axis: Vec3, near?: Vec3): Axes => {
  const z = direction(axis);
  const hint = near ?? (Math.abs(z.x) < 0.6 ? point(1, 0, 0) : point(0, 1, 0));
  const x = direction(minus(hint, times(z, inner(hint, z))));
  return { origin, x, y: outer(z, x), z };
};

/** `p` read in the axes' own coordinates. */
export const localTo = (axes: Axes, p: Vec3): Vec3 => {
  const d = minus(p, axes.origin);
  return point(inner(d, axes.x), inner(d, axes.y), inner(d, axes.z));
};

/** The space point whose coordinates in the axes are `p`. */
export const placeIn = (axes: Axes, p: Vec3): Vec3 =>
  plus(axes.origin, plus(times(axes.x, p.x), plus(times(axes.y, p.y), times(axes.z, p.z))));
