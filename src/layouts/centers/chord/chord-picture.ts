import type { Mark, Picture } from '../../../drawing/model.ts';
import { circlePath, FINE, polylinePath } from '../../../drawing/paths.ts';
import { makePicture, viewDimension, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { circumradius } from '../../../geometry/chord.ts';
import { itemAt } from '../../../lists.ts';
import { add2, polar2, scale2, type Vec2 } from '../../../geometry/vector.ts';
import { say } from '../../../words/say.ts';
import type { Arc } from './chord-marks.ts';

const RADIUS = 19;
const ORIGIN = { x: 0, y: 0 };

/** Chord, rise and center on the whole circle. */
export const chordPicture = ({ rise, radius }: Arc): Picture => {
  // Never so flat or so full that the picture shows nothing.
  const up = Math.min(0.85, Math.max(-0.6, 1 - rise / radius)) * RADIUS;
  const half = Math.sqrt(RADIUS * RADIUS - up * up);
  const marks: Mark[] = [
    viewPath(circlePath(ORIGIN, RADIUS)),
    viewRule({ x: -half, y: up }, { x: half, y: up }),
    viewRule({ x: 0, y: -4 }, { x: 0, y: RADIUS }, FINE, 'long-dash-dot'),
    viewPath(circlePath(ORIGIN, 1), FINE),
    ...viewDimension({ x: half, y: up }, { x: half, y: RADIUS }, -(RADIUS - half + 6), say`rise`),
    ...viewDimension({ x: -half, y: up }, { x: half, y: up }, RADIUS - up + 7, say`chord`),
    ...viewText({ x: 3, y: -3.5 }, say`center`, 'left'),
  ];
  return makePicture(say`Chord, rise and center, seen on the face`, marks);
};

/** Three marks on the edge and the lines square off the middles of the sides. */
export const trianglePicture = ([a, b, c]: readonly [number, number, number]): Picture => {
  const radius = circumradius(a, b, c);
  const arcOf = (side: number, other: number, third: number): number => {
    const turn = 2 * Math.asin(Math.min(1, side / (2 * radius)));
    return other * other + third * third < side * side ? 2 * Math.PI - turn : turn;
  };
  const [first, second] = [arcOf(a, b, c), arcOf(b, a, c)];
  const points: Vec2[] = [0, first, first + second].map((turn) =>
    polar2(RADIUS, turn - Math.PI / 2 - first / 2),
  );
  const sides = points.map((p, i): [Vec2, Vec2] => [p, itemAt(points, (i + 1) % 3)]);
  const marks: Mark[] = [
    viewPath(circlePath(ORIGIN, RADIUS)),
    viewPath(polylinePath(points, true)),
    ...sides.map(([p, q]) => viewRule(scale2(add2(p, q), 0.5), ORIGIN, FINE, 'dashed')),
    viewPath(circlePath(ORIGIN, 1), FINE),
    ...points.flatMap((p, i) => [
      viewPath(circlePath(p, 0.8)),
      ...viewText(scale2(p, 1.2), `${i + 1}`, 'centre', true),
    ]),
  ];
  return makePicture(say`Three marks on the edge; sides 1–2, 2–3, 3–1 in the order given`, marks);
};
