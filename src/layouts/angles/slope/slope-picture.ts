import type { Mark, Picture } from '../../../drawing/model.ts';
import { circlePath, FINE, linePath, polylinePath, WIDE } from '../../../drawing/paths.ts';
import { makePicture, viewDimension, viewPath, viewText } from '../../../drawing/view.ts';
import { add2, left2, polar2, scale2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { cardCorners } from './slope-card.ts';

/** The card standing on a slope, its right end high: the line hangs straight down, toward the low end. */
export const cardPicture = (): Picture => {
  const tilt = (15 * Math.PI) / 180;
  const string = 100;
  const scale = 0.17;
  const [along, up] = [polar2(1, tilt), left2(polar2(1, tilt))];
  const place = (p: Vec2): Vec2 => scale2(add2(scale2(along, p.x), scale2(up, p.y)), scale);
  const corners = cardCorners(string).map(place);
  const foot = -(string + 11);
  const ground = [-150, 150].map((x) => place(vec2(x, foot))) as [Vec2, Vec2];
  const bob = vec2(0, -string * scale);
  const marks: Mark[] = [
    viewPath(linePath(ground[0], ground[1]), WIDE),
    viewPath(polylinePath(corners, true)),
    viewPath(linePath(place(vec2(0, 0)), place(vec2(0, -string))), FINE, 'dashed'),
    viewPath(linePath(vec2(0, 0), bob)),
    viewPath(circlePath(vec2(0, 0), 0.6), FINE),
    viewPath(circlePath(add2(bob, vec2(0, -1)), 1)),
    ...viewText(add2(ground[0], vec2(2, 5)), say`low end`, 'left'),
    ...viewText(add2(ground[1], vec2(0, -4)), say`high end`, 'right'),
  ];
  return makePicture(say`On the work, printed side to you`, marks);
};

/** Drop over a level run. */
export const dropPicture = (angle: number, run: number, setting: Setting): Picture => {
  const long = 40;
  const drawn = Math.min(22, Math.max(7, long * Math.tan(angle)));
  const [a, b, c] = [vec2(0, 0), vec2(long, 0), vec2(long, -drawn)];
  const marks: Mark[] = [
    viewPath(linePath(a, b), FINE, 'long-dash-dot'),
    viewPath(linePath(a, c), WIDE),
    ...viewDimension(a, b, 4.5, say`run ${writeBoth(run, setting)}`),
    ...viewDimension(b, c, 4.5, say`drop`),
  ];
  return makePicture(say`The run is taped level, not along the slope`, marks);
};
