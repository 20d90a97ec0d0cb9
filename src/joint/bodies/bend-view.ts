import { bendArcMate, bendFigures, bendStation, type Bend } from '../../geometry/mates/bend.ts';
import { coneMate, rightCone } from '../../geometry/mates/cone.ts';
import { unionMate } from '../../geometry/mates/several.ts';
import { barPatch, ringSection, type Patch } from '../../geometry/silhouette.ts';
import { add3, scale3, unit3, vec3, type Vec3 } from '../../geometry/vector.ts';
import type { BendSize } from './bend.ts';
import type { Body, Frame, ViewLabel } from './body.ts';

/** Two legs and the bend between them as pictures show them. `branch` is the branch's radius, mm. */
export const viewBend = (
  bend: Bend,
  { kind, turn, radius }: BendSize,
  frame: Frame,
  branch: number,
): Body['view'] => {
  const { takeOff, axis } = bendFigures(bend);
  const long = takeOff + Math.max(0.8 * radius, kind === 'miter' ? 2.2 * branch + radius : 0.6 * branch);
  const leg = (i: 0 | 1): Patch => {
    const out = bend.legs[i];
    const ring = ringSection(out, axis, radius);
    if (kind === 'elbow') return barPatch(bend.corner, out, ring, takeOff, long);
    // A mitered leg begins in the seam's plane, which halves the turn.
    const inward = unit3(add3(bend.legs[0], bend.legs[1]));
    const lean = Math.tan(turn / 2);
    return {
      at: (u, v) => {
        const q = ring(u);
        const flat = unit3(
          add3(inward, scale3(out, -(inward.x * out.x + inward.y * out.y + inward.z * out.z))),
        );
        const start = lean * (q.x * flat.x + q.y * flat.y + q.z * flat.z);
        return add3(add3(bend.corner, q), scale3(out, start + v * (long - start)));
      },
      u: [0, 1, 60],
      v: [0, 1, 1],
    };
  };
  const arc: Patch = {
    at: (u, v) => {
      const { at, tangent } = bendStation(bend, v);
      return add3(at, ringSection(tangent, axis, radius)(u));
    },
    u: [0, 1, 60],
    v: [0, turn, 36],
  };
  const ends = ([0, 1] as const).map((i) => {
    const ring = ringSection(bend.legs[i], axis, radius);
    return Array.from({ length: 61 }, (_, k) =>
      add3(add3(bend.corner, scale3(bend.legs[i], long)), ring(k / 60)),
    );
  });
  const weld = (angle: number): readonly Vec3[] => {
    const { at, tangent } = bendStation(bend, angle);
    const ring = ringSection(tangent, axis, radius);
    return Array.from({ length: 61 }, (_, k) => add3(at, ring(k / 60)));
  };
  const seam = Array.from({ length: 61 }, (_, k) => leg(0).at(k / 60, 0));
  const centreLine = Array.from({ length: 24 }, (_, k) => bendStation(bend, (turn * k) / 24).at);
  const path = [
    add3(bend.corner, scale3(bend.legs[0], long * 1.06)),
    ...(kind === 'elbow' ? [...centreLine, bendStation(bend, turn).at] : [bend.corner]),
    add3(bend.corner, scale3(bend.legs[1], long * 1.06)),
  ];
  const label = (i: 0 | 1): ViewLabel => ({
    at: add3(bend.corner, scale3(bend.legs[i], long + 0.3 * radius)),
    text: `leg ${i + 1}`,
    view: 'side',
  });
  return {
    patches: kind === 'elbow' ? [leg(0), leg(1), arc] : [leg(0), leg(1)],
    edges: kind === 'elbow' ? [...ends, weld(0), weld(turn)] : [...ends, seam],
    centres: path.slice(1).map((p, i) => [path[i] as Vec3, p] as const),
    labels: [label(0), label(1)],
    lengths: [],
    angles: [],
    solid: unionMate([
      ...([0, 1] as const).map((i) => {
        const point = (along: number): Vec3 => add3(bend.corner, scale3(bend.legs[i], along));
        return coneMate(rightCone(point(takeOff), radius, point(long), radius), 'flat');
      }),
      ...(kind === 'elbow' ? [bendArcMate(bend)] : []),
    ]),
    right: frame.direction(vec3(1, 0, 0)),
    up: frame.direction(vec3(0, 0, -1)),
  };
};
