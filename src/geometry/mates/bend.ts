import { along, type Mate } from '../mate.ts';
import { add3, cross3, dot3, scale3, sub3, unit3, type Vec3 } from '../vector.ts';
import { cylinderMate } from './cylinder.ts';
import { unionMate } from './several.ts';
import { torusMate } from './torus.ts';

/** Two legs of pipe and the bend between them, mm. */
export interface Bend {
  /** Where the centre lines of the legs cross. */
  readonly corner: Vec3;
  /** Unit directions of the legs, away from the bend. */
  readonly legs: readonly [Vec3, Vec3];
  /** Radius of the centre line; 0 for a miter. */
  readonly bendRadius: number;
  /** Radius of the pipe. */
  readonly radius: number;
}

/** How a bend lies. */
export interface BendFigures {
  /** Radians. */
  readonly turn: number;
  /** Corner to the end of the arc, mm. */
  readonly takeOff: number;
  /** Unit direction from the corner to the centre of the arc. */
  readonly inward: Vec3;
  readonly centre: Vec3;
  /** Unit direction the centre line turns about. */
  readonly axis: Vec3;
}

/** The figures that follow from a bend's legs and radius. */
export const bendFigures = ({ corner, legs, bendRadius }: Bend): BendFigures => {
  const [a, b] = legs;
  const turn = Math.PI - Math.acos(Math.max(-1, Math.min(1, dot3(a, b))));
  const takeOff = bendRadius * Math.tan(turn / 2);
  const inward = unit3(add3(a, b));
  return {
    turn,
    takeOff,
    inward,
    centre: add3(corner, scale3(inward, bendRadius / Math.cos(turn / 2))),
    axis: unit3(cross3(b, a)),
  };
};

/** A point of the centre line and its direction toward the second leg, `angle` (radians) on from the first leg's end. */
export const bendStation = (bend: Bend, angle: number): { readonly at: Vec3; readonly tangent: Vec3 } => {
  const { centre, axis } = bendFigures(bend);
  const start = scale3(bend.legs[0], -1);
  const side = cross3(start, axis);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  // Seen along the axis the centre line turns from `start` about the arc's centre.
  const out = add3(scale3(side, c), scale3(start, s));
  return {
    at: add3(centre, scale3(out, bend.bendRadius)),
    tangent: add3(scale3(start, c), scale3(side, -s)),
  };
};

/**
 * An elbow with the straight pipes at its ends, or two pipes mitered together (bend radius 0), as a mate. The pipes go on
 * without end.
 */
export const bendMate = (bend: Bend): Mate => {
  const { corner, legs, bendRadius, radius } = bend;
  const { takeOff } = bendFigures(bend);
  const seam = unit3(sub3(legs[0], legs[1]));
  const leg = (i: 0 | 1): Mate => {
    const pipe = cylinderMate(corner, legs[i], radius);
    // Past a bend the pipe begins at its end; past a miter, at the seam's plane.
    const onLeg = (p: Vec3): boolean =>
      bendRadius > 0
        ? dot3(sub3(p, corner), legs[i]) >= takeOff
        : dot3(sub3(p, corner), seam) * (i === 0 ? 1 : -1) >= 0;
    return {
      convex: true,
      enter: (line) => {
        const hit = pipe.enter(line);
        return hit && onLeg(along(line, hit.t)) ? { ...hit, face: `leg ${i + 1}` } : undefined;
      },
    };
  };
  if (bendRadius === 0) return unionMate([leg(0), leg(1)]);
  // The surface runs on from leg to bend without a corner, so it is followed as one.
  const { enter } = unionMate([leg(0), leg(1), bendArcMate(bend)]);
  return { convex: false, enter };
};

/** The curved part of an elbow alone, between the planes in which its legs begin. */
export const bendArcMate = (bend: Bend): Mate => {
  const { corner, legs, bendRadius, radius } = bend;
  const { takeOff, centre, axis } = bendFigures(bend);
  return torusMate({ centre, axis, major: bendRadius, minor: radius }, 'bend', (p) => {
    const q = sub3(p, corner);
    return dot3(q, legs[0]) <= takeOff && dot3(q, legs[1]) <= takeOff;
  });
};
