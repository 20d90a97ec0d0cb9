import { itemAt } from '../../../lists.ts';
import type { Mate } from '../../../geometry/mate.ts';
import { positionNear, sameOutside } from '../../../geometry/outline.ts';
import { reachAt, type Contact } from '../../../geometry/reach.ts';
import { SAME_LENGTH } from '../../../geometry/tolerance.ts';
import {
  angleBetween,
  cross3,
  distance2,
  dot3,
  fromAxes,
  intoAxes,
  scale3,
  sub3,
  unit3,
  vec3,
  type Vec2,
  type Vec3,
} from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import { solidsMate } from '../../../joint/solid-mate.ts';
import type { Face, Solid } from '../../../joint/solid.ts';
import { stockReach, stockSpan, type Stock } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import { told } from '../../../units/format.ts';
import { say } from '../../../words/say.ts';
import { type Leg } from './wye-leg.ts';

/** Legs whose axes cross in one point, on a header that runs through whole along heading 0, or without one. */
export interface WyeJoint {
  readonly legs: readonly Leg[];
  readonly header: Stock | undefined;
}

const CROSSING = vec3(0, 0, 0);
/** Direction of a header's axis; its position 0 lies on top. */
export const HEADER_AXIS = vec3(1, 0, 0);
const TOP = vec3(0, 0, 1);
/** Axes nearer than this run side by side for more than eleven radii before they part. */
const LEAST_ANGLE = (10 * Math.PI) / 180;
const STATIONS = 72;
/** Two ends further apart than this do not close, mm. */
const OPEN = 1e-5;

const radiusOf = (leg: Leg): number => stockReach(leg.stock);
/** Legs of one size and shape meet in the plane between their axes. */
const isSame = (a: Leg, b: Leg): boolean => sameOutside(a.stock.outline, b.stock.outline);

/** The outside of a stock whose axis runs through the crossing, `across` at its position 0. */
const outsideSolid = (
  { round, section }: Stock,
  along: Vec3,
  across: Vec3,
  ends?: readonly Face[],
): Solid => ({
  ...(round === undefined
    ? {
        kind: 'prism',
        across,
        section: { outside: section.outside, thickness: section.thickness },
      }
    : { kind: 'cylinder', radius: round }),
  through: CROSSING,
  along,
  ...(ends && { ends }),
});

/** A header in the frame of a leg; `local` takes directions there. */
export const headerSolid = (header: Stock, local: (v: Vec3) => Vec3): Solid =>
  outsideSolid(header, local(HEADER_AXIS), local(TOP));

/** The same of its bore. */
export const headerBore = (header: Stock, local: (v: Vec3) => Vec3): Solid => {
  const { round, wall, section } = header;
  const inside = { ...section, outside: section.inside ?? section.outside };
  return headerSolid(
    { ...header, section: inside, ...(round !== undefined && { round: round - wall }) },
    local,
  );
};

/** True where the leg meets only legs of its own size or smaller ones: then its end lies in planes alone. */
export const isPlanar = ({ legs, header }: WyeJoint, leg: Leg): boolean =>
  header === undefined && legs.every((other) => radiusOf(other) <= radiusOf(leg) + SAME_LENGTH);

/** The line of the wall that a leg's end is drawn by when none is chosen. */
export const usualContact = (joint: WyeJoint, leg: Leg): Contact => (isPlanar(joint, leg) ? 'od' : 'wall');

/**
 * What a leg's end must touch, in its own stock frame. Legs of one size meet in the plane between their axes, on which
 * each is the other's mirror image, so they close exactly. A smaller leg stops at the first of the larger ones, each of
 * them cut off where it meets its own neighbours; a header is larger than any.
 * @param gap of the finished joint: each of two legs of one size stands half of it off their plane; from a larger body,
 *   which is not cut back, the end backs off by all of it along its axis (see `endGap`)
 */
export const legSolids = (joint: WyeJoint, leg: Leg, gap = 0): readonly Solid[] => {
  const along = endGap(joint, leg, gap);
  const { legs, header } = joint;
  const local = (v: Vec3): Vec3 => intoAxes(leg, v);
  const solids: Solid[] = header ? [headerSolid(header, local)] : [];
  for (const other of legs) {
    if (other === leg) continue;
    if (isSame(other, leg)) {
      const normal = unit3(local(sub3(leg.out, other.out)));
      solids.push({ kind: 'plane', through: scale3(normal, gap / 2 - along * Math.abs(normal.z)), normal });
    } else if (radiusOf(other) > radiusOf(leg))
      solids.push(
        outsideSolid(
          other.stock,
          local(other.z),
          local(other.x),
          endsOf(joint, other).map((normal) => ({ through: CROSSING, normal: local(normal) })),
        ),
      );
  }
  return solids;
};

/** How far a leg backs off along its axis from what it touches, mm: the gap where that is a larger body. */
export const endGap = ({ legs, header }: WyeJoint, leg: Leg, gap: number): number =>
  header !== undefined || legs.some((other) => radiusOf(other) > radiusOf(leg) && !isSame(other, leg))
    ? gap
    : 0;

/** The same as a mate. */
export const legMate = (joint: WyeJoint, leg: Leg, gap = 0): Mate => solidsMate(legSolids(joint, leg, gap));

/**
 * Normals of the planes through the crossing that a leg ends in: those between it and others of its size, or the one
 * square to it where larger bodies cover that.
 */
const endsOf = ({ legs, header }: WyeJoint, leg: Leg): readonly Vec3[] => {
  const covered = header !== undefined || legs.some((other) => radiusOf(other) > radiusOf(leg) + SAME_LENGTH);
  const siblings = legs.filter((other) => other !== leg && isSame(other, leg));
  return [...siblings.map((other) => sub3(other.out, leg.out)), ...(covered ? [scale3(leg.out, -1)] : [])];
};

