import type { Vec2 } from './vector.ts';

/** A beam that is coped to frame into another. Lengths in mm, angles in radians. */
export interface CopeAsked {
  /** Depth of the coped beam. */
  readonly depth: number;
  /** The receiving beam: depth, flange width, web, and from the outside of its flange to the end of its fillet. */
  readonly to: { readonly depth: number; readonly width: number; readonly web: number; readonly k: number };
  /** From the face of the receiving web to the coped beam's end, square to that web. */
  readonly setback: number;
  /** Between the receiving flange's edge and the coped flange's, square to the edge. */
  readonly clearance: number;
  /** Between both beams' axes in plan, in (0, π); a quarter turn is square. */
  readonly angle: number;
  /** Rise of the coped beam away from the other, per length in plan. */
  readonly rise: number;
  /** How far its top at the end lies under the other's top. */
  readonly drop: number;
  /** Radius in the corner of the cut, mm. */
  readonly radius: number;
  /** Depths are rounded up to whole steps of this. */
  readonly step: number;
}

/** One coped corner. */
export interface CopeCut {
  /** Length taken off the flange along its outside at the web, from the beam's end. */
  readonly length: number;
  /** Depth of the cut at the beam's end, plumb, mm, before rounding it up, and as cut; 0 where the flange clears as it is. */
  readonly least: number;
  readonly depth: number;
  /** Height of the plumb cut, from the level one to the flange's outside, mm. */
  readonly shoulder: number;
  /** From the beam's end: on the end, where level and plumb cut meet, and on the flange's outside; x along the beam, y up from its top at the end. */
  readonly corners: readonly [Vec2, Vec2, Vec2];
}

export interface Cope {
  readonly top: CopeCut;
  readonly bottom: CopeCut;
  /** Least web left, square to the beam, where the top is coped, the bottom, or both; mm. */
  readonly left: { readonly top: number; readonly bottom: number; readonly both: number };
}

/**
 * The room a beam needs beside another's flanges. In plan, all lengths across the receiving beam lie along the coped one by
 * 1 / sin(angle): from its end, which stands the setback off the web, to the clearance past the flange's edge,
 * (b/2 − t/2 − setback + clearance) / sin(angle). In elevation the level cut clears the receiving fillet: k less the drop.
 * The cuts are level and plumb; the beam they are seen on may slope. Then the flange nears the other one along its way, and is
 * coped even where its end would clear, or leaves it, and the level cut lies deep enough that the radius fits in the corner
 * before it comes out of the flange.
 */
export const solveCope = (asked: CopeAsked): Cope => {
  const { depth, to, setback, clearance, angle, rise, drop, radius, step } = asked;
  const along = 1 / Math.sin(angle);
  const reach = (to.width / 2 - to.web / 2 - setback + clearance) * along;
  const slope = Math.atan(rise);
  const [c, s] = [Math.cos(slope), Math.sin(slope)];
  /** A place by its distance in plan from the beam's end and its height over the beam's top there, seen on the beam. */
  const onBeam = (plan: number, up: number): Vec2 => ({ x: plan * c + up * s, y: up * c - plan * s });
  // The beam's own depth, plumb.
  const plumb = depth / c;
  const cut = (room: number, face: number, into: 1 | -1): CopeCut => {
    // How much nearer the flange comes to the other one from the beam's end to the plumb cut.
    const nearer = -into * reach * rise;
    const least = Math.max(room, nearer < 0 ? radius - nearer : 0);
    // A flange that only comes too near along its way is cut by a step at its end.
    const steps = Math.max(1, Math.ceil(least / step - 1e-9));
    const cutDepth = room + Math.max(0, nearer) <= 0 ? 0 : steps * step;
    const level = face + into * cutDepth;
    const outside = onBeam(reach, face + reach * rise);
    return {
      length: outside.x - onBeam(0, face).x,
      least: cutDepth === 0 ? 0 : least,
      depth: cutDepth,
      shoulder: cutDepth + nearer,
      corners: [onBeam(0, level), onBeam(reach, level), outside],
    };
  };
  const top = cut(to.k - drop, 0, -1);
  const bottom = cut(to.k - (to.depth - drop - plumb), -plumb, 1);
  return {
    top,
    bottom,
    left: {
      top: depth + Math.min(...top.corners.map(({ y }) => y)),
      bottom: -Math.max(...bottom.corners.map(({ y }) => y)),
      // Both level cuts run side by side.
      both: plumb - top.depth - bottom.depth,
    },
  };
};
