import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  barDistance,
  bendDistance,
  commonDistance,
  coneDistance,
  coneThrough,
  cylinderDistance,
  ellipsoidalHeadDistance,
  grown,
  lowest,
  nearestOnEllipse,
  obliqueConeDistance,
  planeDistance,
  sphereDistance,
  torisphericalHeadDistance,
  torusDistance,
  unionDistance,
  type Distance,
} from './fit-up.ts';
import {
  axesAt,
  direction,
  minus,
  norm,
  placeIn,
  plus,
  point,
  times,
  type Axes,
  type Vec3,
} from './space.ts';

/**
 * Each body is tried against its own definition: a point of its surface by the usual parametric form, moved by a known length
 * along the outward normal, must be found at that length. `reach` is how far in that holds (to the nearest centre of curvature),
 * `clear` how far out, 200 mm unless given (to the middle of a ring's hole).
 */
interface Trial {
  readonly body: Distance;
  readonly surface: Vec3;
  readonly outward: Vec3;
  readonly reach: number;
  readonly clear?: number;
}
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const radius = number(5, 500);
const turn = number(-Math.PI, Math.PI);
const anyPoint = fc
  .tuple(number(-1e3, 1e3), number(-1e3, 1e3), number(-1e3, 1e3))
  .map(([x, y, z]) => point(x, y, z));
const anyDirection = fc
  .tuple(turn, number(-1, 1))
  .map(([a, h]) => point(Math.sqrt(1 - h * h) * Math.cos(a), Math.sqrt(1 - h * h) * Math.sin(a), h));
const frame = fc.tuple(anyPoint, anyDirection).map(([o, d]) => axesAt(o, d));
const around = (axes: Axes, angle: number, h: number, r: number): Vec3 =>
  placeIn(axes, point(r * Math.cos(angle), r * Math.sin(angle), h));
/** A direction given in a meridian plane: `h` along the axis, `r` away from it. */
const meridian = (axes: Axes, angle: number, h: number, r: number): Vec3 =>
  direction(minus(around(axes, angle, h, r), axes.origin));

