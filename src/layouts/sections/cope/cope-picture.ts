import type { Mark, Picture } from '../../../drawing/model.ts';
import { FINE, polylinePath } from '../../../drawing/paths.ts';
import { makePicture, viewDimension, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { scale2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import { say } from '../../../words/say.ts';
import { cutsOf, type CopedEnd } from './coped-end.ts';

const SIZE = 46;

/** Both beams seen along the receiving one: its section on the left, the coped beam running to the right. */
export const copePicture = (end: CopedEnd, write: (length: number) => string): Picture => {
  const { beam, to, setback, drop, slope, angle } = end;
  const start = (to.web / 2 + setback) / Math.sin(angle);
  const long = start + Math.max(...cutsOf(end).map(([, cut]) => cut.length)) + 0.8 * beam.depth;
  const scale = SIZE / Math.max(to.depth, to.width / 2 + long);
  const at = (x: number, y: number): Vec2 => scale2(vec2(x, y), scale);
  const [c, s] = [Math.cos(slope), Math.sin(slope)];
  /** A place on the coped beam, from its end's top. */
  const own = ({ x, y }: Vec2): Vec2 => at(start + x * c - y * s, -drop + x * s + y * c);
  const section = (sign: number): Vec2[] => [
    at((sign * to.width) / 2, 0),
    at((sign * to.width) / 2, -to.flange),
    at((sign * to.web) / 2, -to.flange),
    at((sign * to.web) / 2, -to.depth + to.flange),
    at((sign * to.width) / 2, -to.depth + to.flange),
    at((sign * to.width) / 2, -to.depth),
  ];
  const { top, bottom } = end.cope;
  const [coped, lower] = [end.side !== 'bottom', end.side !== 'top'];
  const reach = long - start;
  const lean = Math.tan(slope) * beam.depth;
  const edge: Vec2[] = [
    vec2(reach, 0),
    ...(coped ? [top.corners[2], top.corners[1], top.corners[0]] : [vec2(0, 0)]),
    ...(lower ? [bottom.corners[0], bottom.corners[1], bottom.corners[2]] : [vec2(-lean, -beam.depth)]),
    vec2(reach, -beam.depth),
  ];
  const marks: Mark[] = [
    viewPath(polylinePath([...section(1), ...section(-1).reverse()], true)),
    viewPath(polylinePath(edge.map(own))),
    ...[-beam.flange, -beam.depth + beam.flange].map((y) => {
      const from = y > -beam.depth / 2 ? (coped ? top.corners[2].x : 0) : lower ? bottom.corners[2].x : 0;
      return viewRule(own(vec2(from, y)), own(vec2(reach, y)), FINE);
    }),
    viewRule(own(vec2(reach, 2)), own(vec2(reach, -beam.depth - 2)), FINE, 'long-dash-dot'),
    ...(coped
      ? viewDimension(own(vec2(0, 0)), own(top.corners[2]), 6, write(top.length))
      : viewDimension(own(bottom.corners[2]), own(vec2(0, -beam.depth)), 6, write(bottom.length))),
    ...viewText(own(vec2(reach * 0.65, -beam.depth / 2)), say`KEEP`, 'centre', true),
  ];
  return makePicture(say`The joint, seen along the other beam`, marks);
};
