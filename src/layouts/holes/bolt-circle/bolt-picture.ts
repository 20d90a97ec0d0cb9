import type { Mark, Picture } from '../../../drawing/model.ts';
import { circlePath, FINE, QUARTER } from '../../../drawing/paths.ts';
import { makePicture, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { itemAt } from '../../../lists.ts';
import type { Hole } from '../../../geometry/hole-pattern.ts';
import { scale2, type Vec2 } from '../../../geometry/vector.ts';
import { slotPath } from '../../../sheets/flat-marks.ts';
import { say } from '../../../words/say.ts';
import type { BoltCircle } from './bolt-checks.ts';

const RADIUS = 17;

/** The level laid across two holes, seen on the face that is drilled. */
export const boltPicture = (
  { circle, hole, outside, bore }: BoltCircle,
  holes: readonly Hole[],
  pair: readonly [number, number] | undefined,
): Picture => {
  const rim = Math.max(outside ?? 0, circle + 2 * hole);
  const scale = (2 * RADIUS) / rim;
  const o = { x: 0, y: 0 };
  const small = holes.map(({ at }) => scale2(at, scale));
  const drill = Math.max(0.6, (hole * scale) / 2);
  const marks: Mark[] = [
    viewPath(circlePath(o, RADIUS), outside === undefined ? FINE : QUARTER),
    ...(bore === undefined ? [] : [viewPath(circlePath(o, (bore * scale) / 2))]),
    viewPath(circlePath(o, (circle * scale) / 2), FINE, 'long-dash-dot'),
    viewRule({ x: -RADIUS - 3, y: 0 }, { x: RADIUS + 3, y: 0 }, FINE, 'long-dash-dot'),
    viewRule({ x: 0, y: -RADIUS - 3 }, { x: 0, y: RADIUS + 3 }, FINE, 'long-dash-dot'),
    ...holes.map(({ at, slot }) =>
      viewPath(
        slot
          ? slotPath(scale2(at, scale), 2 * drill, slot.length * scale, slot.along)
          : circlePath(scale2(at, scale), drill),
      ),
    ),
    ...viewText({ x: RADIUS + 4, y: 0 }, '0°', 'left'),
    ...viewText({ x: 0, y: -RADIUS - 5.5 }, '270°'),
  ];
  const first = small[0];
  if (first && holes.length > 1)
    marks.push(
      ...viewText(
        scale2(first, Math.max(0, 1 - (drill + 3) / Math.hypot(first.x, first.y))),
        '1',
        'centre',
        true,
      ),
    );
  if (pair) marks.push(...level(itemAt(small, pair[0]), itemAt(small, pair[1]), drill));
  return makePicture(
    pair
      ? say`Level across holes ${pair[0] + 1} and ${pair[1] + 1}, drilled face`
      : say`Seen on the drilled face`,
    marks,
  );
};

/** A spirit level resting on two pins. */
const level = (a: Vec2, b: Vec2, drill: number): Mark[] => {
  const y = a.y + drill + 0.3;
  const [left, right] = [Math.min(a.x, b.x) - 5, Math.max(a.x, b.x) + 5];
  const middle = (left + right) / 2;
  const box = (x0: number, x1: number, y0: number, y1: number, width: number): Mark[] =>
    [
      [x0, y0, x1, y0],
      [x1, y0, x1, y1],
      [x1, y1, x0, y1],
      [x0, y1, x0, y0],
    ].map(([p = 0, q = 0, r = 0, s = 0]) => viewRule({ x: p, y: q }, { x: r, y: s }, width));
  return [
    ...box(left, right, y, y + 3.6, QUARTER),
    ...box(middle - 3, middle + 3, y + 1, y + 2.6, FINE),
    viewPath(circlePath({ x: middle, y: y + 1.8 }, 0.6), FINE),
  ];
};
