import type { Mark, Picture } from '../drawing/model.ts';
import { FINE, polylinePath, WIDE } from '../drawing/paths.ts';
import {
  fitView,
  makePicture,
  viewAngle,
  viewDimension,
  viewPath,
  viewRule,
  viewText,
} from '../drawing/view.ts';
import { vec2, vec3, type Vec2 } from '../geometry/vector.ts';
import { say } from '../words/say.ts';
import { writeAngle } from '../units/angle.ts';
import type { CornerPart } from './corner-marks.ts';

/**
 * A part's end on the bench, cut to the left, as its template lies on it: the cut from square, the cutback. The inside edge
 * is uppermost on part 1 and lowest on part 2, which is of the other hand.
 */
export const endCutPicture = (
  title: string,
  part: CornerPart,
  insideUp: boolean,
  cutback: string,
): Picture => {
  const lean = Math.min(3, Math.max(-3, part.cutback / part.width));
  const width = 20;
  const back = lean * width;
  const long = Math.abs(back) + 30;
  const outline = [vec2(0, width), vec2(long, width), vec2(long, 0), vec2(-back, 0)];
  const points = [...outline, vec2(-Math.max(0, back) - 8, 0)].map((p) => vec3(p.x, p.y, 0));
  const { project } = fitView({ right: vec3(1, 0, 0), up: vec3(0, 1, 0) }, points, 48, 34);
  const at = (x: number, y: number): Vec2 => {
    const p = project(vec3(x, y, 0));
    return insideUp ? p : vec2(p.x, -p.y);
  };
  const hand = insideUp ? 1 : -1;
  const tip = Math.min(0, -back);
  const marks: Mark[] = [
    viewPath(polylinePath([at(long, width), at(0, width), at(-back, 0), at(long, 0)])),
    viewRule(at(0, width), at(-back, 0), WIDE),
    // The bar before the cut.
    viewPath(polylinePath([at(0, width), at(tip - 8, width), at(tip - 8, 0), at(-back, 0)]), FINE, 'dashed'),
    viewRule(at(0, width), at(0, 0), FINE, 'long-dash-dot'),
    ...viewText(at(long * 0.62, width / 2), say`KEEP`, 'centre', true),
  ];
  const size = Math.abs(part.miter);
  if (size > 0.02) {
    const apex = at(0, width);
    const reach = Math.abs(at(0, 0).y - apex.y);
    const square = (-hand * Math.PI) / 2;
    const cut = square - hand * part.miter;
    marks.push(
      ...viewDimension(at(Math.max(0, -back), 0), at(Math.min(0, -back), 0), 4.5 * hand, cutback),
      ...(size > 0.15
        ? viewAngle(apex, reach * 0.62, Math.min(square, cut), Math.max(square, cut), writeAngle(size))
        : []),
    );
  }
  const edge = at(long, width);
  marks.push(...viewText(vec2(edge.x, edge.y + 3 * hand), say`inside edge`, 'right'));
  return makePicture(title, marks);
};
