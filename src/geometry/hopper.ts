import { itemAt } from '../lists.ts';
import { cross3, dot3, length3, scale3, sub3, unit3, vec2, vec3, type Vec2, type Vec3 } from './vector.ts';

/** A hopper of four flat plates between two upright rectangles, inside sizes in mm; the bottom's center is moved by `offset`. */
export interface Hopper {
  readonly top: Vec2;
  readonly bottom: Vec2;
  readonly height: number;
  readonly offset: Vec2;
}

/** The sides in order round the hopper, counter-clockwise from above. */
export const SIDES = ['front', 'right', 'back', 'left'] as const;
export type Side = (typeof SIDES)[number];

/** One plate's inside face. */
export interface HopperPlate {
  readonly side: Side;
  /**
   * Corners of the inside face laid flat, seen from outside, bottom edge on y = 0 from x = 0: bottom left, bottom right,
   * top right, top left.
   */
  readonly corners: readonly [Vec2, Vec2, Vec2, Vec2];
  /** From level, outward, up to the plate, radians: less than 90° where the hopper widens upward. */
  readonly slope: number;
  /** Between the inside faces of this plate and the next one round, radians: what a corner angle is opened to. */
  readonly dihedral: number;
  /** Length of the corner to the next plate, mm. */
  readonly hip: number;
}

/** The corners of a rectangle from above: front left, front right, back right, back left. */
const rectangle = (size: Vec2, centre: Vec2, z: number): readonly Vec3[] =>
  [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([x, y]) =>
    vec3(centre.x + ((x as number) * size.x) / 2, centre.y + ((y as number) * size.y) / 2, z),
  );

/** The plates of a hopper in the order of SIDES. The front lies toward -y, the right toward +x. */
export const hopperPlates = ({ top, bottom, height, offset }: Hopper): readonly HopperPlate[] => {
  const [upper, lower] = [rectangle(top, vec2(0, 0), height), rectangle(bottom, offset, 0)];
  const at = (ring: readonly Vec3[], i: number): Vec3 => itemAt(ring, i % 4);
  const frames = SIDES.map((_, i) => {
    const along = unit3(sub3(at(upper, i + 1), at(upper, i)));
    const rise = sub3(at(upper, i), at(lower, i));
    const up = unit3(sub3(rise, scale3(along, dot3(rise, along))));
    return { along, up, normal: cross3(along, up) };
  });
  return SIDES.map((side, i): HopperPlate => {
    const { along, up, normal } = itemAt(frames, i);
    const next = itemAt(frames, (i + 1) % 4);
    const flat = (p: Vec3): Vec2 => {
      const d = sub3(p, at(lower, i));
      return vec2(dot3(d, along), dot3(d, up));
    };
    return {
      side,
      corners: [flat(at(lower, i)), flat(at(lower, i + 1)), flat(at(upper, i + 1)), flat(at(upper, i))],
      slope: Math.acos(Math.max(-1, Math.min(1, dot3(up, cross3(along, vec3(0, 0, 1)))))),
      dihedral: Math.PI - Math.acos(Math.max(-1, Math.min(1, dot3(normal, next.normal)))),
      hip: length3(sub3(at(upper, i + 1), at(lower, i + 1))),
    };
  });
};

/** How far a plate that laps its neighbor's edge reaches past the inside corner, in its own plane square to it, mm. */
export const lapReach = (thickness: number, dihedral: number): number => thickness / Math.sin(dihedral);
