import type { Ball, GoreForm } from '../../../geometry/ball-gore.ts';
import { lastOf } from '../../../lists.ts';
import { vec3, type Vec3 } from '../../../geometry/vector.ts';
import type { Part, Scene, SurfaceLine } from '../../../scene/scene.ts';
import { SCENE_POSE, type ProfileRun } from '../../../scene/shape.ts';
import { THIN } from '../../../sheets/shell-scene.ts';
import { say } from '../../../words/say.ts';

const QUARTER = Math.PI / 2;

/** Points along a seam. */
const STEPS = 36;

/** A ball of gores, or a part of one, on the middle of its plate. */
export interface Gored {
  readonly ball: Ball;
  readonly form: GoreForm;
  /** Latitudes where each tier begins and ends, from the bottom up. */
  readonly tiers: readonly (readonly [number, number])[];
  /** Diameter of the crown's rim; 0 for none. */
  readonly crown: number;
  readonly thickness: number;
}

/** The ring of plate between two latitudes: up the outside, down the inside. */
const ringProfile = (radius: number, thickness: number, from: number, to: number): readonly ProfileRun[] => {
  const [outer, inner] = [radius + thickness / 2, radius - thickness / 2];
  const at = (r: number, latitude: number): readonly [number, number] => [
    r * Math.sin(latitude),
    QUARTER - Math.abs(latitude) < 1e-9 ? 0 : r * Math.cos(latitude),
  ];
  const along = (r: number, a: number, b: number): ProfileRun => ({
    kind: 'ellipse',
    center: [0, 0],
    half: [r, r],
    from: a,
    to: b,
  });
  const across = (r: number, s: number, latitude: number): ProfileRun => ({
    kind: 'line',
    from: at(r, latitude),
    to: at(s, latitude),
  });
  return [
    along(outer, from, to),
    across(outer, inner, to),
    along(inner, to, from),
    ...(from + QUARTER < 1e-9 ? [] : [across(inner, outer, from)]),
  ];
};

/** Seen from a little above; the middle of a gore faces the eye. */
const LEAN = 0.4;

/** The finished work; where a tier is given, one gore of it is drawn heavy. */
export const goresScene = (gored: Gored, heavy?: number): Scene => {
  const { ball, form, tiers, crown } = gored;
  const { radius, count } = ball;
  const thickness = gored.thickness > 0 ? gored.thickness : THIN * radius;
  const outer = radius + thickness / 2;
  /** A seam on the outside, `k` gores round from the one that faces +x; seams stand at the halves. */
  const seam = (k: number, [from, to]: readonly [number, number], kind: SurfaceLine['kind']): SurfaceLine => {
    const turn = (2 * Math.PI * k) / count;
    const reach = form === 'rolled' ? 1 / Math.cos(Math.PI / count) : 1;
    const spots = Array.from({ length: STEPS + 1 }, (_, i) => from + ((to - from) * i) / STEPS);
    const out = (latitude: number, wide: number): Vec3 =>
      vec3(
        wide * Math.cos(latitude) * Math.cos(turn),
        wide * Math.cos(latitude) * Math.sin(turn),
        Math.sin(latitude),
      );
    const points = spots.map((latitude) => {
      const { x, y, z } = out(latitude, reach);
      return vec3(outer * x, outer * y, outer * z);
    });
    return { kind, points, normals: spots.map((latitude) => out(latitude, 1)) };
  };
  const parts = tiers.map((tier, i): Part => {
    const name = tiers.length === 1 ? 'gores' : `gores of tier ${i + 1}`;
    const welds =
      form === 'rolled' ? [] : Array.from({ length: count }, (_, k) => seam(k + 0.5, tier, 'weld'));
    return {
      id: name,
      name,
      role: 'work',
      shape: {
        kind: 'turned',
        pose: SCENE_POSE,
        profile: ringProfile(radius, thickness, ...tier),
        ...(form === 'rolled' ? { sides: count } : {}),
      },
      lines: [...welds, ...(heavy === i ? [-0.5, 0.5].map((k) => seam(k, tier, 'seam')) : [])],
    };
  });
  const top = lastOf(tiers)[1];
  return {
    parts: [...parts, ...(crown > 0 ? [crownPart(gored, thickness, top)] : [])],
    views: [
      {
        title: heavy === undefined ? say`The finished work` : say`The finished work, one gore heavy`,
        sight: { right: vec3(0, 1, 0), up: vec3(-Math.sin(LEAN), 0, Math.cos(LEAN)) },
        width: 46,
        height: 46,
        notes: [],
      },
    ],
  };
};

const crownPart = ({ ball: { radius }, form, crown }: Gored, thickness: number, top: number): Part => {
  const foot = (radius + thickness / 2) * Math.sin(top);
  const rim = crown / 2;
  return {
    id: 'crown',
    name: say`crown`,
    role: 'work',
    shape: {
      kind: 'turned',
      pose: SCENE_POSE,
      profile:
        form === 'dished'
          ? ringProfile(radius, thickness, top, QUARTER)
          : [
              { kind: 'line', from: [foot, 0], to: [foot, rim] },
              { kind: 'line', from: [foot, rim], to: [foot + thickness, rim] },
              { kind: 'line', from: [foot + thickness, rim], to: [foot + thickness, 0] },
            ],
    },
  };
};
