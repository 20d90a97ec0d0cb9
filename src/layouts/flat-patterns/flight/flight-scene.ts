import { TURN } from '../../../geometry/angle-units.ts';
import type { Flight } from '../../../geometry/flight.ts';
import { itemAt } from '../../../lists.ts';
import { cross3, unit3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import type { Part, Scene, SurfaceLine } from '../../../scene/scene.ts';
import { SCENE_POSE, type ShellRule } from '../../../scene/shape.ts';
import { THIN } from '../../../sheets/shell-scene.ts';
import { say } from '../../../words/say.ts';

/** Lines across one turn, and steps along each. */
const STEPS = 96;
const ACROSS = 5;

/** More turns than this make the picture small and say no more. */
const SHOWN = 3;

/** A screw of flights on its pipe. */
export interface Screw extends Flight {
  readonly turns: number;
  readonly hand: 'left' | 'right';
  readonly thickness: number;
}

/** The line across the flight so many turns from its start, square to the axis, with the surface's normals at both its ends. */
const ruleAt = ({ pipe, outside, pitch, hand }: Screw, turns: number): ShellRule => {
  const sense = hand === 'right' ? 1 : -1;
  const angle = sense * TURN * turns;
  const out = vec3(Math.cos(angle), Math.sin(angle), 0);
  const at = (radius: number): Vec3 => vec3(radius * out.x, radius * out.y, pitch * turns);
  const normal = (radius: number): Vec3 =>
    unit3(cross3(vec3(-sense * radius * out.y, sense * radius * out.x, pitch / TURN), out));
  const along = Array.from({ length: ACROSS + 1 }, (_, i) =>
    normal((pipe + ((outside - pipe) * i) / ACROSS) / 2),
  );
  const before = itemAt(along, 0);
  return { foot: at(pipe / 2), head: at(outside / 2), before, after: before, along };
};

/** The screw on its pipe, its axis level; no more turns than say something. */
export const flightScene = (screw: Screw): Scene => {
  const { pipe, outside, pitch, turns, hand } = screw;
  const shown = Math.min(turns, SHOWN);
  const thickness = screw.thickness > 0 ? screw.thickness : THIN * outside;
  const seam = (turn: number): SurfaceLine => {
    const { foot, head, after, along = [] } = ruleAt(screw, turn);
    return { kind: 'seam', points: [foot, head], normals: [after, along.at(-1) ?? after] };
  };
  const flights = Array.from({ length: shown }, (_, k): Part => ({
    id: shown === 1 ? 'flight' : `flight ${k + 1}`,
    name: shown === 1 ? 'flight' : `flight ${k + 1}`,
    role: 'work',
    shape: {
      kind: 'shell',
      open: true,
      rules: Array.from({ length: STEPS + 1 }, (_, i) => ruleAt(screw, k + i / STEPS)),
      thickness,
    },
    lines: k === 0 ? [] : [seam(k)],
  }));
  const past = 0.3 * Math.max(pitch, pipe);
  return {
    parts: [
      ...flights,
      {
        id: 'pipe',
        name: say`pipe`,
        role: 'mate',
        shape: {
          kind: 'cone',
          pose: SCENE_POSE,
          circles: [-past, shown * pitch + past].map((z) => ({ at: vec3(0, 0, z), radius: pipe / 2 })),
        },
      },
    ],
    views: [
      {
        title:
          shown < turns
            ? say`${shown} of ${turns} turns, ${hand === 'right' ? say`right` : say`left`} hand`
            : say`The finished screw, ${hand === 'right' ? say`right` : say`left`} hand`,
        sight: { right: vec3(0, 0.35, 0.9367), up: vec3(1, 0, 0) },
        width: 64,
        height: 46,
        notes: [],
      },
    ],
  };
};
