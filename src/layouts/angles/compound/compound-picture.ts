import type { Mark, Picture } from '../../../drawing/model.ts';
import { FINE, linePath, polylinePath, WIDE } from '../../../drawing/paths.ts';
import {
  fitView,
  makePicture,
  viewAngle,
  viewLine,
  viewPath,
  viewRule,
  viewText,
} from '../../../drawing/view.ts';
import type { SawSetting, SlopedCorner } from '../../../geometry/compound.ts';
import { itemAt } from '../../../lists.ts';
import { add2, polar2, scale2, vec2, vec3, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import { writeAngle } from '../../../units/angle.ts';
import { say } from '../../../words/say.ts';

const o = vec2(0, 0);

/** The corner of the sides seen from above: level edges, the joint, which side is which. */
export const sidesPicture = ({
  plan,
  slope,
  otherSlope,
}: {
  readonly plan: number;
  readonly slope: number;
  readonly otherSlope: number;
}): Picture => {
  const [along, reach] = [polar2(1, plan), 30];
  // How far each upper edge lies in from the lower, seen from above, for one height.
  const most = Math.max(1 / Math.tan(slope), 1 / Math.tan(otherSlope), 0.25);
  const [in1, in2] = [1 / Math.tan(slope), 1 / Math.tan(otherSlope)].map((run) => (9 * run) / most) as [
    number,
    number,
  ];
  // The upper corner is in1 from the first edge and in2 from the second.
  const upper = vec2((in2 + in1 * Math.cos(plan)) / Math.sin(plan), in1);
  const marks: Mark[] = [
    viewRule(o, vec2(reach, 0)),
    viewRule(o, scale2(along, reach)),
    viewRule(upper, vec2(reach, in1)),
    viewRule(upper, add2(upper, scale2(along, reach * 0.8))),
    viewRule(o, upper, WIDE),
    ...viewAngle(upper, 9, 0, plan, writeAngle(plan)),
    ...viewText(vec2(reach - 1, -3.4), say`1: ${writeAngle(slope)} from level`, 'right'),
    ...viewText(
      add2(scale2(along, reach), vec2(along.x < 0 ? 0 : 2, 2.5)),
      `2: ${writeAngle(otherSlope)}`,
      'left',
    ),
  ];
  return makePicture(say`The corner from above; thick: the joint`, marks);
};

/** One side flat on the bench, outside up: its level wide edge and the miter. */
export const sidePicture = ({ miter }: SawSetting, name: string): Picture => {
  const [high, long] = [18, 36];
  const lean = Math.max(-12, Math.min(30, high * Math.tan(miter)));
  const drawn = Math.atan(lean / high);
  const marks: Mark[] = [
    viewPath(polylinePath([vec2(long, 0), o, vec2(lean, high), vec2(long, high)])),
    viewPath(linePath(o, vec2(lean, high)), WIDE),
    viewRule(o, vec2(0, high + 3), FINE, 'long-dash-dot'),
    ...(Math.abs(miter) > 0.1
      ? viewAngle(
          o,
          13,
          Math.min(Math.PI / 2, Math.PI / 2 - drawn),
          Math.max(Math.PI / 2, Math.PI / 2 - drawn),
          writeAngle(Math.abs(miter)),
        )
      : []),
    ...viewText(vec2(long * 0.62, -3.4), say`level edge, wide end`),
    ...viewText(vec2(long * 0.75, high / 2), say`KEEP`, 'centre', true),
  ];
  return makePicture(say`${name} flat, joint to the left`, marks);
};

/** Both plates cut square to the joint: how the tilted ends meet. */
export const jointPicture = ({ between, first }: SlopedCorner): Picture => {
  const [thick, long] = [5, 22];
  const half = between / 2;
  const [a, b] = [polar2(1, -half), polar2(1, half)];
  // Inside faces from the inner corner; the outer corner lies on the line that halves the angle.
  const outer = vec2(-thick / Math.sin(half), 0);
  const far = (direction: Vec2, side: number): readonly [Vec2, Vec2] => {
    const end = scale2(direction, long);
    return [end, add2(end, vec2(-direction.y * side * thick, direction.x * side * thick))];
  };
  const [endA, outA] = far(a, -1);
  const [endB, outB] = far(b, 1);
  const marks: Mark[] = [
    viewPath(polylinePath([o, endA, outA, outer], true)),
    viewPath(polylinePath([o, endB, outB, outer], true)),
    viewRule(o, outer, WIDE),
    ...viewAngle(o, 9, -half, half, writeAngle(between)),
    ...viewText(vec2(outer.x - 2, 0), say`tilt ${writeAngle(first.tilt)}`, 'right'),
  ];
  return makePicture(say`Cut square to the joint`, marks);
};

/** The bar from above and from its right side, the face at the left. */
export const bracePictures = ({
  swing,
  rise,
}: {
  readonly swing: number;
  readonly rise: number;
}): readonly Picture[] => {
  const view = (title: string, angle: number, name: string, words: readonly [string, string]): Picture => {
    const [half, long] = [5, 36];
    const axis = polar2(1, angle);
    const side = vec2(-axis.y, axis.x);
    const edge = (sign: number): readonly Vec3[] => {
      // Where the bar's side meets the face x = 0.
      const start = sign * half * Math.tan(angle);
      return [start, long].map((t) => {
        const p = add2(scale2(axis, t), scale2(side, sign * half));
        return vec3(p.x, p.y, 0);
      });
    };
    const [upper, lower] = [edge(1), edge(-1)];
    const face = [vec3(0, -16, 0), vec3(0, 16, 0)];
    const square = [vec3(0, 0, 0), vec3(28, 0, 0)];
    const { project } = fitView(
      { right: vec3(1, 0, 0), up: vec3(0, 1, 0) },
      [...upper, ...lower, ...face, ...square],
      42,
      42,
    );
    const at = project(vec3(0, 0, 0));
    const marks: Mark[] = [
      viewLine(project, face, 'continuous', WIDE),
      viewLine(project, square, 'long-dash-dot'),
      viewLine(project, upper),
      viewLine(project, lower),
      viewLine(project, [itemAt(upper, 1), itemAt(lower, 1)]),
      ...(Math.abs(angle) > 0.12
        ? viewAngle(at, 15, Math.min(0, angle), Math.max(0, angle), writeAngle(Math.abs(angle)))
        : viewText(add2(at, vec2(22, 10)), `${name} ${writeAngle(Math.abs(angle))}`)),
      ...viewText(add2(project(vec3(0, 16, 0)), vec2(0, 3)), words[0]),
      ...viewText(add2(project(vec3(0, -16, 0)), vec2(0, -3)), words[1]),
    ];
    return makePicture(title, marks);
  };
  return [
    view(say`From above; the face is thick`, swing, say`swing`, [say`left`, say`right`]),
    // Sight from the right, square to the bar's upright sides.
    view(say`From its right side, bar turned square to the face`, rise, rise < 0 ? say`falls` : say`rises`, [
      say`up`,
      say`down`,
    ]),
  ];
};
