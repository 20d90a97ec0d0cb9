/** A point or direction in the plane, mm. */
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

export const vec2 = (x: number, y: number): Vec2 => ({ x, y });
export const vec3 = (x: number, y: number, z: number): Vec3 => ({ x, y, z });

export const add2 = (a: Vec2, b: Vec2): Vec2 => ({ x: a.x + b.x, y: a.y + b.y });
export const sub2 = (a: Vec2, b: Vec2): Vec2 => ({ x: a.x - b.x, y: a.y - b.y });
export const scale2 = (a: Vec2, k: number): Vec2 => ({ x: a.x * k, y: a.y * k });
export const dot2 = (a: Vec2, b: Vec2): number => a.x * b.x + a.y * b.y;
// Math.hypot guards against overflow that millimetres never reach, and takes ten times as long.
export const length2 = (a: Vec2): number => Math.sqrt(a.x * a.x + a.y * a.y);
export const unit2 = (a: Vec2): Vec2 => scale2(a, 1 / length2(a));
/** The direction a quarter turn counter-clockwise from a. */
export const left2 = (a: Vec2): Vec2 => ({ x: -a.y, y: a.x });
/** The unit direction at `angle` radians counter-clockwise from +x. */
export const polar2 = (radius: number, angle: number): Vec2 => ({
  x: radius * Math.cos(angle),
  y: radius * Math.sin(angle),
});

export const add3 = (a: Vec3, b: Vec3): Vec3 => ({ x: a.x + b.x, y: a.y + b.y, z: a.z + b.z });
export const sub3 = (a: Vec3, b: Vec3): Vec3 => ({ x: a.x - b.x, y: a.y - b.y, z: a.z - b.z });
export const scale3 = (a: Vec3, k: number): Vec3 => ({ x: a.x * k, y: a.y * k, z: a.z * k });
export const dot3 = (a: Vec3, b: Vec3): number => a.x * b.x + a.y * b.y + a.z * b.z;
export const cross3 = (a: Vec3, b: Vec3): Vec3 => ({
  x: a.y * b.z - a.z * b.y,
  y: a.z * b.x - a.x * b.z,
  z: a.x * b.y - a.y * b.x,
});
export const length3 = (a: Vec3): number => Math.sqrt(a.x * a.x + a.y * a.y + a.z * a.z);
export const unit3 = (a: Vec3): Vec3 => scale3(a, 1 / length3(a));

/** Positive where b points to the left of a. */
export const cross2 = (a: Vec2, b: Vec2): number => a.x * b.y - a.y * b.x;
export const distance2 = (a: Vec2, b: Vec2): number => length2(sub2(a, b));

/** Any unit direction square to a unit direction. */
export const squareTo = (axis: Vec3): Vec3 => {
  const near = Math.abs(axis.x) < 0.6 ? { x: 1, y: 0, z: 0 } : { x: 0, y: 1, z: 0 };
  return unit3(cross3(axis, near));
};

/** Three directions of unit length, square to each other. */
export interface Axes {
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}

/** A direction of space as axes give it. */
export const intoAxes = ({ x, y, z }: Axes, v: Vec3): Vec3 => vec3(dot3(v, x), dot3(v, y), dot3(v, z));

/** A direction given in axes, in space. */
export const fromAxes = ({ x, y, z }: Axes, v: Vec3): Vec3 =>
  add3(add3(scale3(x, v.x), scale3(y, v.y)), scale3(z, v.z));

/** The angle between two directions, radians. */
export const angleBetween = (a: Vec3, b: Vec3): number => Math.atan2(length3(cross3(a, b)), dot3(a, b));
