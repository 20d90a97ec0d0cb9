import fc from 'fast-check';
import {
  barDistance,
  cylinderDistance,
  ellipsoidalHeadDistance,
  planeDistance,
  sphereDistance,
  torisphericalHeadDistance,
  unionDistance,
  type Distance,
} from './fit-up.ts';
import {
  aside,
  DEGREE,
  elbow,
  elbowByAngle,
  lie,
  miterHeel,
  ORIGIN,
  rightCone,
  turn,
} from './placed-bodies.ts';
import { plus, point } from './space.ts';

/** A branch and what it meets: the designation asked for, and the same body as a distance. */
export interface Joint {
  readonly on: string;
  readonly od: number;
  readonly wall: number;
  readonly gap: number;
  readonly contact: 'wall' | 'od' | 'id';
  readonly body: Distance;
}

export const between = (min: number, max: number, places = 3) =>
  fc
    .integer({ min: 0, max: 10 ** places })
    .map((i) => Number((min + ((max - min) * i) / 10 ** places).toFixed(4)));
const branchFor = (largest: number) =>
  fc
    .tuple(
      between(0.03, 1.04),
      between(0.02, 0.3),
      fc.constantFrom('wall', 'od', 'id'),
      fc.constantFrom(0, 0, 3),
    )
    .map(([part, thick, contact, gap]) => {
      const od = Number((largest * part).toFixed(3));
      return { od, wall: Number((od * thick).toFixed(3)), contact: contact, gap };
    });
/** An angle between axes: often square, else anything down to a sharp lateral. */
export const angles = fc.oneof(fc.constant(90), between(25, 155));
export const offsets = fc.oneof(fc.constant(0), between(-0.6, 0.6));