const checkAngles = ({ legs, header }: WyeJoint): void => {
  const refuse = (path: string, what: string, angle: number): never => {
    throw jointError(
      path,
      'axes-too-close',
      say`${what} are ${formatAngle(angle)} apart and run side by side${angle > 1e-9 ? '' : say` all the way`}`,
      say`open them to ${formatAngle(LEAST_ANGLE)} or more`,
    );
  };
  for (const leg of legs) {
    for (const other of legs.slice(leg.number)) {
      const angle = angleBetween(leg.out, other.out);
      if (angle < LEAST_ANGLE) refuse('leg', say`legs ${leg.number} and ${other.number}`, angle);
    }
    if (!header) continue;
    const lean = angleBetween(leg.out, HEADER_AXIS);
    const angle = Math.min(lean, Math.PI - lean);
    if (angle < LEAST_ANGLE) refuse('leg', say`leg ${leg.number} and the header`, angle);
  }
};

/** Without a header the largest size closes only against a second leg of that size. */
const checkSizes = ({ legs, header }: WyeJoint): void => {
  if (header) {
    for (const leg of legs) checkOnHeader(leg, header);
    return;
  }
  const largest = legs.reduce((a, b) => (radiusOf(b) > radiusOf(a) + SAME_LENGTH ? b : a));
  if (legs.some((other) => other !== largest && isSame(other, largest))) return;
  const { designation } = largest.stock;
  const next = legs
    .filter((leg) => leg !== largest)
    .reduce((a, b) => (radiusOf(b) > radiusOf(a) + SAME_LENGTH ? b : a));
  throw jointError(
    'leg',
    'legs-do-not-meet',
    say`leg ${largest.number}, ${designation}, has nothing to close against: the next largest is ${next.stock.designation}`,
    say`give a second leg of ${designation}, or a header that it can sit on`,
  );
};

/** A point of a leg's outside cut line in space; undefined where the leg runs past everything. */
const seamPoint = (leg: Leg, mate: Mate, s: number): Vec3 | undefined => {
  const { outline } = leg.stock;
  const reach = reachAt(outline, mate, 'od', s);
  return reach && fromAxes(leg, { ...outline.at(s, 0), z: reach.z });
};

/** The place on a stock's outside nearest to a point of its section's plane, and how far that is. */
const nearestOn = (
  { round, outline }: Stock,
  { x, y }: Vec2,
): { readonly s: number; readonly away: number } => {
  if (round !== undefined) return { s: Math.atan2(y, x) * round, away: Math.abs(Math.hypot(x, y) - round) };
  const s = positionNear(outline, { x, y });
  return { s, away: distance2(outline.at(s, 0), { x, y }) };
};

/** How far a point lies from the outside of a leg that is there, mm. */
const gapToLeg = (leg: Leg, mate: Mate, p: Vec3): number => {
  const local = intoAxes(leg, p);
  const { s, away } = nearestOn(leg.stock, local);
  // At a corner of the section the reach belongs to either side.
  const end = reachAt(leg.stock.outline, mate, 'od', s)?.z ?? -Infinity;
  return Math.hypot(away, Math.max(0, local.z - end));
};

const gapToHeader = (header: Stock, { y, z }: Vec3): number => nearestOn(header, { x: z, y: -y }).away;

/** Throws where a leg hangs over the side of the header. */
const checkOnHeader = (leg: Leg, header: Stock): void => {
  const across = unit3(cross3(HEADER_AXIS, leg.out));
  const [low, high] = stockSpan(leg.stock, { x: dot3(leg.x, across), y: dot3(leg.y, across) });
  const [from, to] = stockSpan(header, {
    x: dot3(TOP, across),
    y: dot3(cross3(HEADER_AXIS, TOP), across),
  });
  if (low >= from - SAME_LENGTH && high <= to + SAME_LENGTH) return;
  throw jointError(
    'header',
    'leg-too-large',
    say`leg ${leg.number}, ${told(high - low)} across the header, hangs over its ${told(to - from)}`,
    say`choose legs of at most ${told(to - from)} across, or a header of at least ${told(high - low)}`,
  );
};

/**
 * Throws a `joint` UserError where the legs do not close: axes nearly alike, a leg larger than all it could meet, or a cut
 * line that lies open to its neighbours anywhere round the leg.
 */
export const checkWye = (joint: WyeJoint): void => {
  checkAngles(joint);
  checkSizes(joint);
  const { legs, header } = joint;
  const mates = legs.map((leg) => legMate(joint, leg));
  for (const [i, leg] of legs.entries()) {
    for (let k = 0; k < STATIONS; k++) {
      const station = (k * 2 * Math.PI) / STATIONS;
      const p = seamPoint(leg, itemAt(mates, i), (k * leg.stock.girth) / STATIONS);
      const gaps = p
        ? [
            ...(header ? [gapToHeader(header, p)] : []),
            ...legs.flatMap((other, j) => (j === i ? [] : [gapToLeg(other, itemAt(mates, j), p)])),
          ]
        : [Infinity];
      const gap = Math.min(...gaps);
      if (gap <= OPEN) continue;
      throw jointError(
        'leg',
        'legs-do-not-meet',
        gap === Infinity
          ? say`leg ${leg.number} runs past the others at its station ${formatAngle(station)}`
          : say`leg ${leg.number} stands ${told(gap)} open at its station ${formatAngle(station)}`,
        leg.stock.round === undefined
          ? say`shaped stock must be its neighbor’s mirror image across the joint: change rises, or turn it about its axis`
          : say`change the angles or sizes so that each leg meets its neighbors all the way around`,
      );
    }
  }
};
