import { letteringBox, textWidth } from '../drawing/lettering.ts';
import type { Box, Fill, Lettering, Mark, Path, Stroke } from '../drawing/model.ts';
import {
  arcPath,
  arrowhead,
  circlePath,
  distance,
  FINE,
  growBox,
  knockout,
  letter,
  NARROW,
  ruleLine,
  stroke,
  WIDE,
} from '../drawing/paths.ts';
import { lastOf } from '../lists.ts';
import { add2, left2, polar2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';

/**
 * Marks that all flat sheets share: holes, slots, punch crosses, center lines, dimensions and labels. Everything is in
 * sheet mm and radians, counter-clockwise from +x. What is cut is on layer `cut`, what is punched on `punch`, dimensions
 * on `dimension`. Degree rings are in degree-ring.ts.
 */
/** A closed outline to cut: plate edge, rim, bore, window. */
export const drawOutline = (path: Path): Stroke => stroke('cut', path, WIDE);

/** A round hole, exact circle on layer `cut`. */
export const drawHole = (at: Vec2, diameter: number): Stroke => drawOutline(circlePath(at, diameter / 2));

/**
 * The outline of a slot with round ends: `width` is the drill's diameter, `length` is measured over both ends, `along` is
 * the direction of its long axis. A slot no longer than wide is a circle.
 */
export const slotPath = (at: Vec2, width: number, length: number, along: number): Path => {
  const radius = width / 2;
  const half = (length - width) / 2;
  if (half <= 0) return circlePath(at, radius);
  const end = arcPath(add2(at, polar2(half, along)), radius, along - Math.PI / 2, along + Math.PI / 2);
  const start = arcPath(sub2(at, polar2(half, along)), radius, along + Math.PI / 2, along + 1.5 * Math.PI);
  return {
    start: end.start,
    segments: [
      ...end.segments,
      { kind: 'line', to: start.start },
      ...start.segments,
      { kind: 'line', to: end.start },
    ],
    closed: true,
  };
};

/** A center to punch: two strokes of `2 × reach` on layer `punch` whose middles both lie exactly on `at`. */
export const drawPunch = (at: Vec2, reach = 2.5): Mark[] => [
  ruleLine('punch', { x: at.x - reach, y: at.y }, { x: at.x + reach, y: at.y }, NARROW),
  ruleLine('punch', { x: at.x, y: at.y - reach }, { x: at.x, y: at.y + reach }, NARROW),
];

/** A punch cross in a small ring, for the center of a figure: the eye finds it, the pin pricks where the lines cross. */
export const drawTarget = (at: Vec2, ring = 2): Mark[] => [
  stroke('reference', circlePath(at, ring), FINE),
  ...drawPunch(at, 2 * ring),
];

/** Two center lines square to each other through `at`, reaching `reachX` and `reachY` both ways; turned by `angle`. */
export const centreLines = (at: Vec2, reachX: number, reachY: number, angle = 0): Mark[] =>
  [polar2(reachX, angle), left2(polar2(reachY, angle))]
    .filter((reach) => reach.x !== 0 || reach.y !== 0)
    .map((reach) => ruleLine('centre', sub2(at, reach), add2(at, reach), NARROW, 'long-dash-dot'));

/** A pitch circle: centers lie on it. */
export const pitchCircle = (at: Vec2, diameter: number): Stroke =>
  stroke('centre', circlePath(at, diameter / 2), NARROW, 'long-dash-dot');

/** White paper under a lettering, so that no line runs through it; put it after the lines and before the lettering. */
export const onPaper = (text: Lettering, gap = 0.6): [Fill, Lettering] => [
  knockout(text.role, growBox(letteringBox(text), gap)),
  text,
];

/** The reading direction along a line: never upside down, vertical text reads from below. */
export const uprightAngle = (direction: Vec2): number => {
  const angle = Math.atan2(direction.y, direction.x);
  if (angle > Math.PI / 2 + 1e-9) return angle - Math.PI;
  return angle <= -Math.PI / 2 + 1e-9 ? angle + Math.PI : angle;
};

/**
 * A dimension from `a` to `b`, its line moved `offset` to the left of that direction (negative: right), its value
 * standing on the line. Where it is too short for value and arrows, the arrows point in from outside and the value
 * stands past `b`.
 */
export const linearDimension = (a: Vec2, b: Vec2, offset: number, text: string, height = 3.5): Mark[] => {
  const length = distance(a, b);
  if (length === 0) return [];
  const along = unit2(sub2(b, a));
  const side = scale2(left2(along), Math.sign(offset) || 1);
  const shift = (p: Vec2, by: number): Vec2 => add2(p, scale2(side, by));
  const [p, q] = [shift(a, Math.abs(offset)), shift(b, Math.abs(offset))];
  const width = textWidth(text, height, false);
  const fits = length > width + 7;
  const angle = uprightAngle(along);
  const up = polar2(1, angle + Math.PI / 2);
  const middle = fits ? scale2(add2(p, q), 0.5) : add2(q, scale2(along, 7.5 + width / 2));
  const extension = Math.abs(offset) > 1.5 ? [a, b] : [];
  return [
    ...extension.map((foot) =>
      ruleLine('dimension', shift(foot, 1), shift(foot, Math.abs(offset) + 1.5), FINE),
    ),
    ruleLine(
      'dimension',
      fits ? p : sub2(p, scale2(along, 6)),
      fits ? q : add2(q, scale2(along, 8 + width)),
      FINE,
    ),
    arrowhead('dimension', p, scale2(along, fits ? -1 : 1)),
    arrowhead('dimension', q, scale2(along, fits ? 1 : -1)),
    ...onPaper(letter('text', add2(middle, scale2(up, 1.6)), text, height, { align: 'centre', angle }), 0.4),
  ];
};

/** A note on a leader: an arrow on `tip`, a line to `elbow`, the text beside it on the side away from the tip. */
export const leaderNote = (tip: Vec2, elbow: Vec2, text: string, height = 3.5): Mark[] => {
  const right = elbow.x >= tip.x;
  const shelf = { x: elbow.x + (right ? 3 : -3), y: elbow.y };
  const at = { x: shelf.x + (right ? 1 : -1), y: elbow.y };
  return [
    ruleLine('dimension', tip, elbow, FINE),
    ruleLine('dimension', elbow, shelf, FINE),
    arrowhead('dimension', tip, sub2(tip, elbow)),
    ...onPaper(letter('text', at, text, height, { align: right ? 'left' : 'right', valign: 'middle' }), 0.4),
  ];
};

/** A radius: an arrow from inside on the arc at `angle`, the value standing on the line. */
export const radiusDimension = (
  centre: Vec2,
  radius: number,
  angle: number,
  text: string,
  from = 0,
  height = 3.5,
): Mark[] => {
  const direction = polar2(1, angle);
  const [foot, tip] = [add2(centre, scale2(direction, from)), add2(centre, scale2(direction, radius))];
  return [
    ruleLine('dimension', foot, tip, FINE),
    arrowhead('dimension', tip, direction),
    ...standOn(foot, tip, text, height),
  ];
};

/**
 * A diameter: arrows from inside at both ends of the chord through the center at `angle`; its value stands at `share` of
 * the radius from the center, off the middle, where center lines cross.
 */
export const diameterDimension = (
  centre: Vec2,
  diameter: number,
  angle: number,
  text: string,
  height = 3.5,
  share = 0.5,
): Mark[] => {
  const reach = polar2(diameter / 2, angle);
  const [a, b] = [sub2(centre, reach), add2(centre, reach)];
  return [
    ruleLine('dimension', a, b, FINE),
    arrowhead('dimension', a, scale2(reach, -1)),
    arrowhead('dimension', b, reach),
    ...standOn(centre, add2(centre, scale2(reach, 2 * share)), text, height),
  ];
};

/** An angle's arc with arrows from `from` counter-clockwise to `to`, its value beyond the arc's middle. */
export const angleDimension = (
  centre: Vec2,
  radius: number,
  from: number,
  to: number,
  text: string,
  height = 3.5,
): Mark[] => {
  const at = (angle: number, r: number): Vec2 => add2(centre, polar2(r, angle));
  const size = Math.min(2.5, ((to - from) * radius) / 3);
  // An arrowhead is straight: turned by half its own arc it lies on the curve.
  const lean = size / (2 * radius);
  const middle = (from + to) / 2;
  const reach = radius + 1.5 + (textWidth(text, height, false) / 2) * Math.abs(Math.cos(middle)) + height / 2;
  return [
    stroke('dimension', arcPath(centre, radius, from, to), FINE),
    arrowhead('dimension', at(from, radius), polar2(1, from + lean - Math.PI / 2), size),
    arrowhead('dimension', at(to, radius), polar2(1, to - lean + Math.PI / 2), size),
    ...onPaper(letter('text', at(middle, reach), text, height, { align: 'centre', valign: 'middle' }), 0.4),
  ];
};

/** The first of several places for a lettering that keeps `gap` mm clear of the boxes taken; undefined where none does. */
export const findClear = (
  candidates: readonly Lettering[],
  taken: readonly Box[],
  gap = 0.8,
): Lettering | undefined =>
  candidates.find((candidate) => isClear(growBox(letteringBox(candidate), gap), taken));

/**
 * As `findClear`, but the last place where none is clear. Push the box of what it returns to `taken` to place the next.
 */
export const placeClear = (
  candidates: readonly [Lettering, ...Lettering[]],
  taken: readonly Box[],
  gap = 0.8,
): Lettering => findClear(candidates, taken, gap) ?? lastOf(candidates);

/** Small boxes along a circle, for lettering that has to keep clear of the line. */
export const circleBoxes = (centre: Vec2, diameter: number): Box[] => {
  const count = Math.max(8, Math.ceil((Math.PI * diameter) / 1.5));
  return Array.from({ length: count }, (_, i) => {
    const { x, y } = add2(centre, polar2(diameter / 2, (2 * Math.PI * i) / count));
    return { minX: x - 0.5, maxX: x + 0.5, minY: y - 0.5, maxY: y + 0.5 };
  });
};
const standOn = (a: Vec2, b: Vec2, text: string, height: number): Mark[] => {
  const angle = uprightAngle(sub2(b, a));
  const at = add2(scale2(add2(a, b), 0.5), polar2(1, angle + Math.PI / 2));
  return onPaper(letter('text', at, text, height, { align: 'centre', angle }), 0.3);
};
const isClear = (box: Box, taken: readonly Box[]): boolean =>
  taken.every((t) => box.maxX <= t.minX || box.minX >= t.maxX || box.maxY <= t.minY || box.minY >= t.maxY);
