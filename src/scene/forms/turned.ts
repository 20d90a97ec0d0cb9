import { itemAt, numberAt } from '../../lists.ts';
import { add3, scale3, unit3, vec3, type Vec3 } from '../../geometry/vector.ts';
import { makeForm, vectorAt, type Form, type FormMaker, type Row } from '../form.ts';
import { spreadAlong, turnParts } from '../sampling.ts';
import { poseDirection, posePoint, type ProfileRun, type TurnedShape } from '../shape.ts';
import { unitRing } from './cone.ts';

interface ProfilePoint {
  readonly height: number;
  readonly radius: number;
  /** Unit normal out of the body, as height and radius. */
  readonly out: readonly [number, number];
}

/** Normals of neighbouring runs closer than this (cosine) run on smoothly. */
const SMOOTH = 0.9999;

const alongRun = (run: ProfileRun, deviation: number): readonly ProfilePoint[] => {
  if (run.kind === 'line') {
    const [h, r] = [run.to[0] - run.from[0], run.to[1] - run.from[1]];
    const size = Math.hypot(h, r);
    // The body lies toward the axis of a line that runs upward.
    const out = [-r / size, h / size] as const;
    return [run.from, run.to].map(([height, radius]) => ({ height, radius, out }));
  }
  const { center, half, from, to } = run;
  const sign = to > from ? 1 : -1;
  const at = (t: number): ProfilePoint => {
    const [s, c] = [Math.sin(t), Math.cos(t)];
    const normal = unit3(vec3((s / half[0]) * sign, (c / half[1]) * sign, 0));
    return {
      height: center[0] + half[0] * s,
      radius: Math.max(0, center[1] + half[1] * c),
      out: [normal.x, normal.y],
    };
  };
  const flat = (t: number): readonly Vec3[] => [vec3(at(t).height, at(t).radius, 0)];
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  const places = spreadAlong(flat, [low, (low + high) / 2, high], deviation);
  return (sign > 0 ? places : [...places].reverse()).map(at);
};

/** The corners of a ring about the axis, at a distance of 1 from it on the round or on the middles of the sides, and the directions beside them. */
interface Ring {
  readonly corners: readonly Vec3[];
  readonly before: readonly Vec3[];
  readonly after: readonly Vec3[];
}

const roundRing = (parts: number): Ring => {
  const corners = unitRing(parts);
  return { corners, before: corners, after: corners };
};

const sidedRing = (sides: number): Ring => {
  const at = (k: number, size = 1): Vec3 => {
    const angle = (2 * Math.PI * k) / sides;
    return vec3(size * Math.cos(angle), size * Math.sin(angle), 0);
  };
  const all = Array.from({ length: sides }, (_, k) => k);
  return {
    corners: all.map((k) => at(k + 0.5, 1 / Math.cos(Math.PI / sides))),
    before: all.map((k) => at(k)),
    after: all.map((k) => at(k + 1)),
  };
};

/** A body turned round an axis, or one with flat sides in its place. */
export const turnedForm = ({ pose, profile, sides }: TurnedShape, deviation: number): Form => {
  const maker = makeForm();
  const runs = profile.map((run) => alongRun(run, deviation));
  const widest = Math.max(...runs.flat().map(({ radius }) => radius));
  const ring = sides === undefined ? roundRing(turnParts(widest, deviation)) : sidedRing(sides);
  const circle = ({ height, radius }: ProfilePoint): readonly number[] =>
    radius < 1e-9
      ? new Array<number>(ring.corners.length).fill(maker.point(posePoint(pose, vec3(0, 0, height))))
      : ring.corners.map((e) => maker.point(posePoint(pose, vec3(e.x * radius, e.y * radius, height))));
  const rowAt = (points: readonly number[], { out }: ProfilePoint): Row => {
    const normals = (directions: readonly Vec3[]): readonly number[] =>
      directions.map((e) => maker.normal(poseDirection(pose, add3(scale3(e, out[1]), vec3(0, 0, out[0])))));
    const before = normals(ring.before);
    return { points, before, after: sides === undefined ? before : normals(ring.after) };
  };
  const first = runs[0]?.[0];
  const final = runs.at(-1)?.at(-1);
  if (!first || !final) throw new Error('a turned body needs a profile');
  const closes = Math.hypot(first.height - final.height, first.radius - final.radius) < 1e-9;
  const opening = circle(first);
  let points = opening;
  let before: Row | undefined;
  let beginning: Row | undefined;
  runs.forEach((run, r) => {
    let lower = rowAt(points, itemAt(run, 0));
    const onAxis = itemAt(run, 0).radius < 1e-9;
    if (before && !onAxis) {
      const kind = profile[r]?.bent ? 'bend' : kindOf(before, lower);
      maker.edgeBetween(before, lower, kind, true);
    }
    beginning ??= lower;
    const rows = [lower];
    run.slice(1).forEach((p, i) => {
      const isLast = closes && r === runs.length - 1 && i === run.length - 2;
      points = isLast ? opening : circle(p);
      const upper = rowAt(points, p);
      if (run[i]?.radius !== 0 || p.radius !== 0) maker.strip(lower, upper, true);
      lower = upper;
      rows.push(upper);
    });
    before = lower;
    if (sides !== undefined) cornerLines(maker, rows);
  });
  if (closes && before && beginning && first.radius > 1e-9)
    maker.edgeBetween(before, beginning, kindOf(before, beginning), true);
  return maker.done();

  function kindOf(below: Row, above: Row): 'edge' | 'weld' {
    const { normals } = maker.done();
    const [a, b] = [vectorAt(normals, below.after[0] ?? 0), vectorAt(normals, above.after[0] ?? 0)];
    return a.x * b.x + a.y * b.y + a.z * b.z > SMOOTH ? 'weld' : 'edge';
  }
};

/** The lines along which the sides of one run meet. */
const cornerLines = (maker: FormMaker, rows: readonly Row[]): void =>
  itemAt(rows, 0).points.forEach((_, k) => {
    const pairs = (list: readonly number[]): readonly number[] =>
      list.slice(1).flatMap((n, i) => [numberAt(list, i), n]);
    maker.edge({
      points: rows.map(({ points }) => numberAt(points, k)),
      left: pairs(rows.map((row) => numberAt(row.before, k))),
      right: pairs(rows.map((row) => numberAt(row.after, k))),
      kind: 'weld',
    });
  });
