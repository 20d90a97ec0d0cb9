import { circleOutline } from '../geometry/outline.ts';
import { add3, scale3, unit3, type Vec3 } from '../geometry/vector.ts';
import type { DrawnBody } from '../joint/bodies/body.ts';
import { solidMate } from '../joint/solid-mate.ts';
import type { Solid } from '../joint/solid.ts';
import type { SurfaceLine } from './scene.ts';
import {
  type Hole,
  opened,
  poseAlong,
  poseDirection,
  poseLocal,
  type Shape,
  type StockShape,
} from './shape.ts';
import { SKETCHED_BORE } from './solid-shape.ts';

const LINES = 144;

/** Where the straight lines along a pipe that is drawn enter another body, run along it (1) or back (-1). */
interface Entries {
  readonly spokes: readonly Vec3[];
  /** Along the pipe from its own point, mm; undefined where a line does not enter within the pipe's drawn length. */
  readonly along: readonly (number | undefined)[];
  readonly place: (spoke: Vec3, along: number) => Vec3;
}

const entriesOf = ({ outside, reach }: DrawnBody, other: DrawnBody, way: 1 | -1): Entries | undefined => {
  if (outside.kind !== 'cylinder' || !reach) return undefined;
  const { through, radius } = outside;
  const axis = unit3(outside.along);
  const pose = poseAlong(through, axis);
  const mate = solidMate(other.outside);
  const place = (spoke: Vec3, along: number): Vec3 =>
    add3(add3(through, scale3(spoke, radius)), scale3(axis, along));
  const spokes = Array.from({ length: LINES }, (_, i) => {
    const a = (2 * Math.PI * i) / LINES;
    return poseDirection(pose, { x: Math.cos(a), y: Math.sin(a), z: 0 });
  });
  const along = spokes.map((spoke) => {
    const hit = mate.enter({ origin: place(spoke, 0), direction: scale3(axis, way) });
    const at = hit && way * hit.t;
    return at === undefined || at < reach[0] || at > reach[1] ? undefined : at;
  });
  return { spokes, along, place };
};

/** Where a straight pipe that is drawn goes into another body and comes out of it; none for other kinds of bodies. */
export const passLines = (pipe: DrawnBody, other: DrawnBody): readonly SurfaceLine[] =>
  ([1, -1] as const).flatMap((way) => {
    const entries = entriesOf(pipe, other, way);
    if (!entries) return [];
    const { spokes, along, place } = entries;
    const lines: { points: Vec3[]; normals: Vec3[] }[] = [];
    let line: { points: Vec3[]; normals: Vec3[] } | undefined;
    [...spokes, ...spokes.slice(0, 1)].forEach((spoke, i) => {
      const at = along[i % LINES];
      if (at === undefined) {
        line = undefined;
        return;
      }
      if (!line) lines.push((line = { points: [], normals: [] }));
      line.points.push(place(spoke, at));
      line.normals.push(spoke);
    });
    return lines
      .filter(({ points }) => points.length > 1)
      .map((found) => ({ ...found, kind: 'edge' as const }));
  });

/** A straight pipe that ends in another body, cut to it; undefined where it misses, passes through or is no pipe. */
export const cutToBody = (pipe: DrawnBody, other: DrawnBody): StockShape | undefined => {
  const { outside, inside, reach } = pipe;
  if (outside.kind !== 'cylinder' || !reach) return undefined;
  for (const way of [1, -1] as const) {
    const [into, back] = [entriesOf(pipe, other, way), entriesOf(pipe, other, way === 1 ? -1 : 1)];
    if (!into || into.along.some((at) => at === undefined) || back?.along.some((at) => at !== undefined))
      continue;
    const axis = scale3(unit3(outside.along), way);
    const pose = poseAlong(outside.through, axis);
    const bore = inside?.kind === 'cylinder' ? inside.radius : SKETCHED_BORE * outside.radius;
    const outline = circleOutline(outside.radius, outside.radius - bore);
    const mate = solidMate(other.outside);
    const end = (s: number): number => {
      const { x, y } = outline.at(s, 0);
      const origin = add3(outside.through, poseDirection(pose, { x, y, z: 0 }));
      return mate.enter({ origin, direction: axis })?.t ?? 0;
    };
    return { kind: 'stock', pose, outline, start: way > 0 ? reach[0] : -reach[1], end };
  }
  return undefined;
};

/** Places around a hole at which it is seen on which side of a cut they lie. */
const PLACES = 96;

/**
 * A pipe that is cut to a body, with a hole. One that runs over the cut takes steel off the end; one that would leave steel
 * beyond, between it and the cut, is not shown: undefined.
 * @param through what the hole follows across the pipe, in the scene's frame
 */
export const openCutPipe = (cut: StockShape, hole: Hole, through: Solid): Shape | undefined => {
  const { pose, outline, end } = cut;
  const endAt = (s: number): number => (typeof end === 'number' ? end : end(s));
  const isShort = Array.from({ length: PLACES }, (_, i) => hole.at(i / PLACES).outer).map((p) => {
    const { x, y, z } = poseLocal(pose, p);
    return z < endAt((Math.atan2(y, x) * outline.girth) / (2 * Math.PI));
  });
  if (isShort.every(Boolean)) return opened(cut, [hole]);
  const bore = solidMate(through);
  const back = scale3(pose.z, -1);
  /** From where to where the hole runs along the line at a position; undefined where it misses or looks away. */
  const takenAt = (s: number): readonly [number, number] | undefined => {
    const p = outline.at(s, 0);
    const spoke = poseDirection(pose, { ...p, z: 0 });
    if (spoke.z >= 0) return undefined;
    const origin = add3(pose.origin, spoke);
    const [near, far] = [bore.enter({ origin, direction: pose.z }), bore.enter({ origin, direction: back })];
    return near && far && [near.t, -far.t];
  };
  const leavesSteel = Array.from({ length: LINES }, (_, i) => (i * outline.girth) / LINES).some((s) => {
    const taken = takenAt(s);
    return taken && taken[1] < endAt(s);
  });
  if (leavesSteel) return undefined;
  return { ...cut, end: (s: number) => Math.min(endAt(s), takenAt(s)?.[0] ?? Infinity) };
};
