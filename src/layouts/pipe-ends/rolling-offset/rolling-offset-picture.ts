import type { Mark, Picture } from '../../../drawing/model.ts';
import {
  arcPath,
  circlePath,
  FINE,
  letter,
  MEDIUM,
  polylinePath,
  QUARTER,
  ruleLine,
  stroke,
  WIDE,
} from '../../../drawing/shape.ts';
import { makePicture, viewAngle, viewDimension, viewText } from '../../../drawing/view.ts';
import { add2, dot2, left2, polar2, scale2, sub2, unit2, type Vec2 } from '../../../geometry/vector.ts';
import type { RollingOffset } from '../../../geometry/rolling-offset.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeAngle, type Fitting } from './rolling-offset-solve.ts';
import { writeBoth } from '../../../units/writing.ts';
import { writeShort } from '../../../units/writing.ts';

/** Longest and shortest edge of the sketched box, mm of paper. */
const LONG = 70;
const SHORT = 18;

/** Paper direction of roll, toward the reader's right and back. */
const BACK = polar2(1, (35 * Math.PI) / 180);

/**
 * The offset as a box seen from the side and above, run to the right, set up, roll to the back. Not to scale: its edges
 * keep their order, none too short to letter.
 */
export const offsetSketch = (solved: RollingOffset, setting: Setting): readonly Mark[] => {
  const { set, roll, run, travel, offset, turn, rollAngle } = solved;
  const scale = LONG / Math.max(set, roll, run);
  const edge = (length: number): number => (length < 1e-9 ? 0 : Math.max(SHORT, length * scale));
  const [right, up, back] = [{ x: edge(run), y: 0 }, { x: 0, y: edge(set) }, scale2(BACK, edge(roll) * 0.7)];
  const at = (...steps: readonly Vec2[]): Vec2 => steps.reduce(add2, { x: 0, y: 0 });
  const [o, corner, far, high, end] = [at(), at(right), at(right, back), at(right, up), at(right, up, back)];
  const line = (
    a: Vec2,
    b: Vec2,
    width = FINE,
    type: 'continuous' | 'dashed' | 'long-dash-dot' = 'continuous',
  ): Mark => ruleLine('dimension', a, b, width, type);
  const tail = 18;
  const hidden: readonly (readonly [Vec2, Vec2])[] = [
    [at(up), high],
    [at(up), at(up, back)],
    [at(up, back), end],
    [at(back), far],
    [o, at(back)],
    [o, at(up)],
    [at(back), at(up, back)],
    [corner, high],
    [high, end],
  ];
  const say = (p: Vec2, text: string, align: 'left' | 'centre' | 'right', bold = false): Mark[] =>
    viewText(p, text, align, bold);
  const middle = (a: Vec2, b: Vec2): Vec2 => scale2(add2(a, b), 0.5);
  const marks: Mark[] = [
    ...hidden
      .filter(([a, b]) => Math.hypot(a.x - b.x, a.y - b.y) > 1)
      .map(([a, b]) => line(a, b, FINE, 'dashed')),
    line(o, corner, QUARTER),
    line(corner, far, QUARTER),
    line(far, end, QUARTER),
    line(corner, end, QUARTER, 'long-dash-dot'),
    line({ x: o.x - tail, y: o.y }, o, WIDE),
    line(o, end, WIDE),
    line(end, { x: end.x + tail, y: end.y }, WIDE),
    ...[o, end].map((p) => stroke('dimension', circlePath(p, 1), MEDIUM)),
    ...say(at(scale2(right, 0.5), { x: 0, y: -3.6 }), `run ${writeBoth(run, setting)}`, 'centre'),
    ...(roll > 0
      ? say(add2(middle(corner, far), { x: 2.4, y: -2.6 }), `roll ${writeBoth(roll, setting)}`, 'left')
      : []),
    ...(set > 0
      ? say(add2(middle(far, end), { x: 1.8, y: 0 }), `set ${writeBoth(set, setting)}`, 'left')
      : []),
    ...say(add2(scale2(end, 0.52), { x: -2.5, y: 4 }), `travel ${writeBoth(travel, setting)}`, 'right', true),
    ...say({ x: o.x - 4, y: o.y + 4 }, `turn ${writeAngle(turn)}`, 'right'),
    ...say({ x: end.x + 3, y: end.y + 4 }, `turn ${writeAngle(turn)}`, 'left'),
    letter('dimension', { x: o.x - tail, y: -14 }, 'The offset from the side and above. Not to scale.', 2.5),
  ];
  if (set > 0 && roll > 0)
    marks.push(
      ...say(
        add2(corner, { x: 2.4, y: -9 }),
        `true offset ${writeBoth(offset, setting)}, roll angle ${writeAngle(rollAngle)} from plumb`,
        'left',
      ),
      line(add2(corner, { x: 2, y: -8 }), add2(corner, scale2(sub2(end, corner), 0.16)), FINE),
    );
  return marks;
};

