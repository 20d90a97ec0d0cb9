import { markBounds } from '../../../drawing/extent.ts';
import type { Mark, Picture } from '../../../drawing/model.ts';
import { FINE, growBox } from '../../../drawing/shape.ts';
import {
  fitView,
  makePicture,
  sampleCurve,
  viewAngle,
  viewDimension,
  viewLine,
  viewText,
  type Projection,
} from '../../../drawing/view.ts';
import type { Mate } from '../../../geometry/mate.ts';
import { cylinderMate } from '../../../geometry/mates/cylinder.ts';
import { severalMate } from '../../../geometry/mates/several.ts';
import { contourPatch } from '../../../geometry/silhouette.ts';
import {
  add3,
  cross3,
  dot3,
  length3,
  scale3,
  sub3,
  vec3,
  type Vec2,
  type Vec3,
} from '../../../geometry/vector.ts';
import type { Body, ViewAngle } from '../../../joint/bodies/body.ts';
import { stockReach, type Stock } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';

const TURN = 2 * Math.PI;
const FAR = 1e5;

/** A joint to be looked at: the bodies, and the branch whose outside ends at `end` over each station, mm. */
export interface PicturedJoint {
  readonly bodies: readonly Body[];
  readonly branch: Stock;
  readonly end: (station: number) => number;
}

interface Eye {
  readonly right: Vec3;
  readonly up: Vec3;
  /** Toward the eye. */
  readonly toward: Vec3;
}

/** Side view from station 90 and end view from station 180, from the same surfaces that the template is cut by. */
export const jointPictures = (joint: PicturedJoint, setting: Setting): readonly Picture[] => {
  const { right, up } = (joint.bodies[0] as Body).view;
  const side: Eye = { right, up, toward: cross3(right, up) };
  const end: Eye = { right: side.toward, up, toward: scale3(right, -1) };
  return [
    drawView(joint, side, 'side', 52, 'Side view, from station 90', setting),
    drawView(joint, end, 'end', 40, 'End view, from the station 180 side', setting),
  ];
};

const drawView = (
  { bodies, branch, end }: PicturedJoint,
  eye: Eye,
  view: 'side' | 'end',
  width: number,
  title: string,
  setting: Setting,
): Picture => {
  const r = stockReach(branch);
  const rim = sampleCurve((a) => vec3(r * Math.cos(a), r * Math.sin(a), end(a)), 0, TURN, 144);
  const tailZ = Math.min(...rim.map((p) => p.z)) - Math.max(1.6 * r, 0.3 * bodySize(bodies));
  const tail = sampleCurve((a) => vec3(r * Math.cos(a), r * Math.sin(a), tailZ), 0, TURN, 72);
  const contours = bodies.flatMap((body) =>
    body.view.patches.flatMap((patch) => contourPatch(patch, eye.toward)),
  );
  const edges = bodies.flatMap((body) => body.view.edges);
  const { project, scale } = fitView(
    { right: eye.right, up: eye.up },
    [...contours.flat(), ...edges.flat(), ...tail],
    width,
    48,
  );

  const mate = severalMate(bodies.map((body) => body.view.solid));
  const pipe = cylinderMate(vec3(0, 0, 0), vec3(0, 0, 1), r);
  // Lines lie on the surfaces they outline: only what is well in front of them hides them.
  const clear = 0.6 / scale + 0.02 * r;
  const before = (solid: Mate, p: Vec3, holds: (q: Vec3) => boolean): boolean => {
    const from = add3(p, scale3(eye.toward, FAR));
    const hit = solid.enter({ origin: from, direction: scale3(eye.toward, -1) });
    if (!hit || hit.t > FAR - clear) return false;
    return holds(add3(from, scale3(eye.toward, -hit.t)));
  };
  const inBranch = (q: Vec3): boolean => q.z > tailZ && q.z < end(Math.atan2(q.y, q.x)) - 0.05 * r;
  const isHidden = (p: Vec3): boolean => before(mate, p, () => true) || before(pipe, p, inBranch);
  /** A contour is seen where just beside it, on the side away from its own body, nothing stands before it. */
  const isHiddenBeside = (p: Vec3, ahead: Vec3): boolean => {
    const side = cross3(ahead, eye.toward);
    const size = length3(side);
    if (size === 0) return isHidden(p);
    const step = scale3(side, 0.35 / scale / size);
    return isHidden(add3(p, step)) && isHidden(sub3(p, step));
  };

  const off = Math.atan2(eye.toward.y, eye.toward.x);
  const sides = [off + Math.PI / 2, off - Math.PI / 2];
  const sideLines = sides.map((a) => {
    const [x, y] = [r * Math.cos(a), r * Math.sin(a)];
    return sampleCurve((z) => vec3(x, y, z), tailZ, end(a), 60);
  });
  const axisEnd = vec3(0, 0, Math.max(...rim.map((p) => p.z)) + 0.35 * r);
  const marks: Mark[] = [
    ...contours.flatMap((line) => drawLine(project, densify(line, 1 / scale), isHiddenBeside)),
    ...edges.flatMap((line) => drawLine(project, densify(line, 1 / scale), isHidden)),
    ...sideLines.flatMap((line) => drawLine(project, line, (p) => before(mate, p, () => true))),
    ...drawLine(project, tail, (p) => before(mate, p, () => true)),
    ...drawLine(project, rim, isHidden, 0.5),
    ...bodies.flatMap((body) => body.view.centres.map((line) => viewLine(project, line, 'long-dash-dot'))),
    viewLine(project, [vec3(0, 0, tailZ - 4 / scale), axisEnd], 'long-dash-dot'),
  ];
  for (const body of bodies) {
    for (const { from, to, off: gap, length, sign, view: seen } of body.view.lengths)
      if (seen === view && bodies.length === 1)
        marks.push(...viewDimension(project(from), project(to), gap, sign + writeShort(length, setting)));
    if (view === 'side' && bodies.length === 1)
      for (const angle of body.view.angles) marks.push(...drawAngle(project, angle));
  }
  const words = (bodies[0] as Body).words.map((word) => word.replace(' · TDC', '').toLowerCase());
  const stations = view === 'side' ? [0, 2] : [1, 3];
  const beside = stations.map((quarter) => {
    const a = (quarter * Math.PI) / 2;
    const p = project(vec3(r * Math.cos(a), r * Math.sin(a), tailZ * 0.8 + end(a) * 0.2));
    const q = project(vec3(0, 0, tailZ * 0.8 + end(a) * 0.2));
    return {
      p,
      right: p.x >= q.x,
      text: `${quarter * 90}°${view === 'side' && words[quarter] ? ` ${words[quarter]}` : ''}`,
    };
  });
  for (const { p, right, text } of beside)
    marks.push(
      ...viewText(
        { x: p.x + (right ? 1.6 : -1.6), y: p.y },
        text,
        right ? 'left' : 'right',
        text.startsWith('0°'),
      ),
    );
  const [a, b] = sides.map((s) => project(vec3(r * Math.cos(s), r * Math.sin(s), tailZ)));
  if (view === 'side' && a && b) {
    const [left, rightmost] = a.x < b.x ? [a, b] : [b, a];
    marks.push(...viewDimension(left, rightmost, 4, `⌀${writeShort(2 * r, setting)}`));
  }
  for (const { at, text, view: seen } of bodies.flatMap((body) => body.view.labels))
    if (seen === view) marks.push(...nameClear(project(at), text, marks));
  return makePicture(title, marks);
};

