import type { Mark, Picture } from '../../../drawing/model.ts';
import { FINE, MEDIUM, polylinePath } from '../../../drawing/shape.ts';
import {
  fitView,
  makePicture,
  sampleCurve,
  viewAngle,
  viewLine,
  viewText,
  type Projection,
  type Sight,
} from '../../../drawing/view.ts';
import { dot3, scale3, vec3, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import { HEADER_AXIS, legMate, seamPoint, type WyeJoint } from './wye-joint.ts';
import { angleBetween, facing, fromFrame, inFrame, type Leg } from './wye-leg.ts';

const TURN = 2 * Math.PI;

/** Axes that lean less than this out of the picture count as lying in it. */
const LEVEL = 1e-9;
const FROM_ABOVE: Sight = { right: vec3(1, 0, 0), up: vec3(0, 1, 0) };

/** Looking along heading 90: the plan's right stays right. */
const FROM_270: Sight = { right: vec3(1, 0, 0), up: vec3(0, 0, 1) };

/** A leg with all that is drawn of it. */
interface DrawnLeg {
  readonly leg: Leg;
  readonly seam: (station: number) => Vec3;
  /** Distance of its tail from the crossing. */
  readonly tail: number;
}

const drawnLegs = (joint: WyeJoint): readonly DrawnLeg[] => {
  const seams = joint.legs.map((leg) => {
    const mate = legMate(joint, leg);
    return (station: number): Vec3 => seamPoint(leg, mate, station) ?? vec3(0, 0, 0);
  });
  const reach = Math.max(
    ...joint.legs.map((leg, i) =>
      Math.max(...sampleCurve(seams[i] as (s: number) => Vec3, 0, TURN, 72).map((p) => dot3(p, leg.out))),
    ),
  );
  return joint.legs.map((leg, i) => ({
    leg,
    seam: seams[i] as (s: number) => Vec3,
    tail: reach + 1.4 * Math.max(...joint.legs.map(({ pipe }) => pipe.od / 2)),
  }));
};

/** The wye seen from above, and from heading 270 where it does not lie flat. */
export const wyePictures = (joint: WyeJoint, setting: Setting): readonly Picture[] => {
  const drawn = drawnLegs(joint);
  const flat = joint.legs.every(({ rise }) => Math.abs(rise) < 1e-9);
  const plan = drawView('Plan, from above', FROM_ABOVE, joint, drawn, setting, true);
  return flat
    ? [plan]
    : [
        plan,
        drawView(
          'Side view, from heading 270° (level, plan’s right on the right)',
          FROM_270,
          joint,
          drawn,
          setting,
          false,
        ),
      ];
};

/** A vector of the sight that points at the eye. */
const towardEye = ({ right, up }: Sight): Vec3 =>
  vec3(right.y * up.z - right.z * up.y, right.z * up.x - right.x * up.z, right.x * up.y - right.y * up.x);

const drawView = (
  title: string,
  sight: Sight,
  joint: WyeJoint,
  drawn: readonly DrawnLeg[],
  setting: Setting,
  isPlan: boolean,
): Picture => {
  const eye = towardEye(sight);
  const reach = Math.max(...drawn.map(({ tail }) => tail));
  const { header } = joint;
  const half = header ? reach * 0.8 + header.od / 2 : 0;
  const corners = drawn.flatMap(({ leg, tail }) => [-1, 1].map((side) => sidePoint(leg, eye, side, tail)));
  const headerCorners = header
    ? [-1, 1].flatMap((end) => [-1, 1].map((side) => headerPoint(header.od / 2, eye, side, end * half)))
    : [];
  const { project, scale } = fitView(sight, [...corners, ...headerCorners, vec3(0, 0, 0)], 52, 50);
  const marks: Mark[] = [];
  // From the back to the front, so that what is nearer covers what lies behind it.
  const depth = ({ leg }: DrawnLeg): number => dot3(leg.out, eye);
  const sorted = [...drawn].sort((a, b) => depth(a) - depth(b));
  const back = sorted.filter((leg) => depth(leg) < -LEVEL);
  for (const leg of back) marks.push(...drawLeg(leg, eye, project, scale));
  if (header) marks.push(...drawHeader(header.od / 2, header.wall, eye, half, project, scale));
  for (const leg of sorted.slice(back.length)) marks.push(...drawLeg(leg, eye, project, scale));
  const o = project(vec3(0, 0, 0));
  if (isPlan) marks.push(...planAngles(joint, o, 0.74 * reach * scale));
  for (const { leg, tail } of drawn) {
    const [a, b] = [project(fromAxis(leg, tail)), o];
    const length = Math.hypot(a.x - b.x, a.y - b.y);
    const away: Vec2 = length > 2 ? { x: (a.x - b.x) / length, y: (a.y - b.y) / length } : { x: 0, y: 0 };
    const at = { x: a.x + away.x * 6, y: a.y + away.y * 6 };
    const align = away.x > 0.4 ? 'left' : away.x < -0.4 ? 'right' : 'centre';
    const [name, size] = align !== 'centre' ? [1.9, -1.9] : away.y < 0 ? [0, -3.8] : [3.8, 0];
    marks.push(
      ...viewText({ x: at.x, y: at.y + name }, `Leg ${leg.number}`, align, true),
      ...viewText({ x: at.x, y: at.y + size }, `⌀${writeShort(leg.pipe.od, setting)}`, align),
    );
    if (!isPlan && Math.abs(leg.rise) > 1e-9 && length > 12)
      marks.push(
        ...viewText(
          { x: b.x + away.x * length * 0.62, y: b.y + away.y * length * 0.62 },
          `${leg.rise > 0 ? 'up' : 'down'} ${formatAngle(Math.abs(leg.rise))}`,
        ),
      );
  }
  return makePicture(title, marks);
};

const fromAxis = (leg: Leg, along: number): Vec3 => scale3(leg.out, along);

/** A point of a leg's outside on the outline that the eye sees; `side` 1 is to the left of one looking out along it. */
const sidePoint = (leg: Leg, eye: Vec3, side: number, along: number, radius = leg.pipe.od / 2): Vec3 => {
  const station = outlineStation(leg, eye, side);
  return fromFrame(leg, vec3(radius * Math.cos(station), radius * Math.sin(station), -along));
};

/** The station at a leg's outline: a quarter turn from the line that faces the eye. */
const outlineStation = (leg: Leg, eye: Vec3, side: number): number => {
  const v = inFrame(leg, eye);
  const face = Math.hypot(v.x, v.y) < 1e-9 ? 0 : Math.atan2(v.y, v.x);
  return face + (side * TURN) / 4;
};

const drawLeg = ({ leg, seam, tail }: DrawnLeg, eye: Vec3, project: Projection, scale: number): Mark[] => {
  const face = outlineStation(leg, eye, 1) - TURN / 4;
  const near = sampleCurve(seam, face - TURN / 4, face + TURN / 4);
  const far = sampleCurve(seam, face + TURN / 4, face + (3 * TURN) / 4);
  const bore = leg.pipe.od / 2 - leg.pipe.wall;
  const seen = (points: readonly Vec3[]): number =>
    Math.max(
      ...points.map(project).map((p, i) => {
        const q = project(far[far.length - 1 - i] as Vec3);
        return Math.hypot(p.x - q.x, p.y - q.y);
      }),
    );
  const tailRing = sampleCurve(
    (station) =>
      fromFrame(
        leg,
        vec3((leg.pipe.od / 2) * Math.cos(station), (leg.pipe.od / 2) * Math.sin(station), -tail),
      ),
    0,
    TURN,
  );
  const isLevel = Math.abs(dot3(leg.out, eye)) < LEVEL;
  return [
    ...(isLevel
      ? []
      : [
          cover(project, [...near, sidePoint(leg, eye, 1, tail), sidePoint(leg, eye, -1, tail)]),
          cover(project, tailRing),
        ]),
    ...[1, -1].map((side) => {
      const station = outlineStation(leg, eye, side);
      return viewLine(project, [sidePoint(leg, eye, side, tail), seam(station)]);
    }),
    ...[1, -1].map((side) => {
      const end = dot3(seam(outlineStation(leg, eye, side)), leg.out);
      return viewLine(
        project,
        [sidePoint(leg, eye, side, tail, bore), sidePoint(leg, eye, side, end, bore)],
        'dashed',
      );
    }),
    viewLine(project, isLevel ? [sidePoint(leg, eye, 1, tail), sidePoint(leg, eye, -1, tail)] : tailRing),
    viewLine(project, [fromAxis(leg, tail + 3 / scale), vec3(0, 0, 0)], 'long-dash-dot'),
    ...(seen(near) > 0.3 ? [viewLine(project, far, 'dashed', FINE)] : []),
    viewLine(project, near, 'continuous', MEDIUM),
  ];
};

/** White over what lies behind. */
const cover = (project: Projection, points: readonly Vec3[]): Mark => ({
  kind: 'fill',
  role: 'dimension',
  ink: 'white',
  path: polylinePath(points.map(project), true),
});

const headerPoint = (radius: number, eye: Vec3, side: number, along: number): Vec3 => {
  const across = vec3(0, -eye.z, eye.y);
  return vec3(along, side * radius * across.y, side * radius * across.z);
};

const drawHeader = (
  radius: number,
  wall: number,
  eye: Vec3,
  half: number,
  project: Projection,
  scale: number,
): Mark[] => {
  const line = (side: number, r: number): readonly Vec3[] => [
    headerPoint(r, eye, side, -half),
    headerPoint(r, eye, side, half),
  ];
  const ends = (side: number): readonly Vec3[] => line(side, radius);
  return [
    cover(project, [...ends(1), ...[...ends(-1)].reverse()]),
    ...[1, -1].map((side) => viewLine(project, ends(side), 'long-dash-double-dot', FINE)),
    ...[1, -1].map((side) => viewLine(project, line(side, radius - wall), 'dashed')),
    ...[-half, half].map((at) =>
      viewLine(project, [headerPoint(radius, eye, 1, at), headerPoint(radius, eye, -1, at)]),
    ),
    viewLine(
      project,
      [scale3(HEADER_AXIS, -half - 3 / scale), scale3(HEADER_AXIS, half + 3 / scale)],
      'long-dash-dot',
    ),
  ];
};

/** The angles between neighbouring headings, round the plan; between the axes themselves where they lie flat. */
const planAngles = ({ legs, header }: WyeJoint, o: Vec2, radius: number): Mark[] => {
  const wrap = (angle: number): number => ((angle % TURN) + TURN) % TURN;
  const level = legs.filter(({ rise }) => Math.abs(rise) < TURN / 4 - 1e-6);
  const headings = [...level.map(({ heading }) => wrap(heading)), ...(header ? [0] : [])].sort(
    (a, b) => a - b,
  );
  const spread = headings.length > 2 || header ? headings : headings.slice(0, 2);
  return spread.flatMap((from, i) => {
    const to = spread[(i + 1) % spread.length] as number;
    const angle = wrap(to - from);
    if (angle < 1e-6 || angle > Math.PI + 1e-9 || (header && from >= Math.PI - 1e-9)) return [];
    return viewAngle(o, radius, from, from + angle, formatAngle(angle));
  });
};

/** Names of a leg's quarter lines: the top, and the neighbour that each side faces. */
export const legWords = ({ legs, header }: WyeJoint, leg: Leg): readonly [string, string, string, string] => {
  const bodies = [
    ...legs.filter((other) => other !== leg).map(({ number, out }) => ({ name: `TO LEG ${number}`, out })),
    ...(header ? [1, -1].map((end) => ({ name: 'TO HEADER', out: scale3(HEADER_AXIS, end) })) : []),
  ];
  const toward = (station: number): string => {
    const there = bodies
      .filter(({ out }) => Math.abs(Math.cos(facing(leg, out) - station) - 1) < 1e-6)
      .filter(({ out }) => angleBetween(leg.out, out) < Math.PI - 1e-6)
      .sort((a, b) => angleBetween(leg.out, a.out) - angleBetween(leg.out, b.out));
    return there[0]?.name ?? 'SIDE';
  };
  const upright = Math.abs(Math.abs(leg.rise) - TURN / 4) < 1e-9;
  return [
    upright ? 'TDC' : 'TOP · TDC',
    toward(TURN / 4),
    upright ? toward(TURN / 2) : 'BOTTOM',
    toward((3 * TURN) / 4),
  ];
};
