import { TURN, modulo } from './angle-units.ts';
import type { Arms } from './arms.ts';
import { fitCurve, straight, type Cubic } from './cubic.ts';
import { halve } from './halving.ts';
import { repeatLine } from './line.ts';
import { itemAt } from '../lists.ts';
import { CURVE_TOLERANCE } from './tolerance.ts';
import { vec2 } from './vector.ts';

/** A reducer made from the pipe by cutting out darts and bending the tongues in; mean radii, mm. */
export interface Taper {
  readonly large: number;
  readonly small: number;
  /** Along the axis, from the bend line to the small end. */
  readonly length: number;
  /** How far the small end's centre lies toward station 180: 0 concentric, large - small with a straight bottom. */
  readonly shift: number;
}

/** Distance from the pipe's axis of the small end's point straight in from station `angle`, mm. */
export const smallEnd = ({ small, shift }: Taper, angle: number): number =>
  -shift * Math.cos(angle) + Math.sqrt(small * small - (shift * Math.sin(angle)) ** 2);

/** The same point's angle about the small end's own centre (sine rule), radians. */
const aboutCentre = ({ small, shift }: Taper, angle: number): number =>
  angle - Math.asin((shift * Math.sin(angle)) / small);

/** Length of a tongue along station `angle`, from the bend line to the small end, mm. */
export const tongueLength = (taper: Taper, angle: number): number =>
  Math.hypot(taper.length, taper.large - smallEnd(taper, angle));

/** One tongue between two darts; stations in radians. */
export interface Tongue {
  readonly centre: number;
  /** The darts beside it. */
  readonly from: number;
  readonly to: number;
  /** Where its corners at the small end lie on the pipe before it is bent. */
  readonly left: number;
  readonly right: number;
}

/**
 * The tongues of a taper, the first with its centre line on station 180. Every tongue is bent straight in; at the small
 * end it is as wide as the part of the small end's girth that lies straight in from it.
 */
export const solveTongues = (taper: Taper, count: number): readonly Tongue[] =>
  Array.from({ length: count }, (_, i) => {
    const centre = Math.PI + (TURN * i) / count;
    const [from, to] = [centre - Math.PI / count, centre + Math.PI / count];
    const onPipe = (angle: number): number =>
      centre + ((aboutCentre(taper, angle) - aboutCentre(taper, centre)) * taper.small) / taper.large;
    return { centre, from, to, left: onPipe(from), right: onPipe(to) };
  });

/** The station straight out from a tongue's small end, by its place `at` on the pipe before bending, by halving. */
const stationOf = (taper: Taper, { centre, from, to }: Tongue, at: number): number => {
  const isBefore = (station: number): boolean => {
    const turned = aboutCentre(taper, station) - aboutCentre(taper, centre);
    return centre + (turned * taper.small) / taper.large < at;
  };
  return halve(isBefore, from, to).middle;
};

/**
 * The cut line of a taper's tongues and darts, laid flat with y = 0 at the bend line: darts are straight-sided, the small
 * ends lie in one plane square to the axis once bent.
 * @param radius outside radius of the pipe, mm
 * @param seam girth position where the line starts, mm
 */
export const developTongues = (taper: Taper, radius: number, count: number, seam: number): Arms => {
  const tongues = solveTongues(taper, count);
  const line = tongues.flatMap((tongue): readonly Cubic[] => {
    const { centre, from, to, left, right } = tongue;
    const end = (angle: number) => {
      const turned = aboutCentre(taper, angle) - aboutCentre(taper, centre);
      return vec2((centre + (turned * taper.small) / taper.large) * radius, tongueLength(taper, angle));
    };
    return [
      straight(vec2(from * radius, 0), vec2(left * radius, tongueLength(taper, from))),
      ...fitCurve(end, from, to, CURVE_TOLERANCE),
      straight(vec2(right * radius, tongueLength(taper, to)), vec2(to * radius, 0)),
    ];
  });
  const start = Math.PI - Math.PI / count;
  const ordinate = (s: number): number => {
    const turned = modulo(s / radius - start, TURN);
    const index = Math.min(count - 1, Math.floor((turned * count) / TURN));
    const tongue = itemAt(tongues, index);
    const at = start + turned;
    if (at < tongue.left)
      return (tongueLength(taper, tongue.from) * (at - tongue.from)) / (tongue.left - tongue.from);
    if (at > tongue.right)
      return (tongueLength(taper, tongue.to) * (tongue.to - at)) / (tongue.to - tongue.right);
    return tongueLength(taper, stationOf(taper, tongue, at));
  };
  return {
    line: repeatLine(line, TURN * radius, seam, seam + TURN * radius),
    ordinate,
    low: 0,
    high: tongueLength(taper, 0),
    count,
    centres: tongues.map(({ centre }) => centre),
  };
};
