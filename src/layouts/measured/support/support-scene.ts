import { itemAround } from '../../../lists.ts';
import type { SectionEdge } from '../../../geometry/section.ts';
import { cross3, scale3, vec3, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import type { Part, Scene } from '../../../scene/scene.ts';
import { lengthNote } from '../../../scene/scene.ts';
import { poseAlong, SCENE_POSE, type Pose } from '../../../scene/shape.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { Cradle } from './cradle.ts';

/** A support as it stands: the pipe level, its axis along y, z up, the origin in the pipe's center over the plate's middle. */
export interface Standing {
  readonly kind: 'saddle' | 'shoe' | 'lug';
  readonly pipe: Pipe;
  readonly width: number;
  readonly height: number;
  readonly thickness: number;
  readonly cradle: number;
  readonly angle: number;
  readonly baseLength: number;
  readonly pin: { readonly at: Vec2; readonly radius: number } | undefined;
}

/** Steps along a cradle so short that its facets run on smoothly. */
const STEP = Math.PI / 210;

const UP = vec3(0, 0, 1);

const closed = (points: readonly Vec2[]): readonly SectionEdge[] =>
  points.map((from, i) => ({
    kind: 'line',
    from,
    to: itemAround(points, i + 1),
    face: 'edge',
  }));

/** The plate's outline in its own frame, the pipe's center at the origin. */
const plateEdges = ({ across, down, shift, end }: Cradle, { width, height, cradle }: Standing) => {
  const half = width / 2;
  const steps = Math.ceil(cradle / 2 / STEP);
  const side = (sign: 1 | -1): readonly Vec2[] =>
    Array.from({ length: steps + 1 }, (_, i) => {
      const t = (cradle / 2) * (1 - i / steps);
      return { x: sign * (shift + across * Math.sin(t)), y: -down * Math.cos(t) };
    });
  const left = [...side(-1)].reverse();
  const tips = half - end.x > 1e-9 ? [{ x: half, y: end.y }] : [];
  return closed([
    { x: -half, y: -height },
    { x: half, y: -height },
    ...tips,
    ...side(1),
    ...(shift > 1e-9 ? left : left.slice(1)),
    ...tips.map(({ x, y }) => ({ x: -x, y })),
  ]);
};

const platePart = (standing: Standing, shape: Cradle, up: Vec3): Part => {
  const { kind, angle, thickness, pin } = standing;
  const along = vec3(Math.sin(angle), Math.cos(angle), 0);
  const pose: Pose = { origin: vec3(0, 0, 0), x: along, y: up, z: cross3(along, up) };
  const inside =
    pin && ({ kind: 'arc', centre: pin.at, radius: pin.radius, start: 0, sweep: 2 * Math.PI } as const);
  return {
    id: 'support',
    name: kind === 'lug' ? 'lug' : 'cradle plate',
    role: 'work',
    shape: {
      kind: 'prism',
      pose,
      section: {
        outside: plateEdges(shape, standing),
        ...(inside && { inside: [{ ...inside, face: 'pin hole' }] }),
        thickness,
      },
      start: -thickness / 2,
      end: thickness / 2,
    },
  };
};

/** A shoe's base plate, under the foot of its cradle plate. */
const basePart = ({ width, baseLength, height, thickness }: Standing): Part => {
  const [x, y] = [width / 2, baseLength / 2];
  return {
    id: 'support base',
    name: say`base plate`,
    role: 'work',
    shape: {
      kind: 'prism',
      pose: SCENE_POSE,
      section: {
        outside: closed([
          { x: -x, y: -y },
          { x, y: -y },
          { x, y },
          { x: -x, y },
        ]),
        thickness,
      },
      start: -height - thickness,
      end: -height,
    },
  };
};

const TITLES = (): Readonly<Record<Standing['kind'], string>> => ({
  saddle: say`The plate under the pipe`,
  shoe: say`The shoe under the pipe`,
  lug: say`The lug on the pipe`,
});

/** The support on its pipe. */
export const supportScene = (standing: Standing, shape: Cradle, setting: Setting): Scene => {
  const { kind, pipe, width, height, angle, baseLength } = standing;
  // A lug stands on the pipe, everything else under it.
  const up = kind === 'lug' ? scale3(UP, -1) : UP;
  const reach =
    Math.max((width / 2) * Math.cos(angle), kind === 'shoe' ? baseLength / 2 : 0) + 0.45 * pipe.od;
  const bore = pipe.od / 2 - pipe.wall;
  return {
    parts: [
      platePart(standing, shape, up),
      ...(kind === 'shoe' ? [basePart(standing)] : []),
      {
        id: 'pipe',
        name: say`pipe`,
        role: 'mate',
        shape: {
          kind: 'cone',
          pose: poseAlong(vec3(0, -reach, 0), vec3(0, 1, 0)),
          circles: [0, 2 * reach].map((z) => ({ at: vec3(0, 0, z), radius: pipe.od / 2, bore })),
        },
      },
    ],
    views: [
      {
        title: TITLES()[kind],
        sight: { right: vec3(0.87, 0.5, 0), up: vec3(-0.19, 0.33, 0.925) },
        width: 50,
        height: 50,
        notes: [
          lengthNote(
            vec3(0, -reach, 0),
            vec3(0, -reach, -height * up.z),
            writeShort(height, setting),
            vec3(-1, 0, 0),
            UP,
          ),
        ],
      },
    ],
  };
};
