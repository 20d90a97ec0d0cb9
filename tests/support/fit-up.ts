import { lowest, type Distance } from '../../src/proof/distances.ts';
import { rollHeader, rollUp, type HeaderPlace, type Wrap } from '../../src/proof/rolling.ts';
import type { Vec2, Vec3 } from '../../src/proof/space.ts';

export * from '../../src/proof/distances.ts';
export * from '../../src/proof/heads.ts';
export * from '../../src/proof/rolling.ts';

/** Round stock with its wall, mm. A wall of half the diameter is a solid bar. */
export interface WalledWrap extends Wrap {
  readonly wall: number;
}

/** Layers of a wall looked at before the closest is narrowed down. */
const wallLayers = 40;

/**
 * How near the cut face at one sheet point comes to a body, mm, negative where it cuts in: the least signed distance along the
 * face, which a torch square to the surface leaves straight through the wall. `place` puts the point at a radius.
 */
export function faceClearance(
  place: (radius: number) => Vec3,
  bore: number,
  outside: number,
  body: Distance,
): number {
  if (!(bore >= 0 && bore <= outside)) throw new Error('the bore lies inside the outside');
  return lowest((r) => body(place(r)), bore, outside, wallLayers).value;
}

/**
 * For each point of a branch end's cut line, the least signed distance to the mate anywhere through the wall, with the end moved
 * `gap` on along its axis (the root gap that the line stands back). First touch means every one is zero: more is a gap,
 * less is metal cut into.
 */
export function touchThroughWall(
  points: readonly Vec2[],
  pipe: WalledWrap,
  mate: Distance,
  gap = 0,
): number[] {
  const place = (p: Vec2) => (r: number) => rollUp({ x: p.x, y: p.y + gap }, pipe, r);
  return points.map((p) => faceClearance(place(p), pipe.od / 2 - pipe.wall, pipe.od / 2, mate));
}

/** The same on one surface of the pipe alone: its outside (contact `od`) unless another radius is given (contact `id`). */
export function touchAtRadius(
  points: readonly Vec2[],
  pipe: Wrap,
  mate: Distance,
  gap = 0,
  radius = pipe.od / 2,
): number[] {
  return points.map((p) => mate(rollUp({ x: p.x, y: p.y + gap }, pipe, radius)));
}

/** For each point of an opening, the signed distance to what it must follow, on the header's outside. */
export function openingAtOutside(
  points: readonly Vec2[],
  header: Wrap,
  place: HeaderPlace,
  branch: Distance,
): number[] {
  return points.map((p) => branch(rollHeader(p, header, place)));
}

/** For each point of an opening cut square to the header's surface, the least signed distance to `branch` through the wall. */
export function openingThroughWall(
  points: readonly Vec2[],
  header: WalledWrap,
  place: HeaderPlace,
  branch: Distance,
): number[] {
  const at = (p: Vec2) => (r: number) => rollHeader(p, header, place, r);
  return points.map((p) => faceClearance(at(p), header.od / 2 - header.wall, header.od / 2, branch));
}

/**
 * The first z at which a line parallel to the axis, coming from `from` (outside the body), meets it: the line is walked by the
 * signed distance, which no surface can be nearer than, and the step that goes in is halved to 1e-12 mm. Undefined if it
 * is not met before `to`. A graze shallower than the square of the least step over eight radii of curvature goes unseen.
 */
export function firstTouch(
  line: (z: number) => Vec3,
  body: Distance,
  from: number,
  to: number,
): number | undefined {
  const leastStep = 1e-4;
  if (body(line(from)) < 0) throw new Error(`the walk starts inside the body, at ${from}`);
  for (let z = from; z < to;) {
    const next = z + Math.max(body(line(z)), leastStep);
    if (body(line(next)) < 0) {
      let [clear, inside] = [z, next];
      while (inside - clear > 1e-12 * (1 + Math.abs(clear))) {
        const middle = (clear + inside) / 2;
        if (middle === clear || middle === inside) break;
        if (body(line(middle)) < 0) inside = middle;
        else clear = middle;
      }
      return clear;
    }
    z = next;
  }
  return undefined;
}

/**
 * The ordinate of a branch end at `angle` round the pipe by walking alone, no formula: the least first touch over the layers of
 * the wall. Undefined where no layer meets the mate. Slow: for spot checks.
 */
export function walkedOrdinate(
  angle: number,
  pipe: WalledWrap,
  mate: Distance,
  from: number,
  to: number,
): number | undefined {
  const at = (r: number) =>
    firstTouch((z) => ({ x: r * Math.cos(angle), y: r * Math.sin(angle), z }), mate, from, to) ?? Infinity;
  const { value } = lowest(at, pipe.od / 2 - pipe.wall, pipe.od / 2, wallLayers);
  return value === Infinity ? undefined : value;
}
