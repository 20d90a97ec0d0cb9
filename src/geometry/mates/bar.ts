import type { Hit, Line, Mate } from '../mate.ts';
import { SAME_LENGTH } from '../tolerance.ts';
import { cross3, dot3, length3, scale3, sub3, unit3, type Vec3 } from '../vector.ts';

/** A plane that cuts a body off: what lies behind it, against `normal`, is kept. */
export interface Clip {
  readonly point: Vec3;
  readonly normal: Vec3;
}

/** Below this sine two directions count as parallel. */
const PARALLEL = 1e-12;

/**
 * Straight stock of a convex section cut off by planes as a mate: the leg of a wye or one pipe of a miter, up to its joint.
 * @param endless the same without ends
 * @param axis direction of its axis; need not be of unit length
 * @param holds true for a point that lies beside the section nowhere: its line along the axis runs within
 * @param clips planes that cut it off
 *
 * The body is convex, so a line is inside it between its last entry into the stock and the half-spaces and its first
 * way out of one of them.
 */
export const barMate = (
  endless: Mate,
  axis: Vec3,
  holds: (p: Vec3) => boolean,
  clips: readonly Clip[],
): Mate => {
  const a = unit3(axis);
  const planes = clips.map((clip) => ({ point: clip.point, normal: unit3(clip.normal) }));

  const throughStock = (line: Line): { readonly enter?: Hit; readonly leave: number } | undefined => {
    if (length3(cross3(line.direction, a)) < PARALLEL)
      return holds(line.origin) ? { leave: Infinity } : undefined;
    const enter = endless.enter(line);
    const back = endless.enter({ origin: line.origin, direction: scale3(line.direction, -1) });
    return enter && back && { enter, leave: -back.t };
  };

  return {
    convex: true,
    enter: (line) => {
      const within = throughStock(line);
      if (!within) return undefined;
      let { enter, leave } = within;
      for (const [i, plane] of planes.entries()) {
        const approach = dot3(plane.normal, line.direction);
        const ahead = dot3(plane.normal, sub3(plane.point, line.origin));
        if (Math.abs(approach) < PARALLEL) {
          if (ahead < -SAME_LENGTH) return undefined;
          continue;
        }
        const t = ahead / approach;
        if (approach > 0) leave = Math.min(leave, t);
        else if (enter === undefined || t > enter.t) enter = { t, normal: plane.normal, face: `end ${i}` };
      }
      return enter !== undefined && enter.t <= leave + SAME_LENGTH ? enter : undefined;
    },
  };
};
