import { rollOn } from './fit-up.ts';
import { aside, lie } from './placed-bodies.ts';
import { minus, plus, times, type Vec2, type Vec3 } from './space.ts';

/** Thickness of the paper that sheets are laid on with, mm. */
export const paper = 0.1;

/** A wrapped or flat sheet on a straight body. */
export const onPipe =
  (angle: number, offset: number, od: number) =>
  (p: Vec2, depth: number): Vec3 => {
    const { d, u } = lie(angle);
    return rollOn(p, { od, paper }, aside(offset), d, u, od / 2 - depth);
  };
export const onPlate =
  (angle: number, toward: number, offset = 0) =>
  (p: Vec2, depth: number): Vec3 => {
    const { d, u, y } = lie(angle);
    return plus(aside(offset), plus(times(u, toward - depth), plus(times(y, p.x), times(d, p.y))));
  };
/** A right cone's flat pattern: polar about the apex, with the paper half its thickness over the steel. */
export const onCone =
  (angle: number, offset: number, large: number, small: number, length: number, at: number) =>
  (p: Vec2, depth: number): Vec3 => {
    const { d, u, y } = lie(angle);
    const half = Math.atan((large - small) / 2 / length);
    const apexAhead = large / 2 / Math.tan(half) - at;
    // Slant from the apex to the square line, and to the point; on paper the apex moves ahead by lift / sin(half).
    const lift = paper / 2 / Math.tan(half);
    const square = apexAhead / Math.cos(half) + lift;
    const [px, py] = [p.x, square - p.y];
    const slant = Math.hypot(px, py) - lift;
    const round = Math.atan2(px, py) / Math.sin(half);
    const out = plus(times(u, Math.cos(round)), times(y, Math.sin(round)));
    const normal = plus(times(out, Math.cos(half)), times(d, Math.sin(half)));
    const apex = plus(aside(offset), times(d, apexAhead));
    const line = minus(times(out, Math.sin(half)), times(d, Math.cos(half)));
    return minus(plus(apex, times(line, slant)), times(normal, depth));
  };