const trials: Record<string, fc.Arbitrary<Trial>> = {
  plane: fc.tuple(frame, turn, radius).map(([f, a, r]) => ({
    body: planeDistance(f.origin, times(f.z, 7)),
    surface: around(f, a, 0, r),
    outward: f.z,
    reach: 1e3,
  })),
  cylinder: fc.tuple(frame, turn, radius, number(-900, 900)).map(([f, a, r, h]) => ({
    body: cylinderDistance(placeIn(f, point(0, 0, 55)), times(f.z, -3), r),
    surface: around(f, a, h, r),
    outward: meridian(f, a, 0, 1),
    reach: r,
  })),
  sphere: fc.tuple(anyPoint, anyDirection, radius).map(([c, d, r]) => ({
    body: sphereDistance(c, r),
    surface: plus(c, times(d, r)),
    outward: d,
    reach: r,
  })),
  cone: fc.tuple(frame, turn, number(0.05, 1.5), number(1, 900)).map(([f, a, half, h]) => ({
    body: coneDistance(f.origin, f.z, half),
    surface: around(f, a, h, h * Math.tan(half)),
    outward: meridian(f, a, -Math.sin(half), Math.cos(half)),
    reach: (h * Math.tan(half)) / Math.cos(half),
  })),
  'cone through two circles': fc
    .tuple(frame, turn, radius, radius, number(20, 400), number(0, 1))
    .map(([f, a, r0, r1, length, t]) => {
      const [outward, r] = [meridian(f, a, r0 - r1, length), r0 + t * (r1 - r0)];
      const body = coneThrough(f.origin, r0, placeIn(f, point(0, 0, length)), r1);
      return { body, surface: around(f, a, t * length, r), outward, reach: r };
    }),
  'eccentric cone': fc
    .tuple(frame, turn, number(50, 150), number(50, 150), number(150, 400), number(0, 1), number(-80, 80))
    .map(([f, a, r0, r1, length, t, e]) => {
      const body = obliqueConeDistance(f.origin, r0, placeIn(f, point(e, 0, length)), r1, f.z);
      // Normal of (t e + r(t) cos a, r(t) sin a, t length): the cross product of its two derivatives.
      const [c, s, k, r] = [Math.cos(a), Math.sin(a), r1 - r0, r0 + t * (r1 - r0)];
      const normal = direction(point(c * length, s * length, -(e * c + k)));
      const outward = minus(placeIn(f, normal), f.origin);
      return { body, surface: placeIn(f, point(t * e + r * c, r * s, t * length)), outward, reach: r / 2 };
    }),
  torus: fc.tuple(frame, turn, turn, number(50, 500), number(0.1, 0.9)).map(([f, a, b, major, k]) => ({
    body: torusDistance(f.origin, f.z, major, k * major),
    surface: around(f, a, k * major * Math.sin(b), major + k * major * Math.cos(b)),
    outward: meridian(f, a, Math.sin(b), Math.cos(b)),
    reach: k * major,
    clear: major * (1 - k) * 0.99,
  })),
  'bend, on its arc': fc
    .tuple(frame, number(0, 1), turn, number(50, 500), number(0.1, 0.9), number(0.2, 3))
    .map(([f, t, b, major, k, angle]) => ({
      body: bendDistance(f.origin, f.z, f.x, angle, major, k * major),
      surface: around(f, t * angle, k * major * Math.sin(b), major + k * major * Math.cos(b)),
      outward: meridian(f, t * angle, Math.sin(b), Math.cos(b)),
      reach: k * major,
      clear: major * (1 - k) * 0.99,
    })),
  'bend, on the leg before it': fc
    .tuple(frame, number(0, 200), turn, number(50, 500), number(0.1, 0.9))
    .map(([f, l, b, major, k]) => {
      const outward = plus(times(f.x, Math.cos(b)), times(f.z, Math.sin(b)));
      const middle = placeIn(f, point(major, -l, 0));
      const body = bendDistance(f.origin, f.z, f.x, Math.PI / 2, major, k * major);
      return {
        body,
        surface: plus(middle, times(outward, k * major)),
        outward,
        reach: k * major,
        clear: major * (1 - k),
      };
    }),
  'bar face': fc.tuple(frame, number(-1, 1), number(-300, 300), number(20, 90)).map(([f, u, h, w]) => ({
    body: barDistance({ centre: f.origin, axis: f.z, across: f.x }, w, 2 * w, w / 8),
    surface: placeIn(f, point(w / 2, u * (w - w / 8), h)),
    outward: f.x,
    reach: w / 8,
  })),
  'bar corner': fc
    .tuple(frame, number(0, Math.PI / 2), number(-300, 300), number(20, 90))
    .map(([f, a, h, w]) => {
      const [c, outward] = [w / 8, plus(times(f.x, Math.cos(a)), times(f.y, Math.sin(a)))];
      const body = barDistance({ centre: f.origin, axis: f.z, across: f.x }, w, 2 * w, c);
      return {
        body,
        surface: plus(placeIn(f, point(w / 2 - c, w - c, h)), times(outward, c)),
        outward,
        reach: c,
      };
    }),
  'block end': fc.tuple(frame, number(-0.4, 0.4), number(-0.4, 0.4), radius).map(([f, u, v, w]) => ({
    body: barDistance({ centre: f.origin, axis: f.z, across: f.x }, w, w, 0, 2 * w),
    surface: placeIn(f, point(u * w, v * w, w)),
    outward: f.z,
    reach: 0.1 * w,
  })),
  'ellipsoidal head': fc
    .tuple(frame, turn, number(0.02, 1.55), radius, number(0.3, 0.9))
    .map(([f, a, t, r, k]) => {
      const [x, y] = [k * r * Math.sin(t), r * Math.cos(t)];
      return {
        body: ellipsoidalHeadDistance(f.origin, f.z, r, k * r),
        surface: around(f, a, x, y),
        outward: meridian(f, a, x / (k * r) ** 2, y / r ** 2),
        // Least radius of curvature of the ellipse, at its sharp end.
        reach: k * k * r * 0.9,
      };
    }),
  'torispherical crown': fc.tuple(frame, turn, number(0, 1), radius).map(([f, a, t, r]) => {
    // Crown radius 2r and knuckle r/5, about the proportions of common dished heads.
    const [crown, knuckle] = [2 * r, r / 5];
    const back = -Math.sqrt((crown - knuckle) ** 2 - (r - knuckle) ** 2);
    const b = t * Math.atan2(r - knuckle, -back);
    return {
      body: torisphericalHeadDistance(f.origin, f.z, r, crown, knuckle),
      surface: around(f, a, back + crown * Math.cos(b), crown * Math.sin(b)),
      outward: meridian(f, a, Math.cos(b), Math.sin(b)),
      reach: knuckle,
    };
  }),
  'torispherical knuckle': fc.tuple(frame, turn, number(0, 1), radius).map(([f, a, t, r]) => {
    const [crown, knuckle] = [2 * r, r / 5];
    const least = Math.atan2(r - knuckle, Math.sqrt((crown - knuckle) ** 2 - (r - knuckle) ** 2));
    const b = least + t * (Math.PI / 2 - least);
    return {
      body: torisphericalHeadDistance(f.origin, f.z, r, crown, knuckle),
      surface: around(f, a, knuckle * Math.cos(b), r - knuckle + knuckle * Math.sin(b)),
      outward: meridian(f, a, Math.cos(b), Math.sin(b)),
      reach: knuckle,
    };
  }),
  'head shell': fc.tuple(frame, turn, number(0, 500), radius, fc.boolean()).map(([f, a, h, r, dished]) => ({
    body: dished
      ? torisphericalHeadDistance(f.origin, f.z, r, 2 * r, r / 5)
      : ellipsoidalHeadDistance(f.origin, f.z, r, r / 2),
    surface: around(f, a, -h, r),
    outward: meridian(f, a, 0, 1),
    reach: r / 5,
  })),
};

