import type { RollingOffset } from '../../../geometry/rolling-offset.ts';
import {
  add3,
  cross3,
  dot3,
  scale3,
  sub3,
  unit3,
  vec3,
  type Vec2,
  type Vec3,
} from '../../../geometry/vector.ts';
import type { Note, Part, Scene, View } from '../../../scene/scene.ts';
import { angleNote, labelNote, lengthNote } from '../../../scene/scene.ts';
import { poseAlong, type Pose, type Shape } from '../../../scene/shape.ts';
import type { Sight } from '../../../scene/sight.ts';
import { stockShape, type FittedCut, type StockCut } from '../../../scene/stock-shape.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { writeAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeShort } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { type Fitting } from './rolling-offset-solve.ts';

/** Along both runs; the second lies `set` up and `roll` to the right of one who looks this way. */
const AHEAD = vec3(1, 0, 0);
const UP = vec3(0, 0, 1);
const RIGHT = vec3(0, -1, 0);
const START = vec3(0, 0, 0);

/** Where the centers of both turns lie, and the directions between them. */
const layOut = ({ set, roll, run }: RollingOffset) => {
  const end = vec3(run, -roll, set);
  const across = sub3(end, scale3(AHEAD, run));
  return { end, way: unit3(end), aside: unit3(across) };
};

/** The runs, the turns and the travel, square to their plane and along the first run. */
export const offsetScene = (
  solved: RollingOffset,
  fitting: Fitting,
  pipe: Pipe,
  cut: number,
  setting: Setting,
): Scene => {
  const { end, aside } = layOut(solved);
  const tail =
    fitting.takeOff + 0.75 * pipe.od + (fitting.elbow ? 0 : (pipe.od / 2) * Math.tan(solved.turn / 2));
  const axis: Note = {
    kind: 'center',
    points: [scale3(AHEAD, -tail), START, end, add3(end, scale3(AHEAD, tail))],
  };
  return {
    parts: fitting.elbow ? fittedParts(solved, fitting, pipe, tail) : miteredParts(solved, pipe, tail),
    views: [
      trueView(solved, fitting, pipe, cut, [axis], { right: AHEAD, up: aside }, setting),
      alongRun(solved, pipe, setting),
    ],
  };
};

const straight = (pipe: Pipe, from: Vec3, to: Vec3): Shape => {
  const run = sub3(to, from);
  const length = Math.sqrt(dot3(run, run));
  return {
    kind: 'cone',
    pose: poseAlong(from, run),
    circles: [0, length].map((z) => ({
      at: vec3(0, 0, z),
      radius: pipe.od / 2,
      bore: pipe.od / 2 - pipe.wall,
    })),
  };
};

const fittedParts = (
  solved: RollingOffset,
  { takeOff }: Fitting,
  pipe: Pipe,
  tail: number,
): readonly Part[] => {
  const { end, way } = layOut(solved);
  const elbow = (corner: Vec3, legs: readonly [Vec3, Vec3]): Shape => ({
    kind: 'bend',
    corner,
    legs,
    bendRadius: takeOff / Math.tan(solved.turn / 2),
    radius: pipe.od / 2,
    bore: pipe.od / 2 - pipe.wall,
    lengths: [takeOff, takeOff],
  });
  const on = (from: Vec3, along: Vec3, by: number): Vec3 => add3(from, scale3(along, by));
  const back = scale3(way, -1);
  return [
    {
      id: 'first run',
      name: say`first run`,
      role: 'mate',
      shape: straight(pipe, on(START, AHEAD, -tail), on(START, AHEAD, -takeOff)),
    },
    {
      id: 'first elbow',
      name: say`first elbow`,
      role: 'mate',
      shape: elbow(START, [scale3(AHEAD, -1), way]),
    },
    ...(solved.travel > 2 * takeOff
      ? [
          {
            id: 'travel',
            name: say`travel`,
            role: 'work' as const,
            shape: straight(pipe, on(START, way, takeOff), on(end, way, -takeOff)),
          },
        ]
      : []),
    { id: 'second elbow', name: say`second elbow`, role: 'mate', shape: elbow(end, [back, AHEAD]) },
    {
      id: 'second run',
      name: say`second run`,
      role: 'mate',
      shape: straight(pipe, on(end, AHEAD, takeOff), on(end, AHEAD, tail)),
    },
  ];
};

