import type { Mark, Picture } from '../../../drawing/model.ts';
import { circlePath, FINE, polylinePath } from '../../../drawing/paths.ts';
import { makePicture, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { add2, left2, polar2, scale2, sub2, unit2, type Vec2 } from '../../../geometry/vector.ts';
import { say } from '../../../words/say.ts';

const RADIUS = 20;
const ORIGIN = { x: 0, y: 0 };

const onEdge = (degrees: number): Vec2 => polar2(RADIUS, (degrees * Math.PI) / 180);

/** Two chords of one length, their middles, and the square lines that cross at the center. */
export const chordsPicture = (): Picture => {
  const chord = (at: number): Mark[] => {
    const [a, b] = [onEdge(at - 38), onEdge(at + 38)];
    const middle = scale2(add2(a, b), 0.5);
    const inward = unit2(scale2(middle, -1));
    const along = scale2(unit2(sub2(b, a)), 1.8);
    const corner = [
      add2(middle, along),
      add2(add2(middle, along), scale2(inward, 1.8)),
      add2(middle, scale2(inward, 1.8)),
    ];
    return [
      viewRule(a, b),
      viewRule(middle, add2(middle, scale2(inward, RADIUS)), FINE, 'long-dash-dot'),
      viewPath(polylinePath(corner), FINE),
    ];
  };
  return makePicture(say`Two chords halved: the lines square to them cross at the center`, [
    viewPath(circlePath(ORIGIN, RADIUS)),
    ...chord(200),
    ...chord(290),
    viewPath(circlePath(ORIGIN, 1), FINE),
    ...viewText({ x: 3, y: 3 }, say`center`, 'left'),
  ]);
};

/** A right angle with its corner on the circle spans a diameter. */
export const cornerPicture = (): Picture => {
  const corner = onEdge(235);
  const [a, b] = [onEdge(160), onEdge(340)];
  const [u, v] = [unit2(sub2(a, corner)), unit2(sub2(b, corner))];
  const square = [
    add2(corner, scale2(u, 3)),
    add2(add2(corner, scale2(u, 3)), scale2(v, 3)),
    add2(corner, scale2(v, 3)),
  ];
  const [c, d] = [onEdge(70), onEdge(250)];
  return makePicture(say`The corner on the edge, the legs meet the ends of a diameter`, [
    viewPath(circlePath(ORIGIN, RADIUS)),
    viewRule(corner, add2(a, scale2(u, 4))),
    viewRule(corner, add2(b, scale2(v, 4))),
    viewPath(polylinePath(square), FINE),
    viewRule(a, b, FINE, 'long-dash-dot'),
    viewRule(c, d, FINE, 'dashed'),
    ...viewText(add2(corner, add2(scale2(left2(v), -3.5), { x: -4, y: -1 })), '90°'),
    ...viewText({ x: -6, y: 6 }, say`diameter`),
  ]);
};