/** Facing along the first run: where the second run lies from it. */
export const alongRunPicture = (
  { set, roll, offset, rollAngle }: RollingOffset,
  pipe: Pipe,
  setting: Setting,
): Picture => {
  const scale = 34 / Math.max(set, roll, pipe.od);
  const far: Vec2 = { x: roll * scale, y: set * scale };
  const r = Math.min((pipe.od / 2) * scale, 9);
  const centreLines = (p: Vec2): Mark[] => [
    ruleLine('dimension', { x: p.x - r - 2, y: p.y }, { x: p.x + r + 2, y: p.y }, FINE, 'long-dash-dot'),
    ruleLine('dimension', { x: p.x, y: p.y - r - 2 }, { x: p.x, y: p.y + r + 2 }, FINE, 'long-dash-dot'),
  ];
  const o: Vec2 = { x: 0, y: 0 };
  const marks: Mark[] = [
    stroke('dimension', circlePath(o, r), QUARTER),
    stroke('dimension', circlePath(far, r), QUARTER),
    ...centreLines(o),
    ...centreLines(far),
    ruleLine('dimension', o, far, FINE, 'long-dash-dot'),
    ...(set > 0 ? viewDimension(o, { x: 0, y: far.y }, r + 4, `set ${writeShort(set, setting)}`) : []),
    ...(roll > 0 ? viewDimension(o, { x: far.x, y: 0 }, -r - 4, `roll ${writeShort(roll, setting)}`) : []),
    ...viewText(
      add2(scale2(far, 0.5), { x: far.x > far.y ? 0 : r + 2, y: far.x > far.y ? r + 3 : 0 }),
      `true offset ${writeShort(offset, setting)}`,
      far.x > far.y ? 'centre' : 'left',
    ),
    ...viewText({ x: far.x + r + 3, y: far.y }, 'second run', 'left'),
    ...viewText({ x: r + 3, y: 0 }, 'first run', 'left'),
  ];
  if (rollAngle > 0.05 && rollAngle < Math.PI / 2 - 1e-9 && Math.hypot(far.x, far.y) > 2 * r + 10)
    marks.push(...viewAngle(o, r + 5, Math.PI / 2 - rollAngle, Math.PI / 2, writeAngle(rollAngle)));
  return makePicture('Looking along the first run, plumb up', marks);
};

