import { itemAt, lastOf } from '../../lists.ts';
import { add3, cross3, scale3, sub3, unit3, vec3, type Vec3 } from '../../geometry/vector.ts';
import { makeForm, type Form, type FormMaker, type Row } from '../form.ts';
import { turnParts } from '../sampling.ts';
import { poseDirection, posePoint, type ConeShape } from '../shape.ts';

/** Lines start here, so that none falls on an edge that is seen from the front or the side. */
const SEAM = 0.37;

/** A ring of unit directions square to z, from `SEAM` on. */
export const unitRing = (count: number): readonly Vec3[] =>
  Array.from({ length: count }, (_, j) => {
    const a = SEAM + (2 * Math.PI * j) / count;
    return vec3(Math.cos(a), Math.sin(a), 0);
  });

/** Cylinder, cone, leaning cone or a row of them, solid or hollow. */
export const coneForm = ({ pose, circles }: ConeShape, deviation: number): Form => {
  const [first, last] = [circles[0], circles.at(-1)];
  if (!first || !last || circles.length < 2) throw new Error('a cone needs two circles');
  const maker = makeForm();
  const ring = unitRing(turnParts(Math.max(...circles.map(({ radius }) => radius)), deviation));
  const pointsOf = (middle: Vec3, radius: number): readonly number[] => {
    if (radius < 1e-9) return new Array<number>(ring.length).fill(maker.point(posePoint(pose, middle)));
    return ring.map((e) => maker.point(posePoint(pose, add3(middle, scale3(e, radius)))));
  };
  /** Square to the side along each of its straight lines. */
  const normals = (across: Vec3, grow: number, sign: 1 | -1): readonly Vec3[] =>
    ring.map((e) => {
      const around = vec3(-e.y, e.x, 0);
      return poseDirection(pose, scale3(unit3(cross3(around, add3(across, scale3(e, grow)))), sign));
    });
  /** Outside or bore, as the first row and the last. */
  const side = (radii: readonly number[], sign: 1 | -1): readonly [Row, Row] => {
    const points = circles.map(({ at }, i) => pointsOf(at, itemAt(radii, i)));
    const rows = circles.slice(1).map((circle, i): readonly [Row, Row] => {
      const across = sub3(circle.at, itemAt(circles, i).at);
      const list = normals(across, itemAt(radii, i + 1) - itemAt(radii, i), sign);
      return [maker.row(itemAt(points, i), list), maker.row(itemAt(points, i + 1), list)];
    });
    rows.forEach(([low, high], i) => {
      if (sign > 0) maker.strip(low, high, true);
      else maker.strip(high, low, true);
      const next = rows[i + 1];
      if (next && sign > 0) maker.edgeBetween(high, next[0], 'bend', true);
    });
    return [itemAt(rows, 0)[0], lastOf(rows)[1]];
  };
  const [low, high] = side(
    circles.map(({ radius }) => radius),
    1,
  );
  const bores = circles.flatMap(({ bore }) => (bore === undefined ? [] : [bore]));
  const inner = bores.length === circles.length ? side(bores, -1) : undefined;
  closeEnd(maker, high, inner?.[1], pose.z, posePoint(pose, last.at), 1);
  closeEnd(maker, low, inner?.[0], pose.z, posePoint(pose, first.at), -1);
  return maker.done();
};

/** The flat end of a round body: a ring to its bore, or a whole disc. `sign` 1 where it faces along `axis`. */
export const closeEnd = (
  maker: FormMaker,
  outside: Row,
  inside: Row | undefined,
  axis: Vec3,
  middle: Vec3,
  sign: 1 | -1,
): void => {
  const n = maker.normal(scale3(axis, sign));
  const flat = (points: readonly number[]): Row => {
    const list = points.map(() => n);
    return { points, before: list, after: list };
  };
  const outer = flat(outside.points);
  const rest = flat(
    inside ? inside.points : new Array<number>(outer.points.length).fill(maker.point(middle)),
  );
  if (sign > 0) {
    maker.strip(outer, rest, true);
    maker.edgeBetween(outside, outer, 'edge', true);
    if (inside) maker.edgeBetween(rest, inside, 'inner', true);
  } else {
    maker.strip(rest, outer, true);
    maker.edgeBetween(outer, outside, 'edge', true);
    if (inside) maker.edgeBetween(inside, rest, 'inner', true);
  }
};
