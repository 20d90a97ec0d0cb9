import type { Mark, Picture } from '../../../drawing/model.ts';
import { arcPath, circlePath, FINE, linePath, WIDE } from '../../../drawing/paths.ts';
import { makePicture, viewDimension, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { polar2, scale2, vec2 } from '../../../geometry/vector.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
const o = vec2(0, 0);

/** The protractor on the edge of a part. */
export const layPicture = (): Picture => {
  const [radius, angle] = [13, 50 * DEGREE];
  const marks: Mark[] = [
    viewRule(vec2(-24, 0), vec2(24, 0), WIDE),
    viewPath(arcPath(o, radius, 0, Math.PI)),
    viewPath(circlePath(o, 0.8), FINE),
    viewRule(polar2(1, angle), polar2(27, angle), FINE, 'dashed'),
    viewPath(circlePath(polar2(radius, angle), 0.8), FINE),
    ...viewText(polar2(31, angle), say`line to strike`),
    ...viewText(vec2(0, -4), say`edge of the part`),
    ...viewText(vec2(15, 3), '0', 'left', true),
  ];
  return makePicture(say`On the part, printed side up`, marks);
};

/** An angle laid off by tape: radius, arc, chord. */
export const tapePicture = (radius: number, setting: Setting): Picture => {
  const [size, angle] = [40, 40 * DEGREE];
  const [p, q] = [vec2(size, 0), polar2(size, angle)];
  const along = viewDimension(p, o, 4.5, writeBoth(radius, setting));
  const marks: Mark[] = [
    viewRule(vec2(-3, 0), vec2(size + 5, 0)),
    viewRule(o, scale2(q, 1.12)),
    viewPath(arcPath(o, size, -4 * DEGREE, angle + 4 * DEGREE), FINE, 'dashed'),
    viewPath(linePath(p, q)),
    viewPath(circlePath(p, 0.7), FINE),
    viewPath(circlePath(q, 0.7), FINE),
    ...along,
    ...viewText(vec2((p.x + q.x) / 2 - 2.5, (p.y + q.y) / 2), say`chord`, 'right'),
  ];
  return makePicture(say`By tape: strike the arc, step off the chord`, marks);
};
