import type { Mark, Picture } from '../drawing/model.ts';
import { FINE, polylinePath } from '../drawing/paths.ts';
import { makePicture, viewAngle, viewDimension, viewPath, viewRule, viewText } from '../drawing/view.ts';
import { contourOutline } from '../geometry/contour-outline.ts';
import { polar2, scale2, vec2, type Vec2 } from '../geometry/vector.ts';
import type { Hinge } from '../stock/hinges.ts';
import type { Stock } from '../stock/stock.ts';
import { formatAngle } from '../units/angle.ts';
import { say, translateName } from '../words/say.ts';

/** How deep the stock stands over the outside of its hinge, mm. */
const depthOver = (stock: Stock, hinge: Hinge): number => {
  const outline = contourOutline(stock.section);
  const face = outline.faces.find((part) => part.face === hinge.face);
  if (!face) return 0;
  const height = (p: Vec2): number => p.x * face.out.x + p.y * face.out.y;
  const top = height(outline.at((face.from + face.to) / 2, 0));
  return Math.max(...outline.joints.map((s) => top - height(outline.at(s, 0))));
};

/** The notch flat, seen from the side with the hinge below. */
export const notchPicture = (stock: Stock, hinge: Hinge, turn: number, width: string): Picture => {
  const deep = depthOver(stock, hinge);
  const scale = 16 / deep;
  const t = Math.max(1.2, hinge.thickness * scale);
  const h = 16;
  const half = Math.min(20, (h - t) * Math.tan(turn / 2));
  const long = 30;
  const marks: Mark[] = [
    viewPath(
      polylinePath([
        vec2(-long, 0),
        vec2(long, 0),
        vec2(long, h),
        vec2(half, h),
        vec2(0, t),
        vec2(-half, h),
        vec2(-long, h),
        vec2(-long, 0),
      ]),
    ),
    viewRule(vec2(-long, t), vec2(long, t), FINE, 'dashed'),
    ...viewDimension(vec2(-half, h), vec2(half, h), 5, width),
    ...viewAngle(vec2(0, t), 7, Math.PI / 2 - turn / 2, Math.PI / 2 + turn / 2, formatAngle(turn)),
    ...viewText(vec2(0, -3.5), say`hinge: ${translateName(hinge.face)}`),
    ...viewText(vec2(-long + 8, h / 2), say`KEEP`, 'centre', true),
    ...viewText(vec2(long - 8, h / 2), say`KEEP`, 'centre', true),
  ];
  const [a, c] = [-26, h + 14];
  // The same folded, on the right of its first leg.
  const leg = (from: Vec2, angle: number): readonly Vec2[] => {
    const along = polar2(24, angle);
    const up = polar2(0.6 * h, angle + Math.PI / 2);
    return [
      from,
      vec2(from.x + along.x, from.y + along.y),
      vec2(from.x + along.x + up.x, from.y + along.y + up.y),
    ];
  };
  const corner = vec2(a + 26, c);
  const first = [corner, vec2(corner.x - 24, corner.y), vec2(corner.x - 24, corner.y + 0.6 * h)];
  const second = leg(corner, turn);
  const miter = Math.min(30, (0.6 * h) / Math.cos(turn / 2));
  const tip = scale2(polar2(1, Math.PI / 2 + turn / 2), miter);
  const meet = vec2(corner.x + tip.x, corner.y + tip.y);
  marks.push(viewPath(polylinePath([...first, meet, corner])), viewPath(polylinePath([...second, meet])));
  return makePicture(say`Flat from the side, and folded`, marks);
};
