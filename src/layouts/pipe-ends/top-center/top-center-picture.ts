import type { Mark, Picture } from '../../../drawing/model.ts';
import { boxPath, circlePath, FINE, MEDIUM, polylinePath, QUARTER } from '../../../drawing/paths.ts';
import {
  makePicture,
  viewAngle,
  viewDimension,
  viewPath,
  viewRule,
  viewText,
} from '../../../drawing/view.ts';
import { add2, polar2, scale2, type Vec2 } from '../../../geometry/vector.ts';
import { say } from '../../../words/say.ts';

const RADIUS = 14;
const ORIGIN = { x: 0, y: 0 };

/** A spirit level lying along `angle` with its foot's middle on `at`. */
const spiritLevel = (at: Vec2, angle: number, half: number): Mark[] => {
  const u = polar2(1, angle);
  const n = polar2(1, angle + Math.PI / 2);
  const place = (x: number, y: number): Vec2 => add2(at, add2(scale2(u, x), scale2(n, y)));
  const box = (x0: number, x1: number, y0: number, y1: number, width: number): Mark =>
    viewPath(polylinePath([place(x0, y0), place(x1, y0), place(x1, y1), place(x0, y1)], true), width);
  return [
    box(-half, half, 0, 4, QUARTER),
    box(-3, 3, 1.2, 2.8, FINE),
    viewPath(circlePath(place(0, 2), 0.6), FINE),
  ];
};

/** Square and level on the pipe, facing its end: the blade on top, the leg down its side. */
export const squarePicture = (): Picture => {
  const [left, right, thick] = [-RADIUS, 26, 4];
  const marks: Mark[] = [
    viewPath(circlePath(ORIGIN, RADIUS)),
    viewPath(circlePath(ORIGIN, RADIUS - 1.6), FINE),
    viewPath(
      polylinePath(
        [
          { x: left, y: RADIUS },
          { x: right, y: RADIUS },
          { x: right, y: RADIUS + thick },
          { x: left - thick, y: RADIUS + thick },
          { x: left - thick, y: -RADIUS - 2 },
          { x: left, y: -RADIUS - 2 },
        ],
        true,
      ),
    ),
    ...spiritLevel({ x: 6, y: RADIUS + thick }, 0, 13),
    viewRule({ x: 0, y: RADIUS + thick }, { x: 0, y: RADIUS - 3 }, MEDIUM),
    viewRule({ x: 0, y: 4 }, { x: 0, y: -RADIUS - 3 }, FINE, 'long-dash-dot'),
    viewRule({ x: -RADIUS + 3, y: 0 }, { x: RADIUS + 3, y: 0 }, FINE, 'long-dash-dot'),
    ...viewText({ x: 0.5, y: RADIUS - 5.2 }, say`TDC`, 'centre', true),
    ...viewDimension({ x: left, y: -RADIUS }, { x: 0, y: -RADIUS }, -7, say`half OD`),
    ...viewText({ x: 17, y: RADIUS - 3 }, say`strip here`, 'left'),
  ];
  return makePicture(say`Square and level on the pipe, facing its end`, marks);
};

/** A protractor level touching the pipe at station 30, counted counter-clockwise from the top. */
export const levelPicture = (): Picture => {
  const station = Math.PI / 6;
  const touch = polar2(RADIUS, Math.PI / 2 + station);
  const marks: Mark[] = [
    viewPath(circlePath(ORIGIN, RADIUS)),
    viewPath(circlePath(ORIGIN, RADIUS - 1.6), FINE),
    viewRule({ x: 0, y: -4 }, { x: 0, y: RADIUS + 6 }, FINE, 'long-dash-dot'),
    viewRule(ORIGIN, touch, FINE),
    ...spiritLevel(touch, station, 11),
    ...viewAngle(ORIGIN, RADIUS * 0.3, Math.PI / 2, Math.PI / 2 + station, '30°'),
    ...viewText({ x: 0, y: RADIUS + 8.5 }, say`TDC`, 'centre', true),
    ...viewText({ x: touch.x - 13, y: touch.y - 1 }, say`reads 30°`, 'right'),
    viewPath(
      boxPath({ minX: touch.x - 0.5, maxX: touch.x + 0.5, minY: touch.y - 0.5, maxY: touch.y + 0.5 }),
      FINE,
    ),
  ];
  return makePicture(say`Station 30 with a protractor level set to 30°, facing the pipe’s end`, marks);
};