/** The true view, square to the plane of both runs: turns, take-offs and the pipe between them. */
export const trueViewPicture = (
  { offset, run, travel, turn }: RollingOffset,
  { elbow, takeOff }: Fitting,
  pipe: Pipe,
  cut: number,
  setting: Setting,
): Picture => {
  const r = pipe.od / 2;
  const tail = takeOff + r * 1.5;
  const ahead: Vec2 = { x: 1, y: 0 };
  const way = polar2(1, turn);
  const o: Vec2 = { x: 0, y: 0 };
  const end = scale2(way, travel);
  const scale = Math.min(96 / (run + 2 * tail), 52 / (offset + 2 * r));
  const flat = (p: Vec2): Vec2 => scale2(p, scale);
  const line = (
    a: Vec2,
    b: Vec2,
    width = QUARTER,
    type: 'continuous' | 'long-dash-dot' = 'continuous',
  ): Mark => ruleLine('dimension', flat(a), flat(b), width, type);
  const walls = (a: Vec2, b: Vec2): Mark[] => {
    const side = scale2(left2(unit2(sub2(b, a))), r);
    return [line(add2(a, side), add2(b, side)), line(sub2(a, side), sub2(b, side))];
  };
  const joint = (p: Vec2, u: Vec2): Mark =>
    line(add2(p, scale2(left2(u), r)), sub2(p, scale2(left2(u), r)), MEDIUM);
  const [in0, in1] = [scale2(ahead, -takeOff), scale2(way, takeOff)];
  const [out0, out1] = [sub2(end, scale2(way, takeOff)), add2(end, scale2(ahead, takeOff))];
  const marks: Mark[] = [
    ...(elbow
      ? [
          ...walls({ x: -tail, y: 0 }, in0),
          ...walls(in1, out0),
          ...walls(out1, { x: end.x + tail, y: end.y }),
          ...bendWalls(in0, turn, takeOff, r, 1).map((path) =>
            stroke('dimension', mapped(path, flat), QUARTER),
          ),
          ...bendWalls(sub2(end, scale2(way, takeOff)), turn, takeOff, r, -1).map((path) =>
            stroke('dimension', mapped(path, flat), QUARTER),
          ),
          ...[joint(in0, ahead), joint(in1, way), joint(out0, way), joint(out1, ahead)],
        ]
      : miterWalls(end, turn, tail, r).map((points) =>
          stroke('dimension', polylinePath(points.map(flat)), QUARTER),
        )),
    line({ x: -tail - 3 / scale, y: 0 }, o, FINE, 'long-dash-dot'),
    line(o, end, FINE, 'long-dash-dot'),
    line(end, { x: end.x + tail + 3 / scale, y: end.y }, FINE, 'long-dash-dot'),
    ...viewDimension(flat(o), flat(end), r * scale + 9, `travel ${writeShort(travel, setting)}`),
    ...(elbow && dot2(sub2(out0, in1), way) > 0
      ? viewDimension(flat(in1), flat(out0), -r * scale - 4, `cut ${writeShort(cut, setting)}`)
      : []),
    ...(elbow && takeOff * scale > 4
      ? viewDimension(flat(in0), flat(o), -r * scale - 4, writeShort(takeOff, setting))
      : []),
    ...viewText(
      add2(flat({ x: end.x, y: end.y - r }), { x: 2, y: -4.5 }),
      `turn ${writeAngle(turn)}`,
      'left',
    ),
  ];
  return makePicture('True view, square to the plane of both runs', marks);
};

type Pathlike = ReturnType<typeof arcPath>;
const mapped = (path: Pathlike, map: (p: Vec2) => Vec2): Pathlike => ({
  start: map(path.start),
  closed: path.closed,
  segments: path.segments.map((segment) =>
    segment.kind === 'line'
      ? { kind: 'line', to: map(segment.to) }
      : { kind: 'curve', c1: map(segment.c1), c2: map(segment.c2), to: map(segment.to) },
  ),
});

/** Both walls of a bend that starts at `from`: the first turns left out of the run, the second right into it. */
const bendWalls = (
  from: Vec2,
  turn: number,
  takeOff: number,
  r: number,
  side: 1 | -1,
): readonly Pathlike[] => {
  const radius = takeOff / Math.tan(turn / 2);
  const heading = side > 0 ? 0 : turn;
  const centre = add2(from, scale2(left2(polar2(1, heading)), side * radius));
  const first = heading - (side * Math.PI) / 2;
  return [radius - r, radius + r]
    .filter((size) => size > 0)
    .map((size) => arcPath(centre, size, first, first + side * turn));
};

/** Walls of the mitered pipes, corner to corner. */
const miterWalls = (end: Vec2, turn: number, tail: number, r: number): readonly (readonly Vec2[])[] => {
  const lean = r * Math.tan(turn / 2);
  const corner = (side: 1 | -1, at: Vec2): Vec2 => add2(at, { x: -side * lean, y: side * r });
  return [
    ...([1, -1] as const).map((side) => [
      { x: -tail, y: side * r },
      corner(side, { x: 0, y: 0 }),
      corner(side, end),
      { x: end.x + tail, y: end.y + side * r },
    ]),
    [corner(1, { x: 0, y: 0 }), corner(-1, { x: 0, y: 0 })],
    [corner(1, end), corner(-1, end)],
  ];
};
