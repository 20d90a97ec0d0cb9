import { DEGREE } from './angle-units.ts';
/**
 * Lengths of bent plate. Angles are the angle bent through (0 flat, 90° a square corner), radians; `radius` is the inside
 * radius and `thickness` the plate's, mm.
 */
export interface Bend {
  readonly angle: number;
  readonly radius: number;
  readonly thickness: number;
}

/** How long the plate is along a bend, from tangent to tangent. */
export type BendRule =
  | { readonly kind: 'factor'; readonly k: number }
  | { readonly kind: 'empirical' }
  | { readonly kind: 'din' }
  | { readonly kind: 'table'; readonly metal: Metal };

/** Groups of metals of the table rule, soft to hard. */
export type Metal = 'soft' | 'medium' | 'hard';

/**
 * Length of a square bend over its inside radius, in thicknesses: 1.57 R + factor T, in proportion to the angle.
 * Machinery's Handbook, 31st ed., p. 1421, eqs 32 to 34.
 */
export const TABLE_FACTORS: Readonly<Record<Metal, number>> = { soft: 0.55, medium: 0.64, hard: 0.71 };

/** The neutral line's share of half the thickness by DIN 6935: 0.65 + lg(r/s)/2, at most 1. */
export const dinFactor = (radius: number, thickness: number): number =>
  Math.min(1, 0.65 + 0.5 * Math.log10(radius / thickness));

/**
 * Bend allowance, mm. `factor`: on the line k thicknesses from the inside. `empirical`: (0.01743 R + 0.0078 T) a degree,
 * US FAA-H-8083-31, ch. 4. `din`: DIN 6935, which counts bends under 15° as corners. `table`: see TABLE_FACTORS.
 */
export const bendAllowance = (bend: Bend, rule: BendRule): number => {
  const { angle, radius, thickness } = bend;
  switch (rule.kind) {
    case 'factor':
      return angle * (radius + rule.k * thickness);
    case 'empirical':
      return (angle / DEGREE) * (0.01743 * radius + 0.0078 * thickness);
    case 'din':
      return angle < 15 * DEGREE - 1e-9
        ? 2 * moldSetback(bend)
        : angle * (radius + (dinFactor(radius, thickness) * thickness) / 2);
    case 'table':
      return (angle / (90 * DEGREE)) * (1.57 * radius + TABLE_FACTORS[rule.metal] * thickness);
  }
};

/** How far the neutral line lies from the inside, in thicknesses, as a rule takes it. */
export const neutralFactor = (bend: Bend, rule: BendRule): number =>
  (bendAllowance(bend, rule) / bend.angle - bend.radius) / bend.thickness;

/** What a leg's length is measured to: outside faces, inside faces, or where the outside faces would meet. */
export type Measure = 'outside' | 'inside' | 'mold-line';

const moldSetback = ({ angle, radius, thickness }: Bend): number =>
  Math.tan(angle / 2) * (radius + thickness);

/**
 * From where a leg is measured to, back to where the bend begins, mm. Past a square corner the outside faces no longer
 * meet there: an outside length is then measured to the outermost tangent, as DIN 6935 does.
 */
export const setback = (bend: Bend, measure: Measure): number => {
  const { angle, radius, thickness } = bend;
  if (measure === 'inside') return angle <= 90 * DEGREE + 1e-12 ? Math.tan(angle / 2) * radius : radius;
  if (measure === 'outside' && angle > 90 * DEGREE + 1e-12) return radius + thickness;
  return moldSetback(bend);
};

/** Part of a bent blank along its length: flats and bends in turn, from 0. */
export interface BlankPart {
  readonly kind: 'flat' | 'bend';
  readonly from: number;
  readonly to: number;
}

/**
 * The blank of a strip of legs with a bend between each two: flats less their setbacks, bends by their allowance.
 * A flat may come out shorter than nothing where a leg is too short for its bends; the caller says so.
 */
export const developBlank = (
  legs: readonly number[],
  bends: readonly Bend[],
  rule: BendRule,
  measure: Measure,
): readonly BlankPart[] => {
  let at = 0;
  return legs.flatMap((leg, i): readonly BlankPart[] => {
    const [before, after] = [bends[i - 1], bends[i]];
    const back = (bend: Bend | undefined): number => (bend ? setback(bend, measure) : 0);
    const flat: BlankPart = { kind: 'flat', from: at, to: at + leg - back(before) - back(after) };
    at = flat.to;
    if (!after) return [flat];
    const bend: BlankPart = { kind: 'bend', from: at, to: at + bendAllowance(after, rule) };
    at = bend.to;
    return [flat, bend];
  });
};