/** Where a name may go instead, nearest first, paper mm. */
const ASIDE: readonly Vec2[] = [0, 4, 8, 12, 16, 20].flatMap((x) =>
  [0, 4, -4, 8, -8].flatMap((y) => [
    { x, y },
    { x: -x, y },
  ]),
);

/** A name as near to its place as the other words let it stand. */
const nameClear = (at: Vec2, text: string, marks: readonly Mark[]): Mark[] => {
  const taken = marks.flatMap((mark) => (mark.kind === 'text' ? [growBox(markBounds(mark), 0.8)] : []));
  const far = ({ x, y }: Vec2): number => Math.hypot(x, 1.5 * y);
  const places = [...ASIDE].sort((a, b) => far(a) - far(b)).map(({ x, y }) => ({ x: at.x + x, y: at.y + y }));
  const isClear = (place: Vec2): boolean =>
    viewText(place, text).every((mark) => {
      const box = markBounds(mark);
      return taken.every(
        (other) =>
          box.maxX <= other.minX ||
          box.minX >= other.maxX ||
          box.maxY <= other.minY ||
          box.minY >= other.maxY,
      );
    });
  return viewText(places.find(isClear) ?? at, text);
};

/** The arc of an angle, the shorter way round. */
const drawAngle = (project: Projection, { at, from, to, angle }: ViewAngle): Mark[] => {
  const o = project(at);
  const directionOf = (v: Vec3): number => {
    const p = project(add3(at, v));
    return Math.atan2(p.y - o.y, p.x - o.x);
  };
  const a = directionOf(from);
  const sweep = Math.atan2(Math.sin(directionOf(to) - a), Math.cos(directionOf(to) - a));
  return viewAngle(o, 11, Math.min(a, a + sweep), Math.max(a, a + sweep), formatAngle(angle));
};

const bodySize = (bodies: readonly Body[]): number => {
  const points = (bodies[0] as Body).view.edges.flat();
  const { right } = (bodies[0] as Body).view;
  const along = points.map((p) => dot3(p, right));
  return along.length === 0 ? 0 : Math.max(...along) - Math.min(...along);
};

/** A line with no step longer than `step` mm. */
const densify = (line: readonly Vec3[], step: number): readonly Vec3[] =>
  line.flatMap((p, i) => {
    const q = line[i + 1];
    if (!q) return [p];
    const count = Math.max(1, Math.ceil(Math.hypot(q.x - p.x, q.y - p.y, q.z - p.z) / step));
    return Array.from({ length: count }, (_, k) => add3(scale3(p, 1 - k / count), scale3(q, k / count)));
  });

/** A line in runs that are seen and runs that are hidden, the hidden ones dashed. */
const drawLine = (
  project: Projection,
  line: readonly Vec3[],
  isHidden: (p: Vec3, ahead: Vec3) => boolean,
  width?: number,
): Mark[] => {
  const marks: Mark[] = [];
  let run: Vec3[] = [];
  let hidden: boolean | undefined;
  const close = (): void => {
    if (run.length < 2) return;
    marks.push(hidden ? viewLine(project, run, 'dashed', FINE) : viewLine(project, run, 'continuous', width));
  };
  line.slice(1).forEach((q, i) => {
    const p = line[i] as Vec3;
    const now = isHidden(scale3(add3(p, q), 0.5), sub3(q, p));
    if (now !== hidden) {
      close();
      run = [p];
      hidden = now;
    }
    run.push(q);
  });
  close();
  return marks;
};