/** Random joints by the kind of body; some cannot be made. */
export const kinds: Record<string, fc.Arbitrary<Joint>> = {
  pipe: fc.tuple(between(30, 900), angles, offsets).chain(([od, angle, e]) =>
    branchFor(od).map((branch) => ({
      ...branch,
      on: `pipe OD ${od}mm wall ${od / 10}mm angle ${angle} offset ${e * od}mm`,
      body: cylinderDistance(aside(e * od), lie(angle).d, od / 2),
    })),
  ),
  tube: fc
    .tuple(
      between(50, 400),
      between(50, 400),
      between(0, 0.3),
      fc.constantFrom(0, 0, 30, 45),
      angles,
      offsets,
    )
    .chain(([w, h, c, turned, angle, e]) =>
      branchFor(w).map((branch) => {
        // No sharper than the wall, or quite sharp.
        const wall = Math.min(w, h) / 20;
        const corner = c * Math.min(w, h) < wall ? 0 : c * Math.min(w, h);
        const across = turned * DEGREE;
        const { d, u, y } = lie(angle);
        // The facing side turns from u toward y; the width lies along d × that.
        const facing = plus(point(0, 0, 0), {
          x: u.x * Math.cos(across) + y.x * Math.sin(across),
          y: u.y * Math.cos(across) + y.y * Math.sin(across),
          z: u.z * Math.cos(across) + y.z * Math.sin(across),
        });
        const width = point(
          d.y * facing.z - d.z * facing.y,
          d.z * facing.x - d.x * facing.z,
          d.x * facing.y - d.y * facing.x,
        );
        return {
          ...branch,
          on: `tube ${w}x${h}x${Math.min(w, h) / 20}mm corner ${corner}mm turned ${turned}deg angle ${angle} offset ${e * w}mm`,
          body: barDistance({ centre: aside(e * w), axis: d, across: width }, w, h, corner),
        };
      }),
    ),
  plate: fc.tuple(angles, branchFor(500)).map(([angle, branch]) => ({
    ...branch,
    on: `plate angle ${angle}`,
    body: planeDistance(ORIGIN, lie(angle).u),
  })),
  cone: fc
    .tuple(between(100, 600), between(0.3, 0.95), between(0.3, 2), between(0.1, 0.9), angles, offsets)
    .chain(([large, k, l, a, angle, e]) =>
      branchFor(0.7 * large).map((branch) => {
        const [small, length] = [k * large, l * large];
        return {
          ...branch,
          on: `cone OD ${large}mm to ${small}mm over ${length}mm at ${a * length}mm angle ${angle} offset ${0.5 * e * large}mm`,
          body: rightCone(angle, 0.5 * e * large, large, small, length, a * length),
        };
      }),
    ),
  elbow: fc
    .tuple(
      fc.constantFrom<readonly [string, number, number]>(
        ['NPS 2 LR', 2.375, 3],
        ['NPS 8 LR', 8.625, 12],
        ['NPS 8 SR', 8.625, 8],
        ['NPS 24 LR', 24, 36],
      ),
      fc.constantFrom(90, 90, 45, 20),
      between(-180, 180),
      between(0, 1),
      fc.boolean(),
      offsets,
    )
    .chain(([[name, inches, bend], total, round, at, byAngle, e]) => {
      const od = inches * 25.4;
      return branchFor(od).map((branch) => {
        const offset = Number((0.5 * e * od).toFixed(3));
        const rest = Number((at * (180 - total)).toFixed(3));
        const place = Number((at * total).toFixed(3));
        return byAngle
          ? {
              ...branch,
              on: `elbow ${name} ${total}deg angle ${rest}deg offset ${offset}mm`,
              body: elbowByAngle(od / 2, bend * 25.4, total, rest, offset),
            }
          : {
              ...branch,
              on: `elbow ${name} ${total}deg round ${round}deg at ${place}deg offset ${offset}mm`,
              body: elbow(od / 2, bend * 25.4, total, round, place, offset),
            };
      });
    }),
  miter: fc.tuple(between(60, 400), between(10, 120)).chain(([od, total]) =>
    branchFor(od).map((branch) => ({
      ...branch,
      on: `miter OD ${od}mm wall ${od / 10}mm ${total}deg heel`,
      body: miterHeel(od / 2, total),
    })),
  ),
  sphere: fc.tuple(between(100, 2000), between(0, 1)).chain(([od, k]) =>
    branchFor(0.8 * od).map((branch) => {
      const e = (k * od) / 2;
      return {
        ...branch,
        on: `sphere OD ${od}mm offset ${e}mm`,
        body: sphereDistance(point(-e, 0, Math.sqrt(Math.max(0, (od / 2) ** 2 - e ** 2))), od / 2),
      };
    }),
  ),
  'ellipsoidal head': fc.tuple(between(200, 3000), between(0, 1)).chain(([od, k]) =>
    branchFor(0.6 * od).map((branch) => {
      const e = (k * od) / 2;
      return {
        ...branch,
        on: `head ellipsoidal OD ${od}mm offset ${e}mm`,
        body: ellipsoidalHeadDistance(
          point(-e, 0, (od / 4) * Math.sqrt(Math.max(0, 1 - k * k))),
          point(0, 0, -1),
          od / 2,
          od / 4,
        ),
      };
    }),
  ),
  'torispherical head': fc
    .tuple(between(200, 3000), between(0, 1), between(0.6, 1), between(0.06, 0.3))
    .chain(([od, k, c, q]) =>
      branchFor(0.6 * od).map((branch) => {
        const [r, e, crown, knuckle] = [od / 2, (k * od) / 2, c * od, q * od];
        const back = Math.sqrt((crown - knuckle) ** 2 - (r - knuckle) ** 2);
        // The crown ends on the line from its center through the knuckle's.
        const join = (crown * (r - knuckle)) / (crown - knuckle);
        const height =
          e <= join
            ? Math.sqrt(crown ** 2 - e ** 2) - back
            : Math.sqrt(Math.max(0, knuckle ** 2 - (e - (r - knuckle)) ** 2));
        return {
          ...branch,
          on: `head torispherical OD ${od}mm crown ${crown}mm knuckle ${knuckle}mm offset ${e}mm`,
          body: torisphericalHeadDistance(point(-e, 0, height), point(0, 0, -1), r, crown, knuckle),
        };
      }),
    ),
  'brace on chord and brace': fc
    .tuple(between(80, 400), between(0.3, 0.9), angles, angles, between(-180, 180), between(-0.8, 0), offsets)
    .chain(([od, k, first, second, roll, ahead, e]) =>
      branchFor(od).map((branch) => ({
        ...branch,
        on: `pipe OD ${od}mm wall 5mm angle ${first} + pipe OD ${k * od}mm wall 3mm angle ${second} roll ${roll}deg ahead ${ahead * od}mm offset ${e * k * od}mm`,
        body: unionDistance(
          cylinderDistance(ORIGIN, lie(first).d, od / 2),
          cylinderDistance(
            plus(turn(aside(e * k * od), roll), point(0, 0, ahead * od)),
            turn(lie(second).d, roll),
            (k * od) / 2,
          ),
        ),
      })),
    ),
};
