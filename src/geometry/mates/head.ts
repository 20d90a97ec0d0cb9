import { along, type Hit, type Line, type Mate } from '../mate.ts';
import { enterTorus, torusNormal } from '../torus.ts';
import { add3, dot3, length3, scale3, sub3, unit3, type Vec3 } from '../vector.ts';
import { cylinderMate } from './cylinder.ts';
import { sphereMate } from './sphere.ts';

/** A dished head on its shell. The shell, of which the straight flange is the first part, goes on without end. */
export interface Head {
  /** Middle of the tangent line, where dish and straight flange meet. */
  readonly tangent: Vec3;
  /** Unit direction out of the head. */
  readonly axis: Vec3;
  /** Outside radius of the shell, mm. */
  readonly radius: number;
}

/** The first of the hits that lies on its own part of the surface; the body is convex, so there is but one. */
const firstHit = (hits: readonly (Hit | undefined)[]): Hit | undefined =>
  hits.reduce((first, hit) => (hit && (!first || hit.t < first.t) ? hit : first), undefined);

const flangeOf = ({ tangent, axis, radius }: Head) => {
  const shell = cylinderMate(tangent, axis, radius);
  return (line: Line): Hit | undefined => {
    const hit = shell.enter(line);
    if (!hit || dot3(sub3(along(line, hit.t), tangent), axis) > 0) return undefined;
    return { ...hit, face: 'flange' };
  };
};

/**
 * An ellipsoidal head as a mate.
 * @param depth height of the dish over the tangent line, mm; half the radius for a 2:1 head
 *
 * Stretched along the axis by radius/depth the dish is a ball, and a line stays a line run at the same t.
 */
export const ellipsoidalHeadMate = (head: Head, depth: number): Mate => {
  const { tangent, axis, radius } = head;
  const flange = flangeOf(head);
  const ratio = radius / depth;
  const stretch = (v: Vec3, k: number): Vec3 => add3(v, scale3(axis, (k - 1) * dot3(v, axis)));
  const ball = sphereMate({ x: 0, y: 0, z: 0 }, radius);
  const dish = (line: Line): Hit | undefined => {
    const run = stretch(line.direction, ratio);
    const speed = length3(run);
    const hit = ball.enter({
      origin: stretch(sub3(line.origin, tangent), ratio),
      direction: scale3(run, 1 / speed),
    });
    if (!hit) return undefined;
    const t = hit.t / speed;
    if (dot3(sub3(along(line, t), tangent), axis) < 0) return undefined;
    return { t, normal: unit3(stretch(hit.normal, ratio)), face: 'dish' };
  };
  return { convex: true, enter: (line) => firstHit([dish(line), flange(line)]) };
};

/** How the parts of a torispherical head lie. */
export interface TorisphericalFigures {
  /** Distance of the knuckle's centre from the axis, mm. */
  readonly across: number;
  /** How far the crown's centre lies behind the tangent line, mm. */
  readonly back: number;
  /** Angle off the axis, seen from the crown's centre, at which crown and knuckle meet. */
  readonly turn: number;
  /** Height of the crown over the tangent line, mm. */
  readonly depth: number;
}

/** The figures that follow from the three radii, mm. */
export const torisphericalFigures = (
  radius: number,
  crown: number,
  knuckle: number,
): TorisphericalFigures => {
  const across = radius - knuckle;
  const back = Math.sqrt((crown - knuckle) ** 2 - across ** 2);
  return { across, back, turn: Math.atan2(across, back), depth: crown - back };
};

/**
 * A torispherical head as a mate: crown, knuckle and flange, each running into the next without a corner.
 * @param crown outside radius of the crown, mm, at least the head's own
 * @param knuckle outside radius of the knuckle, mm, at most the head's own
 */
export const torisphericalHeadMate = (head: Head, crown: number, knuckle: number): Mate => {
  const { tangent, axis, radius } = head;
  const { across, back, turn } = torisphericalFigures(radius, crown, knuckle);
  const flange = flangeOf(head);
  const middle = sub3(tangent, scale3(axis, back));
  const sphere = sphereMate(middle, crown);
  const ring = { centre: tangent, axis, major: across, minor: knuckle };
  /** Angle off the axis as seen from the crown's centre. */
  const angleAt = (p: Vec3): number => {
    const q = sub3(p, middle);
    const height = dot3(q, axis);
    return Math.atan2(length3(sub3(q, scale3(axis, height))), height);
  };
  const onCrown = (line: Line): Hit | undefined => {
    const hit = sphere.enter(line);
    if (!hit || angleAt(along(line, hit.t)) > turn) return undefined;
    return { ...hit, face: 'crown' };
  };
  const onKnuckle = (line: Line): Hit | undefined => {
    if (across <= 0) return undefined;
    for (const t of enterTorus(ring, line)) {
      const p = along(line, t);
      if (dot3(sub3(p, tangent), axis) >= 0 && angleAt(p) >= turn)
        return { t, normal: torusNormal(ring, p), face: 'knuckle' };
    }
    return undefined;
  };
  return { convex: true, enter: (line) => firstHit([onCrown(line), onKnuckle(line), flange(line)]) };
};
