import type { FitLine } from '../drawing/fit-up.ts';
import type { Measured, Spot } from '../drawing/measured.ts';
import type { Figure } from '../drawing/model.ts';
import type { Role } from '../drawing/role.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Quantity } from '../units/quantity.ts';

/** How layouts say where a printed figure can be measured on their own drawing. All in sheet mm. */

/** A value that the drawing shows. */
export const shown = (quantity: Quantity, measured: Measured | undefined): Figure =>
  measured === undefined ? quantity : { ...quantity, measured };

const spot =
  (find: 'end' | 'upright' | 'level' | 'cross') =>
  (on: Role, x: number, y: number): Spot => ({ find, on, at: { x, y } });

/** The end of a line. */
export const endAt = spot('end');
/** Where a line crosses the upright through a place. */
export const uprightAt = spot('upright');
/** Where a line crosses the level through a place. */
export const levelAt = spot('level');
/** A cross. */
export const crossAt = spot('cross');
/** The sheet's origin. */
export const ORIGIN: Spot = { find: 'origin' };

/** Straight from spot to spot, or along an axis, or around the steel, or around it to the right over the seam. */
export const apart = (from: Spot, to: Spot, along?: 'x' | 'y' | 'around' | 'onward'): Measured => ({
  kind: 'distance',
  from,
  to,
  ...(along !== undefined && { along }),
});

/** Straight between two places where lines on a layer end. */
export const ends = (a: Vec2, b: Vec2, on: Role = 'cut'): Measured =>
  apart(endAt(on, a.x, a.y), endAt(on, b.x, b.y));

/** Straight between two crosses. */
export const crosses = (a: Vec2, b: Vec2): Measured =>
  apart(crossAt('punch', a.x, a.y), crossAt('punch', b.x, b.y));

/** How far a cut line reaches along the sheet, from its lowest to its highest point. */
export const rise = (line?: FitLine['which']): Measured => ({
  kind: 'extent',
  along: 'y',
  ...(line !== undefined && { line }),
});

/** How wide something cut is, along the sheet's x or around the steel. */
export const widthOf = (along: 'x' | 'around', line?: FitLine['which']): Measured => ({
  kind: 'extent',
  along,
  ...(line !== undefined && { line }),
});

/** A result taken so many times. */
export const taken = (measured: Measured, times: number, plus = 0): Measured => ({
  ...measured,
  times: (measured.times ?? 1) * times,
  ...(plus !== 0 && { plus }),
});

/** A band as far as its figures are measured on it. */
interface MeasuredBand {
  readonly paper: { readonly from: number; readonly girth: number };
  readonly reference: number;
}

/** The reference line of a band. */
export const referenceOf = ({ paper, reference }: MeasuredBand): Spot =>
  uprightAt('reference', paper.from + paper.girth / 2, reference);

/** How far the reference line lies below the sheet's origin, where the axes meet. */
export const fromReference = (band: MeasuredBand): Measured => apart(referenceOf(band), ORIGIN, 'y');

/** How far below the sheet's origin the highest or lowest point of a cut line lies. */
export const below = (end: 'high' | 'low', line?: FitLine['which']): Measured => ({
  kind: 'height',
  end,
  times: -1,
  ...(line !== undefined && { line }),
});

/** From one cut line up to another at sheet x. */
export const cutToCut = (x: number, lower: number, upper: number): Measured =>
  apart(uprightAt('cut', x, lower), uprightAt('cut', x, upper), 'y');

/** Where a circle or arc runs at an angle from its middle. */
const onArc = (centre: Vec2, radius: number, angle: number, on: Role): Spot => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return (Math.abs(s) > Math.abs(c) ? uprightAt : levelAt)(on, centre.x + radius * c, centre.y + radius * s);
};

/** A circle or arc of the drawing; a whole circle where its angle is left out. */
export interface DrawnArc {
  readonly centre: Vec2;
  readonly radius: number;
  readonly from?: number;
  readonly sweep?: number;
}

/** Of a whole circle, or of an arc from an angle on: its radius, its length, or its angle. */
export const ofArc = (
  give: 'radius' | 'length' | 'angle',
  { centre, radius, from = 0, sweep = 0 }: DrawnArc,
  on: Role = 'cut',
): Measured => {
  const whole = sweep === 0;
  const at = (share: number): Spot =>
    onArc(centre, radius, from + share * (whole ? (4 / 3) * Math.PI : sweep), on);
  return { kind: 'circle', give, through: [at(0), at(0.5), at(1)] };
};

/** The angle from the line through two places to that through two others, each the end of a line. */
export const angleOfEnds = (
  [a, b]: readonly [Vec2, Vec2],
  [c, d]: readonly [Vec2, Vec2],
  at: (p: Vec2) => Spot = ({ x, y }) => endAt('cut', x, y),
): Measured => ({ kind: 'angle', from: [at(a), at(b)], to: [at(c), at(d)] });