describe('signed distance', () => {
  it.each(Object.keys(trials))('%s: a point set off its surface is found at that distance', (name) => {
    fc.assert(
      fc.property(trials[name]!, number(0, 1), number(0, 1), anyPoint, (trial, out, into, elsewhere) => {
        const at = (h: number) => trial.body(plus(trial.surface, times(trial.outward, h)));
        expect(at(0)).toBeCloseTo(0, 6);
        const clear = out * Math.min(200, trial.clear ?? 200);
        expect(at(clear)).toBeCloseTo(clear, 6);
        expect(at(-0.9 * into * trial.reach)).toBeCloseTo(-0.9 * into * trial.reach, 6);
        // No distance may change faster than the point moves.
        const far = norm(minus(trial.surface, elsewhere));
        expect(Math.abs(trial.body(elsewhere) - at(0))).toBeLessThanOrEqual(far + 1e-6);
      }),
    );
  });

  it('behind a cone’s apex is the distance to the apex', () => {
    expect(coneDistance(point(0, 0, 0), point(0, 0, 1), 0.5)(point(0, 3, -4))).toBeCloseTo(5, 12);
  });

  it('is that to the edge of a block past its corner', () => {
    const block = barDistance(
      { centre: point(0, 0, 0), axis: point(0, 0, 1), across: point(1, 0, 0) },
      20,
      40,
      0,
      60,
    );
    expect(block(point(13, 24, 30))).toBeCloseTo(5, 12);
    expect(block(point(12, 23, 36))).toBeCloseTo(7, 12);
    expect(block(point(0, 0, 0))).toBeCloseTo(-10, 12);
  });

  it('combines and grows', () => {
    const [a, b] = [sphereDistance(point(0, 0, 0), 10), sphereDistance(point(30, 0, 0), 10)];
    expect(unionDistance(a, b)(point(13, 0, 0))).toBeCloseTo(3, 12);
    expect(commonDistance(a, planeDistance(point(0, 0, 0), point(1, 0, 0)))(point(2, 0, 0))).toBeCloseTo(
      2,
      12,
    );
    expect(grown(a, 2)(point(0, 15, 0))).toBeCloseTo(3, 12);
  });

  it('a 2:1 head ends half its radius ahead of the tangent line', () => {
    const head = ellipsoidalHeadDistance(point(0, 0, 0), point(0, 0, 1), 100, 50);
    expect(head(point(0, 0, 60))).toBeCloseTo(10, 9);
    expect(head(point(0, 0, -1))).toBeCloseTo(-51, 6);
    expect(head(point(0, 0, 0))).toBeCloseTo(-50, 6);
  });
});

describe('nearestOnEllipse', () => {
  it('beats every other point of the quarter', () => {
    fc.assert(
      fc.property(radius, radius, number(0, 600), number(0, 600), (a, b, x, y) => {
        const foot = nearestOnEllipse(a, b, { x, y });
        expect((foot.x / a) ** 2 + (foot.y / b) ** 2).toBeCloseTo(1, 9);
        const best = lowest(
          (t) => Math.hypot(x - a * Math.cos(t), y - b * Math.sin(t)),
          0,
          Math.PI / 2,
          400,
        ).value;
        expect(Math.hypot(x - foot.x, y - foot.y)).toBeLessThanOrEqual(best + 1e-6);
      }),
    );
  });
});

describe('lowest', () => {
  it('finds the deeper of two dips, and a least value at an end', () => {
    const two = lowest((t) => Math.min((t - 1) ** 2, (t - 3.33333) ** 2 - 0.01), 0, 5, 40);
    expect(two.value).toBeCloseTo(-0.01, 12);
    expect(two.at).toBeCloseTo(3.33333, 5);
    expect(lowest((t) => t, 2, 5, 7)).toEqual({ at: 2, value: 2 });
  });
});
