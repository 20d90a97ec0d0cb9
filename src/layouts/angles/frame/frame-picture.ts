import type { Mark, Picture } from '../../../drawing/model.ts';
import { FINE, polylinePath } from '../../../drawing/paths.ts';
import {
  makePicture,
  viewAngle,
  viewDimension,
  viewPath,
  viewRule,
  viewText,
} from '../../../drawing/view.ts';
import { itemAround } from '../../../lists.ts';
import { polar2, scale2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import { say } from '../../../words/say.ts';
import { formatAngle } from '../../../units/angle.ts';
import { cornerOf, type FrameShape } from './frame-shape.ts';

const SIZE = 40;

/** Corners of the frame's outside and inside edges, the lowest side level. */
const frameCorners = (
  shape: FrameShape,
): { readonly outside: readonly Vec2[]; readonly inside: readonly Vec2[] } => {
  if (shape.kind === 'rectangle') {
    const box = (l: number, w: number): Vec2[] => [
      vec2(-l / 2, -w / 2),
      vec2(l / 2, -w / 2),
      vec2(l / 2, w / 2),
      vec2(-l / 2, w / 2),
    ];
    const { length, width, bar } = shape;
    return { outside: box(length, width), inside: box(length - 2 * bar, width - 2 * bar) };
  }
  const { sides, outside, inside } = shape.frame;
  const ring = (radius: number): Vec2[] =>
    Array.from({ length: sides }, (_, i) => polar2(radius, -Math.PI / 2 + ((2 * i - 1) * Math.PI) / sides));
  return { outside: ring(outside.cornerRadius), inside: ring(inside.cornerRadius) };
};

/** The whole frame with its joints, the diagonals to tape and what they must read. */
export const framePicture = (shape: FrameShape, write: (length: number) => string): Picture => {
  const { outside, inside } = frameCorners(shape);
  const xs = outside.map((p) => p.x);
  const ys = outside.map((p) => p.y);
  const scale = SIZE / Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  const [out, within] = [outside, inside].map((ring) => ring.map((p) => scale2(p, scale))) as [
    Vec2[],
    Vec2[],
  ];
  const at = (ring: readonly Vec2[], i: number): Vec2 => itemAround(ring, i);
  const count = out.length;
  const across = Math.floor(count / 2);
  const between = cornerOf(shape);
  // The lower right corner's inside edges run to the left and up.
  const apex = at(within, 1);
  const toLeft = Math.PI;
  const length = (a: Vec2, b: Vec2): number => Math.hypot(a.x - b.x, a.y - b.y) / scale;
  const room = Math.hypot(at(within, 0).x - apex.x, at(within, 0).y - apex.y);
  const marks: Mark[] = [
    viewPath(polylinePath(out, true)),
    viewPath(polylinePath(within, true)),
    ...out.map((p, i) => viewRule(p, at(within, i), FINE)),
    ...(count > 3
      ? [
          viewRule(at(out, 0), at(out, across), FINE, 'dashed'),
          viewRule(at(out, 1), at(out, 1 + across), FINE, 'dashed'),
        ]
      : []),
    ...viewDimension(at(out, 1), at(out, 0), 4.5, write(length(at(out, 0), at(out, 1)))),
    ...(room > 12 ? viewAngle(apex, room * 0.3, toLeft - between, toLeft, formatAngle(between, 3)) : []),
    // On the half of the diagonal that keeps off the corner's angle.
    ...(count > 3
      ? viewText(
          scale2(at(out, shape.kind === 'rectangle' ? 0 : across), 0.42),
          write(length(at(out, 0), at(out, across))),
          'centre',
          true,
        )
      : []),
  ];
  return makePicture(count > 3 ? say`The frame; dashed: two of the diagonals` : say`The frame`, marks);
};