/** A cut in a plane through a point of the axis, in a pose's own axes. */
const planeCut = (pipe: Pipe, { origin, x, y, z }: Pose, through: Vec3, normal: Vec3): FittedCut => {
  const [nx, ny, nz] = [dot3(normal, x), dot3(normal, y), dot3(normal, z)];
  const level = dot3(sub3(through, origin), normal) / nz;
  const over = (p: Vec2): number => level - (nx * p.x + ny * p.y) / nz;
  return { over, around: (s) => over(pipe.outline.at(s, 0)) };
};

const miteredParts = (solved: RollingOffset, pipe: Pipe, tail: number): readonly Part[] => {
  const { end, way, aside } = layOut(solved);
  const seam = unit3(add3(AHEAD, way));
  const poseOn = (origin: Vec3, z: Vec3): Pose => {
    const y = unit3(cross3(AHEAD, aside));
    return { origin, x: cross3(y, z), y, z };
  };
  const part = (name: string, role: Part['role'], pose: Pose, from: StockCut, to: StockCut): Part => ({
    id: name,
    name,
    role,
    shape: stockShape(pipe, pose, from, to),
  });
  const [first, travel, second] = [poseOn(START, AHEAD), poseOn(START, way), poseOn(end, AHEAD)];
  return [
    part(say`first run`, 'mate', first, -tail, planeCut(pipe, first, START, seam)),
    part('travel', 'work', travel, planeCut(pipe, travel, START, seam), planeCut(pipe, travel, end, seam)),
    part(say`second run`, 'mate', second, planeCut(pipe, second, end, seam), tail),
  ];
};

const trueView = (
  solved: RollingOffset,
  { elbow, takeOff }: Fitting,
  pipe: Pipe,
  cut: number,
  axis: readonly Note[],
  sight: Sight,
  setting: Setting,
): View => {
  const { end, way } = layOut(solved);
  const beside = cross3(cross3(sight.right, sight.up), way);
  const r = pipe.od / 2;
  const off = (p: Vec3, by: number): Vec3 => add3(p, scale3(beside, by));
  const [cutStart, cutEnd] = [scale3(way, takeOff), sub3(end, scale3(way, takeOff))];
  return {
    title: say`True view, square to the plane of both runs`,
    sight,
    width: 74,
    height: 44,
    notes: [
      ...axis,
      lengthNote(START, end, say`travel ${writeShort(solved.travel, setting)}`, beside),
      ...(elbow && solved.travel > 2 * takeOff
        ? [
            lengthNote(
              off(cutStart, -r),
              off(cutEnd, -r),
              say`cut ${writeShort(cut, setting)}`,
              scale3(beside, -1),
            ),
          ]
        : []),
      ...(elbow
        ? [
            lengthNote(
              add3(scale3(AHEAD, -takeOff), scale3(sight.up, -r)),
              scale3(sight.up, -r),
              writeShort(takeOff, setting),
              scale3(sight.up, -1),
            ),
          ]
        : []),
      { kind: 'line', points: [end, add3(end, scale3(way, 1.2 * pipe.od))] },
      angleNote(end, AHEAD, way, say`turn ${writeAngle(solved.turn)}`),
    ],
  };
};

const alongRun = (
  { set, roll, offset, rollAngle, run }: RollingOffset,
  pipe: Pipe,
  setting: Setting,
): View => {
  const far = vec3(run, -roll, set);
  const r = pipe.od / 2;
  const arms = (at: Vec3): readonly Note[] =>
    [UP, RIGHT].map((arm): Note => ({
      kind: 'center',
      points: [add3(at, scale3(arm, -r)), add3(at, scale3(arm, r))],
    }));
  const lengths: readonly Note[] = [
    ...(set > 0 ? [lengthNote(START, far, say`set ${writeShort(set, setting)}`, scale3(RIGHT, -1), UP)] : []),
    ...(roll > 0
      ? [lengthNote(START, far, say`roll ${writeShort(roll, setting)}`, scale3(UP, -1), RIGHT)]
      : []),
  ];
  return {
    title: say`Looking along the first run, plumb up`,
    sight: { right: RIGHT, up: UP },
    width: 46,
    height: 46,
    notes: [
      ...arms(START),
      ...arms(far),
      { kind: 'center', points: [START, far] },
      ...lengths,
      ...(rollAngle > 0.05 && rollAngle < Math.PI / 2 - 1e-9
        ? [angleNote(START, UP, vec3(0, -roll, set), writeAngle(rollAngle))]
        : []),
      labelNote(START, say`true offset ${writeShort(offset, setting)}`, {
        along: far,
        toward: vec3(0, -set, -roll),
      }),
      labelNote(add3(START, scale3(UP, -r)), say`first run`, { toward: vec3(0, -1, -1) }),
      labelNote(add3(far, scale3(UP, r)), say`second run`, { toward: vec3(0, -1, 1) }),
    ],
  };
};

