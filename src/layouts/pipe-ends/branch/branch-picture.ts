import type { Mark, Picture } from '../../../drawing/model.ts';
import { FINE } from '../../../drawing/shape.ts';
import {
  fitView,
  makePicture,
  sampleCurve,
  viewAngle,
  viewDimension,
  viewLine,
  viewText,
  type Projection,
  type Sight,
} from '../../../drawing/view.ts';
import { circleOutline } from '../../../geometry/outline.ts';
import { reachAt } from '../../../geometry/reach.ts';
import { SAME_LENGTH } from '../../../geometry/tolerance.ts';
import { add3, scale3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import { formatAngle } from '../../../units/angle.ts';
import { headerMate, seatRadius, type BranchJoint } from './branch-joint.ts';
import { quarterWords } from '../../../joint/quarter-words.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';

const TURN = 2 * Math.PI;

/** The joint's bodies in the branch's stock frame, as lines to look at from any side. */
interface Bodies {
  /** Header axis, and the direction from it toward the branch, square to it. */
  readonly d: Vec3;
  readonly u: Vec3;
  readonly on: (along: number, toward: number, across: number) => Vec3;
  /** A point of the cut end at station `angle`. */
  readonly cut: (angle: number) => Vec3;
  readonly tail: (angle: number, radius: number) => Vec3;
  readonly tailZ: number;
  readonly ends: readonly [number, number];
}

const buildBodies = (joint: BranchJoint): Bodies => {
  const { branch, header, angle, offset } = joint;
  const d = vec3(Math.sin(angle), 0, Math.cos(angle));
  const u = vec3(Math.cos(angle), 0, -Math.sin(angle));
  const r = branch.od / 2;
  const outline = circleOutline(r, branch.wall);
  const mate = headerMate(joint);
  const cut = (station: number): Vec3 => {
    const p = outline.at(station * r, 0);
    const reach = reachAt(outline, mate, 'od', station * r);
    return vec3(p.x, p.y, reach?.z ?? 0);
  };
  const rim = sampleCurve(cut, 0, TURN);
  const along = rim.map((p) => p.x * d.x + p.z * d.z);
  const size = Math.max(header.od * 0.35, r * 1.2);
  const clear = (header.od / 2 + size) / Math.sin(angle);
  return {
    d,
    u,
    on: (a, t, y) => add3(vec3(0, offset + y, 0), add3(scale3(d, a), scale3(u, t))),
    cut,
    tail: (station, radius) => vec3(radius * Math.cos(station), radius * Math.sin(station), -clear - r),
    tailZ: -clear - r,
    ends: [Math.min(...along, -0.2 * r) - size * 0.8, Math.max(...along, 0.2 * r) + size * 0.8],
  };
};

/** Side view from station 90 and end view from the crotch side, from the geometry the template is cut by. */
export const branchPictures = (joint: BranchJoint, setting: Setting): readonly Picture[] => {
  const bodies = buildBodies(joint);
  return [sideView(joint, bodies, setting), endView(joint, bodies, setting)];
};

const rimLines = (
  joint: BranchJoint,
  { cut }: Bodies,
  project: Projection,
  visibleFrom: number,
  bothSidesAlike: boolean,
): Mark[] => {
  const near = sampleCurve(cut, visibleFrom, visibleFrom + TURN / 2);
  const far = sampleCurve(cut, visibleFrom + TURN / 2, visibleFrom + TURN);
  const near_ = joint.set === 'in' ? 'dashed' : 'continuous';
  return [
    viewLine(project, near, near_, near_ === 'dashed' ? FINE : 0.5),
    ...(bothSidesAlike ? [] : [viewLine(project, far, 'dashed')]),
  ];
};

const sideView = (joint: BranchJoint, bodies: Bodies, setting: Setting): Picture => {
  const { branch, header, angle, offset } = joint;
  const { d, u, on, cut, tail, tailZ, ends } = bodies;
  const [R, bore, r] = [header.od / 2, header.od / 2 - header.wall, branch.od / 2];
  const sight: Sight = { right: d, up: u };
  const frame = [on(ends[0], -R, 0), on(ends[1], R, 0), tail(0, r), tail(Math.PI, r)];
  const { project, scale } = fitView(sight, frame, 52, 46);
  const inner = r - branch.wall;
  const seat = (x: number): Vec3 => ({ ...cut(x > 0 ? 0 : Math.PI) });
  const side = (x: number): readonly Vec3[] => [vec3(x, 0, tailZ), vec3(x, 0, seat(x).z)];
  const topBreak = [cut(0), cut(Math.PI)].map((p) => p.x * d.x + p.z * d.z).sort((a, b) => a - b) as [
    number,
    number,
  ];
  const covered = Math.abs(offset) < r;
  const marks: Mark[] = [
    ...(covered
      ? [
          viewLine(project, [on(ends[0], R, 0), on(topEdge(joint, topBreak[0], -1), R, 0)]),
          viewLine(project, [on(topEdge(joint, topBreak[1], 1), R, 0), on(ends[1], R, 0)]),
        ]
      : [viewLine(project, [on(ends[0], R, 0), on(ends[1], R, 0)])]),
    viewLine(project, [on(ends[0], -R, 0), on(ends[1], -R, 0)]),
    viewLine(project, [on(ends[0], -R, 0), on(ends[0], R, 0)]),
    viewLine(project, [on(ends[1], -R, 0), on(ends[1], R, 0)]),
    viewLine(project, [on(ends[0], bore, 0), on(ends[1], bore, 0)], 'dashed'),
    viewLine(project, [on(ends[0], -bore, 0), on(ends[1], -bore, 0)], 'dashed'),
    viewLine(project, [on(ends[0] - 3 / scale, 0, 0), on(ends[1] + 3 / scale, 0, 0)], 'long-dash-dot'),
    ...joinSide(project, side(r), joint),
    ...joinSide(project, side(-r), joint),
    viewLine(project, [vec3(inner, 0, tailZ), vec3(inner, 0, cut(0).z)], 'dashed'),
    viewLine(project, [vec3(-inner, 0, tailZ), vec3(-inner, 0, cut(Math.PI).z)], 'dashed'),
    viewLine(project, [vec3(r, 0, tailZ), vec3(-r, 0, tailZ)]),
    viewLine(project, [vec3(0, 0, tailZ - 4 / scale), vec3(0, 0, 3 / scale)], 'long-dash-dot'),
    ...rimLines(joint, bodies, project, 0, Math.abs(offset) < SAME_LENGTH),
  ];
  const words = quarterWords(angle).map((word) => word.replace(' · TDC', '').toLowerCase());
  const upper = (x: number): { x: number; y: number } =>
    project(vec3(x, 0, tailZ * 0.72 + cut(x > 0 ? 0 : Math.PI).z * 0.28));
  const slant = Math.cos(angle) > 0.05 ? 0.8 : 0;
  marks.push(
    ...viewText({ x: upper(r).x + 1.6, y: upper(r).y + slant }, `0° ${words[0] ?? ''}`, 'left', true),
    ...viewText({ x: upper(-r).x - 1.6, y: upper(-r).y - slant }, `180° ${words[2] ?? ''}`, 'right'),
  );
  const o = project(on(0, 0, -offset));
  const radius = Math.min(R * scale * 0.8, 15);
  marks.push(...viewAngle(o, radius, Math.PI - angle, Math.PI, formatAngle(angle)));
  const at = (p: Vec3) => project(p);
  marks.push(
    ...viewDimension(at(on(ends[1], -R, 0)), at(on(ends[1], R, 0)), -4, `⌀${writeShort(header.od, setting)}`),
    ...viewDimension(at(vec3(-r, 0, tailZ)), at(vec3(r, 0, tailZ)), 4, `⌀${writeShort(branch.od, setting)}`),
  );
  return makePicture('Side view, from station 90', marks);
};

/** Where the header's top line meets the branch's side. */
const topEdge = (joint: BranchJoint, fallback: number, sign: 1 | -1): number => {
  const { branch, header, angle, offset } = joint;
  const half = Math.sqrt(Math.max(0, (branch.od / 2) ** 2 - offset ** 2));
  const at = -(header.od / 2) / Math.tan(angle) + (sign * half) / Math.sin(angle);
  return Number.isFinite(at) ? at : fallback;
};

/** One side line of the branch; inside the header's wall a set-in branch is hidden. */
const joinSide = (project: Projection, line: readonly Vec3[], joint: BranchJoint): Mark[] => {
  const [tail, end] = line as [Vec3, Vec3];
  if (joint.set === 'on') return [viewLine(project, [tail, end])];
  const depth = joint.header.od / 2 - seatRadius(joint);
  const surface = vec3(end.x, end.y, end.z - depth / Math.sin(joint.angle));
  return [viewLine(project, [tail, surface]), viewLine(project, [surface, end], 'dashed')];
};

const endView = (joint: BranchJoint, bodies: Bodies, setting: Setting): Picture => {
  const { branch, header, offset, angle } = joint;
  const { u, on, cut, tail } = bodies;
  const [R, bore, r] = [header.od / 2, header.od / 2 - header.wall, branch.od / 2];
  const sight: Sight = { right: vec3(0, 1, 0), up: u };
  const ring = (radius: number): readonly Vec3[] =>
    sampleCurve((t) => on(0, radius * Math.cos(t), radius * Math.sin(t)), 0, TURN);
  const rim = sampleCurve((t) => tail(t, r), 0, TURN);
  const { project, scale } = fitView(sight, [...ring(R), ...rim], 34, 46);
  const side = (station: number): readonly Vec3[] => [tail(station, r), cut(station)];
  const square = Math.abs(angle - Math.PI / 2) < 1e-9;
  const first = angle <= Math.PI / 2 ? Math.PI / 2 : -Math.PI / 2;
  const o = on(0, 0, 0);
  const marks: Mark[] = [
    viewLine(project, ring(R)),
    viewLine(project, ring(bore)),
    viewLine(project, [on(0, -R - 3 / scale, 0), on(0, R + 3 / scale, 0)], 'long-dash-dot'),
    viewLine(project, [on(0, 0, -R - 3 / scale), on(0, 0, R + 3 / scale)], 'long-dash-dot'),
    viewLine(project, side(Math.PI / 2)),
    viewLine(project, side(-Math.PI / 2)),
    viewLine(project, rim),
    ...rimLines({ ...joint, set: 'on' }, bodies, project, first, square),
    viewLine(project, [add3(tail(0, 0), scale3(u, 4 / scale)), vec3(0, 0, 0)], 'long-dash-dot'),
  ];
  const label = (station: number, text: string, align: 'left' | 'right'): Mark[] => {
    const [a, b] = [project(tail(station, r)), project(cut(station))];
    const gap = align === 'left' ? 1.6 : -1.6;
    return viewText({ x: a.x + gap, y: a.y * 0.6 + b.y * 0.4 }, text, align);
  };
  marks.push(...label(Math.PI / 2, '90°', 'left'), ...label(-Math.PI / 2, '270°', 'right'));
  if (Math.abs(offset) > SAME_LENGTH) {
    const [a, b] = [project(on(0, -R, -offset)), project(on(0, -R, 0))];
    const low = project(on(0, -R, 0)).y;
    const [left, right] = offset > 0 ? [a, b] : [b, a];
    marks.push(
      ...viewDimension(
        { x: left.x, y: low },
        { x: right.x, y: low },
        -4.5,
        writeShort(Math.abs(offset), setting),
      ),
      viewLine(project, [vec3(0, 0, 0), add3(o, add3(vec3(0, -offset, 0), scale3(u, -R)))], 'long-dash-dot'),
    );
  }
  return makePicture(
    `End view, from the ${square ? 'station 180' : angle < Math.PI / 2 ? 'crotch' : 'heel'} side`,
    marks,
  );
};
