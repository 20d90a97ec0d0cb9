import {
  add3,
  cross3,
  dot3,
  length3,
  scale3,
  squareTo,
  sub3,
  unit3,
  type Vec3,
} from '../../geometry/vector.ts';
import { vectorAt, type Form } from '../form.ts';

/** A place as it is seen from an eye: to the right and up, mm as they are at the hole, and how far ahead it lies. */
export interface SeenPlace {
  readonly x: number;
  readonly y: number;
  readonly ahead: number;
}

/** Lays the skins around a hole flat as they are seen from behind: straight lines stay straight. */
export type Lens = (p: Vec3) => SeenPlace;

const middleOf = (points: readonly Vec3[]): Vec3 => scale3(points.reduce(add3), 1 / points.length);

/**
 * The lens for a hole between its edges on the outside and on the inside. The eye lies behind the whole body, as near as may be: so
 * walls that run straight back from the hole are seen too, spread by the distance.
 */
export const lensBehind = ({ positions }: Form, outer: readonly Vec3[], inner: readonly Vec3[]): Lens => {
  const middle = middleOf(outer);
  const out = unit3(sub3(middle, middleOf(inner)));
  const size = Math.max(...outer.map((p) => length3(sub3(p, middle))));
  let back = 0;
  for (let i = 0; i < positions.length / 3; i++)
    back = Math.max(back, dot3(sub3(middle, vectorAt(positions, i)), out));
  const deep = back + size;
  const eye = sub3(middle, scale3(out, deep));
  const right = squareTo(out);
  const up = cross3(out, right);
  return (p) => {
    const from = sub3(p, eye);
    const ahead = dot3(from, out);
    const k = deep / ahead;
    return { x: dot3(from, right) * k, y: dot3(from, up) * k, ahead };
  };
};
