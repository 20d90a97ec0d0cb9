import { TURN } from './angle-units.ts';
import { itemAt } from '../lists.ts';
import type { Cone } from './mates/cone.ts';
import type { Skin } from './skin.ts';
import { add3, cross3, dot3, length3, scale3, sub3, unit3, type Vec2, type Vec3 } from './vector.ts';

/** A cone's outside laid flat, with what is needed to lay the flat on it again. */
export interface ConeSkin extends Skin {
  /** mm along the line at angle `s` to the plane through `point` square to the axis. */
  readonly levelAt: (s: number, point: Vec3) => number;
  /** Length of the line at angle `s` between the cone's two circles, mm. */
  readonly slant: (s: number) => number;
}
/** Steps round the cone in which it is laid flat: each is good to the fourth power of its angle, 1e-7 mm on a metre. */
const STEPS = 360;
const STEP = TURN / STEPS;

/** A straight line of a cone at angle `s`, and how things turn there as `s` rises. */
interface Ruling {
  readonly origin: Vec3;
  readonly direction: Vec3;
  readonly normal: Vec3;
  readonly slant: number;
  /** Turning of the direction in the tangent plane, to the right, per radian. */
  readonly swing: number;
  /** Turning of the normal, to the right, per radian. */
  readonly roll: number;
  /** How the foot moves to the right and along the line, mm per radian. */
  readonly sideways: number;
  readonly lengthwise: number;
}

/** The straight lines of a cone from its first circle to its second, by angle from `x` toward `y`. */
const rulingsOf = (cone: Cone, x: Vec3, y: Vec3) => {
  const across = sub3(cone.to, cone.from);
  const growth = cone.radiusTo - cone.radiusFrom;
  return (s: number): Ruling => {
    const [c, n] = [Math.cos(s), Math.sin(s)];
    const out = add3(scale3(x, c), scale3(y, n));
    const side = sub3(scale3(y, c), scale3(x, n));
    const run = add3(across, scale3(out, growth));
    const slant = length3(run);
    const direction = scale3(run, 1 / slant);
    const normal = unit3(cross3(side, direction));
    const right = cross3(direction, normal);
    const slip = dot3(side, right);
    return {
      origin: add3(cone.from, scale3(out, cone.radiusFrom)),
      direction,
      normal,
      slant,
      swing: (growth * slip) / slant,
      // The normal stays square to `side`, which itself turns toward -out.
      roll: dot3(normal, out) / slip,
      sideways: cone.radiusFrom * slip,
      lengthwise: cone.radiusFrom * dot3(side, direction),
    };
  };
};

/**
 * The skin of a cone, right or oblique, by the angle round its circles (radians): 0 is in the direction `facing`, and it
 * rises toward axis × facing. Lines run from the first circle to the second. On the flat the line at 0 is x = 0; it runs up
 * y and starts `rise` mm under y = 0; x × y points out of the cone.
 *
 * A straight line of a cone turns on the flat by as much as it turns in space within the tangent plane. `lift` is how far
 * above the outside the flat lies (half the paper): the lines there are the same ones moved outward, so it is wider by
 * lift times the turning of the normal. Both are summed by Simpson's rule and read between the steps by cubics.
 */
export const coneSkin = (cone: Cone, facing: Vec3, wall: number, lift: number, rise: number): ConeSkin => {
  const { axis } = cone;
  const x = unit3(sub3(facing, scale3(axis, dot3(facing, axis))));
  const ruling = rulingsOf(cone, x, cross3(axis, x));

  // Tables over [-π, π]: the line's angle on the flat, clockwise from y, at half steps; the foot at whole steps.
  const swing = (s: number): number => ruling(s).swing;
  const angles = sumUp(swing, 2 * STEPS, STEP / 2);
  const footRate = (s: number, angle: number): Vec2 => {
    const { sideways, lengthwise, roll } = ruling(s);
    const [c, n] = [Math.cos(angle), Math.sin(angle)];
    const wide = sideways + lift * roll;
    return { x: wide * c + lengthwise * n, y: lengthwise * c - wide * n };
  };
  const halfRates = angles.map((angle, i) => footRate(-Math.PI + (i * STEP) / 2, angle));
  const feetX = sumTable(halfRates.map((p) => p.x));
  const feetY = sumTable(halfRates.map((p) => p.y));
  const read = (table: readonly number[], rates: (i: number) => number, s: number, step: number): number => {
    const u = (s + Math.PI) / step;
    const i = Math.min(table.length - 2, Math.max(0, Math.floor(u)));
    return hermite(u - i, at(table, i), at(table, i + 1), rates(i) * step, rates(i + 1) * step);
  };
  const angleAt = (s: number): number => read(angles, (i) => swing(-Math.PI + (i * STEP) / 2), s, STEP / 2);
  const footAt = (s: number): Vec2 => ({
    x: read(feetX, (i) => itemAt(halfRates, 2 * i).x, s, STEP),
    y: read(feetY, (i) => itemAt(halfRates, 2 * i).y, s, STEP) - rise,
  });

  return {
    girth: TURN,
    wall,
    joints: [],
    layers: (s) => {
      const { origin, direction, normal } = ruling(s);
      return { outside: origin, direction, inward: scale3(normal, -1) };
    },
    flat: (s, t) => {
      const [foot, angle] = [footAt(s), angleAt(s)];
      return { x: foot.x + t * Math.sin(angle), y: foot.y + t * Math.cos(angle) };
    },
    levelAt: (s, point) => {
      const { origin, direction } = ruling(s);
      return dot3(sub3(point, origin), axis) / dot3(direction, axis);
    },
    slant: (s) => ruling(s).slant,
  };
};

const at = (table: readonly number[], i: number): number => itemAt(table, i);

/** Sums of a rate over `count` steps from -π, zero in the middle. */
const sumUp = (rate: (s: number) => number, count: number, step: number): readonly number[] => {
  const half = Array.from({ length: 2 * count + 1 }, (_, i) => rate(-Math.PI + (i * step) / 2));
  return sumTable(half, step);
};

/** Simpson's sums of values given at half steps, zero in the middle. */
const sumTable = (half: readonly number[], step = STEP): readonly number[] => {
  const sums = [0];
  for (let i = 0; 2 * i + 2 < half.length; i++)
    sums.push(at(sums, i) + ((at(half, 2 * i) + 4 * at(half, 2 * i + 1) + at(half, 2 * i + 2)) * step) / 6);
  const middle = at(sums, (sums.length - 1) / 2);
  return sums.map((sum) => sum - middle);
};

/** The cubic between two values with the given rises over the step. */
const hermite = (u: number, p: number, q: number, dp: number, dq: number): number => {
  const v = 1 - u;
  return v * v * (1 + 2 * u) * p + u * u * (3 - 2 * u) * q + u * v * (v * dp - u * dq);
};