/** Longest and shortest edge of the sketched box, mm. */
const LONG = 70;
const SHORT = 20;
/** From beside the first run, above and a little behind. */
const EYE = unit3(vec3(-0.45, -0.75, 0.5));
const FROM_ABOVE: Sight = sightFrom(EYE);

/** The sight with plumb lines upright. */
function sightFrom(eye: Vec3): Sight {
  const right = unit3(cross3(UP, eye));
  return { right, up: cross3(eye, right) };
}

/**
 * The offset as a box seen from the side and above, set up, roll to the right of one who looks along the first run. Not to scale: its
 * edges keep their order, none too short to letter.
 */
export const boxScene = (solved: RollingOffset, setting: Setting): Scene => {
  const { set, roll, run, travel, offset, turn } = solved;
  const scale = LONG / Math.max(set, roll, run);
  const edge = (length: number): number => (length < 1e-9 ? 0 : Math.max(SHORT, length * scale));
  const [x, y, z] = [edge(run), edge(roll), edge(set)];
  const at = (a: number, b: number, c: number): Vec3 => vec3(a * x, -b * y, c * z);
  const [o, corner, far, end] = [at(0, 0, 0), at(1, 0, 0), at(1, 1, 0), at(1, 1, 1)];
  const tail = 18;
  const box: readonly (readonly [Vec3, Vec3])[] = [
    [o, at(0, 1, 0)],
    [o, at(0, 0, 1)],
    [at(0, 1, 0), far],
    [at(0, 1, 0), at(0, 1, 1)],
    [at(0, 0, 1), at(0, 1, 1)],
    [at(0, 0, 1), at(1, 0, 1)],
    [at(0, 1, 1), end],
    [corner, at(1, 0, 1)],
    [at(1, 0, 1), end],
  ];
  const middle = (a: Vec3, b: Vec3): Vec3 => scale3(add3(a, b), 0.5);
  const dimension = (a: Vec3, b: Vec3, text: string, toward: Vec3, bold = false): Note =>
    labelNote(middle(a, b), text, { along: b, toward, bold });
  const line = (a: Vec3, b: Vec3, style?: 'dashed' | 'bold'): Note => ({
    kind: 'line',
    points: [a, b],
    ...(style && { style }),
  });
  const down = scale3(UP, -1);
  const notes: readonly Note[] = [
    ...box.filter(([a, b]) => dot3(sub3(a, b), sub3(a, b)) > 1).map(([a, b]) => line(a, b, 'dashed')),
    line(o, corner),
    line(corner, far),
    line(far, end),
    line(sub3(o, scale3(AHEAD, tail)), o, 'bold'),
    line(o, end, 'bold'),
    line(end, add3(end, scale3(AHEAD, tail)), 'bold'),
    dimension(o, corner, say`run ${writeBoth(run, setting)}`, down),
    ...(roll > 0 ? [dimension(corner, far, say`roll ${writeBoth(roll, setting)}`, AHEAD)] : []),
    ...(set > 0 ? [dimension(far, end, say`set ${writeBoth(set, setting)}`, AHEAD)] : []),
    dimension(o, end, say`travel ${writeBoth(travel, setting)}`, UP, true),
    labelNote(o, say`turn ${writeAngle(turn)}`, { toward: vec3(-1, 0, 1) }),
    labelNote(end, say`turn ${writeAngle(turn)}`, { toward: vec3(1, 0, 1) }),
    ...(set > 0 && roll > 0
      ? [
          { kind: 'center' as const, points: [corner, end], past: 0 },
          dimension(corner, end, say`true offset ${writeBoth(offset, setting)}`, AHEAD),
        ]
      : []),
  ];
  const whole = [o, corner, far, end, at(0, 1, 1), at(0, 0, 1), at(1, 0, 1), at(0, 1, 0)];
  const ends = [sub3(o, scale3(AHEAD, tail)), add3(end, scale3(AHEAD, tail))];
  return {
    parts: [],
    views: [
      {
        title: say`The offset from the side and above`,
        sight: FROM_ABOVE,
        width: 100,
        height: 75,
        around: [...whole, ...ends],
        notes,
      },
    ],
  };
};
