import type { Mark, Picture } from '../../../drawing/model.ts';
import { FINE, QUARTER, WIDE } from '../../../drawing/shape.ts';
import {
  fitView,
  makePicture,
  viewAngle,
  viewDimension,
  viewLine,
  viewText,
  type Projection,
  type Sight,
} from '../../../drawing/view.ts';
import { goreLengths, placeGores, type Gore, type GorePlace } from '../../../geometry/turn.ts';
import { add2, scale2, sub2, unit2, vec3, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import { stockReach } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import type { TurnRequest } from './turn-request.ts';

/** Seen from station 90 with the piece upright: throat left, heel right. */
const fromStation90: Sight = { right: vec3(-1, 0, 0), up: vec3(0, 0, 1) };
const inPlane = ({ x, y }: Vec2): Vec3 => vec3(x, 0, y);

const outline = ({ throat, heel }: GorePlace): readonly Vec3[] =>
  [throat[0], throat[1], heel[1], heel[0], throat[0]].map(inPlane);

const middle = (a: Vec2, b: Vec2): Vec2 => scale2(add2(a, b), 0.5);

/** The whole turn in side view, one piece drawn wide. */
export const turnPicture = (request: TurnRequest, setting: Setting, at?: Gore): Picture => {
  const { shape, angle } = request;
  const places = placeGores(shape);
  const start = { x: 0, y: shape.tangents[0] };
  const centre = { x: shape.radius, y: start.y };
  const away = { x: -Math.cos(angle), y: Math.sin(angle) };
  const end = add2(centre, scale2(away, shape.radius));
  const near = angle <= Math.PI * 1.01;
  const shown = [...places.flatMap(outline), ...(near ? [inPlane(centre)] : [])];
  const { project, scale } = fitView(fromStation90, shown, 52, 50);
  const flat = (p: Vec2): Vec2 => project(inPlane(p));
  const emphasised = places.find(({ gore }) => gore.number === at?.number);
  const marks: Mark[] = [
    ...places.map((place) => viewLine(project, outline(place), 'continuous', FINE)),
    ...places.map(({ from, to }) => viewLine(project, [from, to].map(inPlane), 'long-dash-dot')),
  ];
  if (near) {
    const [c, s, e] = [flat(centre), flat(start), flat(end)];
    const inner = Math.max(0.3, 1 - shape.r / shape.radius) / 2;
    const radiusAt = { x: c.x + (s.x - c.x) * inner, y: c.y - 2.8 };
    const heading = (p: Vec2): number => Math.atan2(p.y - c.y, p.x - c.x);
    marks.push(
      viewLine(project, [centre, start].map(inPlane), 'continuous', FINE),
      viewLine(project, [centre, end].map(inPlane), 'continuous', FINE),
      ...viewText(radiusAt, `R ${writeShort(shape.radius, setting)}`),
    );
    const from = heading(s);
    const to = from + angle;
    const room = Math.min(9, 0.45 * Math.hypot(e.x - c.x, e.y - c.y));
    if (room > 3) marks.push(...viewAngle(c, room, from, to, formatAngle(angle)));
  }
  if (emphasised) marks.push(viewLine(project, outline(emphasised), 'continuous', WIDE));
  for (const place of places) {
    const width = 2 * shape.r * scale;
    const length = place.gore.centre * scale;
    const label = String(place.gore.number);
    // A number too big for its piece stands outside its heel.
    const out = unit2(sub2(middle(...place.heel), middle(place.from, place.to)));
    const beside = add2(middle(...place.heel), scale2(out, 3.2 / scale));
    const inside = Math.min(width, length) > 4.5;
    const spot = flat(inside ? middle(place.from, place.to) : beside);
    marks.push(...viewText(spot, label, 'centre', place.gore.number === at?.number));
  }
  return makePicture('The turn, seen from station 90', marks);
};

/** One piece upright with its lengths. */
export const gorePicture = (request: TurnRequest, gore: Gore, setting: Setting): Picture => {
  const { stock, gores, gap } = request;
  const lengths = goreLengths(gore, gap);
  const r = stockReach(stock);
  const half = (side: number, cut: number): number => gore.centre / 2 + side * r * Math.tan(cut);
  /** Corners by side: +1 heel, -1 throat. */
  const corner = (side: 1 | -1, end: 1 | -1): Vec3 =>
    vec3(-side * r, 0, end * half(side, end > 0 ? gore.upper : gore.lower));
  const ring = [corner(-1, -1), corner(-1, 1), corner(1, 1), corner(1, -1), corner(-1, -1)];
  const { project } = fitView(fromStation90, ring, 26, 40);
  const above = project(vec3(0, 0, half(0, 0)));
  const below = project(vec3(0, 0, -half(0, 0)));
  const top = Math.max(...ring.map((p) => project(p).y));
  const foot = Math.min(...ring.map((p) => project(p).y));
  const next = gore.number < gores.length ? `gore ${gore.number + 1}` : 'square end';
  const last = gore.number > 1 ? `gore ${gore.number - 1}` : 'square end';
  const line = (points: readonly Vec3[], project_: Projection = project): Mark =>
    viewLine(project_, points, 'continuous', WIDE);
  const marks: Mark[] = [
    line(ring),
    viewLine(project, [vec3(0, 0, half(0, 0)), vec3(0, 0, -half(0, 0))], 'long-dash-dot', FINE),
    viewLine(project, [vec3(r, 0, 0), vec3(-r, 0, 0)], 'continuous', QUARTER),
    ...viewDimension(project(corner(-1, -1)), project(corner(-1, 1)), 4, writeShort(lengths.throat, setting)),
    ...viewDimension(project(corner(1, -1)), project(corner(1, 1)), -4, writeShort(lengths.heel, setting)),
    ...viewText({ x: above.x, y: top + 3.5 }, `▲ ${next}`),
    ...viewText({ x: below.x, y: foot - 3.5 }, `▼ ${last}`),
    ...viewText({ x: project(vec3(r, 0, 0)).x, y: foot - 7.5 }, 'throat 0°', 'right'),
    ...viewText({ x: project(vec3(-r, 0, 0)).x, y: foot - 7.5 }, '180° heel', 'left'),
  ];
  return makePicture(`Gore ${gore.number}, seen from station 90`, marks);
};
