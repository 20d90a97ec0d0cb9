import type { Mark, Picture } from '../../../drawing/model.ts';
import { arcPath, FINE, mapPath, WIDE } from '../../../drawing/paths.ts';
import { makePicture, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { polar2, vec2 } from '../../../geometry/vector.ts';
import { say } from '../../../words/say.ts';

const HALF = 20;
const PLATE = 3;

/** An arc through (±HALF, 0) and (0, rise), seen from `up` for a plate above it or below. */
const arcOver = (rise: number, half: number, offset: number) => {
  const radius = (half * half + rise * rise) / (2 * rise);
  const centre = vec2(0, rise - radius);
  const angle = Math.asin(Math.min(1, half / radius));
  return {
    path: arcPath(centre, radius + offset, Math.PI / 2 - angle, Math.PI / 2 + angle),
    ends: [1, -1].map((side) =>
      [0, offset].map((off) => {
        const p = polar2(radius + off, Math.PI / 2 - side * angle);
        return vec2(p.x + centre.x, p.y + centre.y);
      }),
    ),
  };
};

/** Gauge and plate seen along the rolls, the light between them made large. */
export const gaugePicture = (convex: boolean, light: 'middle' | 'ends'): Picture => {
  const tight = convex === (light === 'middle');
  const gaugeRise = 8;
  const plateRise = tight ? 11 : 5;
  // A light in the middle: both meet at the gauge's ends; at the ends: both meet in the middle.
  const lift = light === 'middle' ? 0 : gaugeRise - plateRise;
  const half = HALF + 6;
  const spread = plateRise * (half / HALF) ** 2;
  const plate = arcOver(spread, half, convex ? PLATE : -PLATE);
  const face = arcOver(spread, half, 0);
  const drop = plateRise - spread + lift;
  const move = (mark: Mark): Mark =>
    mark.kind !== 'stroke' ? mark : { ...mark, path: mapPath(mark.path, (p) => vec2(p.x, p.y + drop)) };
  const gauge = arcOver(gaugeRise, HALF, 0);
  const base = convex ? -9 : gaugeRise + 9;
  const marks: Mark[] = [
    ...[viewPath(face.path), viewPath(plate.path)].map(move),
    ...plate.ends.map(([a, b]) => move(viewRule(a ?? vec2(0, 0), b ?? vec2(0, 0)))),
    viewPath(gauge.path, WIDE),
    viewRule(vec2(-HALF, 0), vec2(-HALF, base), FINE),
    viewRule(vec2(HALF, 0), vec2(HALF, base), FINE),
    viewRule(vec2(-HALF, base), vec2(HALF, base), FINE),
    ...viewText(vec2(0, convex ? -4 : gaugeRise + 4.5), say`gauge`),
  ];
  const title =
    light === 'middle'
      ? tight
        ? say`Light in the middle: too tight`
        : say`Light in the middle: too flat`
      : tight
        ? say`Light at both ends: too tight`
        : say`Light at both ends: too flat`;
  return makePicture(title, marks);
};
