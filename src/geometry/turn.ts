import { developEnd, type Development } from './development.ts';
import { planeMate } from './mates/plane.ts';
import type { Outline } from './outline.ts';
import type { Contact } from './reach.ts';
import { add2, scale2, vec2, vec3, type Vec2, type Vec3 } from './vector.ts';

/** A mitered turn, mm and radians. */
export interface Turn {
  /** How far the stock reaches from its axis toward the center of the bend, and away from it. */
  readonly throat: number;
  readonly heel: number;
  /** Bend radius to the centre line: every piece's centre line is tangent to a circle of this radius. */
  readonly radius: number;
  /** Cut angle from square at each joint, first to last: the joint turns twice as much. */
  readonly cuts: readonly number[];
  /** Straight lengths beyond the bend at its start and end. */
  readonly tangents: readonly [number, number];
}

/** One piece of a mitered turn; its upper end meets the next piece. */
export interface Gore {
  /** Counted from 1. */
  readonly number: number;
  /** Cut angles from square; 0 at a square end. */
  readonly lower: number;
  readonly upper: number;
  /** Lengths between its cuts along the centre line, the heel and the throat, mm. */
  readonly centre: number;
  readonly heel: number;
  readonly throat: number;
}

/**
 * The pieces of a turn. A piece between cuts a and b is R (tan a + tan b) long on its centre line; heel and throat lie
 * further out and further in (elementary tangent geometry of a polygon round a circle).
 */
export const solveGores = ({ throat, heel, radius, cuts, tangents }: Turn): readonly Gore[] =>
  Array.from({ length: cuts.length + 1 }, (_, i) => {
    const [lower, upper] = [cuts[i - 1] ?? 0, cuts[i] ?? 0];
    const slope = Math.tan(lower) + Math.tan(upper);
    const straight = (i === 0 ? tangents[0] : 0) + (i === cuts.length ? tangents[1] : 0);
    const at = (distance: number): number => distance * slope + straight;
    return {
      number: i + 1,
      lower,
      upper,
      centre: at(radius),
      heel: at(radius + heel),
      throat: at(radius - throat),
    };
  });

const flip = ({ line, ordinate, low, high }: Development): Development => {
  const down = (p: Vec2): Vec2 => vec2(p.x, -p.y);
  return {
    line: line.map(({ start, c1, c2, end }) => ({
      start: down(start),
      c1: down(c1),
      c2: down(c2),
      end: down(end),
    })),
    ordinate: (s) => -ordinate(s),
    low: -high,
    high: -low,
  };
};

/** A plane; `normal` points out of what lies behind it. */
interface Plane {
  readonly through: Vec3;
  readonly normal: Vec3;
}

/** The planes in which a piece meets its neighbours: its stock frame has z = 0 at mid-length of its centre line, station 0 at the throat. */
export const goreEnds = ({
  lower,
  upper,
  centre,
}: Gore): { readonly lower: Plane; readonly upper: Plane } => ({
  lower: { through: vec3(0, 0, -centre / 2), normal: vec3(-Math.sin(lower), 0, Math.cos(lower)) },
  upper: { through: vec3(0, 0, centre / 2), normal: vec3(-Math.sin(upper), 0, -Math.cos(upper)) },
});

/**
 * How far along its axis a piece cut `cut` from square backs off for its half of a joint whose faces stand `gap` apart,
 * mm and radians; a square end meets nothing.
 */
export const halfGap = (gap: number, cut: number): number => (cut > 0 ? gap / 2 / Math.cos(cut) : 0);

/** What is left of a piece once both its ends are backed off, mm along its heel, center line and throat. */
export const goreLengths = (gore: Gore, gap: number): Pick<Gore, 'heel' | 'centre' | 'throat'> => {
  const off = halfGap(gap, gore.lower) + halfGap(gap, gore.upper);
  return { heel: gore.heel - off, centre: gore.centre - off, throat: gore.throat - off };
};

const overturn = ({ x, y, z }: Vec3): Vec3 => vec3(x, y, -z);

/**
 * Both cut lines of a piece, laid flat: y = 0 at mid-length of its centre line, station 0 at the throat. A cut end is
 * backed off by its half of the joint's `gap`, a square end is not.
 * @param seam girth position where the lines start, mm
 */
export const developGore = (
  outline: Outline,
  gore: Gore,
  contact: Contact,
  gap: number,
  seam: number,
): { readonly lower: Development; readonly upper: Development } => {
  const { lower, upper } = goreEnds(gore);
  const develop = ({ through, normal }: Plane, cut: number): Development =>
    developEnd(outline, { mate: planeMate(through, normal), contact, gap: halfGap(gap, cut) }, seam);
  const overturned = { through: overturn(lower.through), normal: overturn(lower.normal) };
  return { upper: develop(upper, gore.upper), lower: flip(develop(overturned, gore.lower)) };
};

/** Where a piece lies in the plane of the turn: x toward the centre of the bend at the start, y along the first piece. */
export interface GorePlace {
  readonly gore: Gore;
  /** Ends of its centre line. */
  readonly from: Vec2;
  readonly to: Vec2;
  /** Ends of its lower and upper cut. */
  readonly throat: readonly [Vec2, Vec2];
  readonly heel: readonly [Vec2, Vec2];
}

/** Lays the pieces end to end in the plane of the turn; the first piece's square end is at the origin. */
export const placeGores = (turn: Turn): readonly GorePlace[] => {
  let from = vec2(0, 0);
  let heading = 0;
  return solveGores(turn).map((gore) => {
    const to = add2(from, scale2(vec2(Math.sin(heading), Math.cos(heading)), gore.centre));
    /** From the centre line along a cut, toward the centre of the bend. */
    const inward = (lean: number, cut: number): Vec2 =>
      scale2(vec2(Math.cos(lean), -Math.sin(lean)), 1 / Math.cos(cut));
    const [below, above] = [
      inward(heading - gore.lower, gore.lower),
      inward(heading + gore.upper, gore.upper),
    ];
    const place: GorePlace = {
      gore,
      from,
      to,
      throat: [add2(from, scale2(below, turn.throat)), add2(to, scale2(above, turn.throat))],
      heel: [add2(from, scale2(below, -turn.heel)), add2(to, scale2(above, -turn.heel))],
    };
    from = to;
    heading += 2 * gore.upper;
    return place;
  });
};
