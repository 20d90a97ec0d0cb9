import { axesAt, direction, minus, placeIn, plus, point, times, type Vec2, type Vec3 } from './space.ts';

/** Round stock and the paper on it, mm. */
export interface Wrap {
  /** Outside diameter of the pipe. */
  readonly od: number;
  /** Thickness of the paper; the print lies at half of it above the pipe. Zero for a file that goes to a cutter. */
  readonly paper: number;
}

/** The angle round the pipe, radians, at which sheet distance `x` from station 0 comes to lie. */
export const wrapAngle = (x: number, { od, paper }: Wrap): number => x / ((od + paper) / 2);

/**
 * Where a point of a wrapped band lies in the stock frame: +z out of the cut end, station 0 on +x, 90 on +y, sheet y along z.
 * Seen from outside with the cut end up, x runs to the right: at station 0 the outside is +x, up is +z, and right is
 * up × outward = z × x = +y, which is station 90. `radius` is that of the outside unless another layer of the wall is meant.
 */
export function rollUp(p: Vec2, wrap: Wrap, radius = wrap.od / 2): Vec3 {
  const angle = wrapAngle(p.x, wrap);
  return point(radius * Math.cos(angle), radius * Math.sin(angle), p.y);
}

/** A header in its branch's stock frame: its axis passes through (0, offset, 0) along (sin angle, 0, cos angle). */
export interface HeaderPlace {
  readonly offset: number;
  /** Between the axes, radians, in (0, π); a quarter turn is square. */
  readonly angle: number;
}

/** The header's axis as point and direction, for {@link cylinderDistance} and the kernel. */
export const headerAxis = ({ offset, angle }: HeaderPlace): { through: Vec3; along: Vec3 } => ({
  through: point(0, offset, 0),
  along: point(Math.sin(angle), 0, Math.cos(angle)),
});

/**
 * Where a point of a wrapped header opening sheet lies in the branch's stock frame. Sheet y runs along the header's axis
 * d = (sin α, 0, cos α). At sheet x = 0 the outward direction is u, the part of −z square to d:
 * −z + (z·d) d = sin α (cos α, 0, −sin α), so u = (cos α, 0, −sin α), toward the branch that comes from −z.
 * The hand: x × y must point outward, x × d = u, hence x = d × u = (0, cos²α + sin²α, 0) = +y of the branch's frame. So sheet
 * x starts toward station 90 of the branch, and a positive offset moves the opening to negative x.
 */
export function rollHeader(p: Vec2, wrap: Wrap, { offset, angle }: HeaderPlace, radius = wrap.od / 2): Vec3 {
  const [s, c] = [Math.sin(angle), Math.cos(angle)];
  const turn = wrapAngle(p.x, wrap);
  const [toward, aside] = [radius * Math.cos(turn), radius * Math.sin(turn)];
  return point(p.y * s + toward * c, offset + aside, p.y * c - toward * s);
}

/**
 * Where a point of a sheet wrapped on any round stock lies: y along `along`, x = 0 on the line on the side of `facing`, right
 * hand as {@link rollUp}, sheet y = 0 in the plane through `through` square to the axis.
 */
export function rollOn(
  p: Vec2,
  wrap: Wrap,
  through: Vec3,
  along: Vec3,
  facing: Vec3,
  radius = wrap.od / 2,
): Vec3 {
  return placeIn(axesAt(through, along, facing), rollUp(p, wrap, radius));
}

/** A flat sheet laid in space: its origin at `at`, sheet x along `right`, y along the part of `up` square to it. */
export function layFlat(p: Vec2, at: Vec3, right: Vec3, up: Vec3): Vec3 {
  const x = direction(right);
  const y = direction(minus(up, times(x, up.x * x.x + up.y * x.y + up.z * x.z)));
  return plus(at, plus(times(x, p.x), times(y, p.y)));
}
